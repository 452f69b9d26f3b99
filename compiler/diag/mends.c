/*
 * Mends are edits of bytes. Those accepted so far are kept in a tree by place,
 * so that a new one is held against its two neighbours alone.
 */
#include "diag/mends.h"

#include <string.h>

#include "diag/collect.h"

struct applying {
	const struct sources *sources;
	const char *folder;
	enum confidence least;
	GTree *edits;		/* struct diag_mend by place */
};

static int
compare_places(gconstpointer a, gconstpointer b, gpointer data)
{
	const struct span *left = a, *right = b;

	(void)data;
	if (left->file != right->file)
		return left->file < right->file ? -1 : 1;
	if (left->from != right->from)
		return left->from < right->from ? -1 : 1;
	return 0;
}

static bool
is_within(const struct applying *applying, struct span span)
{
	const struct source *source = sources_get(applying->sources,
		span.file);
	size_t size = strlen(applying->folder);

	while (size > 1 && applying->folder[size - 1] == '/')
		size--;
	if (source == NULL || span.from > span.to || span.to > source->size ||
		strncmp(source->path, applying->folder, size) != 0)
		return false;
	return source->path[size] == '\0' || source->path[size] == '/' ||
		applying->folder[size - 1] == '/';
}

static bool
is_same(const struct diag_mend *a, const struct diag_mend *b)
{
	return a->span.file == b->span.file && a->span.from == b->span.from &&
		a->span.to == b->span.to && strcmp(a->text, b->text) == 0;
}

/* Whether an accepted edit, other than the very same, is in the way. */
static bool
overlaps(const struct applying *applying, const struct diag_mend *mend)
{
	GTreeNode *next = g_tree_lower_bound(applying->edits, &mend->span);
	GTreeNode *before = next == NULL ? g_tree_node_last(applying->edits) :
		g_tree_node_previous(next);
	const struct diag_mend *edit;

	if (next != NULL) {
		edit = g_tree_node_value(next);
		if (edit->span.file == mend->span.file &&
			!is_same(edit, mend) &&
			(edit->span.from < mend->span.to ||
			edit->span.from == mend->span.from))
			return true;
	}
	if (before == NULL)
		return false;
	edit = g_tree_node_value(before);
	return edit->span.file == mend->span.file &&
		edit->span.to > mend->span.from;
}

/* Accepts the mends of a message: all of them, or none. */
static void
take(struct applying *applying, const struct diag *diag, struct mends *mends)
{
	bool good = true;
	guint i;

	for (i = 0; i < diag->mends->len; i++) {
		const struct diag_mend *mend;

		mend = &g_array_index(diag->mends, struct diag_mend, i);
		if (mend->confidence > applying->least ||
			!is_within(applying, mend->span))
			return;
		good = good && !overlaps(applying, mend);
	}
	if (!good) {
		mends->refused++;
		return;
	}
	mends->applied++;
	for (i = 0; i < diag->mends->len; i++) {
		struct diag_mend *mend;

		mend = &g_array_index(diag->mends, struct diag_mend, i);
		g_tree_insert(applying->edits, &mend->span, mend);
	}
}

/* The files with their edits, in order of place. */
static void
build_files(const struct applying *applying, struct mends *mends)
{
	struct mended *open = NULL;
	const struct source *source = NULL;
	uint32_t at = 0;
	GTreeNode *node;

	for (node = g_tree_node_first(applying->edits); node != NULL;
		node = g_tree_node_next(node)) {
		const struct diag_mend *edit = g_tree_node_value(node);

		if (open == NULL || open->file != edit->span.file) {
			struct mended mended = {edit->span.file,
				g_string_new(NULL)};

			if (open != NULL)
				g_string_append_len(open->bytes,
					source->bytes + at, source->size - at);
			g_array_append_val(mends->files, mended);
			open = &g_array_index(mends->files, struct mended,
				mends->files->len - 1);
			source = sources_get(applying->sources, open->file);
			at = 0;
		}
		g_string_append_len(open->bytes, source->bytes + at,
			edit->span.from - at);
		g_string_append(open->bytes, edit->text);
		at = edit->span.to;
	}
	if (open != NULL)
		g_string_append_len(open->bytes, source->bytes + at,
			source->size - at);
}

struct mends
mends_apply(const struct diags *diags, enum confidence least,
	const char *folder)
{
	struct mends mends = {
		.files = g_array_new(FALSE, TRUE, sizeof(struct mended)),
	};
	struct applying applying = {
		.sources = diags->sources,
		.folder = folder,
		.least = least,
		.edits = g_tree_new_full(compare_places, NULL, NULL, NULL),
	};
	guint i;

	for (i = 0; i < diags->items->len; i++) {
		const struct diag *diag = g_ptr_array_index(diags->items, i);

		if (diag->mends != NULL)
			take(&applying, diag, &mends);
	}
	build_files(&applying, &mends);
	g_tree_destroy(applying.edits);
	return mends;
}

void
mends_free(struct mends *mends)
{
	guint i;

	for (i = 0; i < mends->files->len; i++)
		g_string_free(g_array_index(mends->files, struct mended,
			i).bytes, TRUE);
	g_array_free(mends->files, TRUE);
}
