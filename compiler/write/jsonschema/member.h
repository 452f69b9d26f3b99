/*
 * JSON written member by member, each on its line. For this folder alone.
 */
#ifndef WRITE_JSONSCHEMA_MEMBER_H
#define WRITE_JSONSCHEMA_MEMBER_H

#include <glib.h>
#include <stdbool.h>

struct json {
	GString *text;
	int depth;
	bool filled;	/* the innermost object or list has something in it */
};

/*
 * Each function writes one value: a member `name` of an object, or an item of
 * a list where `name` is NULL.
 */
void
json_open(struct json *json, const char *name, char bracket);

void
json_close(struct json *json, char bracket);

void
json_text(struct json *json, const char *name, const char *text);

/* A number, true or false, or other JSON as it is. */
void
json_plain(struct json *json, const char *name, const char *plain);

#endif
