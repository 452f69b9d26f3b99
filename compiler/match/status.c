/*
 * A word only counts where a cell begins with it: "the one I wanted" is at
 * hand.
 */
#include "match/status.h"

#include <glib.h>
#include <string.h>

#include "search/tokens.h"
#include "shape/nearest.h"

static const struct {
	const char *words;	/* folded, with a blank after each */
	const char *status;
} phrases[] = {
	{"wanted ", "wanted"}, {"looking for ", "wanted"},
	{"wtb ", "wanted"}, {"gesucht ", "wanted"}, {"suche ", "wanted"},
	{"gezocht ", "wanted"}, {"zoek ", "wanted"},
	{"recherche ", "wanted"}, {"cherche ", "wanted"},
	{"sokes ", "wanted"}, {"soker ", "wanted"},
	{"watching ", "watching"}, {"watch list ", "watching"},
	{"bid on ", "bid"}, {"in transit ", "in-transit"},
	{"in the post ", "in-transit"}, {"on its way ", "in-transit"},
	{"on the way ", "in-transit"}, {"unterwegs ", "in-transit"},
	{"onderweg ", "in-transit"},
	{"sold ", "sold"}, {"verkauft ", "sold"}, {"verkocht ", "sold"},
	{"vendu ", "sold"}, {"sald ", "sold"},
};

static void
append(void *data, const char *token)
{
	search_append_folded(data, token);
	g_string_append_c(data, ' ');
}

/* The one word that people leave a letter out of most. */
static bool
is_nearly_wanted(const char *folded)
{
	size_t size = strcspn(folded, " ");
	char *first = g_strndup(folded, size);
	bool near = size > 4 && nearest_distance(first, "wanted", 1) <= 1;

	g_free(first);
	return near;
}

const char *
match_status(const char *cell)
{
	GString *folded = g_string_new(NULL);
	const char *status = NULL;
	size_t i;

	search_tokens(cell, append, folded);
	for (i = 0; status == NULL && i < G_N_ELEMENTS(phrases); i++)
		if (g_str_has_prefix(folded->str, phrases[i].words))
			status = phrases[i].status;
	if (status == NULL && is_nearly_wanted(folded->str))
		status = "wanted";
	g_string_free(folded, TRUE);
	return status;
}
