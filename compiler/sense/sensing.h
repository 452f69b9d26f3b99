/*
 * What the rules share; for this folder alone. A rule is a function that looks
 * at records and reports. Before it reports a surprise it asks whether the
 * record carries an exception to it.
 */
#ifndef SENSE_SENSING_H
#define SENSE_SENSING_H

#include <glib.h>

#include "base/arena.h"
#include "diag/diag.h"
#include "model/model.h"
#include "sense/sense.h"

struct sensing {
	const struct model *model;
	struct diags *diags;
	struct arena *arena;		/* freed when all rules are applied */
	struct record_list *lists;	/* the records to look at, by kind */
	GHashTable *used;		/* exceptions that excused something */
};

typedef void sense_rule(struct sensing *sensing);

/* The rules, by the file they are in. */
sense_rule sense_countries, sense_currencies;		/* codes.c */
sense_rule sense_languages, sense_translations;		/* language.c */
sense_rule sense_dates;					/* dates.c */
sense_rule sense_check_digits;				/* barcode.c */
sense_rule sense_labels;				/* labels.c */
sense_rule sense_letters;				/* letters.c */
sense_rule sense_pictures, sense_stickers;		/* cards.c */
sense_rule sense_pairings;				/* pairings.c */
sense_rule sense_grades;				/* grades.c */
sense_rule sense_census;				/* census.c */
sense_rule sense_estimates;				/* estimates.c */
sense_rule sense_alike;					/* alike.c */
sense_rule sense_exceptions;				/* exceptions.c */

/* The records of a kind that are to be looked at. */
struct record_list
sense_records(const struct sensing *sensing, const char *kind);

/* Called with a value, its record, and the values beside it. */
typedef void sense_visit(struct sensing *sensing, const struct record *record,
	struct value *const *beside, const struct value *value);

/* Calls `visit` for each value of a type, in groups too; lists by item. */
void
sense_each(struct sensing *sensing, enum type type, sense_visit *visit);

/*
 * Whether an exception in `record` excuses the surprise `code`; the exception
 * has then had its use.
 */
bool
sense_excused(struct sensing *sensing, const struct record *record,
	enum diag_code code);

/* Whether the code is a surprise that an exception may excuse. */
bool
sense_is_surprise(enum diag_code code);

/* Whether a later stage raises it, and sees to its exceptions. */
bool
sense_is_later(enum diag_code code);

/*
 * A label of a card back taken apart: "24B" is number 24, letter 2; "11B1" has
 * the sub-letter 1 besides. Letters after Z go on with AA. False for labels
 * that are written otherwise.
 */
struct label {
	unsigned number;
	unsigned letter;
	unsigned sub;
};

bool
label_read(const char *text, struct label *label);

/* A label's number and letter as text, in `arena`. */
const char *
label_text(struct arena *arena, struct label label);

/* The last digit that GS1 asks for behind `count` digits. */
char
check_digit(const char *digits, size_t count);

/*
 * The first part of a language tag that breaks BCP 47, as bytes *from to *to
 * of the tag; false if the tag is good.
 */
bool
language_is_bad(const char *tag, size_t *from, size_t *to);

#endif
