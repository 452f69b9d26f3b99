/*
 * A broken file is no tree, but its bytes are there: an id that stands in them
 * may be that of a record. Only of a file that could not be opened nothing is
 * known, and then every id of its kind may be in it.
 */
#include "link/lost.h"

#include <string.h>

struct lost_name {
	const struct lost *lost;
	size_t references;	/* that are not checked on its account */
};

struct lost_names {
	GHashTable *ids;	/* kind/id, folded, of records without one */
	GArray *items;		/* struct lost_name, of files */
	GHashTable **words;	/* of each: what may be ids; NULL: anything */
};

/* An id without hyphens and case, since a misspelt one is mended soon. */
static char *
fold(const char *text, size_t size)
{
	char *folded = g_ascii_strdown(text, (gssize)size);
	char *from, *to = folded;

	for (from = folded; *from != '\0'; from++)
		if (*from != '-' && *from != '_' && *from != ' ')
			*to++ = *from;
	*to = '\0';
	return folded;
}

static char *
fold_with(const struct kind *kind, const char *id)
{
	char *folded = fold(id, strlen(id));
	char *both = g_strdup_printf("%s/%s", kind->name, folded);

	g_free(folded);
	return both;
}

static bool
is_of_id(char c)
{
	return g_ascii_isalnum(c) || c == '-' || c == '_';
}

static void
gather_words(GHashTable *words, const struct source *source)
{
	uint32_t from = 0, to;

	while (from < source->size) {
		for (to = from; to < source->size &&
			is_of_id(source->bytes[to]);)
			to++;
		if (to > from)
			g_hash_table_add(words, fold(source->bytes + from,
				to - from));
		from = to + 1;
	}
}

struct lost_names *
lost_new(const struct records *records, const struct sources *sources)
{
	struct lost_names *names = g_new0(struct lost_names, 1);
	size_t i;

	names->ids = g_hash_table_new_full(g_str_hash, g_str_equal, g_free,
		NULL);
	names->items = g_array_new(FALSE, TRUE, sizeof(struct lost_name));
	names->words = g_new0(GHashTable *, records->lost_count + 1);
	for (i = 0; i < records->lost_count; i++) {
		const struct lost *lost = &records->lost[i];
		struct lost_name name = {lost, 0};
		const struct source *source = sources_get(sources, lost->file);
		GHashTable *words = NULL;

		if (lost->id != NULL && lost->kind != NULL) {
			g_hash_table_add(names->ids, fold_with(lost->kind,
				lost->id));
			continue;
		}
		if (source != NULL) {
			words = g_hash_table_new_full(g_str_hash, g_str_equal,
				g_free, NULL);
			gather_words(words, source);
		}
		names->words[names->items->len] = words;
		g_array_append_val(names->items, name);
	}
	return names;
}

bool
lost_may_have(struct lost_names *names, const struct kind *kind,
	const char *id)
{
	char *folded = kind == NULL ? NULL : fold_with(kind, id);
	bool found = folded != NULL &&
		g_hash_table_contains(names->ids, folded);
	guint i;

	g_free(folded);
	folded = fold(id, strlen(id));
	for (i = 0; i < names->items->len && !found; i++) {
		struct lost_name *name = &g_array_index(names->items,
			struct lost_name, i);

		if (name->lost->kind != NULL && kind != NULL &&
			name->lost->kind != kind)
			continue;
		found = names->words[i] == NULL ||
			g_hash_table_contains(names->words[i], folded);
		if (found)
			name->references++;
	}
	g_free(folded);
	return found;
}

void
lost_note(const struct lost_names *names)
{
	guint i;

	for (i = 0; i < names->items->len; i++) {
		const struct lost_name *name = &g_array_index(names->items,
			struct lost_name, i);

		if (name->references == 0 || name->lost->diag == NULL)
			continue;
		diag_note(name->lost->diag, SPAN_NOWHERE, "%zu reference%s "
			"to what may stand there %s not checked",
			name->references, name->references == 1 ? "" : "s",
			name->references == 1 ? "is" : "are");
	}
}

void
lost_free(struct lost_names *names)
{
	guint i;

	for (i = 0; i < names->items->len; i++)
		if (names->words[i] != NULL)
			g_hash_table_destroy(names->words[i]);
	g_hash_table_destroy(names->ids);
	g_free(names->words);
	g_array_free(names->items, TRUE);
	g_free(names);
}
