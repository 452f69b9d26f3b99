/*
 * What have I got? A page that a script makes live, and what the script knows:
 * the features, what every part of a piece may show of them, and the ways that
 * parts are known together. It is a classic script, as pages that are opened
 * from a folder may load nothing else. Numbers in it are places in its lists;
 * -1 is none. site/narrow-core.js says how they are read.
 */
#include <inttypes.h>
#include <string.h>

#include "base/json.h"
#include "model/text.h"
#include "study/forms.h"
#include "study/narrow.h"
#include "write/site/keys.h"
#include "write/site/parts.h"
#include "write/site/show.h"

struct telling {
	const struct site *site;
	const struct features *features;
	GString *out;
	GHashTable *stand_ins;	/* struct stand_in → place, from 1 */
	GPtrArray *stand_in_list;
};

/* The kinds that parts of a candidate are of, in the script's order. */
static const char *const kinds[] = {"character", "cardback", "front",
	"blister", "variant"};

static void
put_list(GString *out, unsigned i)
{
	g_string_append(out, i == 0 ? "" : ",");
}

static void
put_text(GString *out, const char *text)
{
	json_append(out, text == NULL ? "" : text);
}

/* [lowest 32 states, highest]: what a script can shift. */
static void
put_states(GString *out, state_set states)
{
	g_string_append_printf(out, "%" PRIu32 ",%" PRIu32, (uint32_t)states,
		(uint32_t)(states >> 32));
}

static void
put_field(GString *out, const struct model *model, const struct value *state,
	enum field_name name)
{
	g_string_append_c(out, ',');
	put_text(out, model_text(model, state->group, name));
}

static void
put_feature(struct telling *telling, const struct feature *feature)
{
	const struct model *model = telling->site->model;
	struct value *const *values = feature->record->values;
	const struct value *states = model_get(model, values,
		NAME(FEATURE_STATES));
	GString *out = telling->out, *plain = g_string_new(NULL);
	const struct value *where = model_get(model, values,
		NAME(FEATURE_PLAIN));
	unsigned i;

	if (where != NULL)
		value_append_text(where, plain);
	g_string_append(out, "\n{\"id\":");
	put_text(out, feature->record->id);
	g_string_append(out, ",\"name\":");
	put_text(out, feature->record->name);
	g_string_append(out, ",\"side\":");
	put_text(out, model_word(model, values, NAME(FEATURE_SIDE)));
	g_string_append_printf(out, ",\"cost\":%.17g,\"where\":",
		features_cost(feature));
	put_text(out, plain->str);
	g_string_append(out, ",\"ask\":");
	put_text(out, feature->ask);
	g_string_append(out, ",\"states\":[");
	for (i = 0; i < feature->states; i++) {
		const struct value *state = value_item(states, i);

		put_list(out, i);
		g_string_append_c(out, '[');
		put_text(out, model_text(model, state->group,
			NAME(FEATURE_STATE_KEY)));
		put_field(out, model, state, NAME(FEATURE_STATE_NAME));
		put_field(out, model, state, NAME(FEATURE_STATE_SAYS));
		put_field(out, model, state, NAME(FEATURE_STATE_DRAWING));
		g_string_append_c(out, ']');
	}
	g_string_append(out, "]}");
	g_string_free(plain, TRUE);
}

/* A record: its id, its name, and the scores that it knows. */
static void
put_record(struct telling *telling, const struct record *record)
{
	GString *out = telling->out;
	unsigned i, known = 0;
	state_set states;

	g_string_append(out, "\n[");
	put_text(out, record->id);
	g_string_append_c(out, ',');
	put_text(out, record->name);
	g_string_append(out, ",[");
	for (i = 0; i < features_count(telling->features); i++) {
		if (!features_score(telling->features, i, record, &states))
			continue;
		put_list(out, known++);
		g_string_append_printf(out, "%u,", i);
		put_states(out, states);
	}
	g_string_append(out, "]]");
}

static void
put_kind(struct telling *telling, const char *kind)
{
	struct record_list list = model_records_of(telling->site->model, kind);
	unsigned i;

	g_string_append(telling->out, ",\n");
	put_text(telling->out, kind);
	g_string_append(telling->out, ":[");
	for (i = 0; i < list.count; i++) {
		put_list(telling->out, i);
		put_record(telling, list.items[i]);
	}
	g_string_append_c(telling->out, ']');
}

static int
place_of(const struct record *record)
{
	return record == NULL ? -1 : (int)record->index;
}

static int
place_of_stand_in(struct telling *telling, const struct stand_in *stand_in)
{
	guint place;

	if (stand_in == NULL)
		return -1;
	place = GPOINTER_TO_UINT(g_hash_table_lookup(telling->stand_ins,
		stand_in));
	if (place == 0) {
		g_ptr_array_add(telling->stand_in_list,
			(gpointer)(uintptr_t)stand_in);
		place = telling->stand_in_list->len;
		g_hash_table_insert(telling->stand_ins,
			(gpointer)(uintptr_t)stand_in,
			GUINT_TO_POINTER(place));
	}
	return (int)place - 1;
}

/* One way: the key of its combination, how common, and its parts. */
static void
put_way(struct telling *telling, const struct candidate *candidate)
{
	const struct situation *one = &candidate->situation;
	GString *out = telling->out;

	g_string_append(out, "[");
	put_text(out, one->item == NULL ? "" : one->item->group[0]->text);
	g_string_append_printf(out, ",%.17g,%d,%d,%d,%d,%d,%d,%d]",
		candidate->common, place_of(one->character),
		place_of(one->cardback), place_of(one->front),
		place_of(one->blister), place_of(one->variant),
		place_of_stand_in(telling, candidate->front),
		place_of_stand_in(telling, candidate->variant));
}

/* The ways of each pairing, under its id; then what stands alone. */
static void
put_ways(struct telling *telling, const GArray *held)
{
	const struct record *last = NULL;
	GString *out = telling->out;
	guint i;

	g_string_append(out, ",\n\"pairings\":[");
	for (i = 0; i < held->len; i++) {
		const struct candidate *one = &g_array_index(held,
			struct candidate, i);

		if (one->situation.pairing == NULL)
			break;
		if (one->situation.pairing != last) {
			g_string_append(out, last == NULL ? "\n[" : "],\n[");
			put_text(out, one->situation.pairing->id);
		}
		g_string_append_c(out, ',');
		put_way(telling, one);
		last = one->situation.pairing;
	}
	g_string_append(out, last == NULL ? "]" : "]]");
}

static void
put_alone(struct telling *telling, const GArray *held, const char *kind,
	bool *any)
{
	guint i;

	for (i = 0; i < held->len; i++) {
		const struct candidate *one = &g_array_index(held,
			struct candidate, i);

		if (one->situation.pairing != NULL)
			continue;
		g_string_append(telling->out, *any ? ",\n[" : "\n[");
		put_text(telling->out, kind);
		g_string_append_c(telling->out, ',');
		put_way(telling, one);
		g_string_append_c(telling->out, ']');
		*any = true;
	}
}

static void
put_candidates(struct telling *telling, struct arena *arena)
{
	bool any = false;
	GArray *held;
	size_t i;

	for (i = 0; i < G_N_ELEMENTS(kinds); i++) {
		held = narrow_hold(telling->site->model, telling->site->seen,
			telling->features, NULL, 0, kinds[i], arena);
		if (i == 0) {
			put_ways(telling, held);
			g_string_append(telling->out, ",\n\"alone\":[");
		}
		put_alone(telling, held, kinds[i], &any);
		g_array_free(held, TRUE);
	}
	g_string_append_c(telling->out, ']');
}

static void
put_stand_ins(struct telling *telling)
{
	GString *out = telling->out;
	guint i;
	unsigned j;

	g_string_append(out, ",\n\"standIns\":[");
	for (i = 0; i < telling->stand_in_list->len; i++) {
		const struct stand_in *one = g_ptr_array_index(
			telling->stand_in_list, i);

		g_string_append(out, i == 0 ? "[" : ",\n[");
		for (j = 0; j < one->score_count; j++) {
			put_list(out, j);
			g_string_append_printf(out, "%u,",
				one->scores[j].feature);
			put_states(out, one->scores[j].states);
		}
		g_string_append_c(out, ']');
	}
	g_string_append_c(out, ']');
}

static void
put_forms(GString *out)
{
	size_t i, j;

	g_string_append(out, ",\n\"forms\":[");
	for (i = 0; i < FORM_COUNT; i++) {
		g_string_append(out, i == 0 ? "[" : ",\n[");
		put_text(out, forms[i].name);
		g_string_append_c(out, ',');
		put_text(out, forms[i].title);
		g_string_append_c(out, ',');
		put_text(out, forms[i].of);
		for (j = 0; forms[i].sides[j] != NULL; j++) {
			g_string_append_c(out, ',');
			put_text(out, forms[i].sides[j]);
		}
		g_string_append_c(out, ']');
	}
	g_string_append_c(out, ']');
}

static bool
write_data(const struct site *site, GError **error)
{
	struct arena *arena = arena_new();
	struct telling telling = {
		.site = site,
		.features = features_gather(site->model, arena),
		.out = g_string_new("\"use strict\";\nvar hangtabNarrow = {"
			"\"features\":["),
		.stand_ins = g_hash_table_new(NULL, NULL),
		.stand_in_list = g_ptr_array_new(),
	};
	bool done;
	unsigned i;

	for (i = 0; i < features_count(telling.features); i++) {
		put_list(telling.out, i);
		put_feature(&telling, features_get(telling.features, i));
	}
	g_string_append_c(telling.out, ']');
	for (i = 0; i < G_N_ELEMENTS(kinds); i++)
		put_kind(&telling, kinds[i]);
	put_candidates(&telling, arena);
	put_stand_ins(&telling);
	put_forms(telling.out);
	g_string_append(telling.out, "};\n");
	done = output_add(site->job->out, "look/narrow-data.js",
		telling.out->str, telling.out->len, error);
	g_ptr_array_free(telling.stand_in_list, TRUE);
	g_hash_table_destroy(telling.stand_ins);
	g_string_free(telling.out, TRUE);
	arena_free(arena);
	return done;
}

bool
narrow_write(const struct site *site, GError **error)
{
	struct page page = {.error = error};

	if (model_records_of(site->model, "feature").count == 0)
		return true;
	page_begin(&page, site, "narrow.html", "What have I got?", "reader");
	g_string_append(page.out, "<link rel=\"stylesheet\" "
		"href=\"look/narrow.css\">\n<header class=\"sheet-head\">"
		"<h1>What have I got?</h1>\n<p class=\"lede\">Say what you "
		"see, in any order. What does not fit falls away, and you are "
		"told what to look at next. Open nothing for this.</p>"
		"</header>\n<div id=\"_narrow\" class=\"narrow\">\n<p>This "
		"page needs scripts, and yours are switched off. ");
	g_string_append(page.out, site_keys_any(site->keys) ?
		"<a href=\"keys.html\">A key</a> does without: it asks for "
		"one thing at a time." : "The pages of <a href=\"feature.html"
		"\">features</a> say which records have what.");
	g_string_append(page.out, "</p>\n</div>\n<p class=\"note\">"
		"Recognising is not authenticating: what is written here can "
		"rule a piece out, and cannot prove one genuine. <a "
		"href=\"cautions.html\">Cautions</a></p>\n"
		"<script src=\"look/narrow-data.js\"></script>\n"
		"<script src=\"look/narrow-core.js\"></script>\n"
		"<script src=\"look/narrow.js\"></script>\n");
	return page_end(&page) && write_data(site, error);
}
