/*
 * How a piece lies before one, what of it can then be seen, and what is asked
 * of it.
 */
#ifndef STUDY_FORMS_H
#define STUDY_FORMS_H

enum { FORM_COUNT = 4, FORM_SIDES = 6 };

struct form {
	const char *name;
	const char *title;
	const char *of;		/* the kind to settle; NULL: what a card is */
	const char *sides[FORM_SIDES];	/* of features; ended by NULL */
};

extern const struct form forms[FORM_COUNT];

/* The form of that name, or NULL. */
const struct form *
form_named(const char *name);

#endif
