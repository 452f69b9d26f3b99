/*
 * Lists of groups as tables: a row an item, a column a field. Only fields that
 * some item has get a column.
 */
#include <glib.h>

#include "base/arena.h"
#include "write/handbook/book.h"

/* Short groups that are shown first are facts, run into one line. */
enum { MOST_RUN_IN = 3 };

/* Texts take what room there is, by so many shares; a date is never broken. */
enum { SHARE_PROSE = 3, SHARE_TEXT = 3, SHARE_OTHER = 2 };

static bool
is_column(const struct value *list, unsigned index)
{
	const struct field *field = &list->field->fields.items[index];
	unsigned i;

	if (!field->exported || field->show == SHOW_NO ||
		(index == 0 && field_is_keyed(list->field)))
		return false;
	for (i = 0; i < value_count(list); i++) {
		if (value_item(list, i)->group[index] != NULL)
			return true;
	}
	return false;
}

static double
share_of(const struct field *field)
{
	if (field->type == TYPE_DATE)
		return 0;
	if (field->type == TYPE_PROSE)
		return SHARE_PROSE;
	return field->type == TYPE_TEXT ? SHARE_TEXT : SHARE_OTHER;
}

static void
add_row(struct book *book, struct block *table, const struct value *item,
	const unsigned *fields)
{
	struct block *row = block_new(book->arena, table, BLOCK_ROW,
		STYLE_TABLE);
	struct block *cell;
	unsigned i;

	for (i = 0; i < table->count; i++) {
		cell = book_cell(book, row);
		if (item->group[fields[i]] != NULL)
			copy_value(book, cell, item->group[fields[i]]);
	}
}

static void
add_table(struct book *book, struct block *parent, const struct value *list)
{
	const struct fields *all = &list->field->fields;
	struct column *columns = arena_array(book->arena, struct column,
		all->count);
	unsigned *fields = arena_array(book->arena, unsigned, all->count);
	const char **heads = arena_array(book->arena, const char *, all->count);
	struct block *table;
	unsigned i, count = 0;

	for (i = 0; i < all->count; i++) {
		if (!is_column(list, i))
			continue;
		fields[count] = i;
		heads[count] = all->items[i].title;
		columns[count].share = share_of(&all->items[i]);
		count++;
	}
	if (count == 0)
		return;
	table = book_table(book, parent, columns, count);
	copy_text(book, table, PLAIN, list->field->title);
	book_heads(book, table, heads);
	for (i = 0; i < value_count(list); i++)
		add_row(book, table, value_item(list, i), fields);
}

bool
copy_is_tabled(const struct field *field)
{
	return field->type == TYPE_GROUP && field->many &&
		(field->show != SHOW_FIRST ||
			field->fields.count > MOST_RUN_IN);
}

void
copy_groups(struct book *book, struct block *parent,
	const struct record *record, const struct field *const *skip)
{
	const struct field *field;
	unsigned i;

	for (i = 0; i < record->kind->own_count; i++) {
		field = &record->kind->fields.items[i];
		if (record->values[i] != NULL && copy_is_tabled(field) &&
			!copy_is_skipped(book, field, skip))
			add_table(book, parent, record->values[i]);
	}
}
