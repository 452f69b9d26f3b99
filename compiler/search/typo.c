/*
 * The rule for misspellings. Letters are counted in characters, edits in bytes
 * as shape/nearest.h does, so that a letter that is no ASCII may take two.
 */
#include "search/typo.h"

#include <glib.h>
#include <string.h>

#include "search/tokens.h"
#include "shape/nearest.h"

enum { LEAST_LETTERS = 3, LETTERS_FOR_TWO = 6 };

int
search_typo_limit(const char *token)
{
	glong letters = g_utf8_strlen(token, -1);

	if (g_ascii_isdigit(*token) || letters < LEAST_LETTERS)
		return 0;
	return letters < LETTERS_FOR_TWO ? 1 : 2;
}

bool
search_typo_may_be(const char *term)
{
	GString *plain;
	bool same;

	if (g_ascii_isdigit(*term))
		return false;
	if (g_str_is_ascii(term))
		return true;
	/* What is asked for is asked for in plain form alone. */
	plain = g_string_new(NULL);
	search_append_folded(plain, term);
	same = strcmp(plain->str, term) == 0;
	g_string_free(plain, TRUE);
	return same;
}

struct typo
search_typo_begin(const char *token)
{
	int limit = search_typo_limit(token);

	return (struct typo){
		.token = token,
		.limit = limit,
		.distance = limit + 1,
	};
}

bool
search_typo_offer(struct typo *typo, const char *term, int64_t records)
{
	int distance;

	if (typo->limit == 0 || !search_typo_may_be(term))
		return false;
	distance = nearest_distance(typo->token, term, typo->limit);
	if (distance > typo->limit || distance > typo->distance)
		return false;
	if (distance == typo->distance && (records < typo->records ||
		(records == typo->records && strcmp(term, typo->best) >= 0)))
		return false;
	typo->best = term;
	typo->distance = distance;
	typo->records = records;
	return true;
}
