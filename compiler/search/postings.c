/*
 * Postings are gathered record by record, so that each list is in order as it
 * grows. Words of a joined text are those that `hangtab find` compares: plain
 * forms, and Greek ones in Latin letters too.
 */
#include "search/postings.h"

#include <string.h>

#include "base/sort.h"
#include "search/tokens.h"

struct gathering {
	struct postings *postings;
	unsigned document;
	enum search_column column;
};

static void
free_term(gpointer data)
{
	struct term *term = data;

	g_array_free(term->postings, TRUE);
	if (term->pieces != NULL)
		g_array_free(term->pieces, TRUE);
	g_free(term);
}

static struct term *
reach_term(struct postings *postings, const char *text)
{
	struct term *term = g_hash_table_lookup(postings->by_text, text);

	if (term != NULL)
		return term;
	term = g_new0(struct term, 1);
	term->text = arena_text(postings->arena, text, strlen(text));
	term->postings = g_array_new(FALSE, FALSE, sizeof(struct posting));
	g_hash_table_insert(postings->by_text, (gpointer)(uintptr_t)term->text,
		term);
	return term;
}

/* The posting of the document at hand, which is the last of the list. */
static struct posting *
reach_posting(struct gathering *gathering, struct term *term)
{
	struct posting fresh = {.document = gathering->document};
	guint count = term->postings->len;

	if (count == 0 || g_array_index(term->postings, struct posting,
		count - 1).document != gathering->document) {
		g_array_append_val(term->postings, fresh);
		count++;
	}
	return &g_array_index(term->postings, struct posting, count - 1);
}

static void
count_token(void *data, const char *token)
{
	struct gathering *gathering = data;
	struct postings *postings = gathering->postings;
	struct term *term = reach_term(postings, token);

	reach_posting(gathering, term)->hits[gathering->column]++;
	postings->documents[gathering->document].words++;
	postings->words++;
}

/* The words of a joined text, and how many it counts as having. */
static char **
split_joined(const char *text, unsigned *count)
{
	char *joined = search_joined(text);
	char **words;
	size_t i;

	*count = 0;
	for (i = 1; joined[i] != '\0'; i++)
		*count += joined[i] == ' ';
	words = g_strsplit(joined, " ", 0);
	g_free(joined);
	return words;
}

static void
note_piece(struct gathering *gathering, const char *text, unsigned place)
{
	unsigned count, i;
	char **words = split_joined(text, &count);

	for (i = 0; words[i] != NULL; i++) {
		struct posting_piece piece = {
			.column = gathering->column,
			.place = place,
			.words = count,
		};
		struct term *term;

		if (*words[i] == '\0')
			continue;
		term = reach_term(gathering->postings, words[i]);
		reach_posting(gathering, term);
		piece.posting = term->postings->len - 1;
		if (term->pieces == NULL)
			term->pieces = g_array_new(FALSE, FALSE,
				sizeof(struct posting_piece));
		g_array_append_val(term->pieces, piece);
	}
	g_strfreev(words);
}

static unsigned
note_pieces(struct gathering *gathering, const char *text)
{
	char **pieces = g_strsplit(text, "; ", 0);
	unsigned i;

	for (i = 0; pieces[i] != NULL; i++)
		note_piece(gathering, pieces[i], i);
	g_strfreev(pieces);
	return i;
}

static void
note_called(struct gathering *gathering, const struct record *record)
{
	char *text = g_strdup_printf("%s %s", record->name, record->id);
	unsigned count, i;
	char **words = split_joined(text, &count);

	for (i = 0; words[i] != NULL; i++)
		if (*words[i] != '\0')
			reach_posting(gathering, reach_term(
				gathering->postings, words[i]))->called = 1;
	g_strfreev(words);
	words = split_joined(record->id, &count);
	for (i = 0; words[i] != NULL; i++)
		if (*words[i] != '\0')
			reach_posting(gathering, reach_term(
				gathering->postings, words[i]))->in_id = 1;
	g_strfreev(words);
	g_free(text);
	gathering->postings->documents[gathering->document].id_words = count;
}

static void
gather(struct gathering *gathering, const struct model *model,
	const struct record *record, struct search_entry *entry)
{
	struct posting_document *document = &gathering->postings->documents[
		gathering->document];
	size_t i;

	document->record = record;
	document->pointed = (unsigned)model_pointing(model, record).count;
	search_describe(model, record, entry);
	for (i = 0; i < SEARCH_COLUMN_COUNT; i++) {
		gathering->column = (enum search_column)i;
		search_tokens(entry->texts[i]->str, count_token, gathering);
	}
	gathering->column = SEARCH_COLUMN_NAME;
	note_pieces(gathering, entry->texts[SEARCH_COLUMN_NAME]->str);
	gathering->column = SEARCH_COLUMN_LABEL;
	document->label_pieces = note_pieces(gathering,
		entry->texts[SEARCH_COLUMN_LABEL]->str);
	note_called(gathering, record);
	gathering->document++;
}

static int
compare_terms(const void *a, const void *b)
{
	const struct term *const *left = a, *const *right = b;

	return strcmp((*left)->text, (*right)->text);
}

static void
sort_terms(struct postings *postings)
{
	GHashTableIter iter;
	gpointer value;

	postings->terms = g_new(struct term *,
		g_hash_table_size(postings->by_text) + 1);
	g_hash_table_iter_init(&iter, postings->by_text);
	while (g_hash_table_iter_next(&iter, NULL, &value))
		postings->terms[postings->term_count++] = value;
	sort_items(postings->terms, postings->term_count,
		sizeof(struct term *), compare_terms);
}

struct postings *
postings_make(const struct model *model)
{
	const struct schema *schema = model_schema(model);
	struct postings *postings = g_new0(struct postings, 1);
	struct gathering gathering = {.postings = postings};
	struct search_entry entry;
	unsigned i, j;

	postings->arena = arena_new();
	postings->by_text = g_hash_table_new_full(g_str_hash, g_str_equal,
		NULL, free_term);
	for (i = 0; i < schema->count; i++)
		postings->count += (unsigned)model_records(model,
			&schema->kinds[i]).count;
	postings->documents = g_new0(struct posting_document,
		postings->count + 1);
	search_entry_init(&entry);
	for (i = 0; i < schema->count; i++) {
		struct record_list list = model_records(model,
			&schema->kinds[i]);

		for (j = 0; j < list.count; j++)
			gather(&gathering, model, list.items[j], &entry);
	}
	search_entry_release(&entry);
	sort_terms(postings);
	return postings;
}

void
postings_free(struct postings *postings)
{
	g_free(postings->terms);
	g_free(postings->documents);
	g_hash_table_destroy(postings->by_text);
	arena_free(postings->arena);
	g_free(postings);
}

const struct term *
postings_find(const struct postings *postings, const char *text)
{
	return g_hash_table_lookup(postings->by_text, text);
}

unsigned
term_records(const struct term *term)
{
	unsigned count = 0, i, j;

	for (i = 0; i < term->postings->len; i++) {
		const struct posting *posting = &g_array_index(term->postings,
			struct posting, i);
		unsigned hits = 0;

		for (j = 0; j < SEARCH_COLUMN_COUNT; j++)
			hits += posting->hits[j];
		count += hits > 0;
	}
	return count;
}
