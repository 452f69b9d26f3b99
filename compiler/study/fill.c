/*
 * Pieces against slots. What every situation gives is found once; pieces that
 * may be the same things share the answer; a run then costs little more than
 * its hits.
 */
#include "study/fill.h"

#include <string.h>

#include "study/collect.h"
#include "study/states.h"

/* A slot that a piece may fill; surely, if all that it may be gives it. */
struct hit {
	unsigned slot;
	bool sure;
};

/* A claim before they are sorted to their slots. */
struct found {
	unsigned slot;
	struct claim claim;
};

struct filler {
	const struct pieces *pieces;
	const struct aim *aim;
	const struct slots *slots;
	GHashTable *by_key;	/* record or item → slot, from 1 */
	GArray *given;		/* unsigned: slots given by situations */
	unsigned *starts;	/* by situation, into `given` */
	GArray *hits;		/* struct hit: of sets, one after another */
	unsigned *set_from, *set_to;	/* by set, into `hits`, from 1 */
	unsigned *counts;	/* by slot: of the set at hand */
	unsigned *seen;		/* by slot: the last situation, from 1 */
	GArray *own;		/* struct hit: of the piece at hand */
	GArray *found;		/* struct found */
};

static unsigned
slot_of(const struct filler *filler, const struct record *record,
	const struct value *item)
{
	return GPOINTER_TO_UINT(g_hash_table_lookup(filler->by_key,
		item == NULL ? (gconstpointer)record : item));
}

static void
note_given(void *data, const struct situation *situation,
	const struct record *record, const struct value *item)
{
	struct filler *filler = data;
	unsigned slot = slot_of(filler, record, item);

	(void)situation;
	if (slot == 0)
		return;
	slot--;
	g_array_append_val(filler->given, slot);
}

static bool
is_given(const struct pieces *pieces, const struct aim *aim,
	const struct situation *situation)
{
	return (situation->anomaly == NULL || aim->anomalies) &&
		aim_selects(pieces->model, aim, situation);
}

static void
note_situations(struct filler *filler)
{
	const struct pieces *pieces = filler->pieces;
	unsigned i;

	filler->starts = g_new(unsigned, pieces->situation_count + 1);
	for (i = 0; i < pieces->situation_count; i++) {
		const struct situation *one = &pieces->situations[i];

		filler->starts[i] = filler->given->len;
		if (is_given(pieces, filler->aim, one))
			collect(pieces->model, filler->aim->what, one,
				note_given, filler);
	}
	filler->starts[i] = filler->given->len;
}

/* Counts one slot for a situation, once. */
static void
count_hit(struct filler *filler, unsigned slot, unsigned situation)
{
	struct hit hit = {slot, false};

	if (filler->seen[slot] == situation + 1 && filler->counts[slot] > 0)
		return;
	filler->seen[slot] = situation + 1;
	if (filler->counts[slot]++ == 0)
		g_array_append_val(filler->hits, hit);
}

/* Works out what the situations of a reading give together. */
static void
work_out(struct filler *filler, const struct reading *reading)
{
	unsigned from = filler->hits->len, i, j;

	for (i = 0; i < reading->count; i++) {
		unsigned place = reading->items[i];

		for (j = filler->starts[place]; j < filler->starts[place + 1];
			j++)
			count_hit(filler, g_array_index(filler->given,
				unsigned, j), place);
	}
	for (i = from; i < filler->hits->len; i++) {
		struct hit *hit = &g_array_index(filler->hits, struct hit, i);

		hit->sure = filler->counts[hit->slot] == reading->count;
		filler->counts[hit->slot] = 0;
	}
	filler->set_from[reading->set] = from + 1;
	filler->set_to[reading->set] = filler->hits->len + 1;
}

static void
add_own(struct filler *filler, unsigned slot, bool sure)
{
	struct hit hit = {slot, sure}, *known;
	unsigned i;

	for (i = 0; i < filler->own->len; i++) {
		known = &g_array_index(filler->own, struct hit, i);
		if (known->slot == slot) {
			known->sure = known->sure || sure;
			return;
		}
	}
	g_array_append_val(filler->own, hit);
}

/* The readings of a piece together; with several, the best of each slot. */
static void
hit_situations(struct filler *filler, const struct piece *piece)
{
	unsigned i, j, from, to;

	for (i = 0; i < piece->reading_count; i++) {
		const struct reading *reading = &piece->readings[i];

		if (filler->set_from[reading->set] == 0)
			work_out(filler, reading);
		from = filler->set_from[reading->set] - 1;
		to = filler->set_to[reading->set] - 1;
		if (piece->reading_count == 1 && to > from)
			g_array_append_vals(filler->own, &g_array_index(
				filler->hits, struct hit, from), to - from);
		else
			for (j = from; j < to; j++)
				add_own(filler, g_array_index(filler->hits,
					struct hit, j).slot, g_array_index(
					filler->hits, struct hit, j).sure);
	}
}

/* Accessories are filled by what lies with a piece, whatever the piece is. */
static void
hit_accessories(struct filler *filler, const struct piece *piece)
{
	const struct model *model = filler->pieces->model;
	const struct value *list = model_get(model, piece->record->values,
		NAME(HOLDING_ACCESSORIES));
	const struct record *accessory;
	const char *original;
	unsigned i, slot;

	for (i = 0; i < value_count(list); i++) {
		struct value *const *values = value_item(list, i)->group;

		accessory = model_record(model, values,
			NAME(HOLDING_ACCESSORY));
		original = model_word(model, values,
			NAME(HOLDING_ACCESSORY_ORIGINAL));
		slot = slot_of(filler, accessory, NULL);
		if (slot == 0)
			continue;
		if (original == NULL || strcmp(original, "original") == 0)
			add_own(filler, slot - 1, true);
		else if (strcmp(original, "doubtful") == 0)
			add_own(filler, slot - 1, false);
	}
}

/* Packages and preproduction pieces are what the piece says it is. */
static void
hit_whole(struct filler *filler, const struct piece *piece,
	enum field_name name)
{
	const struct value *identity = model_get(filler->pieces->model,
		piece->record->values, name);
	unsigned i, slot;

	if (identity == NULL || identity->identity.kind == IDENTITY_NOT)
		return;
	for (i = 0; i < identity->identity.count; i++) {
		slot = slot_of(filler, identity->identity.items[i].record,
			NULL);
		if (slot > 0)
			add_own(filler, slot - 1, identity->identity.kind ==
				IDENTITY_KNOWN);
	}
}

/* Puts the hits of one piece into `own`. */
static void
hit_piece(struct filler *filler, const struct piece *piece)
{
	g_array_set_size(filler->own, 0);
	if (piece->use != PIECE_HELD && piece->use != PIECE_COMING)
		return;
	if (filler->aim->what == COLLECT_ACCESSORY)
		hit_accessories(filler, piece);
	else if (filler->aim->what == COLLECT_PACKAGE)
		hit_whole(filler, piece, NAME(HOLDING_PACKAGE));
	else if (filler->aim->what == COLLECT_PREPRODUCTION)
		hit_whole(filler, piece, NAME(HOLDING_PREPRODUCTION));
	else
		hit_situations(filler, piece);
}

/* What a hit comes to; false where it comes to nothing. */
static bool
judge(const struct piece *piece, const struct hit *hit, enum truth truth,
	enum claim_kind *kind)
{
	if (truth == TRUTH_NO) {
		*kind = CLAIM_LACKS;
		return hit->sure && piece->use == PIECE_HELD;
	}
	*kind = hit->sure && truth == TRUTH_YES ? CLAIM_SURE : CLAIM_POSSIBLE;
	if (piece->use == PIECE_HELD)
		return true;
	if (*kind != CLAIM_SURE)
		return false;
	*kind = CLAIM_COMING;
	return true;
}

static void
hold_pieces(struct filler *filler, const char *style)
{
	struct found found;
	unsigned i, j;

	for (i = 0; i < filler->pieces->count; i++) {
		const struct piece *piece = &filler->pieces->items[i];
		enum truth truth;

		hit_piece(filler, piece);
		if (filler->own->len == 0)
			continue;
		truth = piece_meets(filler->pieces, filler->aim, piece,
			style).truth;
		for (j = 0; j < filler->own->len; j++) {
			const struct hit *hit = &g_array_index(filler->own,
				struct hit, j);

			found.slot = hit->slot;
			found.claim.piece = i;
			if (judge(piece, hit, truth, &found.claim.kind))
				g_array_append_val(filler->found, found);
		}
	}
}

/* The style of case that most pieces of the run are in; of ties the first. */
static const char *
find_style(struct filler *filler)
{
	GHashTable *counts = g_hash_table_new(g_str_hash, g_str_equal);
	const char *best = NULL;
	unsigned most = 0, count, i;

	for (i = 0; i < filler->pieces->count; i++) {
		const struct piece *piece = &filler->pieces->items[i];
		const char *style = piece->case_style;

		hit_piece(filler, piece);
		if (style == NULL || filler->own->len == 0 || piece_meets(
			filler->pieces, filler->aim, piece, style).truth ==
			TRUTH_NO)
			continue;
		count = GPOINTER_TO_UINT(g_hash_table_lookup(counts, style)) +
			1;
		g_hash_table_insert(counts, (gpointer)(uintptr_t)style,
			GUINT_TO_POINTER(count));
		if (count > most || (count == most && strcmp(style, best) <
			0)) {
			most = count;
			best = style;
		}
	}
	g_hash_table_destroy(counts);
	return best;
}

static void
count_slot(struct filling *filling, const struct filled_slot *slot)
{
	if (slot->slot->standing == SLOT_UNSURE) {
		filling->unsure++;
		return;
	}
	switch (slot->state) {
	case SLOT_MISSING:
		filling->missing++;
		break;
	case SLOT_POSSIBLE:
		filling->possible++;
		break;
	case SLOT_HELD:
		filling->held++;
		break;
	}
}

/* Sorts claims to their slots; their order, that of the pieces, stays. */
static void
sort_claims(const struct filler *filler, struct filling *filling,
	struct arena *arena)
{
	struct filled_slot *items = arena_array(arena, struct filled_slot,
		filler->slots->count);
	struct claim *claims = arena_array(arena, struct claim,
		filler->found->len);
	unsigned i, sum = 0;

	for (i = 0; i < filler->found->len; i++)
		items[g_array_index(filler->found, struct found, i).slot]
			.count++;
	for (i = 0; i < filler->slots->count; i++) {
		items[i].slot = &filler->slots->items[i];
		items[i].claims = claims + sum;
		sum += items[i].count;
		items[i].count = 0;
	}
	for (i = 0; i < filler->found->len; i++) {
		const struct found *found = &g_array_index(filler->found,
			struct found, i);
		struct filled_slot *slot = &items[found->slot];

		claims[slot->claims - claims + slot->count++] = found->claim;
		slot->sure += found->claim.kind == CLAIM_SURE;
		if (found->claim.kind == CLAIM_SURE)
			slot->state = SLOT_HELD;
		else if (found->claim.kind == CLAIM_POSSIBLE &&
			slot->state == SLOT_MISSING)
			slot->state = SLOT_POSSIBLE;
	}
	for (i = 0; i < filler->slots->count; i++)
		count_slot(filling, &items[i]);
	filling->items = items;
	filling->count = filler->slots->count;
}

static void
filler_init(struct filler *filler, const struct pieces *pieces,
	const struct aim *aim, const struct slots *slots)
{
	unsigned i;

	*filler = (struct filler){
		.pieces = pieces,
		.aim = aim,
		.slots = slots,
		.by_key = g_hash_table_new(NULL, NULL),
		.given = g_array_new(FALSE, FALSE, sizeof(unsigned)),
		.hits = g_array_new(FALSE, FALSE, sizeof(struct hit)),
		.set_from = g_new0(unsigned, pieces->set_count + 1),
		.set_to = g_new0(unsigned, pieces->set_count + 1),
		.counts = g_new0(unsigned, slots->count + 1),
		.seen = g_new0(unsigned, slots->count + 1),
		.own = g_array_new(FALSE, FALSE, sizeof(struct hit)),
		.found = g_array_new(FALSE, FALSE, sizeof(struct found)),
	};
	for (i = 0; i < slots->count; i++) {
		const struct slot *slot = &slots->items[i];

		g_hash_table_insert(filler->by_key, (gpointer)(uintptr_t)
			(slot->item == NULL ? (gconstpointer)slot->record :
			slot->item), GUINT_TO_POINTER(i + 1));
	}
}

static void
filler_release(struct filler *filler)
{
	g_hash_table_destroy(filler->by_key);
	g_array_free(filler->given, TRUE);
	g_array_free(filler->hits, TRUE);
	g_array_free(filler->own, TRUE);
	g_array_free(filler->found, TRUE);
	g_free(filler->starts);
	g_free(filler->set_from);
	g_free(filler->set_to);
	g_free(filler->counts);
	g_free(filler->seen);
}

struct filling *
study_fill(const struct pieces *pieces, const struct aim *aim,
	const struct slots *slots, struct arena *arena)
{
	struct filling *filling = arena_one(arena, struct filling);
	struct filler filler;

	filler_init(&filler, pieces, aim, slots);
	note_situations(&filler);
	filling->aim = aim;
	if (aim->same_case)
		filling->case_style = aim->case_style != NULL ?
			aim->case_style : find_style(&filler);
	hold_pieces(&filler, filling->case_style);
	sort_claims(&filler, filling, arena);
	filler_release(&filler);
	return filling;
}
