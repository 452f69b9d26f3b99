/*
 * Which files make up a corpus: what schema/README.md says of its folders. The
 * files are found here and read by corpus.c.
 */
#ifndef READ_FILES_H
#define READ_FILES_H

#include <stdbool.h>
#include <stddef.h>

#include "base/arena.h"
#include "diag/diag.h"

struct corpus_file {
	const char *path;
	const char *kind;	/* the folder's name; NULL at the top */
};

struct corpus_files {
	struct corpus_file *items;
	size_t count;
	bool incomplete;	/* a folder could not be read */
	const char **tables;	/* spreadsheets, which are no part of it */
	size_t table_count;
	struct corpus_file *strays;	/* below a kind's folder, not read */
	size_t stray_count;
};

/*
 * The files of the corpus in the folder `path`, in byte order of their paths,
 * part by part. Hidden files, files that are neither YAML nor essays, `past`,
 * and folders with a corpus.yaml of their own (other corpora) are passed by.
 * Of the files passed by, those below a folder of the corpus are listed, but
 * for what editors and systems leave behind, and READMEs.
 * A folder that cannot be read is reported, and so is a link that leads back
 * to a folder around it.
 */
struct corpus_files
corpus_files(const char *path, struct arena *arena, struct diags *diags);

/*
 * The place in its corpus of a file named by itself. That corpus is the
 * nearest folder around it that holds a corpus.yaml, or else `corpus`; outside
 * of both, a file is one of several kinds.
 */
struct corpus_file
corpus_file_at(const char *path, const char *corpus, struct arena *arena);

/* The files below a folder named by itself, as of a file. */
struct corpus_files
corpus_files_in(const char *path, const char *corpus, struct arena *arena,
	struct diags *diags);

/* By its name: a file of the corpus's settings, records, or an essay. */
bool
corpus_file_is_settings(const struct corpus_file *file);
bool
corpus_file_is_essay(const struct corpus_file *file);

/* By its name: a spreadsheet saved as text, .csv or .tsv. */
bool
file_is_table(const char *path);

#endif
