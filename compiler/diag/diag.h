/*
 * Diagnostics: what the compiler has to say about the corpus. Stages report
 * into a collector; main prints it at the end, sorted. Wording: lower case, no
 * full stop, the thing in double quotes, then what was expected; what to do
 * goes into the help line.
 */
#ifndef DIAG_DIAG_H
#define DIAG_DIAG_H

#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>

#include "base/source.h"

enum severity { SEVERITY_ERROR, SEVERITY_WARNING };

enum diag_code {
#define CODE(name, code, severity, headline) DIAG_##name,
#include "diag/codes.h"
#undef CODE
	DIAG_COUNT
};

/* How sure a mend is: apply unseen, apply on request, or fill in by hand. */
enum confidence { MEND_SAFE, MEND_PROBABLE, MEND_BLANK };

struct diag_info {
	const char *code;
	enum severity severity;
	const char *headline;
};

struct diag;
struct diags;

/* What is fixed about a code. */
const struct diag_info *
diag_info(enum diag_code code);

/* The code of that name, or DIAG_COUNT. */
enum diag_code
diag_code_named(const char *code);

/* A collector of messages about `sources`, which must outlive it. */
struct diags *
diags_new(const struct sources *sources);

void
diags_free(struct diags *diags);

/*
 * Reports `code` at `span`, with a message as by printf. Returns the message
 * so that notes, help and mends can be added; never NULL.
 */
struct diag *
diag_report(struct diags *diags, enum diag_code code, struct span span,
	const char *format, ...) __attribute__((format(printf, 4, 5)));

/* Points at another place involved. */
void
diag_note(struct diag *diag, struct span span, const char *format, ...)
	__attribute__((format(printf, 3, 4)));

/* Says what to do. */
void
diag_help(struct diag *diag, const char *format, ...)
	__attribute__((format(printf, 2, 3)));

/*
 * Offers to replace the bytes of `span`, but not quotes around them, by `text`
 * (copied). All the mends of one message belong together: they are applied
 * all or none.
 */
void
diag_mend(struct diag *diag, struct span span, const char *text,
	enum confidence confidence);

/* The message reported last, or NULL. */
struct diag *
diags_last(const struct diags *diags);

/* Drops the messages that are about other files than this one. */
void
diags_keep(struct diags *diags, uint32_t file);

/* Drops those about this file and files read before it, not those of none. */
void
diags_keep_after(struct diags *diags, uint32_t file);

/* Calls `visit` with the place of every error. */
void
diags_each_error(const struct diags *diags,
	void (*visit)(struct span span, void *data), void *data);

/* How many messages of that severity there are. */
size_t
diags_count(const struct diags *diags, enum severity severity);

/* Sorts by file name, place and code, and drops exact repetitions. */
void
diags_sort(struct diags *diags);

struct diag_style {
	bool colour;
	size_t most;	/* errors, and warnings, shown at most; 0 for all */
};

/* Prints for people: place, message, the line with its span marked. */
void
diags_print_text(const struct diags *diags, struct diag_style style,
	FILE *stream);

/* Prints one JSON object a line; FORMATS.md says what is in them. */
void
diags_print_json(const struct diags *diags, FILE *stream);

/*
 * Prints one SARIF 2.1.0 log. `version` is hangtab's; `pages` is the folder of
 * the codes' pages, or NULL.
 */
void
diags_print_sarif(const struct diags *diags, const char *version,
	const char *pages, FILE *stream);

/* Prints a workflow command a line, for hosted CI. */
void
diags_print_annotations(const struct diags *diags, FILE *stream);

#endif
