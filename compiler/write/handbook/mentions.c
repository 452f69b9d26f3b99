/*
 * A name is several words, and often stands more than once on a page.
 */
#include "write/handbook/mentions.h"

#include <string.h>

#include "write/handbook/slug.h"

void
mentions_init(struct mentions *mentions)
{
	mentions->all = g_array_new(FALSE, FALSE, sizeof(struct mention));
	mentions->labels = g_ptr_array_new_with_free_func(g_free);
}

void
mentions_release(struct mentions *mentions)
{
	g_array_free(mentions->all, TRUE);
	g_ptr_array_free(mentions->labels, TRUE);
}

/* Those of the page at hand stand at the end. */
static bool
is_known(const struct mentions *mentions, const struct record *about,
	uint32_t page)
{
	const struct mention *mention;
	guint i;

	for (i = mentions->all->len; i > 0; i--) {
		mention = &g_array_index(mentions->all, struct mention, i - 1);
		if (mention->page != page)
			return false;
		if (mention->about == about)
			return true;
	}
	return false;
}

void
mentions_add(struct mentions *mentions, const struct slug *slug, uint32_t page)
{
	const struct record *last = NULL;
	struct mention mention = {NULL, page};
	uint32_t i;

	for (i = 0; i < slug->piece_count; i++) {
		mention.about = slug->pieces[i].about;
		if (mention.about == NULL || mention.about == last)
			continue;
		last = mention.about;
		if (!is_known(mentions, mention.about, page))
			g_array_append_val(mentions->all, mention);
	}
}

bool
mentions_equal(const struct mentions *one, const struct mentions *two)
{
	guint i;

	if (one->all->len != two->all->len ||
		one->labels->len != two->labels->len)
		return false;
	for (i = 0; i < one->labels->len; i++) {
		if (strcmp(one->labels->pdata[i], two->labels->pdata[i]) != 0)
			return false;
	}
	for (i = 0; i < one->all->len; i++) {
		const struct mention *left = &g_array_index(one->all,
			struct mention, i);
		const struct mention *right = &g_array_index(two->all,
			struct mention, i);

		if (left->about != right->about || left->page != right->page)
			return false;
	}
	return true;
}
