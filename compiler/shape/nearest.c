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
	return (struct nearest){wanted, NULL, limit + 1, false};
}

void
nearest_offer(struct nearest *nearest, const char *name)
{
	int distance = nearest_distance(nearest->wanted, name,
		nearest->distance);

	if (distance < nearest->distance) {
		nearest->best = name;
		nearest->distance = distance;
		nearest->tie = false;
	} else if (distance == nearest->distance && nearest->best != NULL &&
		strcmp(nearest->best, name) != 0) {
		nearest->tie = true;
		if (strcmp(name, nearest->best) < 0)
			nearest->best = name;
	}
}
