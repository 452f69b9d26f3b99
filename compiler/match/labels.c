/*
 * A label is found by its number; letters are sought beside it. Numbers that
 * say money, a date, a grade or a place are passed over.
 */
#include "match/labels.h"

#include <string.h>

#include "search/tokens.h"

/* A label that a scheme gives, or gave, to a card back. */
struct given {
	const struct record *cardback;
	const struct record *scheme;
	const struct record *market;
	bool current;		/* the scheme is in use */
	bool former;		/* the label is not */
	char **rest;		/* words that belong to it, or NULL */
};

struct labels {
	GHashTable *given;	/* "18b" → GArray of struct given */
	GHashTable *numbers;	/* number → GPtrArray of card backs */
	const struct model *model;
};

static void
append_plain(void *data, const char *token)
{
	search_append_folded(data, token);
}

/* "18-B" as "18b"; a label without its number gets it. */
static char *
close_label(int64_t number, const char *label)
{
	GString *closed = g_string_new(NULL);
	char *digits = g_strdup_printf("%d", (int)number);

	search_tokens(label, append_plain, closed);
	if (!g_ascii_isdigit(closed->str[0]))
		g_string_prepend(closed, digits);
	g_free(digits);
	return g_string_free(closed, FALSE);
}

static void
give(struct labels *labels, char *key, struct given given)
{
	GArray *list = g_hash_table_lookup(labels->given, key);

	if (list == NULL) {
		list = g_array_new(FALSE, FALSE, sizeof(struct given));
		g_hash_table_insert(labels->given, key, list);
	} else {
		g_free(key);
	}
	g_array_append_val(list, given);
}

/* Letters as labels have them: one, and perhaps a figure. */
static bool
is_letters(const char *text)
{
	const char *rest;

	if (!g_unichar_isalpha(g_utf8_get_char(text)))
		return false;
	rest = g_utf8_next_char(text);
	return *rest == '\0' || (g_ascii_isdigit(*rest) && rest[1] == '\0');
}

/*
 * Takes "24", "24c", "24backc", "11b1" apart: the number, whether "back" is
 * in it, and the letters behind. False for other words.
 */
static bool
split_word(const char *text, unsigned *number, bool *back,
	const char **letters)
{
	static const char *const backs[] = {"backs", "back", "bk", "er"};
	size_t digits = strspn(text, "0123456789"), i;
	const char *rest = text + digits;

	if (digits == 0 || digits > 3)
		return false;
	*number = (unsigned)g_ascii_strtoull(text, NULL, 10);
	*back = false;
	*letters = NULL;
	for (i = 0; i < G_N_ELEMENTS(backs) && !*back; i++)
		if (g_str_has_prefix(rest, backs[i])) {
			rest += strlen(backs[i]);
			*back = true;
		}
	if (*rest == '\0')
		return true;
	if (!is_letters(rest))
		return false;
	*letters = rest;
	return true;
}

static void
free_given(gpointer data)
{
	GArray *list = data;
	guint i;

	for (i = 0; i < list->len; i++)
		g_strfreev(g_array_index(list, struct given, i).rest);
	g_array_free(list, TRUE);
}

static void
add_plain(void *data, const char *token)
{
	GString *plain = g_string_new(NULL);

	search_append_folded(plain, token);
	g_ptr_array_add(data, g_string_free(plain, FALSE));
}

/*
 * Takes a label with words behind it apart, as "38A pasted": gives the words,
 * and shortens the label to what stands before them. NULL for any other.
 */
static char **
split_rest(const char *was, char **label)
{
	GPtrArray *words = g_ptr_array_new();
	const char *letters = NULL;
	char **rest = NULL;
	unsigned number;
	bool back;

	*label = NULL;
	search_tokens(was, add_plain, words);
	g_ptr_array_add(words, NULL);
	if (words->len > 2 && split_word(words->pdata[0], &number, &back,
		&letters) && letters != NULL) {
		*label = g_strdup(words->pdata[0]);
		rest = g_strdupv((char **)words->pdata + 1);
	}
	g_strfreev((char **)g_ptr_array_free(words, FALSE));
	return rest;
}

static void
free_backs(gpointer list)
{
	g_ptr_array_free(list, TRUE);
}

static void
enter_cardback(struct labels *labels, const struct model *model,
	const struct record *cardback)
{
	const struct value *list = model_get(model, cardback->values,
		NAME(CARDBACK_LABELS));
	int64_t number = model_whole(model, cardback->values,
		NAME(CARDBACK_NUMBER), 0);
	gpointer key = GUINT_TO_POINTER((guint)number);
	GPtrArray *backs = g_hash_table_lookup(labels->numbers, key);
	unsigned i;

	if (backs == NULL) {
		backs = g_ptr_array_new();
		g_hash_table_insert(labels->numbers, key, backs);
	}
	g_ptr_array_add(backs, (gpointer)(uintptr_t)cardback);
	for (i = 0; i < value_count(list); i++) {
		struct value *const *values = value_item(list, i)->group;
		const struct record *scheme = model_record(model, values,
			NAME(CARDBACK_LABELS_SCHEME));
		const char *label = model_text(model, values,
			NAME(CARDBACK_LABELS_LABEL));

		if (label != NULL && scheme != NULL)
			give(labels, close_label(number, label),
				(struct given){cardback, scheme, model_record(
				model, scheme->values, NAME(SCHEME_MARKET)),
				model_yes(model, scheme->values,
				NAME(SCHEME_CURRENT)), false, NULL});
	}
}

static void
enter_relabels(struct labels *labels, const struct model *model,
	const struct record *scheme)
{
	const struct value *list = model_get(model, scheme->values,
		NAME(SCHEME_RELABELS));
	char **rest, *label;
	unsigned i;

	for (i = 0; i < value_count(list); i++) {
		struct value *const *values = value_item(list, i)->group;
		const char *was = model_text(model, values,
			NAME(SCHEME_RELABEL_WAS));
		const struct record *cardback = model_record(model, values,
			NAME(SCHEME_RELABEL_CARDBACK));

		if (was == NULL || cardback == NULL)
			continue;
		rest = split_rest(was, &label);
		give(labels, close_label(model_whole(model, cardback->values,
			NAME(CARDBACK_NUMBER), 0), rest ? label : was),
			(struct given){cardback, scheme, model_record(model,
			scheme->values, NAME(SCHEME_MARKET)), false, true,
			rest});
		g_free(label);
	}
}

struct labels *
labels_new(const struct model *model)
{
	struct labels *labels = g_new0(struct labels, 1);
	struct record_list list = model_records_of(model, "cardback");
	unsigned i;

	labels->model = model;
	labels->given = g_hash_table_new_full(g_str_hash, g_str_equal, g_free,
		free_given);
	labels->numbers = g_hash_table_new_full(NULL, NULL, NULL, free_backs);
	for (i = 0; i < list.count; i++)
		enter_cardback(labels, model, list.items[i]);
	list = model_records_of(model, "scheme");
	for (i = 0; i < list.count; i++)
		enter_relabels(labels, model, list.items[i]);
	return labels;
}

void
labels_free(struct labels *labels)
{
	g_hash_table_destroy(labels->given);
	g_hash_table_destroy(labels->numbers);
	g_free(labels);
}

const GPtrArray *
labels_of_number(const struct labels *labels, unsigned number)
{
	return g_hash_table_lookup(labels->numbers, GUINT_TO_POINTER(number));
}

bool
labels_is_label(const struct labels *labels, const char *text)
{
	GPtrArray *words = g_ptr_array_new_with_free_func(g_free);
	GString *closed = g_string_new(NULL);
	const char *letters = NULL;
	unsigned number = 0;
	bool back = false, label;
	guint i;

	search_tokens(text, add_plain, words);
	for (i = 0; i < words->len; i++)
		g_string_append(closed, words->pdata[i]);
	label = words->len <= 3 && split_word(closed->str, &number, &back,
		&letters) && (back || letters != NULL) &&
		labels_of_number(labels, number) != NULL;
	g_string_free(closed, TRUE);
	g_ptr_array_free(words, TRUE);
	return label;
}

/* A label while it is read. */
struct finding {
	const struct labels *labels;
	struct row_text *row;
	const GArray *schemes;
	const struct record *usual;
	const struct model *model;
	bool former;
	GArray *out;
};

static bool
in_column(const struct row_word *word)
{
	return word->role == COLUMN_CARDBACK || word->role == COLUMN_LETTER;
}

/* Whether what stands before the number makes it another sort of number. */
static bool
counts_otherwise(const struct row_text *row, unsigned i)
{
	const struct row_word *word = &row->words[i];
	const struct row_word *before = i == 0 ? NULL : &row->words[i - 1];
	const struct row_word *after = i + 1 == row->count ? NULL :
		&row->words[i + 1];

	if (word->money || word->used)
		return true;
	if (before != NULL && before->cell == word->cell &&
		(before->meaning == MEANS_COUNTED ||
		before->meaning == MEANS_MONEY ||
		before->meaning == MEANS_CASED ||
		(before->meaning == MEANS_WITHOUT && word->digits &&
		before->clause == word->clause &&
		strcmp(before->text, "no") == 0)))
		return true;
	return after != NULL && after->cell == word->cell && word->digits &&
		after->meaning == MEANS_MONEY;
}

/* Whether a lone letter is an article: "a bit creased". */
static bool
is_article(const struct row_text *row, unsigned i)
{
	const struct row_word *word = &row->words[i];

	return strcmp(word->text, "a") == 0 && !word->capitals &&
		i + 1 < row->count &&
		row->words[i + 1].clause == word->clause &&
		row->words[i + 1].meaning == MEANS_FITTING;
}

static bool
is_lone_letter(const struct row_text *row, unsigned i)
{
	return i < row->count && is_letters(row->words[i].text) &&
		!row->words[i].used && !is_article(row, i);
}

/*
 * The letters that go with a number whose words end before `at`; *to is where
 * they end. "letter B", "B", "(B)"; in a clause of their own too.
 */
static const char *
letters_after(const struct row_text *row, unsigned at, bool back,
	unsigned *to)
{
	unsigned i = at, end = at;

	while (i < row->count && i < at + 2 &&
		row->words[i].cell == row->words[at - 1].cell &&
		row->words[i].meaning == MEANS_LETTER)
		i++;
	if (i >= row->count || !is_lone_letter(row, i))
		return NULL;
	if (row->words[i].cell != row->words[at - 1].cell)
		return NULL;
	end = i + 1;
	/* Without "back", what is far from the number is no letter of it. */
	if (row->words[i].clause != row->words[at - 1].clause && i == at) {
		bool alone = end == row->count ||
			row->words[end].clause != row->words[i].clause;

		if (!back || !alone)
			return NULL;
	}
	*to = end;
	return row->words[i].text;
}

static bool
is_negated(const struct row_text *row, unsigned from)
{
	unsigned i, least = from < 3 ? 0 : from - 3;

	for (i = from; i > least; i--) {
		const struct row_word *word = &row->words[i - 1];

		if (word->clause != row->words[from].clause)
			return false;
		if (word->meaning == MEANS_NOT)
			return true;
		if (word->meaning != MEANS_ARTICLE && !word->hidden)
			return false;
	}
	return false;
}

static void
add_back(GPtrArray *backs, const struct record *back)
{
	if (!g_ptr_array_find(backs, back, NULL))
		g_ptr_array_add(backs, (gpointer)(uintptr_t)back);
}

static const struct record *
market_of(const struct finding *finding, const struct record *scheme)
{
	return model_record(finding->model, scheme->values,
		NAME(SCHEME_MARKET));
}

/* The scheme named nearest to a label; in its clause, if there are several. */
static const struct record *
scheme_near(const struct finding *finding, const struct label_said *said)
{
	const struct record *found = finding->usual;
	unsigned least = UINT_MAX;
	guint i;

	for (i = 0; i < finding->schemes->len; i++) {
		struct scheme_said one = g_array_index(finding->schemes,
			struct scheme_said, i);
		unsigned far = one.word < said->from ? said->from - one.word :
			one.word - said->from;

		if (finding->out->len > 1 &&
			finding->row->words[one.word].clause !=
			finding->row->words[said->from].clause)
			continue;
		if (far < least) {
			least = far;
			found = one.scheme;
		}
	}
	return found;
}

/*
 * What is given as the label: as it is written, or else with Latin letters for
 * the Greek ones that look like them.
 */
static const GArray *
find_given(const struct labels *labels, const struct label_said *said)
{
	static const char *const alike[][2] = {
		{"α", "a"}, {"β", "b"}, {"ε", "e"}, {"ζ", "z"}, {"η", "h"},
		{"ι", "i"}, {"κ", "k"}, {"μ", "m"}, {"ν", "n"}, {"ο", "o"},
		{"ρ", "p"}, {"τ", "t"}, {"υ", "y"}, {"χ", "x"},
	};
	char *key = g_strdup_printf("%u%s", said->number, said->letters);
	const GArray *list = g_hash_table_lookup(labels->given, key);
	size_t i;

	for (i = 0; list == NULL && i < G_N_ELEMENTS(alike); i++) {
		if (strcmp(alike[i][0], said->letters) != 0)
			continue;
		g_free(key);
		key = g_strdup_printf("%u%s", said->number, alike[i][1]);
		list = g_hash_table_lookup(labels->given, key);
	}
	g_free(key);
	return list;
}

/* Whether the words that belong to a label stand behind it. */
static bool
has_rest(const struct finding *finding, const struct label_said *said,
	char *const *rest)
{
	const struct row_text *row = finding->row;
	unsigned i;

	for (i = said->to; *rest != NULL; i++, rest++)
		if (i >= row->count ||
			row->words[i].cell != row->words[said->from].cell ||
			strcmp(row->words[i].text, *rest) != 0)
			return false;
	return true;
}

/* A label that is written with all its words is meant, and no shorter one. */
static bool
resolve_whole(const struct finding *finding, struct label_said *said,
	const GArray *list, GPtrArray *backs)
{
	guint i;

	for (i = 0; list != NULL && i < list->len; i++) {
		struct given one = g_array_index(list, struct given, i);

		if (one.rest == NULL || !has_rest(finding, said, one.rest))
			continue;
		add_back(backs, one.cardback);
		said->scheme = one.scheme;
	}
	return backs->len > 0;
}

/* Card backs of a label, in the schemes that the row may mean. */
static void
resolve(const struct finding *finding, struct label_said *said,
	GPtrArray *backs)
{
	const GArray *list = find_given(finding->labels, said);
	GPtrArray *others = g_ptr_array_new();
	guint i, pass;

	if (resolve_whole(finding, said, list, backs)) {
		g_ptr_array_free(others, TRUE);
		return;
	}
	/* The scheme named; those in use; those not; labels given up. */
	for (pass = 0; list != NULL && pass < 4; pass++)
		for (i = 0; i < list->len; i++) {
			struct given one = g_array_index(list, struct given,
				i);
			bool fits = pass == 0 ? one.scheme == said->scheme :
				pass == 1 ? one.current && !one.former :
				pass == 2 ? !one.current && !one.former :
				one.former;

			/* Where one scheme of a market is meant, others of
			   that market are not. */
			if (pass > 0 && said->scheme != NULL &&
				(backs->len > 0 || one.market == market_of(
				finding, said->scheme)))
				continue;
			if (fits && (backs->len == 0 || finding->former ||
				(pass == 1 && said->scheme == NULL)))
				add_back(backs, one.cardback);
			else if (fits && said->scheme == NULL)
				add_back(others, one.cardback);
		}
	for (i = 0; i < others->len; i++)
		said->other |= !g_ptr_array_find(backs, others->pdata[i],
			NULL);
	g_ptr_array_free(others, TRUE);
}

/* Finds what a label may be, once all labels of the row are known. */
static void
find_backs(const struct finding *finding, struct label_said *said)
{
	GPtrArray *backs = g_ptr_array_new();
	const GPtrArray *all = labels_of_number(finding->labels, said->number);
	guint i;

	said->scheme = scheme_near(finding, said);
	if (said->letters != NULL)
		resolve(finding, said, backs);
	else
		for (i = 0; all != NULL && i < all->len; i++)
			add_back(backs, all->pdata[i]);
	said->count = backs->len;
	said->cardbacks = arena_array(finding->row->arena,
		const struct record *, backs->len + 1);
	for (i = 0; i < backs->len; i++)
		said->cardbacks[i] = backs->pdata[i];
	g_ptr_array_free(backs, TRUE);
}

static void
say(struct finding *finding, struct label_said said)
{
	unsigned i;

	said.negated = is_negated(finding->row, said.from);
	for (i = said.from; i < said.to; i++)
		finding->row->words[i].used = true;
	g_array_append_val(finding->out, said);
}

/* "24A/B", "24 A or B", "24A-C": more letters for the same number. */
static unsigned
say_more(struct finding *finding, struct label_said said)
{
	const struct row_text *row = finding->row;
	unsigned at = said.to;

	while (at < row->count && row->words[at].cell ==
		row->words[said.from].cell) {
		unsigned next = at;

		if (row->words[at].meaning == MEANS_OR ||
			row->words[at].meaning == MEANS_AND)
			next++;
		else if (strchr("/-&+", row->words[at].before) == NULL)
			break;
		if (next >= row->count || !is_lone_letter(row, next))
			break;
		said.letters = row->words[next].text;
		said.from = at;
		said.to = next + 1;
		say(finding, said);
		at = next + 1;
	}
	return at;
}

/* Whether the number is one that a card back pictures, or is said to be. */
static bool
is_wanted(const struct finding *finding, const struct label_said *said,
	bool back)
{
	const struct row_word *word = &finding->row->words[said->from];

	if (back || word->role == COLUMN_CARDBACK)
		return true;
	return labels_of_number(finding->labels, said->number) != NULL;
}

/* "old 15B": whether the label is said to be one of former days. */
static bool
is_called_old(const struct row_text *row, unsigned i)
{
	static const char *const words[] = {"old", "ex", "was", "alt", "alte",
		"altes", "oud", "oude", "ancien", "gammal", "gammel", NULL};

	return i > 0 && row->words[i - 1].cell == row->words[i].cell &&
		g_strv_contains(words, row->words[i - 1].text);
}

static unsigned
read_at(struct finding *finding, unsigned i)
{
	struct row_text *row = finding->row;
	struct label_said said = {.from = i, .to = i + 1};
	bool back = false, before;
	unsigned at, to;

	if (counts_otherwise(row, i) || !split_word(row->words[i].text,
		&said.number, &back, &said.letters))
		return i + 1;
	before = i > 0 && row->words[i - 1].cell == row->words[i].cell &&
		row->words[i - 1].meaning == MEANS_BACK;
	for (at = i + 1; at < row->count && at < i + 4 &&
		row->words[at].cell == row->words[i].cell &&
		row->words[at].clause == row->words[i].clause &&
		(row->words[at].meaning == MEANS_BACK ||
		(back && row->words[at].hidden)); at++)
		back = true;
	said.to = at;
	if (said.letters == NULL) {
		said.letters = letters_after(row, at, back || before ||
			in_column(&row->words[i]), &to);
		if (said.letters != NULL)
			said.to = to;
	}
	back |= before;
	if (!is_wanted(finding, &said, back))
		return i + 1;
	finding->former |= is_called_old(row, i);
	said.sure = back || said.letters != NULL ||
		in_column(&row->words[i]);
	say(finding, said);
	return said.letters == NULL ? said.to : say_more(finding, said);
}

/* Whether a word is all that stands in its cell. */
static bool
is_alone(const struct row_text *row, unsigned i)
{
	return (i == 0 || row->words[i - 1].cell != row->words[i].cell) &&
		(i + 1 == row->count ||
		row->words[i + 1].cell != row->words[i].cell);
}

/* A letter in a column of its own, or behind "letter", for a number without. */
static void
add_letter(struct finding *finding)
{
	struct row_text *row = finding->row;
	struct label_said *said;
	unsigned i;

	if (finding->out->len != 1)
		return;
	said = &g_array_index(finding->out, struct label_said, 0);
	if (said->letters != NULL || said->negated)
		return;
	for (i = 0; i < row->count; i++) {
		bool wanted = row->words[i].role == COLUMN_LETTER || (i > 0 &&
			row->words[i - 1].meaning == MEANS_LETTER) ||
			(is_alone(row, i) && row->words[i].role ==
			COLUMN_PART);

		if (wanted && is_lone_letter(row, i)) {
			struct label_said whole = *said;

			whole.letters = row->words[i].text;
			row->words[i].used = true;
			g_array_set_size(finding->out, 0);
			say(finding, whole);
			whole.from = i;
			whole.to = i + 1;
			say_more(finding, whole);
			return;
		}
	}
}

/* What was given for the piece is no label of it, where it has another. */
static void
drop_given(const struct row_text *row, GArray *out)
{
	guint own = 0, i;

	for (i = 0; i < out->len; i++)
		own += !row_text_is_given(row, g_array_index(out,
			struct label_said, i).from);
	for (i = out->len; own > 0 && i > 0; i--)
		if (row_text_is_given(row, g_array_index(out,
			struct label_said, i - 1).from))
			g_array_remove_index(out, i - 1);
}

/* Numbers that may be anything count only where nothing surer is said. */
static void
drop_unsure(GArray *out)
{
	bool sure = false;
	guint i;

	for (i = 0; i < out->len; i++)
		sure |= g_array_index(out, struct label_said, i).sure;
	for (i = out->len; sure && i > 0; i--)
		if (!g_array_index(out, struct label_said, i - 1).sure)
			g_array_remove_index(out, i - 1);
}

void
labels_read(const struct labels *labels, struct row_text *row,
	const GArray *schemes, const struct record *usual, bool former,
	GArray *out)
{
	struct finding finding = {labels, row, schemes, usual, labels->model,
		former, out};
	unsigned i = 0;

	while (i < row->count)
		i = read_at(&finding, i);
	drop_unsure(out);
	drop_given(row, out);
	add_letter(&finding);
	for (i = 0; i < out->len; i++)
		find_backs(&finding, &g_array_index(out, struct label_said,
			i));
}
