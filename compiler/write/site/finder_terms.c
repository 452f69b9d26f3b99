/*
 * Shards of terms and words. A shard is a text of lines with bars between
 * them; a line is a term, a blank and its postings as numbers. Lines stand in
 * byte order, and a new shard begins before one would be too large.
 */
#include "write/site/finder.h"

#include <string.h>

#include "search/typo.h"

enum { SHARD_SIZE = 4000, LENGTHS = 121 };

void
finder_number(GString *out, unsigned number)
{
	static const char digits[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghij"
		"klmnopqrstuvwxyz0123456789-_";

	for (; number > 31; number >>= 5)
		g_string_append_c(out, digits[32 | (number & 31)]);
	g_string_append_c(out, digits[number]);
}

/* The pieces of one posting; `at` goes on to those of the next. */
static void
append_pieces(GString *out, const struct term *term, unsigned posting,
	guint *at)
{
	const struct posting_piece *pieces;
	guint count, all = term->pieces == NULL ? 0 : term->pieces->len, i;

	if (all == 0) {
		finder_number(out, 0);
		return;
	}
	pieces = (const struct posting_piece *)(void *)term->pieces->data;
	while (*at < all && pieces[*at].posting < posting)
		++*at;
	for (count = 0; *at + count < all &&
		pieces[*at + count].posting == posting; count++)
		continue;
	finder_number(out, count);
	for (i = *at; i < *at + count; i++) {
		finder_number(out, pieces[i].place * 2 +
			(pieces[i].column == SEARCH_COLUMN_LABEL));
		finder_number(out, pieces[i].words);
	}
	*at += count;
}

static void
append_names(GString *out, const struct postings *postings,
	const struct term *term)
{
	unsigned before = 0;
	guint at = 0, i;

	for (i = 0; i < term->postings->len; i++) {
		const struct posting *posting = &g_array_index(term->postings,
			struct posting, i);
		const struct posting_document *document =
			&postings->documents[posting->document];
		unsigned name = posting->hits[SEARCH_COLUMN_NAME];
		unsigned label = posting->hits[SEARCH_COLUMN_LABEL];

		if (name + label == 0)
			continue;
		finder_number(out, posting->document - before);
		finder_number(out, document->words);
		finder_number(out, document->pointed);
		finder_number(out, name);
		finder_number(out, label);
		if (label > 0)
			finder_number(out, document->label_pieces);
		append_pieces(out, term, i, &at);
		before = posting->document;
	}
}

static void
append_words(GString *out, const struct postings *postings,
	const struct term *term)
{
	unsigned before = 0;
	guint i;

	for (i = 0; i < term->postings->len; i++) {
		const struct posting *posting = &g_array_index(term->postings,
			struct posting, i);
		const struct posting_document *document =
			&postings->documents[posting->document];
		unsigned words = posting->hits[SEARCH_COLUMN_WORDS];

		if (words == 0 && !posting->called && !posting->in_id)
			continue;
		finder_number(out, posting->document - before);
		finder_number(out, document->words);
		finder_number(out, words * 4 + posting->in_id * 2U +
			posting->called);
		if (posting->in_id)
			finder_number(out, document->id_words);
		before = posting->document;
	}
}

bool
finder_add(const struct site *site, const char *name, const GString *body,
	bool raw, GError **error)
{
	GString *out = g_string_new("hangtab.put(\"");
	char *path = g_strdup_printf("look/find/%s.js", name);
	bool done;

	g_string_append_printf(out, "%s\",", name);
	if (raw)
		g_string_append_len(out, body->str, (gssize)body->len);
	else
		g_string_append_printf(out, "\"%s\"", body->str);
	g_string_append(out, ")\n");
	done = output_add(site->job->out, path, out->str, out->len, error);
	g_free(path);
	g_string_free(out, TRUE);
	return done;
}

/* As much of `term` as parts it from the term before, in whole characters. */
static void
append_first(GString *firsts, const char *before, const char *term)
{
	size_t size = 0;

	while (term[size] != '\0' && term[size] == before[size])
		size++;
	for (size++; ((unsigned char)term[size] & 0xc0) == 0x80; size++)
		continue;
	if (firsts->len > 0)
		g_string_append_c(firsts, ' ');
	g_string_append_len(firsts, term, (gssize)MIN(size, strlen(term)));
}

static const char family_letters[FINDER_FAMILIES] = {
	[FINDER_NAMES] = 'n',
	[FINDER_WORDS] = 'w',
};

static bool
add_shard(const struct site *site, enum finder_family family, unsigned number,
	GString *shard, GError **error)
{
	char *name = g_strdup_printf("%c%u", family_letters[family], number);
	bool done = finder_add(site, name, shard, false, error);

	g_string_truncate(shard, 0);
	g_free(name);
	return done;
}

bool
finder_terms(const struct site *site, const struct postings *postings,
	enum finder_family family, GString *firsts, GError **error)
{
	GString *shard = g_string_new(NULL), *line = g_string_new(NULL);
	const char *before = "";
	unsigned number = 0, i;
	bool done = true;

	for (i = 0; done && i < postings->term_count; i++) {
		const struct term *term = postings->terms[i];

		g_string_truncate(line, 0);
		if (family == FINDER_NAMES)
			append_names(line, postings, term);
		else
			append_words(line, postings, term);
		if (line->len == 0)
			continue;
		if (shard->len > 0 && shard->len + line->len > SHARD_SIZE)
			done = add_shard(site, family, number++, shard, error);
		if (shard->len == 0)
			append_first(firsts, before, term->text);
		g_string_append_printf(shard, "%s%s %s", shard->len == 0 ?
			"" : "|", term->text, line->str);
		before = term->text;
	}
	if (done && shard->len > 0)
		done = add_shard(site, family, number, shard, error);
	g_string_free(shard, TRUE);
	g_string_free(line, TRUE);
	return done;
}

bool
finder_vocabulary(const struct site *site, const struct postings *postings,
	GString *lengths, GError **error)
{
	GString *shards[LENGTHS] = {0};
	unsigned i, records;
	bool done = true;

	for (i = 0; i < postings->term_count; i++) {
		const struct term *term = postings->terms[i];
		size_t length = strlen(term->text);

		records = term_records(term);
		if (length >= LENGTHS || records == 0 ||
			!search_typo_may_be(term->text))
			continue;
		if (shards[length] == NULL)
			shards[length] = g_string_new(NULL);
		g_string_append_printf(shards[length], "%s%s ",
			shards[length]->len == 0 ? "" : "|", term->text);
		finder_number(shards[length], records);
	}
	for (i = 0; i < LENGTHS; i++) {
		char *name = g_strdup_printf("v%u", i);

		if (done && shards[i] != NULL) {
			g_string_append_printf(lengths, "%s%u",
				lengths->len == 0 ? "" : ",", i);
			done = finder_add(site, name, shards[i], false, error);
		}
		if (shards[i] != NULL)
			g_string_free(shards[i], TRUE);
		g_free(name);
	}
	return done;
}
