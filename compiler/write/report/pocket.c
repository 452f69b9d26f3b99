/*
 * One file for the phone: the answer, what to look for with the hardest first,
 * what is held, and the pages of the guide that one needs at a table.
 */
#include "base/sort.h"
#include "write/report/inside.h"

/* Adds a record once. */
static void
add(struct record_list *list, GHashTable *known, unsigned most,
	const struct record *record)
{
	if (record == NULL || !record->kind->page || list->count >= most ||
		!g_hash_table_add(known, (gpointer)(uintptr_t)record))
		return;
	list->items[list->count++] = record;
}

/* The pairing that all a piece may be is of, or NULL. */
static const struct record *
pairing_of(const struct report *report, const struct piece *piece)
{
	const struct record *found = NULL;
	unsigned i, j;

	for (i = 0; i < piece->reading_count; i++)
		for (j = 0; j < piece->readings[i].count; j++) {
			const struct record *one = report->pieces->situations[
				piece->readings[i].items[j]].pairing;

			if (found != NULL && one != found)
				return NULL;
			found = one;
		}
	return found;
}

static int
compare_own(const void *a, const void *b)
{
	const struct own_want *one = a, *other = b;
	int order = rarity_compare(&one->rarity, &other->rarity);

	if (order != 0)
		return order;
	return one->want < other->want ? -1 : one->want > other->want;
}

const struct own_want *
report_own_wants(const struct report *report, unsigned *count)
{
	struct own_want *wants = arena_array(report->arena, struct own_want,
		report->pieces->count);
	unsigned i;

	*count = 0;
	for (i = 0; i < report->pieces->count; i++) {
		const struct piece *piece = &report->pieces->items[i];
		struct own_want *want = &wants[*count];

		if (piece->use != PIECE_WANTED)
			continue;
		want->want = piece->record;
		want->record = pairing_of(report, piece);
		if (want->record != NULL)
			want->rarity = rarity_of(report->rarities,
				want->record, NULL);
		(*count)++;
	}
	sort_items(wants, *count, sizeof(*wants), compare_own);
	return wants;
}

/* The page of what is looked for, and of the parts that set it apart. */
struct record_list
report_folded(const struct report *report, unsigned most)
{
	struct record_list list = {arena_array(report->arena,
		const struct record *, most), 0};
	GHashTable *known = g_hash_table_new(NULL, NULL);
	unsigned count, own_count, i;
	const struct wanted *wanted = report_wanted(report, &count);
	const struct own_want *own = report_own_wants(report, &own_count);

	for (i = 0; i < own_count; i++)
		add(&list, known, most, own[i].record);
	for (i = 0; i < count; i++)
		add(&list, known, most, wanted[i].look->record);
	for (i = 0; i < count; i++) {
		const struct value *item = wanted[i].look->item;

		if (item == NULL)
			continue;
		add(&list, known, most, model_record(report->model,
			item->group, NAME(COMBINATION_VARIANT)));
		add(&list, known, most, model_record(report->model,
			item->group, NAME(COMBINATION_BLISTER)));
	}
	g_hash_table_destroy(known);
	return list;
}

/* A name that leads to the page folded in, if it is. */
static void
put_name(GHashTable *folded, const struct record *record, const char *name,
	GString *out)
{
	if (record != NULL && g_hash_table_contains(folded, record))
		html_put(out, "<a href=\"#%s/%s\"><b>%s</b></a>",
			record->kind->name, record->id, name);
	else
		html_put(out, "<b>%s</b>", name);
}

static void
put_rarity(const struct report *report, const struct rarity *rarity,
	GString *out)
{
	const char *words = rarity_words(report->rarities, rarity,
		report->model, report->arena);

	if (words != NULL)
		html_put(out, " <small>%s</small>", words);
}

static void
put_look(const struct report *report, GHashTable *folded,
	const struct wanted *wanted, GString *out)
{
	g_string_append(out, "<li>");
	put_name(folded, wanted->look->record, wanted->look->name, out);
	if (wanted->gains > 1)
		html_put(out, " closes %u gaps", wanted->gains);
	put_rarity(report, &wanted->look->rarity, out);
	g_string_append(out, "</li>\n");
}

static void
put_wanted(const struct report *report, GHashTable *folded, GString *out)
{
	unsigned count, i;
	const struct wanted *wanted = report_wanted(report, &count);

	html_put(out, "<section>\n<h2 id=\"want\">To look for <span class=\""
		"count\">%u</span></h2>\n", count);
	if (count == 0)
		g_string_append(out, "<p>Nothing: no gap is open.</p>\n");
	else
		g_string_append(out, "<p class=\"note\">The hardest first. "
			"Together they close every gap of the runs you have "
			"begun.</p>\n<ol class=\"todo\">\n");
	for (i = 0; i < count; i++)
		put_look(report, folded, &wanted[i], out);
	g_string_append(out, count == 0 ? "</section>\n" :
		"</ol>\n</section>\n");
}

/* What is on the collector's list, whether it closes anything or not. */
static void
put_own_wants(const struct report *report, GHashTable *folded, GString *out)
{
	unsigned count, i;
	const struct own_want *wants = report_own_wants(report, &count);

	if (count == 0)
		return;
	html_put(out, "<section>\n<h2 id=\"own\">On your own list <span "
		"class=\"count\">%u</span></h2>\n<ul class=\"todo\">\n",
		count);
	for (i = 0; i < count; i++) {
		g_string_append(out, "<li>");
		put_name(folded, wants[i].record, wants[i].want->name, out);
		put_rarity(report, &wants[i].rarity, out);
		g_string_append(out, "</li>\n");
	}
	g_string_append(out, "</ul>\n</section>\n");
}

static void
put_held(const struct report *report, GString *out)
{
	unsigned i;

	g_string_append(out, "<section>\n<h2 id=\"held\">What you hold</h2>\n");
	for (i = 0; i < report->count; i++) {
		const struct filling *filling = report->fillings[i];

		if (!report_is_begun(filling))
			continue;
		html_put(out, "<h3 id=\"run/%s\">%s <small>%u of %u</small>"
			"</h3>\n", filling->aim->id, filling->aim->name,
			filling->held, filling->held + filling->possible +
			filling->missing);
		report_slots(report, filling, 4, out);
	}
	g_string_append(out, "</section>\n");
}

void
report_pocket(const struct report *report, struct record_list list,
	const char *folded, GString *out)
{
	GHashTable *inside = g_hash_table_new(NULL, NULL);
	unsigned i;

	for (i = 0; i < list.count; i++)
		g_hash_table_add(inside, (gpointer)(uintptr_t)list.items[i]);
	report_begin(report, "My pieces, in the pocket", out);
	g_string_append(out, "<header class=\"card\">\n<p class=\"kind\">for "
		"the pocket</p>\n<h1>My pieces</h1>\n");
	report_answer(report, out);
	g_string_append(out, "<p class=\"jump\"><a href=\"#want\">To look for"
		"</a> <a href=\"#held\">What you hold</a> <a href=\"#again\">"
		"Look again</a> <a href=\"#pages\">From the guide</a></p>\n"
		"</header>\n");
	put_own_wants(report, inside, out);
	put_wanted(report, inside, out);
	report_runs(report, "#run/", "", out);
	put_held(report, out);
	report_again(report, out);
	html_put(out, "<section id=\"pages\">\n<h2>From the guide</h2>\n"
		"<p class=\"note\">Of %s, what you need for the %u hardest, as "
		"it was when this was made. Anyone may read these; the rest of "
		"this file is yours.</p>\n", model_title(report->model),
		list.count);
	g_string_append(out, folded);
	g_string_append(out, "</section>\n<p class=\"jump up\"><a href=\""
		"#want\">To look for</a></p>\n");
	report_end(out);
	g_hash_table_destroy(inside);
}
