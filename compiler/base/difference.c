/*
 * Lines compared by E. Myers, "An O(ND) Difference Algorithm and Its
 * Variations" (1986). What both texts begin and end with is set aside first;
 * where more lines differ than a person would read, the middle is replaced as
 * a whole.
 */
#include "base/difference.h"

#include <glib.h>
#include <string.h>

enum { AROUND = 3, MOST_EDITS = 2000 };

struct lines {
	struct bytes *items;
	int count;
};

/* Both texts, and which of their lines the other does not have. */
struct comparing {
	struct lines old;
	struct lines new;
	bool *gone;
	bool *came;
};

static struct lines
split(struct bytes text)
{
	GArray *items = g_array_new(FALSE, FALSE, sizeof(struct bytes));
	const char *at = text.bytes, *end = text.bytes + text.size;
	struct lines lines;

	while (at < end) {
		const char *stop = memchr(at, '\n', (size_t)(end - at));
		struct bytes line = {at, 0};

		stop = stop == NULL ? end : stop + 1;
		line.size = (size_t)(stop - at);
		g_array_append_val(items, line);
		at = stop;
	}
	lines.count = (int)items->len;
	lines.items = (struct bytes *)(void *)g_array_free(items, FALSE);
	return lines;
}

static bool
same(const struct comparing *both, int old, int new)
{
	const struct bytes *a = &both->old.items[old];
	const struct bytes *b = &both->new.items[new];

	return a->size == b->size && memcmp(a->bytes, b->bytes, a->size) == 0;
}

/* Walks the kept rows of the search back, marking the edits. */
static void
mark_edits(struct comparing *both, GPtrArray *rows, int skip, int x, int y)
{
	int d;

	for (d = (int)rows->len - 1; d > 0; d--) {
		const int *row = (const int *)g_ptr_array_index(rows, d - 1) +
			d;
		int k = x - y;
		bool down = k == -d || (k != d && row[k - 1] < row[k + 1]);
		int before = down ? k + 1 : k - 1;

		x = row[before];
		y = x - before;
		if (down)
			both->came[skip + y] = true;
		else
			both->gone[skip + x] = true;
	}
}

/* One more edit: how far each diagonal now reaches. True once at the end. */
static bool
search_row(const struct comparing *both, int *far, int d, int skip, int m,
	int n)
{
	int k;

	for (k = -d; k <= d; k += 2) {
		bool down = k == -d || (k != d && far[k - 1] < far[k + 1]);
		int x = down ? far[k + 1] : far[k - 1] + 1;
		int y = x - k;

		while (x < m && y < n && same(both, skip + x, skip + y)) {
			x++;
			y++;
		}
		far[k] = x;
		if (x >= m && y >= n)
			return true;
	}
	return false;
}

/* Marks the shortest edits between `m` old and `n` new lines after `skip`. */
static void
find_edits(struct comparing *both, int skip, int m, int n)
{
	int most = MIN(m + n, MOST_EDITS), d, size = 2 * most + 3;
	int *far = g_new0(int, size), *middle = far + most + 1;
	GPtrArray *rows = g_ptr_array_new_with_free_func(g_free);
	bool found = false;

	for (d = 0; d <= most && !found; d++) {
		found = search_row(both, middle, d, skip, m, n);
		/* The row of d edits, from diagonal -(d + 1) to d + 1. */
		g_ptr_array_add(rows, g_memdup2(middle - d - 1,
			sizeof(int) * (size_t)(2 * d + 3)));
	}
	if (found)
		mark_edits(both, rows, skip, m, n);
	for (d = 0; !found && d < m; d++)
		both->gone[skip + d] = true;
	for (d = 0; !found && d < n; d++)
		both->came[skip + d] = true;
	g_ptr_array_free(rows, TRUE);
	g_free(far);
}

static void
compare(struct comparing *both)
{
	int m = both->old.count, n = both->new.count, skip = 0;

	while (skip < m && skip < n && same(both, skip, skip))
		skip++;
	while (m > skip && n > skip && same(both, m - 1, n - 1)) {
		m--;
		n--;
	}
	find_edits(both, skip, m - skip, n - skip);
}

static void
print_line(char sign, struct bytes line, FILE *stream)
{
	fputc(sign, stream);
	fwrite(line.bytes, 1, line.size, stream);
	if (line.bytes[line.size - 1] != '\n')
		fputs("\n\\ No newline at end of file\n", stream);
}

/* Where a hunk begins and ends in both texts. */
struct hunk {
	int old, old_end;
	int new, new_end;
};

static void
print_range(char sign, int from, int to, FILE *stream)
{
	int count = to - from;

	/* An empty range is named by the line before it. */
	fprintf(stream, "%c%d", sign, count == 0 ? from : from + 1);
	if (count != 1)
		fprintf(stream, ",%d", count);
}

static void
print_hunk(const struct comparing *both, struct hunk hunk, FILE *stream)
{
	int i = hunk.old, j = hunk.new;

	fputs("@@ ", stream);
	print_range('-', hunk.old, hunk.old_end, stream);
	fputc(' ', stream);
	print_range('+', hunk.new, hunk.new_end, stream);
	fputs(" @@\n", stream);
	while (i < hunk.old_end || j < hunk.new_end) {
		if (i < hunk.old_end && both->gone[i])
			print_line('-', both->old.items[i++], stream);
		else if (j < hunk.new_end && both->came[j])
			print_line('+', both->new.items[j++], stream);
		else {
			print_line(' ', both->old.items[i++], stream);
			j++;
		}
	}
}

/* Passes lines that both have, up to `most`; returns how many. */
static int
pass_same(const struct comparing *both, int i, int j, int most)
{
	int count = 0;

	while (count < most && i + count < both->old.count &&
		j + count < both->new.count && !both->gone[i + count] &&
		!both->came[j + count])
		count++;
	return count;
}

/* The end of the hunk whose first change is at the hunk's beginning. */
static struct hunk
extend(const struct comparing *both, struct hunk hunk)
{
	int i = hunk.old_end, j = hunk.new_end, kept;

	for (;;) {
		while (i < both->old.count && both->gone[i])
			i++;
		while (j < both->new.count && both->came[j])
			j++;
		kept = pass_same(both, i, j, 2 * AROUND + 1);
		if (kept > 2 * AROUND || (i + kept >= both->old.count &&
			j + kept >= both->new.count))
			break;
		i += kept;
		j += kept;
	}
	kept = MIN(kept, AROUND);
	hunk.old_end = i + kept;
	hunk.new_end = j + kept;
	return hunk;
}

static void
print_hunks(const struct comparing *both, FILE *stream)
{
	struct hunk hunk;
	int i = 0, j = 0, lead;

	for (;;) {
		int kept = pass_same(both, i, j, both->old.count);

		i += kept;
		j += kept;
		if (i >= both->old.count && j >= both->new.count)
			return;
		lead = MIN(kept, AROUND);
		hunk = extend(both, (struct hunk){i - lead, i, j - lead, j});
		print_hunk(both, hunk, stream);
		i = hunk.old_end;
		j = hunk.new_end;
	}
}

/* A name that would break the line is written with escapes, as git does. */
static void
print_name(const char *sign, const char *side, const char *path, FILE *stream)
{
	const char *below = path + strspn(path, "/");
	char *escaped = g_strescape(below, NULL);
	const char *at = below;

	while (*at != '\0' && *at != '"' && *at != '\\' &&
		!g_ascii_iscntrl(*at))
		at++;
	if (*at == '\0')
		fprintf(stream, "%s %s/%s\n", sign, side, below);
	else
		fprintf(stream, "%s \"%s/%s\"\n", sign, side, escaped);
	g_free(escaped);
}

bool
difference_print(const char *path, struct bytes old, struct bytes new,
	FILE *stream)
{
	struct comparing both = {split(old), split(new), NULL, NULL};
	bool differs = old.size != new.size ||
		memcmp(old.bytes, new.bytes, old.size) != 0;

	both.gone = g_new0(bool, both.old.count + 1);
	both.came = g_new0(bool, both.new.count + 1);
	if (differs) {
		compare(&both);
		print_name("---", "a", path, stream);
		print_name("+++", "b", path, stream);
		print_hunks(&both, stream);
	}
	g_free(both.gone);
	g_free(both.came);
	g_free(both.old.items);
	g_free(both.new.items);
	return differs;
}
