/*
 * Reads YAML as hangtab does, and its scalars by the core schema of YAML 1.2,
 * which hangtab never does: for the YAML test suite.
 *
 * Takes documents on standard input, each as "NAME SIZE\n" and its bytes, and
 * answers each with a line: the name, a blank, and {"value": ...}, {} for an
 * empty stream, or {"refused": [[code, message], ...]}.
 */
#include <glib.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/json.h"
#include "diag/collect.h"
#include "read/yaml.h"

static void
print_float(const char *text)
{
	double number = g_ascii_strtod(text, NULL);
	char shown[G_ASCII_DTOSTR_BUF_SIZE];

	fputs(g_ascii_dtostr(shown, sizeof(shown), number), stdout);
}

static bool
is_one_of(const char *text, const char *const *words)
{
	return g_strv_contains(words, text);
}

/* Whether the text is digits, with at most one point and an exponent. */
static bool
is_float(const char *text)
{
	return g_regex_match_simple("^[-+]?([.][0-9]+|[0-9]+([.][0-9]*)?)"
		"([eE][-+]?[0-9]+)?$", text, G_REGEX_DOLLAR_ENDONLY, 0);
}

static void
print_plain(const char *text)
{
	static const char *const nulls[] = {"", "~", "null", "Null", "NULL",
		NULL};
	static const char *const trues[] = {"true", "True", "TRUE", NULL};
	static const char *const falses[] = {"false", "False", "FALSE", NULL};

	if (is_one_of(text, nulls))
		fputs("null", stdout);
	else if (is_one_of(text, trues))
		fputs("true", stdout);
	else if (is_one_of(text, falses))
		fputs("false", stdout);
	else if (g_str_has_prefix(text, "0x") &&
		strspn(text + 2, "0123456789abcdefABCDEF") ==
		strlen(text) - 2 && strlen(text) > 2)
		printf("%" G_GUINT64_FORMAT, g_ascii_strtoull(text, NULL, 16));
	else if (g_str_has_prefix(text, "0o") && strlen(text) > 2 &&
		strspn(text + 2, "01234567") == strlen(text) - 2)
		printf("%" G_GUINT64_FORMAT, g_ascii_strtoull(text + 2, NULL,
			8));
	else if (is_float(text))
		print_float(text);
	else
		json_print(text, stdout);
}

static void
print_node(const struct node *node)
{
	uint32_t i;

	switch (node->kind) {
	case NODE_SCALAR:
		if (node->style == SCALAR_PLAIN)
			print_plain(node->text);
		else
			json_print(node->text, stdout);
		break;
	case NODE_LIST:
		for (i = 0; i < node->count; i++) {
			putchar(i == 0 ? '[' : ',');
			print_node(node->items[i]);
		}
		fputs(node->count == 0 ? "[]" : "]", stdout);
		break;
	case NODE_MAP:
		for (i = 0; i < node->count; i++) {
			putchar(i == 0 ? '{' : ',');
			json_print(node->entries[i].key, stdout);
			putchar(':');
			print_node(node->entries[i].value);
		}
		fputs(node->count == 0 ? "{}" : "}", stdout);
		break;
	case NODE_BAD:
		fputs("\"?\"", stdout);
		break;
	}
}

static void
print_refusal(const struct diags *diags)
{
	guint i;

	fputs("{\"refused\":[", stdout);
	for (i = 0; i < diags->items->len; i++) {
		const struct diag *diag = g_ptr_array_index(diags->items, i);

		fputs(i == 0 ? "[" : ",[", stdout);
		json_print(diag_info(diag->code)->code, stdout);
		putchar(',');
		json_print(diag->text, stdout);
		putchar(']');
	}
	fputs("]}\n", stdout);
}

static void
answer(const char *name, char *bytes, size_t size)
{
	struct arena *arena = arena_new();
	struct sources *sources = sources_new();
	struct diags *diags = diags_new(sources);
	uint32_t file = sources_add(sources, name, bytes, (uint32_t)size);
	const struct node *root = read_yaml(sources, file, arena, diags);

	printf("%s ", name);
	if (diags->items->len > 0)
		print_refusal(diags);
	else if (root == NULL)
		puts("{}");
	else {
		fputs("{\"value\":", stdout);
		print_node(root);
		puts("}");
	}
	diags_free(diags);
	sources_free(sources);
	arena_free(arena);
}

int
main(void)
{
	char name[64];
	size_t size;

	while (scanf("%63s %zu", name, &size) == 2) {
		char *bytes = g_malloc0(size + 1);

		if (getchar() != '\n' ||
			fread(bytes, 1, size, stdin) != size)
			return EXIT_FAILURE;
		answer(name, bytes, size);
	}
	return EXIT_SUCCESS;
}
