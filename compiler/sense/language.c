/*
 * Language tags: BCP 47 (RFC 5646). A tag is well formed by section 2.1 and
 * valid by 2.2.9: each subtag stands in IANA's registry, no variant and no
 * extension comes twice, and an extended language follows its own language.
 */
#include <stdlib.h>
#include <string.h>

#include "sense/sensing.h"
#include "sense/tables.h"

enum { LONGEST_SUBTAG = 8, MOST_SUBTAGS = 32 };

/* A tag taken apart at its hyphens; subtags in lower case. */
struct tag {
	unsigned count;
	struct {
		char text[LONGEST_SUBTAG + 1];
		size_t length;
		size_t from;		/* in the tag as written */
	} subtags[MOST_SUBTAGS];
};

/* False where a subtag is empty, too long, or holds another character. */
static bool
take_apart(const char *text, struct tag *tag, size_t *from, size_t *to)
{
	size_t at = 0, length, i;

	tag->count = 0;
	for (;;) {
		length = strcspn(text + at, "-");
		/* Where a subtag is empty, the hyphen before it is meant. */
		*from = length == 0 && at > 0 ? at - 1 : at;
		*to = at + length;
		if (length == 0 || length > LONGEST_SUBTAG ||
			tag->count == MOST_SUBTAGS)
			return false;
		for (i = 0; i < length; i++) {
			if (!g_ascii_isalnum(text[at + i]))
				return false;
			tag->subtags[tag->count].text[i] =
				g_ascii_tolower(text[at + i]);
		}
		tag->subtags[tag->count].text[length] = '\0';
		tag->subtags[tag->count].length = length;
		tag->subtags[tag->count++].from = at;
		if (text[at + length] == '\0')
			return true;
		at += length + 1;
	}
}

static int
compare_text(const void *text, const void *item)
{
	return g_ascii_strcasecmp(text, item);
}

static int
compare_pointed(const void *text, const void *item)
{
	return g_ascii_strcasecmp(text, *(const char *const *)item);
}

static int
compare_pair(const void *text, const void *pair)
{
	return strcmp(text, ((const struct language_pair *)pair)->code);
}

static int
compare_beginning(const void *text, const void *item)
{
	return strncmp(text, *(const char *const *)item, 2);
}

#define FIND(text, table, compare) bsearch((text), (table), table##_count, \
	sizeof((table)[0]), (compare))

/* Any code of the private ranges, from `first` to `last`. */
static bool
is_within(const char *text, const char *first, const char *last)
{
	return strlen(text) == strlen(first) && strcmp(text, first) >= 0 &&
		strcmp(text, last) <= 0;
}

static bool
is_language(const char *text, size_t length)
{
	const char *const *row;

	if (length == 2)
		return FIND(text, languages2, compare_text) != NULL;
	if (length != 3)
		return false;
	if (is_within(text, "qaa", "qtz"))
		return true;
	row = FIND(text, languages3, compare_beginning);
	return row != NULL && strchr(*row + 2, text[2]) != NULL;
}

static bool
is_script(const char *text)
{
	return FIND(text, scripts, compare_text) != NULL ||
		is_within(text, "qaaa", "qabx");
}

static bool
is_region(const char *text)
{
	return FIND(text, regions, compare_text) != NULL ||
		is_within(text, "qm", "qz") || is_within(text, "xa", "xz");
}

static bool
is_letters(const char *text)
{
	return strspn(text, "abcdefghijklmnopqrstuvwxyz") == strlen(text);
}

/* Extended language subtags: three letters, each behind its own language. */
static bool
pass_extended(const struct tag *tag, unsigned *at)
{
	const struct language_pair *pair;
	const char *text;

	if (*at >= tag->count || tag->subtags[*at].length != 3 ||
		!is_letters(tag->subtags[*at].text))
		return true;
	text = tag->subtags[*at].text;
	pair = FIND(text, extended_languages, compare_pair);
	if (pair == NULL || strcmp(pair->other, tag->subtags[0].text) != 0)
		return false;
	++*at;
	return true;
}

static bool
came_before(const struct tag *tag, unsigned first, unsigned at)
{
	unsigned i;

	for (i = first; i < at; i++)
		if (strcmp(tag->subtags[i].text, tag->subtags[at].text) == 0)
			return true;
	return false;
}

/* Variants: registered, and none twice. */
static bool
pass_variants(const struct tag *tag, unsigned *at)
{
	unsigned first = *at;
	const char *text;

	for (; *at < tag->count && tag->subtags[*at].length > 1; ++*at) {
		text = tag->subtags[*at].text;
		if (FIND(text, language_variants, compare_pointed) == NULL ||
			came_before(tag, first, *at))
			return false;
	}
	return true;
}

/* Extensions and private use: a single character, then something. */
static bool
pass_extensions(const struct tag *tag, unsigned *at)
{
	unsigned first = *at, i;
	bool private = false;

	while (*at < tag->count && !private) {
		private = tag->subtags[*at].text[0] == 'x';
		for (i = first; i < *at; i++)
			if (tag->subtags[i].length == 1 &&
				tag->subtags[i].text[0] ==
				tag->subtags[*at].text[0])
				return false;
		if (*at + 1 == tag->count || (!private &&
			tag->subtags[*at + 1].length == 1))
			return false;
		for (++*at; *at < tag->count &&
			(private || tag->subtags[*at].length > 1); ++*at)
			;
	}
	return true;
}

/* Goes through the parts in their order; false with the bad one at *at. */
static bool
pass_parts(const struct tag *tag, unsigned *at)
{
	size_t length = tag->subtags[0].length;

	*at = 0;
	if (strcmp(tag->subtags[0].text, "x") == 0)
		return pass_extensions(tag, at);
	if (!is_language(tag->subtags[0].text, length))
		return false;
	++*at;
	if (!pass_extended(tag, at))
		return false;
	if (*at < tag->count && tag->subtags[*at].length == 4 &&
		is_letters(tag->subtags[*at].text)) {
		if (!is_script(tag->subtags[*at].text))
			return false;
		++*at;
	}
	length = *at < tag->count ? tag->subtags[*at].length : 0;
	if (length == 2 || length == 3) {
		if (!is_region(tag->subtags[*at].text))
			return false;
		++*at;
	}
	return pass_variants(tag, at) && pass_extensions(tag, at);
}

bool
language_is_bad(const char *text, size_t *from, size_t *to)
{
	struct tag tag;
	unsigned at;

	if (!take_apart(text, &tag, from, to))
		return true;
	if (FIND(text, old_language_tags, compare_pointed) != NULL ||
		pass_parts(&tag, &at))
		return false;
	*from = tag.subtags[at].from;
	*to = *from + tag.subtags[at].length;
	return true;
}

/* The part that would do in place of a bad one, or NULL. */
static const char *
better_part(const char *part, bool first)
{
	const struct language_pair *pair;

	if (!first)
		return strcmp(part, "uk") == 0 ? "GB" : NULL;
	pair = FIND(part, longer_languages, compare_pair);
	return pair == NULL ? NULL : pair->other;
}

static void
help_with(struct diag *diag, struct span span, const char *tag, size_t from,
	size_t to)
{
	char *part = g_ascii_strdown(tag + from, (gssize)(to - from));
	const char *better = better_part(part, from == 0);
	size_t bad_from, bad_to;
	char *hyphened;

	if (better != NULL) {
		diag_help(diag, "did you mean \"%s\"?", better);
		if (span.to - span.from == to - from)
			diag_mend(diag, span, better, MEND_SAFE);
	} else if (strchr(tag, '_') != NULL) {
		hyphened = g_strdelimit(g_strdup(tag), "_", '-');
		diag_help(diag, "write hyphens: \"%s\"", hyphened);
		if (from == 0 && span.to - span.from == to &&
			!language_is_bad(hyphened, &bad_from, &bad_to))
			diag_mend(diag, span, hyphened, MEND_SAFE);
		g_free(hyphened);
	} else
		diag_help(diag, "write the shortest code of the language, and "
			"what else is needed: en, el, fr-CA, sr-Latn");
	g_free(part);
}

static void
check_tag(struct sensing *sensing, const char *tag,
	const struct node *node, struct span span)
{
	size_t from, to;
	struct diag *diag;

	if (!language_is_bad(tag, &from, &to))
		return;
	if (node != NULL)
		span = node_span_within(node, model_sources(sensing->model),
			(uint32_t)from, (uint32_t)to);
	else if (span.to - span.from == strlen(tag)) {
		/* A key without quotes. */
		span.to = span.from + (uint32_t)to;
		span.from += (uint32_t)from;
	}
	if (from == 0 && tag[to] == '\0')
		diag = diag_report(sensing->diags, DIAG_UNKNOWN_LANGUAGE, span,
			"\"%s\" is not a language tag of BCP 47", tag);
	else
		diag = diag_report(sensing->diags, DIAG_UNKNOWN_LANGUAGE, span,
			"\"%.*s\" has no place in the language tag \"%s\"",
			(int)(to - from), tag + from, tag);
	help_with(diag, span, tag, from, to);
}

static void
check_language(struct sensing *sensing, const struct record *record,
	struct value *const *beside, const struct value *value)
{
	(void)record;
	(void)beside;
	check_tag(sensing, value->text, value->node, value->span);
}

void
sense_languages(struct sensing *sensing)
{
	sense_each(sensing, TYPE_LANGUAGE, check_language);
}

static void
check_translation(struct sensing *sensing, const struct record *record,
	struct value *const *beside, const struct value *value)
{
	unsigned i;

	(void)record;
	(void)beside;
	for (i = 0; i < value->translation.count; i++)
		check_tag(sensing, value->translation.items[i].language, NULL,
			value->translation.items[i].language_span);
}

void
sense_translations(struct sensing *sensing)
{
	sense_each(sensing, TYPE_TRANSLATION, check_translation);
}
