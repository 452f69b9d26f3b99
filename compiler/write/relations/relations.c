/*
 * Relations are drawn up as drafts (layout.c), then the columns that lead
 * somewhere are joined to what they lead to, and the drafts are settled into
 * the arena.
 */
#include "write/relations/relations.h"

#include <string.h>

#include "base/output.h"
#include "write/relations/inside.h"

/* The one relation of keyed items that a kind has, or NULL. */
static const struct relation *
keyed_relation(const struct drafting *drafting, const struct kind *kind)
{
	const struct relation *found = NULL;
	guint i;

	for (i = 0; i < drafting->drafts->len; i++) {
		struct draft *draft = g_ptr_array_index(drafting->drafts, i);

		if (draft->relation.kind != kind ||
			draft->relation.key_column == 0)
			continue;
		if (found != NULL)
			return NULL;
		found = &draft->relation;
	}
	return found;
}

/* `count` columns, from `from` on, that name a row of `to` by its key. */
static unsigned *
add_link(GArray *links, struct arena *arena, unsigned from, unsigned count,
	const struct relation *to)
{
	unsigned *columns = arena_array(arena, unsigned, count);
	struct relation_link link = {from, count, to, columns};
	unsigned i;

	for (i = 0; i < count; i++)
		columns[i] = i;
	g_array_append_val(links, link);
	return columns;
}

static void
join_leads(struct drafting *drafting, struct draft *draft, GArray *links)
{
	struct arena *arena = drafting->arena;
	const struct relation *to;
	guint i;

	for (i = 0; i < draft->leads->len; i++) {
		struct lead lead = g_array_index(draft->leads, struct lead, i);

		if (lead.kind == NULL)
			add_link(links, arena, lead.from, 2,
				&drafting->record->relation);
		else if (!lead.keyed)
			add_link(links, arena, lead.from, 1,
				&drafting->of_kind[lead.kind->index]
				->relation);
		else {
			to = keyed_relation(drafting, lead.kind);
			if (to != NULL)
				add_link(links, arena, lead.from, 2, to)[1] =
					to->key_column;
		}
	}
}

static void *
settle_array(struct arena *arena, GArray *array, size_t size)
{
	void *items = arena_alloc(arena, size * array->len);

	if (array->len > 0)
		memcpy(items, array->data, size * array->len);
	return items;
}

static void
join_draft(struct drafting *drafting, struct draft *draft)
{
	GArray *links = g_array_new(FALSE, FALSE,
		sizeof(struct relation_link));
	struct relation *relation = &draft->relation;

	if (relation->owner != NULL)
		add_link(links, drafting->arena, 0, relation->key_count - 1,
			relation->owner);
	join_leads(drafting, draft, links);
	relation->links = settle_array(drafting->arena, links,
		sizeof(struct relation_link));
	relation->link_count = links->len;
	relation->columns = settle_array(drafting->arena, draft->columns,
		sizeof(struct column));
	relation->count = draft->columns->len;
	g_array_free(links, TRUE);
}

/* What else the database holds; computed relations come on top. */
static const char *const reserved[] = {"record", "search", "search_data",
	"search_idx", "search_content", "search_docsize", "search_config",
	"meta", "guide_kind", "guide_relation", "guide_column", "guide_word",
	"cardbacks_of_character", "sightings_of_pairing", "translation"};

static void
reserve_names(struct drafting *drafting)
{
	const struct computed *computed;
	size_t i;

	for (i = 0; i < G_N_ELEMENTS(reserved); i++)
		g_hash_table_add(drafting->names,
			(gpointer)(uintptr_t)reserved[i]);
	for (computed = computed_relations; computed->name != NULL; computed++)
		g_hash_table_add(drafting->names,
			(gpointer)(uintptr_t)computed->name);
}

/*
 * Enters the names of kinds, to which those of lists give way. Returns the
 * first kind that cannot have its name, or NULL.
 */
static const struct kind *
enter_kinds(struct drafting *drafting)
{
	unsigned i;

	for (i = 0; i < drafting->schema->count; i++) {
		const struct kind *kind = &drafting->schema->kinds[i];

		if (!kind_is_public(kind))
			continue;
		if (g_hash_table_contains(drafting->names, kind->name) ||
			g_str_has_prefix(kind->name, "sqlite_"))
			return kind;
		g_hash_table_add(drafting->names,
			(gpointer)(uintptr_t)kind->name);
	}
	return NULL;
}

/* Joins what was drawn up, and lets go of what was needed for it. */
static void
settle(struct drafting *drafting, struct relations *relations)
{
	guint i;

	relations->count = drafting->drafts->len;
	relations->items = arena_array(drafting->arena,
		const struct relation *, relations->count);
	for (i = 0; i < drafting->drafts->len; i++) {
		struct draft *draft = g_ptr_array_index(drafting->drafts, i);

		join_draft(drafting, draft);
		relations->items[i] = &draft->relation;
	}
	for (i = 0; i < drafting->drafts->len; i++) {
		struct draft *draft = g_ptr_array_index(drafting->drafts, i);

		g_array_free(draft->columns, TRUE);
		g_array_free(draft->leads, TRUE);
	}
}

const struct relations *
relations_make(const struct model *model, const struct seen *seen,
	const struct reckonings *reckonings, struct arena *arena,
	GError **error)
{
	struct relations *relations = arena_one(arena, struct relations);
	struct drafting drafting = {
		.schema = model_schema(model),
		.arena = arena,
		.drafts = g_ptr_array_new(),
		.names = g_hash_table_new(g_str_hash, g_str_equal),
	};
	const struct kind *clash;

	relations->model = model;
	relations->seen = seen;
	relations->reckonings = reckonings;
	drafting.of_kind = arena_array(arena, struct draft *,
		drafting.schema->count);
	reserve_names(&drafting);
	clash = enter_kinds(&drafting);
	if (clash == NULL) {
		relations_lay_out(&drafting);
		settle(&drafting, relations);
	} else
		g_set_error(error, OUTPUT_ERROR, OUTPUT_REFUSED, "the schema "
			"cannot have a kind \"%s\": the database keeps "
			"something else under that name", clash->name);
	g_hash_table_destroy(drafting.names);
	g_ptr_array_free(drafting.drafts, TRUE);
	return clash == NULL ? relations : NULL;
}
