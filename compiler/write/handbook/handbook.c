/*
 * From the model to the file: makes the book, composes it in the default
 * format, and says what the file says about itself.
 */
#include "write/handbook/handbook.h"

#include <stdlib.h>

#include "base/arena.h"
#include "write/handbook/book.h"
#include "write/handbook/compose.h"

/*
 * The date of the file is that of the edition, its first day where it is
 * partial; never the clock's.
 */
static const char *
make_date(const struct book *book)
{
	const struct date *date = book->edition == NULL ?
		NULL :
		model_date(book->model, book->edition->values,
			NAME(EDITION_PUBLISHED));

	if (date == NULL)
		return "1970-01-01T00:00:00Z";
	return arena_print(book->arena, "%04d-%02d-%02dT00:00:00Z", date->year,
		MAX(date->month, 1), MAX(date->day, 1));
}

/* All contributors of the edition, as one text; NULL without any. */
static const char *
list_contributors(const struct book *book)
{
	const struct value *names = book->edition == NULL ?
		NULL :
		model_get(book->model, book->edition->values,
			NAME(EDITION_CONTRIBUTORS));
	const char *text = NULL;
	unsigned i;

	for (i = 0; i < value_count(names); i++)
		text = arena_print(book->arena, "%s%s%s", text ? text : "",
			text ? ", " : "", value_item(names, i)->text);
	return text;
}

/* Large print is for the larger papers. */
static const struct format *
find_format(const struct print_wishes *wishes)
{
	return format_find(wishes->paper, wishes->large);
}

bool
handbook_has_paper(const struct print_wishes *wishes)
{
	return find_format(wishes) != NULL;
}

const char *
handbook_print(const struct model *model, const struct seen *seen,
	const struct reckonings *reckonings, const struct print_wishes *wishes,
	struct arena *arena, FILE *out)
{
	const struct format *format = find_format(wishes);
	const struct printing how = {wishes->black, wishes->marks,
		wishes->booklet};
	struct book *book = book_make(model, seen, reckonings, format,
		arena);
	struct imprint imprint = {.creator = "hangtab"};
	struct composed composed;

	imprint.title = model_title(model);
	imprint.language = "en";
	imprint.author = list_contributors(book);
	imprint.subject = "A handbook of carded figures";
	imprint.date = make_date(book);
	return compose_book(arena, book->root, format, &imprint, &how, out,
		&composed);
}

bool
handbook_write(const struct write_job *job, GError **error)
{
	struct arena *arena = arena_new();
	char *bytes = NULL;
	size_t size = 0;
	FILE *out = open_memstream(&bytes, &size);
	const char *why = "memory ran out";
	bool done = false;

	if (out != NULL) {
		why = handbook_print(job->model, job->seen, job->reckonings,
			&job->print, arena, out);
		if (fclose(out) != 0 && why == NULL)
			why = "memory ran out";
	}
	if (why == NULL)
		done = output_add(job->out, "handbook.pdf", bytes, size, error);
	else
		g_set_error(error, OUTPUT_ERROR, OUTPUT_FAILED,
			"the handbook cannot be made: %s", why);
	free(bytes);
	arena_free(arena);
	return done;
}
