/*
 * Edit distance over a band around the diagonal, so that offering a hundred
 * thousand ids to one misspelt reference stays cheap.
 */
#include "shape/nearest.h"

#include <glib.h>
#include <string.h>

enum { LONGEST = 120 };

int
nearest_distance(const char *a, const char *b, int limit)
{
	int rows[3][LONGEST + 2];
	int m = (int)strlen(a), n = (int)strlen(b), i, j;

	if (m > LONGEST || n > LONGEST || ABS(m - n) > limit)
		return strcmp(a, b) == 0 ? 0 : limit + 1;
	for (j = 0; j <= n; j++)
		rows[0][j] = j;
	for (i = 1; i <= m; i++) {
		int *row = rows[i % 3], *above = rows[(i + 2) % 3];
		int least = i;

		row[0] = i;
		for (j = 1; j <= n; j++) {
			int cost = a[i - 1] != b[j - 1];

			row[j] = MIN(above[j - 1] + cost,
				MIN(above[j], row[j - 1]) + 1);
			if (i > 1 && j > 1 && a[i - 1] == b[j - 2] &&
				a[i - 2] == b[j - 1])
				row[j] = MIN(row[j],
					rows[(i + 1) % 3][j - 2] + 1);
			least = MIN(least, row[j]);
		}
		if (least > limit)
			return limit + 1;
	}
	return MIN(rows[m % 3][n], limit + 1);
}

struct nearest
nearest_to(const char *wanted)
{
	size_t length = strlen(wanted);
	int limit = length <= 3 ? 1 : length <= 8 ? 2 : 3;

	/* A distance one past the limit loses against every near name. */
	return (struct nearest){.wanted = wanted, .distance = limit + 1};
}

/* Passes what may stand between words: no-break blanks are blanks too. */
static const char *
pass_separators(const char *at)
{
	for (;;) {
		if (*at == ' ' || *at == '-' || *at == '_' || *at == '\t')
			at++;
		else if (memcmp(at, "\xC2\xA0", *at == '\0' ? 1 : 2) == 0)
			at += 2;
		else
			return at;
	}
}

bool
nearest_alike(const char *a, const char *b)
{
	for (;;) {
		a = pass_separators(a);
		b = pass_separators(b);
		if (g_ascii_tolower(*a) != g_ascii_tolower(*b))
			return false;
		if (*a == '\0')
			return true;
		a++;
		b++;
	}
}

void
nearest_offer_title(struct nearest *nearest, const char *title,
	const char *name)
{
	if (!nearest_alike(nearest->wanted, title))
		return;
	if (nearest->alike != NULL && strcmp(nearest->alike, name) != 0)
		nearest->alike_twice = true;
	if (nearest->alike == NULL || strcmp(name, nearest->alike) < 0)
		nearest->alike = name;
}

void
nearest_offer(struct nearest *nearest, const char *name)
{
	int distance = nearest_distance(nearest->wanted, name,
		nearest->distance);
	const char *best = nearest->best;

	nearest_offer_title(nearest, name, name);
	if (distance < nearest->distance) {
		nearest->best = name;
		nearest->distance = distance;
		nearest->other = NULL;
	} else if (distance == nearest->distance && best != NULL &&
		strcmp(best, name) != 0) {
		bool first = strcmp(name, best) < 0;

		nearest->best = first ? name : best;
		if (first)
			name = best;
		if (nearest->other == NULL ||
			strcmp(name, nearest->other) < 0)
			nearest->other = name;
	}
}

const char *
nearest_found(const struct nearest *nearest, enum confidence *sure)
{
	if (nearest->alike != NULL) {
		*sure = nearest->alike_twice ? MEND_BLANK : MEND_SAFE;
		return nearest->alike;
	}
	*sure = nearest->other != NULL ? MEND_BLANK : MEND_PROBABLE;
	return nearest->best;
}

bool
nearest_suggest(const struct nearest *nearest, struct diag *diag,
	struct span span, const char *also)
{
	enum confidence sure;
	const char *found = nearest_found(nearest, &sure);

	if (found == NULL)
		return false;
	if (nearest->alike == NULL && nearest->other != NULL)
		diag_help(diag, "did you mean \"%s\" or \"%s\"?%s", found,
			nearest->other, also);
	else
		diag_help(diag, "did you mean \"%s\"?%s", found, also);
	if (sure != MEND_BLANK)
		diag_mend(diag, span, found, sure);
	return true;
}
