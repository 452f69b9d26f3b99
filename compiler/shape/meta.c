/*
 * The schema language as tables: what schema/README.md says in words.
 */
#include "shape/meta.h"

#define WORD(enumerator, text) [enumerator] = {text, text, NULL, enumerator}
#define COUNT(array) (sizeof(array) / sizeof((array)[0]))

static struct word type_words[] = {
	WORD(TYPE_TEXT, "text"),
	WORD(TYPE_PROSE, "prose"),
	WORD(TYPE_WHOLE, "whole"),
	WORD(TYPE_QUANTITY, "quantity"),
	WORD(TYPE_DATE, "date"),
	WORD(TYPE_YESNO, "yesno"),
	WORD(TYPE_WORD, "word"),
	WORD(TYPE_COUNTRY, "country"),
	WORD(TYPE_LANGUAGE, "language"),
	WORD(TYPE_CURRENCY, "currency"),
	WORD(TYPE_BARCODE, "barcode"),
	WORD(TYPE_AMOUNT, "amount"),
	WORD(TYPE_TRANSLATION, "translation"),
	WORD(TYPE_REFERENCE, "reference"),
	WORD(TYPE_IDENTITY, "identity"),
	WORD(TYPE_GROUP, "group"),
};
static struct word show_words[] = {
	WORD(SHOW_YES, "yes"),
	WORD(SHOW_FIRST, "first"),
	WORD(SHOW_NO, "no"),
};
static struct word search_words[] = {
	WORD(SEARCH_NO, "no"),
	WORD(SEARCH_WORDS, "words"),
	WORD(SEARCH_LABEL, "label"),
	WORD(SEARCH_NAME, "name"),
};
static struct word chapter_words[] = {
	WORD(CHAPTER_LINE, "line"),
	WORD(CHAPTER_MADE, "made"),
	WORD(CHAPTER_SEEN, "seen"),
	WORD(CHAPTER_KNOWN, "known"),
	WORD(CHAPTER_READER, "reader"),
	WORD(CHAPTER_PRIVATE, "private"),
};

static const struct vocabulary types = {"type", type_words,
	COUNT(type_words)};
static const struct vocabulary shows = {"show", show_words,
	COUNT(show_words)};
static const struct vocabulary searches = {"search", search_words,
	COUNT(search_words)};
static const struct vocabulary chapters = {"chapter", chapter_words,
	COUNT(chapter_words)};

#define TEXT_FIELD(place, text) [place] = { \
	.name = text, .type = TYPE_TEXT, .index = place}
#define NEEDED_FIELD(place, text) [place] = { \
	.name = text, .type = TYPE_TEXT, .index = place, .required = true}
#define LIST_FIELD(place, text) [place] = { \
	.name = text, .type = TYPE_TEXT, .index = place, .many = true}
#define YESNO_FIELD(place, text) [place] = { \
	.name = text, .type = TYPE_YESNO, .index = place}
#define WHOLE_FIELD(place, text) [place] = { \
	.name = text, .type = TYPE_WHOLE, .index = place, \
	.least = INT64_MIN, .most = INT64_MAX}
#define WORD_FIELD(place, text, words, need) [place] = { \
	.name = text, .type = TYPE_WORD, .index = place, \
	.vocabulary = &(words), .required = need}
#define GROUP_FIELD(place, text, table, size, need) [place] = { \
	.name = text, .type = TYPE_GROUP, .index = place, .many = true, \
	.fields = {table, size}, .required = need}

/* A group's fields are written like a kind's: the table refers to itself. */
static const struct field field_fields[FIELD_COUNT];

static const struct field field_fields[FIELD_COUNT] = {
	NEEDED_FIELD(FIELD_NAME, "name"),
	TEXT_FIELD(FIELD_TITLE, "title"),
	TEXT_FIELD(FIELD_SAYS, "says"),
	WORD_FIELD(FIELD_TYPE, "type", types, true),
	YESNO_FIELD(FIELD_MANY, "many"),
	YESNO_FIELD(FIELD_REQUIRED, "required"),
	TEXT_FIELD(FIELD_UNIQUE, "unique"),
	TEXT_FIELD(FIELD_DEFAULT, "default"),
	WORD_FIELD(FIELD_SHOW, "show", shows, false),
	WORD_FIELD(FIELD_SEARCH, "search", searches, false),
	YESNO_FIELD(FIELD_EXPORT, "export"),
	TEXT_FIELD(FIELD_VOCABULARY, "vocabulary"),
	LIST_FIELD(FIELD_TO, "to"),
	LIST_FIELD(FIELD_UNITS, "units"),
	WHOLE_FIELD(FIELD_LEAST, "least"),
	WHOLE_FIELD(FIELD_MOST, "most"),
	TEXT_FIELD(FIELD_NOT_BEFORE, "not_before"),
	TEXT_FIELD(FIELD_ON, "on"),
	GROUP_FIELD(FIELD_FIELDS, "fields", field_fields, FIELD_COUNT, false),
};

static const struct field kind_fields[KIND_COUNT] = {
	NEEDED_FIELD(KIND_KIND, "kind"),
	NEEDED_FIELD(KIND_TITLE, "title"),
	NEEDED_FIELD(KIND_TITLES, "titles"),
	TEXT_FIELD(KIND_SAYS, "says"),
	WORD_FIELD(KIND_CHAPTER, "chapter", chapters, true),
	TEXT_FIELD(KIND_CALLED, "called"),
	YESNO_FIELD(KIND_PAGE, "page"),
	GROUP_FIELD(KIND_FIELDS, "fields", field_fields, FIELD_COUNT, true),
};

static const struct field word_fields[WORD_COUNT] = {
	NEEDED_FIELD(WORD_WORD, "word"),
	TEXT_FIELD(WORD_TITLE, "title"),
	TEXT_FIELD(WORD_SAYS, "says"),
};

static const struct field vocabulary_fields[VOCABULARY_COUNT] = {
	NEEDED_FIELD(VOCABULARY_NAME, "name"),
	GROUP_FIELD(VOCABULARY_WORDS, "words", word_fields, WORD_COUNT, true),
};

const struct fields meta_kind_fields = {kind_fields, KIND_COUNT};
const struct fields meta_vocabulary_fields = {vocabulary_fields,
	VOCABULARY_COUNT};
