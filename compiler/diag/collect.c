/*
 * The collector: keeps messages as they come and sorts them for printing.
 * Messages live in the collector's own arena, so a stage may free its own.
 */
#include "diag/collect.h"

#include <stdarg.h>
#include <string.h>

#include "base/arena.h"
#include "diag/shown.h"

static const struct diag_info infos[] = {
#define CODE(name, code, severity, headline) \
	[DIAG_##name] = {code, SEVERITY_##severity, headline},
#include "diag/codes.h"
#undef CODE
};

const struct diag_info *
diag_info(enum diag_code code)
{
	return &infos[code];
}

enum diag_code
diag_code_named(const char *code)
{
	int i;

	for (i = 0; i < DIAG_COUNT; i++)
		if (strcmp(infos[i].code, code) == 0)
			break;
	return (enum diag_code)i;
}

struct diags *
diags_new(const struct sources *sources)
{
	struct diags *diags = g_new0(struct diags, 1);

	diags->sources = sources;
	diags->arena = arena_new();
	diags->items = g_ptr_array_new();
	return diags;
}

static void
free_parts(struct diag *diag)
{
	if (diag->notes != NULL)
		g_array_free(diag->notes, TRUE);
	if (diag->mends != NULL)
		g_array_free(diag->mends, TRUE);
}

void
diags_free(struct diags *diags)
{
	guint i;

	if (diags == NULL)
		return;
	for (i = 0; i < diags->items->len; i++)
		free_parts(g_ptr_array_index(diags->items, i));
	g_ptr_array_free(diags->items, TRUE);
	arena_free(diags->arena);
	g_free(diags);
}

/* Drops the messages about files other than these, and about none at all. */
static void
keep_between(struct diags *diags, uint32_t first, uint32_t last, bool nowhere)
{
	guint i, kept = 0;

	for (i = 0; i < diags->items->len; i++) {
		struct diag *diag = g_ptr_array_index(diags->items, i);

		if ((diag->span.file >= first && diag->span.file <= last) ||
			(nowhere && diag->span.file == 0)) {
			diags->items->pdata[kept++] = diag;
			continue;
		}
		diags->counts[infos[diag->code].severity]--;
		free_parts(diag);
	}
	g_ptr_array_set_size(diags->items, (gint)kept);
}

void
diags_keep(struct diags *diags, uint32_t file)
{
	keep_between(diags, file, file, false);
}

void
diags_keep_after(struct diags *diags, uint32_t file)
{
	keep_between(diags, file + 1, UINT32_MAX, true);
}

void
diags_each_error(const struct diags *diags,
	void (*visit)(struct span span, void *data), void *data)
{
	guint i;

	for (i = 0; i < diags->items->len; i++) {
		const struct diag *diag = g_ptr_array_index(diags->items, i);

		if (infos[diag->code].severity == SEVERITY_ERROR)
			visit(diag->span, data);
	}
}

/* What a message quotes may be of any length. */
enum { LONGEST_TEXT = 800 };

static const char *
print_args(struct arena *arena, const char *format, va_list args)
{
	char *text = g_strdup_vprintf(format, args);
	char *shown = shown_text(text, LONGEST_TEXT);
	const char *copy = arena_text(arena, shown, strlen(shown));

	g_free(shown);
	g_free(text);
	return copy;
}

struct diag *
diag_report(struct diags *diags, enum diag_code code, struct span span,
	const char *format, ...)
{
	struct diag *diag = arena_one(diags->arena, struct diag);
	va_list args;

	diag->diags = diags;
	diag->code = code;
	diag->span = span;
	va_start(args, format);
	diag->text = print_args(diags->arena, format, args);
	va_end(args);
	g_ptr_array_add(diags->items, diag);
	diags->counts[infos[code].severity]++;
	return diag;
}

void
diag_note(struct diag *diag, struct span span, const char *format, ...)
{
	struct diag_note note = {.span = span};
	va_list args;

	va_start(args, format);
	note.text = print_args(diag->diags->arena, format, args);
	va_end(args);
	if (diag->notes == NULL)
		diag->notes = g_array_new(FALSE, TRUE, sizeof(note));
	g_array_append_val(diag->notes, note);
}

void
diag_help(struct diag *diag, const char *format, ...)
{
	va_list args;

	va_start(args, format);
	diag->help = print_args(diag->diags->arena, format, args);
	va_end(args);
}

/* A span without the quotes around it, which a mend leaves as they are. */
static struct span
within_quotes(const struct sources *sources, struct span span)
{
	const struct source *source = sources_get(sources, span.file);
	const char *first;

	if (source == NULL || span.to < span.from + 2)
		return span;
	first = source->bytes + span.from;
	if ((*first == '"' || *first == '\'') &&
		source->bytes[span.to - 1] == *first) {
		span.from++;
		span.to--;
	}
	return span;
}

void
diag_mend(struct diag *diag, struct span span, const char *text,
	enum confidence confidence)
{
	struct diag_mend mend = {span, NULL, confidence};

	mend.span = within_quotes(diag->diags->sources, span);
	mend.text = arena_text(diag->diags->arena, text, strlen(text));
	if (diag->mends == NULL)
		diag->mends = g_array_new(FALSE, TRUE, sizeof(mend));
	g_array_append_val(diag->mends, mend);
}

struct diag *
diags_last(const struct diags *diags)
{
	guint count = diags->items->len;

	return count == 0 ? NULL : g_ptr_array_index(diags->items, count - 1);
}

size_t
diags_count(const struct diags *diags, enum severity severity)
{
	return diags->counts[severity];
}

static const char *
path_of(const struct diag *diag)
{
	const struct source *source;

	source = sources_get(diag->diags->sources, diag->span.file);
	return source == NULL ? "" : source->path;
}

static int
compare(gconstpointer a, gconstpointer b)
{
	const struct diag *left = *(const struct diag *const *)a;
	const struct diag *right = *(const struct diag *const *)b;
	int order = strcmp(path_of(left), path_of(right));

	if (order != 0)
		return order;
	if (left->span.from != right->span.from)
		return left->span.from < right->span.from ? -1 : 1;
	if (left->span.to != right->span.to)
		return left->span.to < right->span.to ? -1 : 1;
	if (left->code != right->code)
		return left->code < right->code ? -1 : 1;
	return strcmp(left->text, right->text);
}

void
diags_sort(struct diags *diags)
{
	guint from, to = 0;

	g_ptr_array_sort(diags->items, compare);
	for (from = 0; from < diags->items->len; from++) {
		gpointer *items = diags->items->pdata;

		if (to > 0 && compare(&items[to - 1], &items[from]) == 0) {
			struct diag *same = items[from];

			diags->counts[infos[same->code].severity]--;
			if (same->notes != NULL)
				g_array_free(same->notes, TRUE);
			if (same->mends != NULL)
				g_array_free(same->mends, TRUE);
			continue;
		}
		items[to++] = items[from];
	}
	g_ptr_array_set_size(diags->items, (gint)to);
}
