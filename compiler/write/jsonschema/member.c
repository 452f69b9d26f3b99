/*
 * Commas and indentation; escaping is that of base/json.
 */
#include "write/jsonschema/member.h"

#include "base/json.h"

static void
begin(struct json *json, const char *name)
{
	int i;

	if (json->filled)
		g_string_append_c(json->text, ',');
	if (json->depth > 0)
		g_string_append_c(json->text, '\n');
	for (i = 0; i < json->depth; i++)
		g_string_append(json->text, "  ");
	if (name != NULL) {
		json_append(json->text, name);
		g_string_append(json->text, ": ");
	}
	json->filled = true;
}

void
json_open(struct json *json, const char *name, char bracket)
{
	begin(json, name);
	g_string_append_c(json->text, bracket);
	json->depth++;
	json->filled = false;
}

void
json_close(struct json *json, char bracket)
{
	int i;

	json->depth--;
	if (json->filled)
		g_string_append_c(json->text, '\n');
	for (i = 0; json->filled && i < json->depth; i++)
		g_string_append(json->text, "  ");
	g_string_append_c(json->text, bracket);
	json->filled = true;
}

void
json_text(struct json *json, const char *name, const char *text)
{
	begin(json, name);
	json_append(json->text, text);
}

void
json_plain(struct json *json, const char *name, const char *plain)
{
	begin(json, name);
	g_string_append(json->text, plain);
}
