/*
 * Identification keys: numbered steps, whose leads end in the name of a record
 * and its page, or in the number of the step that comes next.
 */
#include <glib.h>

#include "base/arena.h"
#include "study/key_group.h"
#include "write/handbook/book.h"

static const struct column columns[] = {{0, 1, ALIGN_LEFT},
	{0, 1, ALIGN_LEFT}};

/* A key while it is set. */
struct setting_key {
	struct book *book;
	const struct keyed *keyed;
};

static const char *
step_anchor(const struct setting_key *setting, unsigned number)
{
	return arena_print(setting->book->arena, "key/%s/%u",
		setting->keyed->group->path, number);
}

static void
say_words(const struct setting_key *setting, struct block *cell,
	const struct key_step *step, unsigned lead)
{
	struct book *book = setting->book;
	GString *words = g_string_new(NULL);
	unsigned i;

	keyed_say_lead(book->model, setting->keyed, step, lead, words);
	copy_text(book, cell, PLAIN, arena_print(book->arena, "%s",
		words->str));
	for (i = 0; i < step->also_count; i++) {
		g_string_assign(words, "; ");
		keyed_say_also(book->model, setting->keyed, &step->also[i],
			lead, words);
		copy_text(book, cell, ITALIC, arena_print(book->arena, "%s",
			words->str));
	}
	g_string_free(words, TRUE);
}

static void
say_target(const struct setting_key *setting, struct block *cell,
	const struct key_lead *lead)
{
	struct book *book = setting->book;
	unsigned i;

	if (lead->step != NULL) {
		copy_text(book, cell, PLAIN, arena_print(book->arena,
			"step\u00a0%u", lead->step->number));
		cell->last_run->link = arena_print(book->arena, "#%s",
			step_anchor(setting, lead->step->number));
		return;
	}
	if (lead->count > 1)
		copy_text(book, cell, ITALIC, lead->given_up ?
			"too little is recorded to go on: " :
			"nothing recorded tells apart: ");
	for (i = 0; i < lead->count; i++) {
		const struct record *record = setting->keyed->group->
			items[lead->items[i]];

		copy_text(book, cell, PLAIN, i == 0 ? "" : "; ");
		copy_record(book, cell, BOLD, record);
		copy_page(book, cell, record);
	}
}

static void
add_step(const struct setting_key *setting, struct block *chapter,
	const struct key_step *step)
{
	struct book *book = setting->book;
	const struct record *feature = setting->keyed->features[
		step->feature]->record;
	struct block *entry = book_entry(book, chapter);
	struct block *heading, *table, *row, *cell;
	unsigned i;

	heading = book_heading(book, entry, STYLE_HEAD_3, arena_print(
		book->arena, step->from == 0 || step->from + 1 == step->number
		? "%u.\u2002%s" : "%u.\u2002%s (from %u)", step->number,
		feature->name, step->from), NULL);
	heading->anchor = step_anchor(setting, step->number);
	table = book_table(book, entry, columns, 2);
	table->quiet = true;
	for (i = 0; i < step->count; i++) {
		row = block_new(book->arena, table, BLOCK_ROW, STYLE_TABLE);
		cell = book_cell(book, row);
		cell->hang = 1;
		say_words(setting, cell, step, i);
		cell = book_cell(book, row);
		cell->hang = 1;
		say_target(setting, cell, &step->leads[i]);
	}
}

static void
add_key(struct book *book, struct block *chapter, const struct keyed *keyed)
{
	const struct setting_key setting = {book, keyed};
	GString *words = g_string_new(NULL);
	struct block *heading;
	unsigned i;

	heading = book_heading(book, chapter, STYLE_HEAD_1, arena_print(
		book->arena, "Key to %s", keyed->group->name), arena_print(
		book->arena, "key/%s", keyed->group->path));
	heading->guide = keyed->group->name;
	for (i = 0; i < keyed->key->count; i++)
		add_step(&setting, chapter, keyed->key->steps[i]);
	keyed_say_report(keyed, words);
	book_say(book, chapter, STYLE_SMALL, arena_print(book->arena, "%s",
		words->str));
	g_string_free(words, TRUE);
}

void
book_keys(struct book *book)
{
	const struct keys *keys = keys_gather(book->model, book->seen,
		book->arena);
	struct block *chapter;
	unsigned i;

	if (keys->groups.count == 0)
		return;
	chapter = book_chapter(book, "step by step", "Keys", "keys");
	book_say(book, chapter, STYLE_BODY, "Begin at 1: look, take the line "
		"that fits, and go where it leads. What stands in italics "
		"should be so as well. If no line fits, what you hold may not "
		"be recorded yet, or may be altered or an imitation.");
	for (i = 0; i < keys->groups.count; i++)
		add_key(book, chapter, keys_make(keys, &keys->groups.items[i],
			book->arena));
}
