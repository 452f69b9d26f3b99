/*
 * The files of a corpus read: what stands under which kind. Nothing is known
 * of the schema here; a folder's name is a kind's name until shape/ says
 * otherwise.
 */
#ifndef READ_CORPUS_H
#define READ_CORPUS_H

#include <glib.h>

#include "base/arena.h"
#include "diag/diag.h"
#include "read/files.h"
#include "read/node.h"

/* One record as read, or what stands where a record should. */
struct raw_record {
	const char *kind;
	struct span kind_span;	/* of the heading in a mixed file, or nowhere */
	uint32_t file;
	const char *essay_id;	/* of an essay's file; otherwise NULL */
	struct node *node;
};

/*
 * What could not be read, and was reported: records that others refer to may
 * stand there.
 */
struct raw_lost {
	const char *kind;	/* NULL: any */
	const char *id;		/* NULL: any of that kind */
	uint32_t file;		/* whose bytes may name the id; 0: none */
	struct diag *diag;
};

struct raw_corpus {
	const char *folder;
	struct node *settings;		/* corpus.yaml, or NULL */
	struct raw_record *records;	/* in order of path, then place */
	size_t count;
	struct raw_lost *lost;
	size_t lost_count;
	const char **tables;		/* spreadsheets found beside them */
	size_t table_count;
	const struct corpus_file *strays;	/* see files.h */
	size_t stray_count;
	bool found;			/* there was something to read */
	struct node *root;		/* of a single YAML file; or NULL */
};

/*
 * Reads the corpus at `path`: a folder laid out as schema/README.md says, or
 * one YAML file of several kinds. Everything lives in `arena`; what is wrong
 * is reported.
 */
struct raw_corpus *
read_corpus(const char *path, struct sources *sources, struct arena *arena,
	struct diags *diags);

/* The same of one file of a corpus. */
struct raw_corpus *
read_corpus_file(const struct corpus_file *file, struct sources *sources,
	struct arena *arena, struct diags *diags);

#endif
