/*
 * Population reports: the latest of each service, line by line. Services stand
 * one after the other and are never added.
 */
#include <glib.h>

#include "base/arena.h"
#include "model/text.h"
#include "write/handbook/book.h"
#include "write/ranking.h"

/* A line in one paragraph: as printed, then what is said of it. */
static void
add_line(struct book *book, struct block *columns,
	const struct rank_line *line)
{
	struct told_list list = ranking_line(line, book->model, true,
		book->arena);
	struct block *block = block_new(book->arena, columns, BLOCK_PARAGRAPH,
		STYLE_SMALL);
	unsigned i;

	block->hang = 1;
	block->guide = line->line->wording;
	copy_text(book, block, BOLD, line->line->wording);
	for (i = 0; i < list.count; i++) {
		copy_text(book, block, PLAIN, " ");
		copy_text(book, block, PLAIN, list.items[i].text);
	}
}

static void
add_report(struct book *book, struct block *chapter,
	const struct rank_report *report)
{
	const struct snapshot *snapshot = report->snapshot;
	const char *title = arena_print(book->arena, "%s, %s",
		snapshot->service->name, date_words(model_date(book->model,
			snapshot->census->values, NAME(CENSUS_DATE)),
			book->arena));
	struct block *columns;
	unsigned i;

	book_heading(book, chapter, STYLE_HEAD_1, title, arena_print(
		book->arena, "ranks/%s", snapshot->census->id));
	columns = block_new(book->arena, chapter, BLOCK_COLUMNS, STYLE_SMALL);
	columns->size = 14.5;
	for (i = 0; i < report->count; i++)
		add_line(book, columns, &report->lines[i]);
}

/* What somebody published of how scales answer to each other. */
static void
add_answers(struct book *book, struct block *chapter)
{
	struct record_list list = model_records_of(book->model, "scale");
	struct block *block;
	unsigned i, j;

	for (i = 0; i < list.count; i++) {
		const struct value *answers = model_get(book->model,
			list.items[i]->values, NAME(SCALE_ANSWERS));

		for (j = 0; j < value_count(answers); j++) {
			struct value *const *group = value_item(answers, j)->
				group;

			block = block_new(book->arena, chapter,
				BLOCK_PARAGRAPH, STYLE_SMALL);
			copy_text(book, block, PLAIN, arena_print(book->arena,
				"%s answers to %s, says ", model_text(
				book->model, group, NAME(SCALE_ANSWER_STEP)),
				model_text(book->model, group,
				NAME(SCALE_ANSWER_OTHER))));
			copy_record(book, block, PLAIN, model_record(
				book->model, group,
				NAME(SCALE_ANSWER_SOURCE)));
			copy_text(book, block, PLAIN, ".");
		}
	}
}

void
book_census(struct book *book)
{
	const struct ranks *ranks = rank_gather(book->model, book->seen,
		book->arena);
	struct block *chapter;
	unsigned i, latest = 0;

	for (i = 0; i < ranks->count; i++)
		latest += ranks->reports[i].snapshot->latest;
	if (latest == 0)
		return;
	chapter = book_chapter(book, "what was graded", "Population reports",
		"reports");
	book_say(book, chapter, STYLE_BODY, ranking_caution);
	if (latest > 1)
		book_say(book, chapter, STYLE_BODY, ranking_apart);
	add_answers(book, chapter);
	for (i = 0; i < ranks->count; i++)
		if (ranks->reports[i].snapshot->latest)
			add_report(book, chapter, &ranks->reports[i]);
}
