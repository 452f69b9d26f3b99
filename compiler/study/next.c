/*
 * Gaps become elements, and pieces that one could look for become sets of
 * them: each way a card can be, carded or loose; what stands for itself; and
 * what the collector wants, as far as it is settled what that is.
 */
#include "study/next.h"

#include <math.h>
#include <string.h>

#include "study/collect.h"
#include "study/states.h"

/*
 * The number of pieces comes first, being seen often second. One that was
 * never seen counts twice: another way to the same gaps is better.
 */
enum { PIECE_WEIGHT = 10000, MOST_WAIT = 400 };

enum sold { SOLD_CARDED, SOLD_LOOSE, SOLD_FORMS };

struct seeking {
	const struct pieces *pieces;
	const struct model *model;
	struct arena *arena;
	struct rarities *rarities;
	GArray *targets;	/* struct target */
	GHashTable *by_key;	/* of the filling at hand: record or item →
				   target, from 1 */
	GArray **closes[SOLD_FORMS];	/* by situation: targets; or NULL */
	GArray *found;		/* struct look_for */
	const struct filling *filling;
	GArray *into;
	bool *closable;		/* by target */
};

static bool
is_open(const struct filled_slot *slot)
{
	unsigned i;

	if (slot->state != SLOT_MISSING || slot->slot->standing != SLOT_SURE)
		return false;
	for (i = 0; i < slot->count; i++)
		if (slot->claims[i].kind == CLAIM_COMING)
			return false;
	return true;
}

static void
note_targets(struct seeking *seeking, unsigned at)
{
	unsigned i;

	g_hash_table_remove_all(seeking->by_key);
	for (i = 0; i < seeking->filling->count; i++) {
		const struct filled_slot *slot = &seeking->filling->items[i];
		struct target target = {.filling = at, .slot = i};

		if (!is_open(slot))
			continue;
		target.rarity = rarity_of(seeking->rarities,
			slot->slot->record, slot->slot->item);
		g_array_append_val(seeking->targets, target);
		g_hash_table_insert(seeking->by_key, (gpointer)(uintptr_t)
			(slot->slot->item == NULL ?
			(gconstpointer)slot->slot->record :
			slot->slot->item),
			GUINT_TO_POINTER(seeking->targets->len));
	}
}

static void
note_close(void *data, const struct situation *situation,
	const struct record *record, const struct value *item)
{
	struct seeking *seeking = data;
	unsigned target = GPOINTER_TO_UINT(g_hash_table_lookup(
		seeking->by_key, item == NULL ? (gconstpointer)record : item));
	unsigned i;

	(void)situation;
	if (target == 0)
		return;
	target--;
	for (i = seeking->into->len; i > 0; i--)
		if (g_array_index(seeking->into, unsigned, i - 1) == target)
			return;
	g_array_append_val(seeking->into, target);
}

/* Whether a piece sold so can fill slots of the aim. */
static bool
suits(const struct aim *aim, enum sold sold)
{
	if (sold == SOLD_LOOSE)
		return piece_can_be(aim, "loose") ||
			piece_can_be(aim, "loose-cased");
	return piece_can_be(aim, "carded") ||
		piece_can_be(aim, "carded-cased");
}

static void
note_closes(struct seeking *seeking)
{
	const struct situations *all = seeking->pieces->corpus;
	const struct aim *aim = seeking->filling->aim;
	unsigned i, sold;

	for (i = 0; i < all->count; i++) {
		const struct situation *one = &all->items[i];

		if (!study_is_settled(one->concluded) || (one->anomaly != NULL
			&& !aim->anomalies) || !aim_selects(seeking->model,
			aim, one))
			continue;
		for (sold = 0; sold < SOLD_FORMS; sold++) {
			GArray **into = &seeking->closes[sold][i];

			if (!suits(aim, sold))
				continue;
			if (*into == NULL)
				*into = g_array_new(FALSE, FALSE,
					sizeof(unsigned));
			seeking->into = *into;
			collect(seeking->model, aim->what, one, note_close,
				seeking);
		}
	}
}

/* A variant or front without the character that begins its name. */
static const char *
short_name(const struct record *record, const struct record *character)
{
	size_t size = character == NULL ? 0 : strlen(character->name);

	if (size > 0 && strncmp(record->name, character->name, size) == 0 &&
		strncmp(record->name + size, ", ", 2) == 0)
		return record->name + size + 2;
	return record->name;
}

/* Whether situations side by side differ in a part at `offset`. */
static bool
differs(const struct situation *items, unsigned count, size_t offset)
{
	unsigned i;

	for (i = 1; i < count; i++)
		if (memcmp((const char *)&items[i] + offset,
			(const char *)&items[0] + offset,
			sizeof(const struct record *)) != 0)
			return true;
	return false;
}

static void
append_part(GString *out, const char *name)
{
	g_string_append_printf(out, "%s%s", strchr(out->str, ':') == NULL ?
		": " : ", ", name);
}

/* A combination by the parts that set it apart from others of its pairing. */
static const char *
name_carded(struct seeking *seeking, const struct situation *one,
	const struct situation *of, unsigned count)
{
	GString *out = g_string_new(one->pairing->name);
	const char *done;

	if (one->variant != NULL && differs(of, count,
		offsetof(struct situation, variant)))
		append_part(out, short_name(one->variant, one->character));
	if (one->blister != NULL && differs(of, count,
		offsetof(struct situation, blister)))
		append_part(out, one->blister->name);
	if (one->front != NULL && differs(of, count,
		offsetof(struct situation, front)))
		append_part(out, short_name(one->front, one->character));
	if (one->sticker != NULL && differs(of, count,
		offsetof(struct situation, sticker)))
		append_part(out, one->sticker->name);
	if (one->anomaly != NULL)
		append_part(out, one->anomaly->name);
	done = arena_text(seeking->arena, out->str, out->len);
	g_string_free(out, TRUE);
	return done;
}

static bool
needs_accessories(const struct seeking *seeking, const GArray *targets,
	struct filling *const *fillings)
{
	unsigned i;

	for (i = 0; i < targets->len; i++) {
		unsigned at = g_array_index(targets, unsigned, i);

		if (fillings[g_array_index(seeking->targets, struct target,
			at).filling]->aim->what == COLLECT_ACCESSORY)
			return true;
	}
	return false;
}

static bool
same_targets(const GArray *a, const GArray *b)
{
	return a->len == b->len && (a->len == 0 || memcmp(a->data, b->data,
		sizeof(unsigned) * a->len) == 0);
}

static void
add_look(struct seeking *seeking, struct look_for *look, const GArray *targets)
{
	unsigned *items = arena_array(seeking->arena, unsigned, targets->len);
	unsigned i;

	if (targets->len > 0)
		memcpy(items, targets->data, sizeof(*items) * targets->len);
	look->targets = items;
	look->count = targets->len;
	if (look->want == NULL) {
		look->price = -1;
		g_array_append_val(seeking->found, *look);
	}
	for (i = 0; look->want == NULL && i < look->count; i++)
		seeking->closable[items[i]] = true;
}

/* How many combinations of the pairing, from `at` on, close just the same. */
static bool
is_first_alike(GArray *const *closes, unsigned from, unsigned at)
{
	unsigned i;

	for (i = from; i < at; i++)
		if (closes[i] != NULL && same_targets(closes[i], closes[at]))
			return false;
	return true;
}

static bool
all_alike(GArray *const *closes, unsigned from, unsigned to)
{
	unsigned i;

	for (i = from + 1; i < to; i++)
		if (closes[i] == NULL || closes[from] == NULL ||
			!same_targets(closes[i], closes[from]))
			return false;
	return true;
}

/* Carded pieces of one pairing that close different gaps. */
static void
look_carded(struct seeking *seeking, const struct record *pairing)
{
	const struct situations *all = seeking->pieces->corpus;
	GArray *const *closes = seeking->closes[SOLD_CARDED];
	unsigned from = all->first[pairing->index];
	unsigned to = all->first[pairing->index + 1], i;
	bool alike = all_alike(closes, from, to);

	for (i = from; i < to; i++) {
		struct look_for look = {.record = pairing};

		if (closes[i] == NULL || closes[i]->len == 0 ||
			!is_first_alike(closes, from, i))
			continue;
		look.item = alike ? NULL : all->items[i].item;
		look.name = alike ? pairing->name : name_carded(seeking,
			&all->items[i], &all->items[from], to - from);
		look.rarity = rarity_of(seeking->rarities, pairing,
			look.item);
		add_look(seeking, &look, closes[i]);
	}
}

/* Loose figures: what closes the same, of one character and variant, once. */
static void
look_loose(struct seeking *seeking, struct filling *const *fillings)
{
	const struct situations *all = seeking->pieces->corpus;
	GHashTable *done = g_hash_table_new_full(g_bytes_hash, g_bytes_equal,
		(GDestroyNotify)g_bytes_unref, NULL);
	unsigned i;

	for (i = 0; i < all->count; i++) {
		const GArray *closes = seeking->closes[SOLD_LOOSE][i];
		const struct situation *one = &all->items[i];
		struct look_for look = {0};

		if (closes == NULL || closes->len == 0 ||
			one->character == NULL || !g_hash_table_add(done,
			g_bytes_new(closes->data, sizeof(unsigned) *
			closes->len)))
			continue;
		look.record = one->variant == NULL ? one->character :
			one->variant;
		look.name = arena_print(seeking->arena, "%s, loose%s",
			look.record->name, needs_accessories(seeking, closes,
			fillings) ? ", with its accessories" : "");
		add_look(seeking, &look, closes);
	}
	g_hash_table_destroy(done);
}

/* What no way of a card closes stands for itself. */
static void
look_single(struct seeking *seeking, struct filling *const *fillings)
{
	GHashTable *by_record = g_hash_table_new(NULL, NULL);
	GPtrArray *records = g_ptr_array_new();
	unsigned i;

	for (i = 0; i < seeking->targets->len; i++) {
		const struct target *target = &g_array_index(
			seeking->targets, struct target, i);
		const struct slot *slot = fillings[target->filling]
			->items[target->slot].slot;
		GArray *list;

		if (seeking->closable[i])
			continue;
		list = g_hash_table_lookup(by_record, slot->record);
		if (list == NULL) {
			list = g_array_new(FALSE, FALSE, sizeof(unsigned));
			g_hash_table_insert(by_record, (gpointer)(uintptr_t)
				slot->record, list);
			g_ptr_array_add(records, (gpointer)(uintptr_t)
				slot->record);
		}
		g_array_append_val(list, i);
	}
	for (i = 0; i < records->len; i++) {
		const struct record *record = g_ptr_array_index(records, i);
		struct look_for look = {.name = record->name,
			.record = record};
		GArray *list = g_hash_table_lookup(by_record, record);

		look.rarity = rarity_of(seeking->rarities, record, NULL);
		add_look(seeking, &look, list);
		g_array_free(list, TRUE);
	}
	g_ptr_array_free(records, TRUE);
	g_hash_table_destroy(by_record);
}

static int64_t
weigh(const struct rarity *rarity)
{
	if (rarity->recorded && rarity->a_year <= 0)
		return 2 * PIECE_WEIGHT;
	if (rarity->a_year <= 0)
		return PIECE_WEIGHT + MOST_WAIT;
	return PIECE_WEIGHT + MIN((int64_t)(10 / rarity->a_year),
		MOST_WAIT - 1);
}

static void
choose(struct next *next, struct arena *arena)
{
	struct cover_set *sets = g_new0(struct cover_set, next->piece_count +
		1);
	unsigned i;

	for (i = 0; i < next->piece_count; i++)
		sets[i] = (struct cover_set){next->pieces[i].targets,
			next->pieces[i].count, weigh(&next->pieces[i].rarity)};
	next->cover = cover_all(sets, next->piece_count, next->count, arena);
	for (i = 0; i < next->piece_count; i++)
		sets[i].weight = 1;
	next->fewest = (unsigned)ceil(cover_all(sets, next->piece_count,
		next->count, arena)->least);
	g_free(sets);
}

/* The pieces as if what is wanted were held, and nothing else. */
static struct pieces
wants_as_held(const struct seeking *seeking)
{
	struct pieces as_held = *seeking->pieces;
	unsigned i;

	as_held.items = arena_array(seeking->arena, struct piece,
		as_held.count);
	for (i = 0; i < as_held.count; i++) {
		as_held.items[i] = seeking->pieces->items[i];
		as_held.items[i].use = as_held.items[i].use == PIECE_WANTED ?
			PIECE_HELD : PIECE_GONE;
	}
	return as_held;
}

static struct filling *
fill_again(const struct pieces *pieces, const struct filling *filling,
	struct arena *arena)
{
	struct slot *items = arena_array(arena, struct slot, filling->count);
	struct slots slots = {items, filling->count};
	unsigned i;

	for (i = 0; i < slots.count; i++)
		items[i] = *filling->items[i].slot;
	return study_fill(pieces, filling->aim, &slots, arena);
}

/* What each want would close in one run, whose first target is `at`. */
static unsigned
close_by_wants(const struct filling *filling, const struct filling *would,
	unsigned at, GArray **closes)
{
	unsigned i, j;

	for (i = 0; i < would->count; i++) {
		if (!is_open(&filling->items[i]))
			continue;
		for (j = 0; j < would->items[i].count; j++) {
			const struct claim *claim = &would->items[i].claims[j];
			GArray **into = &closes[claim->piece];

			if (claim->kind != CLAIM_SURE)
				continue;
			if (*into == NULL)
				*into = g_array_new(FALSE, FALSE,
					sizeof(unsigned));
			g_array_append_val(*into, at);
		}
		at++;
	}
	return at;
}

static struct look_for
make_want(struct seeking *seeking, const struct record *record,
	const GArray *closes)
{
	struct look_for want = {.name = record->name, .want = record,
		.price = -1};
	const struct value *bid = model_get(seeking->model, record->values,
		NAME(HOLDING_BID));
	const char *amount;

	add_look(seeking, &want, closes);
	if (bid == NULL)
		return want;
	amount = model_text(seeking->model, bid->group,
		NAME(HOLDING_BID_AMOUNT));
	want.price = amount == NULL ? -1 : shape_amount(amount);
	want.currency = model_text(seeking->model, bid->group,
		NAME(HOLDING_BID_CURRENCY));
	return want;
}

/* What a wanted piece would close, were it here: what it surely fills. */
static void
find_wants(struct seeking *seeking, struct filling *const *fillings,
	const bool *counts, unsigned count, struct next *next)
{
	struct pieces as_held = wants_as_held(seeking);
	GArray **closes = g_new0(GArray *, as_held.count + 1);
	struct look_for *wants = arena_array(seeking->arena, struct look_for,
		as_held.count);
	unsigned i, at = 0;

	for (i = 0; i < count; i++)
		if (counts == NULL || counts[i])
			at = close_by_wants(fillings[i], fill_again(&as_held,
				fillings[i], seeking->arena), at, closes);
	for (i = 0; i < as_held.count; i++) {
		if (closes[i] == NULL)
			continue;
		wants[next->want_count++] = make_want(seeking,
			as_held.items[i].record, closes[i]);
		g_array_free(closes[i], TRUE);
	}
	next->wants = wants;
	g_free(closes);
}

static void
free_closes(struct seeking *seeking)
{
	unsigned sold, i;

	for (sold = 0; sold < SOLD_FORMS; sold++) {
		for (i = 0; i < seeking->pieces->corpus->count; i++)
			if (seeking->closes[sold][i] != NULL)
				g_array_free(seeking->closes[sold][i], TRUE);
		g_free(seeking->closes[sold]);
	}
}

static void
look_everywhere(struct seeking *seeking, struct filling *const *fillings)
{
	struct record_list pairings = model_records_of(seeking->model,
		"pairing");
	unsigned i;

	seeking->closable = g_new0(bool, seeking->targets->len + 1);
	for (i = 0; i < pairings.count; i++)
		look_carded(seeking, pairings.items[i]);
	look_loose(seeking, fillings);
	look_single(seeking, fillings);
	g_free(seeking->closable);
}

/* Of the pieces that close each target, the easiest to find. */
static void
find_easiest(struct target *targets, const struct next *next)
{
	unsigned i, j;

	for (i = 0; i < next->count; i++)
		targets[i].easiest = next->piece_count;
	for (i = 0; i < next->piece_count; i++) {
		const struct look_for *look = &next->pieces[i];

		for (j = 0; j < look->count; j++) {
			struct target *one = &targets[look->targets[j]];

			if (one->easiest == next->piece_count ||
				(look->rarity.recorded && rarity_compare(
				&look->rarity, &next->pieces[one->easiest]
				.rarity) > 0))
				one->easiest = i;
		}
	}
}

static void *
keep(struct arena *arena, GArray *array, size_t size)
{
	void *kept = arena_alloc(arena, size * array->len);

	if (array->len > 0)
		memcpy(kept, array->data, size * array->len);
	g_array_free(array, TRUE);
	return kept;
}

struct next *
study_next(const struct pieces *pieces, struct filling *const *fillings,
	const bool *counts, unsigned count, struct rarities *rarities,
	struct arena *arena)
{
	struct next *next = arena_one(arena, struct next);
	struct seeking seeking = {
		.pieces = pieces,
		.model = pieces->model,
		.arena = arena,
		.rarities = rarities,
		.targets = g_array_new(FALSE, FALSE, sizeof(struct target)),
		.by_key = g_hash_table_new(NULL, NULL),
		.found = g_array_new(FALSE, FALSE, sizeof(struct look_for)),
	};
	struct target *targets;
	unsigned i;

	for (i = 0; i < SOLD_FORMS; i++)
		seeking.closes[i] = g_new0(GArray *, pieces->corpus->count +
			1);
	for (i = 0; i < count; i++) {
		if (counts != NULL && !counts[i])
			continue;
		seeking.filling = fillings[i];
		note_targets(&seeking, i);
		note_closes(&seeking);
	}
	look_everywhere(&seeking, fillings);
	find_wants(&seeking, fillings, counts, count, next);
	free_closes(&seeking);
	g_hash_table_destroy(seeking.by_key);
	next->count = seeking.targets->len;
	targets = keep(arena, seeking.targets, sizeof(struct target));
	next->targets = targets;
	next->piece_count = seeking.found->len;
	next->pieces = keep(arena, seeking.found, sizeof(struct look_for));
	find_easiest(targets, next);
	choose(next, arena);
	return next;
}

const struct target *
next_target(const struct next *next, unsigned filling, unsigned slot)
{
	unsigned low = 0, high = next->count;

	while (low < high) {
		unsigned middle = (low + high) / 2;
		const struct target *one = &next->targets[middle];

		if (one->filling < filling || (one->filling == filling &&
			one->slot < slot))
			low = middle + 1;
		else
			high = middle;
	}
	if (low == next->count || next->targets[low].filling != filling ||
		next->targets[low].slot != slot)
		return NULL;
	return &next->targets[low];
}

const struct cover *
next_within(const struct next *next, int64_t budget, const char *currency,
	struct arena *arena)
{
	struct cover_set *sets = g_new0(struct cover_set, next->want_count +
		1);
	unsigned *places = g_new0(unsigned, next->want_count + 1);
	unsigned *all = g_new0(unsigned, next->count + 1);
	unsigned *items;
	struct cover *cover;
	unsigned count = 0, universe = 0, i, j, sum = 0;

	for (i = 0; i < next->want_count; i++)
		sum += next->wants[i].count;
	items = arena_array(arena, unsigned, sum);
	for (i = 0, sum = 0; i < next->want_count; i++) {
		const struct look_for *want = &next->wants[i];

		if (want->price < 0 || want->currency == NULL ||
			strcmp(want->currency, currency) != 0)
			continue;
		places[count] = i;
		sets[count++] = (struct cover_set){items + sum, want->count,
			want->price};
		for (j = 0; j < want->count; j++) {
			unsigned *known = &all[want->targets[j]];

			if (*known == 0)
				*known = ++universe;
			items[sum++] = *known - 1;
		}
	}
	cover = cover_within(sets, count, universe, budget, arena);
	for (i = 0; i < cover->count; i++)
		((unsigned *)(uintptr_t)cover->sets)[i] =
			places[cover->sets[i]];
	g_free(all);
	g_free(places);
	g_free(sets);
	return cover;
}
