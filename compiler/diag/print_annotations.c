/*
 * Messages as workflow commands, the lines by which programs that run in
 * hosted CI put annotations beside the changed lines of a proposal. The notes
 * and the help follow the message, since an annotation is all that is shown.
 */
#include "diag/collect.h"

#include <string.h>

/* Prints text with what would end it escaped; more so within a property. */
static void
print_escaped(const char *text, bool property, FILE *stream)
{
	for (; *text != '\0'; text++) {
		bool escaped = *text == '%' || *text == '\r' || *text == '\n';

		if (escaped || (property && (*text == ':' || *text == ',')))
			fprintf(stream, "%%%02X", (unsigned char)*text);
		else
			fputc(*text, stream);
	}
}

static void
print_place(const struct source *source, struct span span, FILE *stream)
{
	struct place from = source_place(source, span.from);
	struct place to = source_place(source, span.to);

	fputs("file=", stream);
	print_escaped(source->path, true, stream);
	/* Columns only mean something within one line. */
	fprintf(stream, ",line=%u", from.line);
	if (from.line == to.line)
		fprintf(stream, ",col=%u,endColumn=%u", from.column,
			to.column);
	else
		fprintf(stream, ",endLine=%u", to.line);
	fputc(',', stream);
}

static void
print_one(const struct diag *diag, FILE *stream)
{
	const struct diag_info *info = diag_info(diag->code);
	const struct source *source;
	guint i;

	source = sources_get(diag->diags->sources, diag->span.file);
	fprintf(stream, "::%s ", info->severity == SEVERITY_ERROR ? "error" :
		"warning");
	if (source != NULL)
		print_place(source, diag->span, stream);
	fprintf(stream, "title=%s::", info->code);
	print_escaped(diag->text, false, stream);
	for (i = 0; diag->notes != NULL && i < diag->notes->len; i++) {
		const struct diag_note *note;

		note = &g_array_index(diag->notes, struct diag_note, i);
		source = sources_get(diag->diags->sources, note->span.file);
		fputs("%0Anote: ", stream);
		print_escaped(note->text, false, stream);
		if (source == NULL)
			continue;
		fputs(" (", stream);
		print_escaped(source->path, false, stream);
		fprintf(stream, ":%u)", source_place(source,
			note->span.from).line);
	}
	if (diag->help != NULL) {
		fputs("%0Ahelp: ", stream);
		print_escaped(diag->help, false, stream);
	}
	fputc('\n', stream);
}

void
diags_print_annotations(const struct diags *diags, FILE *stream)
{
	guint i;

	for (i = 0; i < diags->items->len; i++)
		print_one(g_ptr_array_index(diags->items, i), stream);
}
