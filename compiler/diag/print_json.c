/*
 * Messages for programs: one JSON object a line, as FORMATS.md describes. The
 * version there counts changes that a reader of the old form would trip over.
 */
#include "diag/collect.h"

#include "base/json.h"

static const char *const confidences[] = {
	[MEND_SAFE] = "safe",
	[MEND_PROBABLE] = "probable",
	[MEND_BLANK] = "blank",
};

static void
print_span(const struct sources *sources, struct span span, FILE *stream)
{
	const struct source *source = sources_get(sources, span.file);
	struct place from, to;
	char *path;

	if (source == NULL)
		return;
	path = g_utf8_make_valid(source->path, -1);
	from = source_place(source, span.from);
	to = source_place(source, span.to);
	fputs(",\"file\":", stream);
	json_print(path, stream);
	g_free(path);
	fprintf(stream, ",\"line\":%u,\"column\":%u,\"end_line\":%u,"
		"\"end_column\":%u", from.line, from.column, to.line,
		to.column);
}

static void
print_notes(const struct diag *diag, FILE *stream)
{
	guint i;

	if (diag->notes == NULL)
		return;
	fputs(",\"notes\":[", stream);
	for (i = 0; i < diag->notes->len; i++) {
		struct diag_note *note;

		note = &g_array_index(diag->notes, struct diag_note, i);
		fputs(i > 0 ? ",{\"message\":" : "{\"message\":", stream);
		json_print(note->text, stream);
		print_span(diag->diags->sources, note->span, stream);
		fputc('}', stream);
	}
	fputc(']', stream);
}

static void
print_mends(const struct diag *diag, FILE *stream)
{
	guint i;

	if (diag->mends == NULL)
		return;
	fputs(",\"mends\":[", stream);
	for (i = 0; i < diag->mends->len; i++) {
		struct diag_mend *mend;

		mend = &g_array_index(diag->mends, struct diag_mend, i);
		fputs(i > 0 ? ",{\"text\":" : "{\"text\":", stream);
		json_print(mend->text, stream);
		fprintf(stream, ",\"confidence\":\"%s\"",
			confidences[mend->confidence]);
		print_span(diag->diags->sources, mend->span, stream);
		fputc('}', stream);
	}
	fputc(']', stream);
}

void
diags_print_json(const struct diags *diags, FILE *stream)
{
	guint i;

	fprintf(stream, "{\"format\":\"hangtab-messages\",\"version\":1,"
		"\"errors\":%zu,\"warnings\":%zu}\n",
		diags->counts[SEVERITY_ERROR],
		diags->counts[SEVERITY_WARNING]);
	for (i = 0; i < diags->items->len; i++) {
		const struct diag *diag = g_ptr_array_index(diags->items, i);
		const struct diag_info *info = diag_info(diag->code);

		fprintf(stream, "{\"code\":\"%s\",\"severity\":\"%s\",",
			info->code, info->severity == SEVERITY_ERROR ?
			"error" : "warning");
		fputs("\"message\":", stream);
		json_print(diag->text, stream);
		fputs(",\"headline\":", stream);
		json_print(info->headline, stream);
		print_span(diag->diags->sources, diag->span, stream);
		print_notes(diag, stream);
		if (diag->help != NULL) {
			fputs(",\"help\":", stream);
			json_print(diag->help, stream);
		}
		print_mends(diag, stream);
		fputs("}\n", stream);
	}
}
