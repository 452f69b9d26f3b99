/*
 * Values and prose on a page, by type.
 */
#ifndef WRITE_SITE_SHOW_H
#define WRITE_SITE_SHOW_H

#include "write/site/page.h"

/*
 * Appends a value within a line: one of a list after the other, a group as its
 * values. Prose becomes paragraphs, so the place must allow blocks.
 */
void
show_value(struct page *page, const struct value *value);

/* The same where there is room: lists of text and groups as lines. */
void
show_cell(struct page *page, const struct value *value);

/* The same for a definition: words are explained, too. */
void
show_definition(struct page *page, const struct value *value);

/* Appends a date in words, in a <time>. */
void
show_date(struct page *page, const struct date *date);

/* Appends a reference as a link, an item of its record by its key. */
void
show_reference(struct page *page, const struct reference *reference);

/*
 * Appends prose; its first level of headings becomes level `below` + 1, and
 * none is above level 2.
 */
void
show_prose(struct page *page, const struct prose *prose, int below);

/* Whether a value is too large for a line among facts. */
bool
is_large(const struct value *value);

/*
 * Appends the facts of a record or group as a definition list: its values of
 * that `show` that are not told, not large, and not its name.
 */
void
show_facts(struct page *page, const struct record *record, enum show show);

/* Appends the large values of a record as sections: its prose, or the rest. */
enum sections { SECTIONS_PROSE, SECTIONS_OTHER };
void
show_sections(struct page *page, const struct record *record,
	enum sections which);

/* Appends one value as a section, under its title. */
void
show_section(struct page *page, const struct value *value);

/* Appends a table of a list of groups, a column for each field in use. */
void
show_table(struct page *page, const struct value *groups);

/* Appends columns' heads, and rows' cells, of some records' fields. */
struct columns {
	const struct field **fields;
	unsigned count;
};
void
show_heads(struct page *page, const struct columns *columns);
void
show_cells(struct page *page, const struct columns *columns,
	struct value *const *values);

/* Whether the field is what the records of its kind are named by. */
bool
is_name_field(const struct field *field);

/* Begins and ends a table that scrolls by itself where it is too wide. */
void
table_begin(struct page *page, const char *caption, const char *class);
void
table_end(struct page *page);

#endif
