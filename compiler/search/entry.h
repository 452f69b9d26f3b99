/*
 * What of a record is searched: three texts of different weight. The schema
 * says which field goes where; added to that are the many spellings of labels,
 * the names of what the record chiefly refers to, and its id.
 */
#ifndef SEARCH_ENTRY_H
#define SEARCH_ENTRY_H

#include <glib.h>

#include "model/model.h"

enum search_column {
	SEARCH_COLUMN_NAME,
	SEARCH_COLUMN_LABEL,
	SEARCH_COLUMN_WORDS,
	SEARCH_COLUMN_COUNT
};

struct search_column_facts {
	const char *name;
	int weight;	/* of a hit there, as BM25 counts hits */
};

extern const struct search_column_facts search_columns[SEARCH_COLUMN_COUNT];

struct search_entry {
	GString *texts[SEARCH_COLUMN_COUNT];
};

void
search_entry_init(struct search_entry *entry);

void
search_entry_release(struct search_entry *entry);

/*
 * Fills the entry, whatever was in it, with the texts of a record of the
 * model. Text that is not exported is left out.
 */
void
search_describe(const struct model *model, const struct record *record,
	struct search_entry *entry);

#endif
