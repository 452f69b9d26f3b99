/*
 * Records and their values, typed by the schema. This is what every later
 * stage and every writer works on.
 */
#ifndef SHAPE_VALUE_H
#define SHAPE_VALUE_H

#include "read/node.h"
#include "read/prose.h"
#include "shape/schema.h"

/* A day as a number: days since 1 January of year 1, proleptic Gregorian. */
typedef int32_t day_number;

/* A date as written; partial ones are the interval of days they may mean. */
struct date {
	const char *text;	/* "1983", "1983-11" or "1983-11-05" */
	int year;
	int month;		/* 0 when not said */
	int day;		/* 0 when not said */
	day_number first;
	day_number last;
};

/* An amount has up to four places behind its point. */
enum { AMOUNT_ONE = 10000, AMOUNT_DIGITS = 12, AMOUNT_PLACES = 4 };

/* The amount that a text states, in AMOUNT_ONEths; -1 if it states none. */
int64_t
shape_amount(const char *text);

/* Reads a date; false if the text, which the date keeps, is none. */
bool
shape_date(const char *text, struct date *date);

/* A named record, and within it an item with a key, when `key` is set. */
struct reference {
	const char *id;			/* as written, without kind and key */
	const char *key;		/* or NULL */
	const char *written_kind;	/* before the "/", or NULL */
	const struct kind *kind;	/* as written or implied; or NULL */
	const struct record *record;	/* set by link/; NULL when broken */
	const struct value *item;	/* the keyed item; set by link/ */
	struct span span;
};

enum identity_kind {
	IDENTITY_UNKNOWN,
	IDENTITY_KNOWN,		/* one reference */
	IDENTITY_ONE_OF,	/* two or more */
	IDENTITY_NOT,		/* anything but these */
};

struct translation {
	const char *language;
	const char *text;
	struct span language_span;
};

/* A value whose field says `many` is a list of values of the field's type. */
enum value_form { VALUE_ONE, VALUE_MANY };

struct value {
	const struct field *field;
	enum value_form form;
	const struct node *node;	/* as read; spans are found through it */
	struct span span;
	union {
		/* TEXT, COUNTRY, LANGUAGE, CURRENCY, BARCODE, AMOUNT */
		const char *text;
		struct {
			const char *text;
			struct prose *tree;
		} prose;
		int64_t whole;
		struct {
			double number;		/* in the field's first unit */
			const char *unit;	/* as written */
			const char *text;
		} quantity;
		struct date date;
		bool yes;
		const struct word *word;
		struct {
			struct translation *items;
			unsigned count;
		} translation;
		struct reference reference;
		struct {
			enum identity_kind kind;
			struct reference *items;
			unsigned count;
		} identity;
		struct value **group;	/* by field index; NULL where absent */
		struct {
			struct value **items;
			unsigned count;
		} many;
	};
};

struct record {
	const struct kind *kind;
	const char *id;
	struct span id_span;
	struct span span;		/* the whole record */
	const struct node *node;
	struct value **values;		/* by field index; NULL where absent */
	unsigned index;			/* among its kind, once in the model */
	const char *name;		/* once in the model */
	const char *sorted;		/* the name as it is put in order */
};

#endif
