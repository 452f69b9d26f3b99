/*
 * Readable dumps of the intermediate forms: what tests compare, and what a
 * developer looks at to see what a stage made.
 */
#ifndef WRITE_DUMP_H
#define WRITE_DUMP_H

#include <stdio.h>

#include "model/model.h"
#include "read/corpus.h"

enum dump_stage {
	DUMP_NONE,
	DUMP_READ,
	DUMP_LINK,
	DUMP_MODEL,
	DUMP_BUYER
};

/* The stage of that name, or DUMP_NONE. */
enum dump_stage
dump_stage_named(const char *name);

/* Trees as read: a line a node, with its line:column span. */
void
dump_read(const struct raw_corpus *corpus, const struct sources *sources,
	FILE *stream);

/* Records after linking: a line a value; references as kind/id. */
void
dump_records(const struct records *records, FILE *stream);

/* The model: records in order with their names and what points at them. */
void
dump_model(const struct model *model, FILE *stream);

/*
 * The buyer's view of every pairing and combination: a line for what it is, one
 * for each risk and imitation, each alternative and each request.
 */
void
dump_buyer(const struct model *model, FILE *stream);

#endif
