/*
 * Dumps. Lines are indented by two blanks a level; text is shown as JSON
 * strings, so that blanks and line ends are seen.
 */
#include "write/dump.h"

#include <string.h>

#include "base/json.h"
#include "model/text.h"

enum dump_stage
dump_stage_named(const char *name)
{
	static const char *const names[] = {
		[DUMP_READ] = "read",
		[DUMP_LINK] = "link",
		[DUMP_MODEL] = "model",
		[DUMP_BUYER] = "buyer",
	};
	size_t i;

	for (i = DUMP_READ; i < G_N_ELEMENTS(names); i++)
		if (strcmp(names[i], name) == 0)
			return (enum dump_stage)i;
	return DUMP_NONE;
}

static void
indent(int depth, FILE *stream)
{
	fprintf(stream, "%*s", depth * 2, "");
}

static void
print_span(const struct sources *sources, struct span span, FILE *stream)
{
	const struct source *source = sources_get(sources, span.file);
	struct place from, to;

	if (source == NULL)
		return;
	from = source_place(source, span.from);
	to = source_place(source, span.to);
	fprintf(stream, "  %u:%u-%u:%u", from.line, from.column, to.line,
		to.column);
}

static void
dump_node(const struct node *node, const struct sources *sources, int depth,
	FILE *stream)
{
	static const char *const titles[] = {
		[NODE_BAD] = "bad",
		[NODE_SCALAR] = "text",
		[NODE_LIST] = "list",
		[NODE_MAP] = "map",
	};
	uint32_t i;

	fprintf(stream, "%s", titles[node->kind]);
	if (node->kind == NODE_SCALAR) {
		fputc(' ', stream);
		json_print(node->text, stream);
	}
	print_span(sources, node->span, stream);
	fputc('\n', stream);
	for (i = 0; node->kind == NODE_LIST && i < node->count; i++) {
		indent(depth + 1, stream);
		fputs("- ", stream);
		dump_node(node->items[i], sources, depth + 1, stream);
	}
	for (i = 0; node->kind == NODE_MAP && i < node->count; i++) {
		indent(depth + 1, stream);
		fputs(node->entries[i].key, stream);
		print_span(sources, node->entries[i].key_span, stream);
		fputs(": ", stream);
		dump_node(node->entries[i].value, sources, depth + 1, stream);
	}
}

void
dump_read(const struct raw_corpus *corpus, const struct sources *sources,
	FILE *stream)
{
	size_t i;

	for (i = 0; i < corpus->count; i++) {
		fprintf(stream, "%s ", corpus->records[i].kind);
		dump_node(corpus->records[i].node, sources, 0, stream);
	}
}

static void
dump_values(struct value *const *values, const struct fields *fields,
	int depth, FILE *stream);

static void
dump_value(const struct value *value, int depth, FILE *stream)
{
	GString *text;
	unsigned i;

	if (value->form == VALUE_MANY) {
		fputc('\n', stream);
		for (i = 0; i < value->many.count; i++) {
			indent(depth + 1, stream);
			fputc('-', stream);
			dump_value(value->many.items[i], depth + 1, stream);
		}
		return;
	}
	if (value->field->type == TYPE_GROUP) {
		fputc('\n', stream);
		dump_values(value->group, &value->field->fields, depth + 1,
			stream);
		return;
	}
	text = g_string_new(NULL);
	value_append_code(value, text);
	fputc(' ', stream);
	json_print(text->str, stream);
	fputc('\n', stream);
	g_string_free(text, TRUE);
}

static void
dump_values(struct value *const *values, const struct fields *fields,
	int depth, FILE *stream)
{
	unsigned i;

	for (i = 0; i < fields->count; i++) {
		if (values[i] == NULL)
			continue;
		indent(depth, stream);
		fprintf(stream, "%s:", fields->items[i].name);
		dump_value(values[i], depth, stream);
	}
}

void
dump_records(const struct records *records, FILE *stream)
{
	size_t i;

	for (i = 0; i < records->count; i++) {
		const struct record *record = records->items[i];

		fprintf(stream, "%s/%s\n", record->kind->name, record->id);
		dump_values(record->values, &record->kind->fields, 1, stream);
	}
}

static void
dump_pointers(const struct model *model, const struct record *record,
	FILE *stream)
{
	struct pointer_list list = model_pointing(model, record);
	size_t i;

	for (i = 0; i < list.count; i++) {
		const struct pointer *pointer = &list.items[i];

		fprintf(stream, "  from %s/%s by %s%s\n",
			pointer->from->kind->name, pointer->from->id,
			pointer->field->name,
			pointer->certain ? "" : ", perhaps");
	}
}

void
dump_model(const struct model *model, FILE *stream)
{
	const struct schema *schema = model_schema(model);
	struct record_list list;
	unsigned i, j;

	for (i = 0; i < schema->count; i++) {
		list = model_records(model, &schema->kinds[i]);
		for (j = 0; j < list.count; j++) {
			fprintf(stream, "%s/%s ", schema->kinds[i].name,
				list.items[j]->id);
			json_print(list.items[j]->name, stream);
			fputc('\n', stream);
			dump_pointers(model, list.items[j], stream);
		}
	}
}
