/*
 * One row through the matcher: its words are read, everything that it may be
 * is weighed, and the best is taken for what it is or not.
 */
#include "match/match.h"

#include <stdarg.h>
#include <string.h>

#include "search/tokens.h"
#include "match/matching.h"

static void
pass_token(void *data, const char *token)
{
	wording_pass(data, token);
}

/* The name of the line is in many rows and tells nothing. */
static void
pass_names(struct matcher *matcher)
{
	struct record_list list = model_records_of(matcher->model, "toyline");
	unsigned i;

	for (i = 0; i < list.count; i++)
		search_tokens(list.items[i]->name, pass_token,
			matcher->wording);
	search_tokens(model_title(matcher->model), pass_token,
		matcher->wording);
}

struct matcher *
matcher_new(const struct model *model, const struct record *scheme,
	struct arena *arena)
{
	struct matcher *matcher = g_new0(struct matcher, 1);

	matcher->model = model;
	matcher->scheme = scheme;
	matcher->arena = arena;
	matcher->features = features_gather(model, arena);
	matcher->wording = wording_new();
	matcher->lexicon = lexicon_new(model, matcher->wording);
	pass_names(matcher);
	matcher->labels = labels_new(model);
	matcher->places = g_new0(unsigned, lexicon_names(matcher->lexicon) +
		1);
	matcher->variants = g_hash_table_new_full(NULL, NULL, NULL,
		variants_free);
	return matcher;
}

void
matcher_free(struct matcher *matcher)
{
	lexicon_free(matcher->lexicon);
	wording_free(matcher->wording);
	labels_free(matcher->labels);
	g_hash_table_destroy(matcher->variants);
	g_free(matcher->places);
	g_free(matcher);
}

enum column_role
matcher_heading(const struct matcher *matcher, const char *heading,
	bool *known)
{
	return wording_heading(matcher->wording, heading, known);
}

static void
clear_candidate(gpointer data)
{
	struct match_candidate *candidate = data;

	if (candidate->situations != NULL)
		g_array_free(candidate->situations, TRUE);
}

/* Of many candidates the best are kept; the worst kept one makes room. */
struct match_candidate *
matched_add(struct matched *matched, const struct record *record,
	double confidence)
{
	struct match_candidate fresh = {record, confidence, NULL, NULL, false};
	GArray *list = matched->candidates;
	struct match_candidate *worst = NULL;
	guint i;

	for (i = 0; i < list->len; i++) {
		struct match_candidate *one = &g_array_index(list,
			struct match_candidate, i);

		if (one->record == record) {
			if (one->confidence >= confidence)
				return NULL;
			clear_candidate(one);
			*one = fresh;
			return one;
		}
		if (worst == NULL || one->confidence <= worst->confidence)
			worst = one;
	}
	if (list->len < MOST_CANDIDATES) {
		g_array_append_val(list, fresh);
		return &g_array_index(list, struct match_candidate,
			list->len - 1);
	}
	matched->others++;
	if (worst->confidence >= confidence)
		return NULL;
	clear_candidate(worst);
	*worst = fresh;
	return worst;
}

void
candidate_because(struct matched *matched, struct match_candidate *candidate,
	const char *format, ...)
{
	va_list args;
	char *text;

	va_start(args, format);
	text = g_strdup_vprintf(format, args);
	va_end(args);
	candidate->reason = candidate->reason == NULL ?
		arena_text(matched->arena, text, strlen(text)) :
		arena_print(matched->arena, "%s; %s", candidate->reason, text);
	g_free(text);
}

static gint
compare_candidates(gconstpointer left, gconstpointer right)
{
	const struct match_candidate *a = left, *b = right;

	if (a->confidence > b->confidence + 1e-12)
		return -1;
	if (b->confidence > a->confidence + 1e-12)
		return 1;
	if (a->record->kind != b->record->kind)
		return a->record->kind->index < b->record->kind->index ? -1 :
			1;
	return (a->record->index > b->record->index) -
		(a->record->index < b->record->index);
}

static const char *
form_word(const struct reading *reading)
{
	switch (reading->form) {
	case FORM_CARDED:
		return reading->cased ? "carded-cased" : "carded";
	case FORM_LOOSE:
		return reading->cased ? "loose-cased" : "loose";
	case FORM_BAGGED:
		return "bagged";
	case FORM_BOXED:
		return "boxed";
	case FORM_CARD_ONLY:
		return "card-only";
	case FORM_UNSAID:
		break;
	}
	return NULL;
}

/* Settled: sure enough, and nothing else comes near. */
static void
decide(struct matched *matched)
{
	const struct match_candidate *best, *next;
	enum { NEAR = 7 };	/* tenths of the best */

	g_array_sort(matched->candidates, compare_candidates);
	if (matched->candidates->len == 0) {
		matched->reason = "no word in it is known";
		return;
	}
	best = &g_array_index(matched->candidates, struct match_candidate, 0);
	next = matched->candidates->len == 1 ? NULL : best + 1;
	matched->reason = best->reason;
	if (best->confidence < MATCH_THRESHOLD || best->refuted)
		return;
	if (next != NULL && next->confidence > best->confidence * NEAR / 10) {
		matched->reason = "two fit nearly as well";
		return;
	}
	matched->state = MATCH_SETTLED;
}

static void
keep_parts(const struct reading *reading, struct matched *matched)
{
	guint i;

	matched->form = form_word(reading);
	if (reading->several)
		return;
	for (i = 0; i < reading->characters->len; i++)
		g_ptr_array_add(matched->characters,
			reading->characters->pdata[i]);
	for (i = 0; i < reading->named[NAMES_BLISTER]->len; i++) {
		const struct named *named = &g_array_index(
			reading->named[NAMES_BLISTER], struct named, i);

		if (named->cover < 0.99 || named->negated)
			continue;
		if (matched->blister != NULL) {
			matched->blister = NULL;
			break;
		}
		matched->blister = named->record;
	}
}

static void
begin(struct matched *matched, struct arena *arena)
{
	*matched = (struct matched){
		.candidates = g_array_new(FALSE, FALSE,
			sizeof(struct match_candidate)),
		.characters = g_ptr_array_new(),
		.cardbacks = g_ptr_array_new(),
		.not_cardbacks = g_ptr_array_new(),
		.arena = arena,
	};
	g_array_set_clear_func(matched->candidates, clear_candidate);
}

void
matched_release(struct matched *matched)
{
	g_array_free(matched->candidates, TRUE);
	g_ptr_array_free(matched->characters, TRUE);
	g_ptr_array_free(matched->cardbacks, TRUE);
	g_ptr_array_free(matched->not_cardbacks, TRUE);
}

static void
read_cells(struct reading *reading, struct matcher *matcher,
	const struct match_cell *cells, unsigned count, struct arena *arena)
{
	unsigned i;

	row_text_begin(&reading->text, arena);
	for (i = 0; i < count; i++)
		if (cells[i].role != COLUMN_PASSED)
			row_text_add(&reading->text, cells[i].text,
				cells[i].role);
	reading_begin(reading, matcher);
}

void
matcher_read(struct matcher *matcher, const struct match_cell *cells,
	unsigned count, struct arena *arena, struct matched *matched)
{
	struct reading *reading = g_new0(struct reading, 1);

	begin(matched, arena);
	read_cells(reading, matcher, cells, count, arena);
	weigh_pairings(matcher, reading, matched);
	weigh_variants(matcher, reading, matched);
	weigh_things(matcher, reading, matched);
	keep_parts(reading, matched);
	decide(matched);
	if (matched->state == MATCH_OPEN)
		matched_ask(matcher, reading, matched);
	reading_release(reading);
	g_free(reading);
}

bool
matcher_is_number(const struct matcher *matcher, const char *text)
{
	size_t size = strspn(text, "0123456789");

	return size > 0 && size < 4 && text[size + strspn(text + size, " ")]
		== '\0' && labels_of_number(matcher->labels, (unsigned)
		g_ascii_strtoull(text, NULL, 10)) != NULL;
}

bool
matcher_is_label(const struct matcher *matcher, const char *text)
{
	return labels_is_label(matcher->labels, text);
}

bool
matcher_knows(struct matcher *matcher, const struct match_cell *cells,
	unsigned count)
{
	struct reading *reading = g_new0(struct reading, 1);
	struct arena *arena = arena_new();
	bool knows;

	read_cells(reading, matcher, cells, count, arena);
	knows = (reading->characters->len > 0 &&
		reading->character_fit >= 0.75) || (reading->labels->len > 0 &&
		g_array_index(reading->labels, struct label_said, 0).letters !=
		NULL);
	reading_release(reading);
	g_free(reading);
	arena_free(arena);
	return knows;
}
