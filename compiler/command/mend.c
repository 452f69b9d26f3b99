/*
 * Mends are applied to files as they are in memory, and the corpus is read
 * again over them, since one mend may bring another to light. Only what comes
 * out at the end is written.
 */
#include "command/mend.h"

#include <stdio.h>
#include <string.h>

#include "base/difference.h"
#include "base/replace.h"
#include "diag/mends.h"

/* More rounds than any mistake is deep; a pair of mends might go in circles. */
enum { MOST_ROUNDS = 10 };

/* A file that was mended: as it is on disk, and as it shall be. */
struct edit {
	GBytes *old;
	GBytes *new;
};

static void
edit_free(gpointer data)
{
	struct edit *edit = data;

	g_bytes_unref(edit->old);
	g_bytes_unref(edit->new);
	g_free(edit);
}

static struct bytes
bytes_in(GBytes *held)
{
	struct bytes bytes;

	bytes.bytes = g_bytes_get_data(held, &bytes.size);
	return bytes;
}

/* Takes a round's files over into the edits, by path. */
static void
keep(GTree *edits, const struct run *run, const struct mends *mends)
{
	guint i;

	for (i = 0; i < mends->files->len; i++) {
		const struct mended *mended = &g_array_index(mends->files,
			struct mended, i);
		const struct source *source;
		struct edit *edit, *earlier;

		source = sources_get(run->sources, mended->file);
		earlier = g_tree_lookup(edits, source->path);
		edit = g_new0(struct edit, 1);
		edit->old = earlier != NULL ? g_bytes_ref(earlier->old) :
			g_bytes_new(source->bytes, source->size);
		edit->new = g_bytes_new(mended->bytes->str,
			mended->bytes->len);
		g_tree_replace(edits, g_strdup(source->path), edit);
	}
}

static gboolean
edit_source(gpointer path, gpointer data, gpointer sources)
{
	struct bytes new = bytes_in(((struct edit *)data)->new);

	sources_edit(sources, path, new.bytes, new.size);
	return FALSE;
}

static struct run *
run_over(const struct options *options, GTree *edits)
{
	struct run *run = run_new();

	g_tree_foreach(edits, edit_source, run->sources);
	run_stages(run, options);
	diags_sort(run->diags);
	return run;
}

/* What becomes of the edits when all rounds are over. */
struct outcome {
	unsigned mends;
	unsigned files;
	bool failed;
};

static gboolean
show_edit(gpointer path, gpointer data, gpointer user)
{
	const struct edit *edit = data;
	struct outcome *outcome = user;

	if (difference_print(path, bytes_in(edit->old), bytes_in(edit->new),
		stdout))
		outcome->files++;
	return FALSE;
}

static gboolean
write_edit(gpointer path, gpointer data, gpointer user)
{
	const struct edit *edit = data;
	struct outcome *outcome = user;
	char *why = NULL;

	if (g_bytes_equal(edit->old, edit->new))
		return FALSE;
	if (replace_file(path, bytes_in(edit->old), bytes_in(edit->new),
		&why)) {
		outcome->files++;
		return FALSE;
	}
	fprintf(stderr, "hangtab: \"%s\" cannot be mended: %s\n",
		(const char *)path, why);
	g_free(why);
	outcome->failed = true;
	return FALSE;
}

static void
say(const struct outcome *outcome, bool diff)
{
	fprintf(stderr, "%u mend%s in %u file%s%s\n", outcome->mends,
		outcome->mends == 1 ? "" : "s", outcome->files,
		outcome->files == 1 ? "" : "s",
		diff ? ", not written" : "");
}

static int
compare_paths(gconstpointer a, gconstpointer b, gpointer data)
{
	(void)data;
	return strcmp(a, b);
}

int
mend_corpus(const struct options *options, struct mending mending,
	struct run **run)
{
	GTree *edits = g_tree_new_full(compare_paths, NULL, g_free, edit_free);
	struct outcome outcome = {0, 0, false};
	bool more = true;
	int round;

	*run = run_over(options, edits);
	for (round = 0; round < MOST_ROUNDS && more; round++) {
		struct mends mends = mends_apply((*run)->diags, mending.least,
			options->corpus);

		more = mends.applied > 0;
		outcome.mends += mends.applied;
		keep(edits, *run, &mends);
		mends_free(&mends);
		if (more) {
			run_end(*run);
			*run = run_over(options, edits);
		}
	}
	g_tree_foreach(edits, mending.diff ? show_edit : write_edit, &outcome);
	g_tree_destroy(edits);
	say(&outcome, mending.diff);
	if (mending.diff || outcome.failed) {
		run_end(*run);
		*run = run_begin(options);
	}
	return outcome.failed ? EXIT_SYSTEM : EXIT_DONE;
}
