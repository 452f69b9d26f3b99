/*
 * A sheet to offer a piece: what it is and is not known to be, its condition,
 * what was changed, and every doubt. Nothing on it says what the piece cost,
 * where it is, whose it was, or what its owner notes for himself: the fields
 * shown are named one by one, so that a new one is not.
 */
#include "write/pieces/pieces.h"

#include <string.h>

#include "model/text.h"
#include "write/pieces/paper.h"
#include "write/pieces/words.h"

struct offering {
	const struct model *model;
	const struct record *piece;
	struct arena *arena;
	struct paper paper;
};

/* The title of a field, with a capital. */
static const char *
label(const struct offering *offering, enum field_name name)
{
	const char *title = model_field(offering->model, name)->title;
	char *made = arena_text(offering->arena, title, strlen(title));

	made[0] = g_ascii_toupper(made[0]);
	return made;
}

static const struct value *
get(const struct offering *offering, enum field_name name)
{
	return model_get(offering->model, offering->piece->values, name);
}

static void
put_identity(struct offering *offering)
{
	size_t i;

	paper_row(&offering->paper, "Form", words_value(get(offering,
		NAME(HOLDING_FORM)), offering->arena));
	for (i = 0; words_parts[i] != FIELD_NAME_COUNT; i++)
		paper_row(&offering->paper, label(offering, words_parts[i]),
			words_identity(get(offering, words_parts[i]),
			offering->arena));
	paper_row(&offering->paper, "Added stickers", words_value(get(offering,
		NAME(HOLDING_STICKERS)), offering->arena));
}

/* "card Rung 9; blister Rung 8" */
static const char *
subgrades(const struct offering *offering, const struct value *certificate)
{
	const struct value *list = model_get(offering->model,
		certificate->group, NAME(HOLDING_CERTIFICATE_SUBGRADES));
	const char *text = NULL;
	unsigned i;

	for (i = 0; i < value_count(list); i++) {
		struct value *const *group = value_item(list, i)->group;

		text = arena_print(offering->arena, "%s%s%s %s",
			text == NULL ? "" : text, text == NULL ? "" : "; ",
			words_value(model_get(offering->model, group,
				NAME(HOLDING_SUBGRADE_PART)), offering->arena),
			model_text(offering->model, group,
				NAME(HOLDING_SUBGRADE_GRADE)));
	}
	return text;
}

static void
put_certificate(struct offering *offering, const struct value *certificate)
{
	const struct model *model = offering->model;
	struct value *const *group = certificate->group;
	const char *printed = model_text(model, group,
		NAME(HOLDING_CERTIFICATE_LABEL));

	paper_row(&offering->paper, "Graded by", words_value(model_get(model,
		group, NAME(HOLDING_CERTIFICATE_SERVICE)), offering->arena));
	paper_row(&offering->paper, "Certificate", model_text(model, group,
		NAME(HOLDING_CERTIFICATE_NUMBER)));
	paper_row(&offering->paper, "Date", words_value(model_get(model, group,
		NAME(HOLDING_CERTIFICATE_DATE)), offering->arena));
	paper_row(&offering->paper, "Grade", words_grade(model, certificate,
		offering->arena));
	paper_row(&offering->paper, "Parts", subgrades(offering, certificate));
	if (printed != NULL)
		paper_row(&offering->paper, "The label says", arena_print(
			offering->arena, "\u201c%s\u201d", printed));
}

/* Certificates before the present one, one sentence each. */
static void
put_earlier(struct offering *offering, const struct value *now)
{
	const struct value *list = get(offering, NAME(HOLDING_CERTIFICATES));
	unsigned i;

	for (i = 0; i < value_count(list); i++) {
		const struct value *one = value_item(list, i);
		const char *grade = words_grade(offering->model, one,
			offering->arena);

		if (one == now)
			continue;
		paper_row(&offering->paper, "Before that", arena_print(
			offering->arena, "%s%s%s", words_value(model_get(
				offering->model, one->group,
				NAME(HOLDING_CERTIFICATE_SERVICE)),
				offering->arena), grade == NULL ? "" : ", ",
			grade == NULL ? "" : grade));
	}
}

static void
put_grading(struct offering *offering)
{
	const struct value *now = words_certificate(offering->model,
		offering->piece);
	const struct value *inside = get(offering, NAME(HOLDING_CASE));

	if (now == NULL && inside == NULL &&
		get(offering, NAME(HOLDING_CERTIFICATES)) == NULL)
		return;
	paper_heading(&offering->paper, "Case and certificate");
	if (now != NULL)
		put_certificate(offering, now);
	put_earlier(offering, now);
	if (inside == NULL)
		return;
	paper_row(&offering->paper, "Case of", words_value(model_get(
		offering->model, inside->group, NAME(HOLDING_CASE_SERVICE)),
		offering->arena));
	paper_row(&offering->paper, "Case", words_value(model_get(
		offering->model, inside->group, NAME(HOLDING_CASE_STYLE)),
		offering->arena));
	paper_row(&offering->paper, "Sealed", words_value(model_get(
		offering->model, inside->group, NAME(HOLDING_CASE_SEALED)),
		offering->arena));
}

/* Several things of a group in a row: "creased, at the lower left (2026)". */
static const char *
together(const struct offering *offering, const struct value *item,
	enum field_name what, enum field_name note, enum field_name date)
{
	struct value *const *group = item->group;
	const char *said = words_value(model_get(offering->model, group, what),
		offering->arena);
	const char *more = model_text(offering->model, group, note);
	const struct date *day = date == FIELD_NAME_COUNT ? NULL : model_date(
		offering->model, group, date);

	return arena_print(offering->arena, "%s%s%s%s%s%s",
		said == NULL ? "" : said, more == NULL ? "" : ": ",
		more == NULL ? "" : more, day == NULL ? "" : " (",
		day == NULL ? "" : date_words(day, offering->arena),
		day == NULL ? "" : ")");
}

static void
put_condition(struct offering *offering)
{
	const struct value *list = get(offering, NAME(HOLDING_CONDITION));
	unsigned i;

	paper_heading(&offering->paper, "Condition");
	if (value_count(list) == 0)
		paper_say(&offering->paper, "Nothing was noted. Ask.");
	for (i = 0; i < value_count(list); i++) {
		const struct value *item = value_item(list, i);
		const char *part = words_value(model_get(offering->model,
			item->group, NAME(HOLDING_CONDITION_PART)),
			offering->arena);

		paper_row(&offering->paper, part == NULL ? "" : part,
			together(offering, item, NAME(HOLDING_CONDITION_STATE),
				NAME(HOLDING_CONDITION_NOTE),
				NAME(HOLDING_CONDITION_DATE)));
	}
}

static void
put_accessories(struct offering *offering)
{
	const struct value *list = get(offering, NAME(HOLDING_ACCESSORIES));
	unsigned i;

	if (value_count(list) > 0)
		paper_heading(&offering->paper, "With it");
	for (i = 0; i < value_count(list); i++) {
		const struct value *item = value_item(list, i);
		const char *said = together(offering, item,
			NAME(HOLDING_ACCESSORY_ORIGINAL),
			NAME(HOLDING_ACCESSORY_NOTE), FIELD_NAME_COUNT);

		paper_item(&offering->paper, arena_print(offering->arena,
			"%s: %s", words_value(model_get(offering->model,
				item->group, NAME(HOLDING_ACCESSORY)),
				offering->arena), said[0] == '\0' ?
			"whether it is original is not known" : said));
	}
}

static void
put_alterations(struct offering *offering)
{
	const struct value *list = get(offering, NAME(HOLDING_ALTERATIONS));
	unsigned i;

	paper_heading(&offering->paper,
		"Changed since it left the factory");
	if (value_count(list) == 0)
		paper_say(&offering->paper, "Nothing that the owner knows of "
			"or suspects.");
	for (i = 0; i < value_count(list); i++) {
		const struct value *item = value_item(list, i);

		paper_item(&offering->paper, arena_print(offering->arena,
			"%s; %s", words_value(model_get(offering->model,
				item->group, NAME(HOLDING_ALTERATION_CERTAINTY)
				), offering->arena),
			together(offering, item, NAME(HOLDING_ALTERATION_WHAT),
				NAME(HOLDING_ALTERATION_NOTE),
				NAME(HOLDING_ALTERATION_DATE))));
	}
}

static void
doubt(struct offering *offering, bool *any, const char *words)
{
	*any = true;
	paper_item(&offering->paper, words);
}

/* What of the piece is not settled. */
static void
doubt_identity(struct offering *offering, bool *any)
{
	size_t i;

	for (i = 0; words_parts[i] != FIELD_NAME_COUNT; i++) {
		const struct value *value = get(offering, words_parts[i]);

		if (value == NULL || value->identity.kind == IDENTITY_KNOWN)
			continue;
		doubt(offering, any, arena_print(offering->arena,
			"%s is not settled: %s.", label(offering,
				words_parts[i]), words_identity(value,
				offering->arena)));
	}
}

static void
doubt_accessories(struct offering *offering, bool *any)
{
	const struct value *list = get(offering, NAME(HOLDING_ACCESSORIES));
	unsigned i;

	for (i = 0; i < value_count(list); i++) {
		struct value *const *group = value_item(list, i)->group;
		const char *word = model_word(offering->model, group,
			NAME(HOLDING_ACCESSORY_ORIGINAL));
		const char *name = words_value(model_get(offering->model,
			group, NAME(HOLDING_ACCESSORY)), offering->arena);

		if (word == NULL || strcmp(word, "original") == 0)
			continue;
		doubt(offering, any, arena_print(offering->arena, "%s: %s.",
			name, words_value(model_get(offering->model, group,
				NAME(HOLDING_ACCESSORY_ORIGINAL)),
				offering->arena)));
	}
}

static bool
has_condition(const struct offering *offering, const char *part)
{
	const struct value *list = get(offering, NAME(HOLDING_CONDITION));
	unsigned i;

	for (i = 0; i < value_count(list); i++)
		if (g_strcmp0(model_word(offering->model, value_item(list, i)->
			group, NAME(HOLDING_CONDITION_PART)), part) == 0)
			return true;
	return false;
}

/* Parts such a piece has of which nothing was noted. */
static void
doubt_undescribed(struct offering *offering, bool *any)
{
	static const struct { const char *part; const char *forms; } parts[] = {
		{"card", "carded carded-cased card-only"},
		{"tab", "carded carded-cased card-only"},
		{"blister", "carded carded-cased"},
		{"figure", "carded carded-cased loose loose-cased"},
		{"joints", "loose loose-cased"},
		{"wrapping", "bagged boxed"},
		{"case", "carded-cased loose-cased"},
	};
	const struct vocabulary *words = model_field(offering->model,
		NAME(HOLDING_CONDITION_PART))->vocabulary;
	const char *form = model_word(offering->model, offering->piece->values,
		NAME(HOLDING_FORM)), *text = NULL;
	char **forms;
	size_t i;
	unsigned j;

	for (i = 0; form != NULL && i < G_N_ELEMENTS(parts); i++) {
		forms = g_strsplit(parts[i].forms, " ", -1);
		for (j = 0; j < words->count; j++)
			if (strcmp(words->words[j].word, parts[i].part) == 0 &&
				g_strv_contains((const char *const *)forms,
					form) &&
				!has_condition(offering, parts[i].part))
				text = arena_print(offering->arena, "%s%s%s",
					text == NULL ? "" : text,
					text == NULL ? "" : ", ",
					words->words[j].title);
		g_strfreev(forms);
	}
	if (text != NULL)
		doubt(offering, any, arena_print(offering->arena,
			"Not described above: %s. Ask for a picture.", text));
}

static void
put_doubts(struct offering *offering)
{
	const struct value *own = get(offering, NAME(HOLDING_DOUBTS));
	bool any = false;
	unsigned i;

	paper_heading(&offering->paper, "Doubts");
	for (i = 0; i < value_count(own); i++)
		doubt(offering, &any, value_item(own, i)->text);
	doubt_identity(offering, &any);
	doubt_accessories(offering, &any);
	doubt_undescribed(offering, &any);
	if (!any)
		paper_say(&offering->paper, "None that the owner knows of.");
}

void
pieces_offer(const struct model *model, const struct record *piece,
	const char *look, GString *out)
{
	struct offering offering = {
		.model = model,
		.piece = piece,
		.arena = arena_new(),
	};

	offering.paper = paper_begin(out, look, arena_print(offering.arena,
		"Offered: %s", words_piece(model, piece, offering.arena)));
	paper_heading(&offering.paper, "What it is, as far as is known");
	put_identity(&offering);
	put_grading(&offering);
	put_condition(&offering);
	put_accessories(&offering);
	put_alterations(&offering);
	put_doubts(&offering);
	paper_heading(&offering.paper, "Please note");
	paper_say(&offering.paper, "This is the owner's description in the "
		"words of the guide. It is no appraisal and no "
		"authentication. Old plastics and paints may carry lead, "
		"cadmium or phthalates: not for children.");
	paper_end(&offering.paper);
	arena_free(offering.arena);
}
