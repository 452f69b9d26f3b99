/*
 * A record read out of the database of a guide, as a tree of what is to be
 * shown. The database describes itself, so no kind or field is known here.
 */
#ifndef COMMAND_SHOWING_H
#define COMMAND_SHOWING_H

#include "base/arena.h"
#include "store/store.h"

/* A value, a list of them, or a group of named ones. */
enum shown_form { SHOWN_VALUE, SHOWN_LIST, SHOWN_GROUP };

struct shown {
	enum shown_form form;
	const char *field;	/* its name, for programs */
	const char *title;	/* and for people */
	const char *text;	/* of a value: for people */
	const char *code;	/* and as it is stored */
	const char *kind;	/* of what it refers to, or NULL */
	const char *type;	/* the schema's type, or NULL */
	GPtrArray *parts;	/* of lists and groups: struct shown */
};

/* How many records point at the one shown, by one of their fields. */
struct pointing {
	const char *titles;	/* of the kind that points */
	const char *kind;
	const char *by;		/* the field's title */
	const char *field;
	bool perhaps;		/* it may be the one, or another */
	int64_t count;
};

struct showing {
	const char *kind;
	const char *id;
	const char *kind_title;
	const char *called;
	struct shown *fields;	/* a group */
	GArray *pointing;	/* struct pointing */
};

/*
 * Reads a record that is there. Lives in `arena`, but is ended by
 * showing_release. False with an error where the database fails.
 */
bool
showing_read(struct store *store, const char *kind, const char *id,
	struct arena *arena, struct showing *showing, GError **error);

void
showing_release(struct showing *showing);

#endif
