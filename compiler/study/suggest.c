/*
 * Candidates by the hundred, each filled and forgotten again unless it is
 * nearly complete.
 */
#include "study/suggest.h"

#include <string.h>

struct suggesting {
	const struct pieces *pieces;
	struct arena *arena;
	GPtrArray *found;	/* struct filling */
	GHashTable *seen;	/* what the slots are, as bytes */
};

static unsigned
slots_of(const struct filling *filling)
{
	return filling->held + filling->possible + filling->missing;
}

static bool
is_near(const struct filling *filling)
{
	unsigned of = slots_of(filling);

	return of >= SUGGEST_LEAST && filling->held < of &&
		filling->held * 2 >= of;
}

/* Whether slots like these were not met before. */
static bool
is_new(struct suggesting *suggesting, const struct filling *filling)
{
	GByteArray *bytes = g_byte_array_new();
	unsigned i;

	for (i = 0; i < filling->count; i++) {
		const struct slot *slot = filling->items[i].slot;
		gconstpointer key = slot->item == NULL ?
			(gconstpointer)slot->record : slot->item;

		g_byte_array_append(bytes, (const guint8 *)&key, sizeof(key));
	}
	return g_hash_table_add(suggesting->seen,
		g_byte_array_free_to_bytes(bytes));
}

static void
try(struct suggesting *suggesting, const struct aim *aim)
{
	const struct pieces *pieces = suggesting->pieces;
	struct arena *arena = arena_new();
	struct filling *filling = study_fill(pieces, aim, study_slots_of(
		pieces->model, pieces->corpus, aim, arena), arena);

	if (is_near(filling) && is_new(suggesting, filling))
		g_ptr_array_add(suggesting->found, study_fill(pieces, aim,
			study_slots_of(pieces->model, pieces->corpus, aim,
			suggesting->arena), suggesting->arena));
	arena_free(arena);
}

/* An aim for one record: what is collected, and the choice it goes into. */
struct pattern {
	const char *kind;
	enum collected what;
	size_t choice;		/* offset in struct aim */
	const char *id;		/* of the candidate; %s is the record's */
	const char *name;	/* %s is the record's name */
	const char *form;
};

static const struct pattern patterns[] = {
	{"character", COLLECT_PAIRING, offsetof(struct aim, characters),
		"card-backs-of-%s", "%s on every card back", NULL},
	{"character", COLLECT_VARIANT, offsetof(struct aim, characters),
		"makes-of-%s", "%s in every make", NULL},
	{"cardback", COLLECT_CHARACTER, offsetof(struct aim, cardbacks),
		"characters-on-%s", "Every character on %s", "carded"},
	{"market", COLLECT_CHARACTER, offsetof(struct aim, markets),
		"characters-of-%s", "Every character of %s", "carded"},
	{"market", COLLECT_CARDBACK, offsetof(struct aim, markets),
		"card-backs-of-market-%s", "Every card back of %s", NULL},
	{"market", COLLECT_PAIRING, offsetof(struct aim, markets),
		"all-of-%s", "Every character on every card back of %s",
		NULL},
};

static const char *
put_in(struct arena *arena, const char *pattern, const char *text)
{
	const char *place = strstr(pattern, "%s");

	return arena_print(arena, "%.*s%s%s", (int)(place - pattern), pattern,
		text, place + 2);
}

static void
try_pattern(struct suggesting *suggesting, const struct pattern *pattern,
	const struct record *record)
{
	struct arena *arena = suggesting->arena;
	struct aim *aim = arena_one(arena, struct aim);
	struct selection *choice = (struct selection *)(void *)((char *)aim +
		pattern->choice);

	choice->items = arena_array(arena, const struct record *, 1);
	choice->items[0] = record;
	choice->count = 1;
	choice->given = true;
	aim->id = put_in(arena, pattern->id, record->id);
	aim->name = put_in(arena, pattern->name, record->name);
	aim->what = pattern->what;
	aim->form = pattern->form;
	try(suggesting, aim);
}

static gint
compare_near(gconstpointer a, gconstpointer b)
{
	const struct filling *one = *(const struct filling *const *)a;
	const struct filling *other = *(const struct filling *const *)b;
	guint64 left = (guint64)one->held * slots_of(other);
	guint64 right = (guint64)other->held * slots_of(one);

	if (left != right)
		return left > right ? -1 : 1;
	if (one->held != other->held)
		return one->held > other->held ? -1 : 1;
	return strcmp(one->aim->id, other->aim->id);
}

struct suggestions *
study_suggest(const struct pieces *pieces, struct filling *const *known,
	unsigned known_count, unsigned most, struct arena *arena)
{
	struct suggesting suggesting = {
		.pieces = pieces,
		.arena = arena,
		.found = g_ptr_array_new(),
		.seen = g_hash_table_new_full(g_bytes_hash, g_bytes_equal,
			(GDestroyNotify)g_bytes_unref, NULL),
	};
	struct suggestions *suggestions = arena_one(arena,
		struct suggestions);
	unsigned i, j;

	for (i = 0; i < known_count; i++)
		if (is_new(&suggesting, known[i]) && is_near(known[i]))
			g_ptr_array_add(suggesting.found, known[i]);
	for (i = 0; i < G_N_ELEMENTS(patterns); i++) {
		struct record_list list = model_records_of(pieces->model,
			patterns[i].kind);

		for (j = 0; j < list.count; j++)
			try_pattern(&suggesting, &patterns[i], list.items[j]);
	}
	g_ptr_array_sort(suggesting.found, compare_near);
	suggestions->count = MIN(suggesting.found->len, most);
	suggestions->items = arena_array(arena, struct filling *,
		suggestions->count);
	for (i = 0; i < suggestions->count; i++)
		suggestions->items[i] = g_ptr_array_index(suggesting.found, i);
	g_ptr_array_free(suggesting.found, TRUE);
	g_hash_table_destroy(suggesting.seen);
	return suggestions;
}
