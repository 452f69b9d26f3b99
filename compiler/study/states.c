/*
 * What a holding says of its state, and what a run asks. What is not said is
 * not known: the piece may meet the condition, and one has to look.
 */
#include "study/states.h"

#include <string.h>

static bool
has_word(const char *word, const char *const *words)
{
	return word != NULL && g_strv_contains(words, word);
}

static const char *const carded[] = {"carded", "carded-cased", NULL};
static const char *const loose[] = {"loose", "loose-cased", NULL};
static const char *const with_back[] = {"carded", "carded-cased", "card-only",
	NULL};
static const char *const cased[] = {"carded-cased", "loose-cased", NULL};

static enum piece_use
use_of(const char *status)
{
	static const char *const held[] = {"held", "lent", "away", NULL};
	static const char *const coming[] = {"ordered", "paid", "in-transit",
		NULL};
	static const char *const wanted[] = {"wanted", "watching", "bid",
		NULL};

	if (status == NULL || has_word(status, held))
		return PIECE_HELD;
	if (has_word(status, coming))
		return PIECE_COMING;
	return has_word(status, wanted) ? PIECE_WANTED : PIECE_GONE;
}

/* A suspicion alone leaves it open. */
static enum truth
is_unaltered(const struct model *model, const struct record *record)
{
	const struct value *list = model_get(model, record->values,
		NAME(HOLDING_ALTERATIONS));
	enum truth truth = TRUTH_YES;
	const char *word;
	unsigned i;

	for (i = 0; i < value_count(list); i++) {
		word = model_word(model, value_item(list, i)->group,
			NAME(HOLDING_ALTERATION_CERTAINTY));
		if (word == NULL || strcmp(word, "suspected") != 0)
			return TRUTH_NO;
		truth = TRUTH_MAYBE;
	}
	return truth;
}

/* Once punched, always punched. Off its card there is no tab at all. */
static enum truth
is_unpunched(const struct model *model, const struct piece *piece)
{
	const struct value *list = model_get(model, piece->record->values,
		NAME(HOLDING_CONDITION));
	enum truth truth = TRUTH_MAYBE;
	const char *state;
	unsigned i;

	if (!has_word(piece->form, with_back))
		return TRUTH_NO;
	for (i = 0; i < value_count(list); i++) {
		state = model_word(model, value_item(list, i)->group,
			NAME(HOLDING_CONDITION_STATE));
		if (state != NULL && strcmp(state, "punched") == 0)
			return TRUTH_NO;
		if (state != NULL && strcmp(state, "unpunched") == 0)
			truth = TRUTH_YES;
	}
	return truth;
}

/* The certificate in force: the last, unless it says until when it was. */
static void
read_grade(const struct model *model, struct piece *piece)
{
	const struct value *list = model_get(model, piece->record->values,
		NAME(HOLDING_CERTIFICATES));
	const struct record *service;
	struct value *const *values;

	piece->step = -1;
	if (value_count(list) == 0)
		return;
	values = value_item(list, value_count(list) - 1)->group;
	if (model_date(model, values, NAME(HOLDING_CERTIFICATE_UNTIL)) != NULL)
		return;
	service = model_record(model, values,
		NAME(HOLDING_CERTIFICATE_SERVICE));
	piece->grade = model_text(model, values,
		NAME(HOLDING_CERTIFICATE_GRADE));
	piece->scale = model_record(model, values,
		NAME(HOLDING_CERTIFICATE_SCALE));
	if (piece->scale == NULL && service != NULL)
		piece->scale = model_record(model, service->values,
			NAME(SERVICE_SCALE));
	if (piece->scale != NULL)
		piece->step = aim_step(model, piece->scale, piece->grade);
}

static bool
is_anomaly(const struct model *model, const struct record *record)
{
	const struct value *anomaly = model_get(model, record->values,
		NAME(HOLDING_ANOMALY));

	return anomaly != NULL &&
		(anomaly->identity.kind == IDENTITY_KNOWN ||
		anomaly->identity.kind == IDENTITY_ONE_OF);
}

void
piece_read_states(const struct model *model, struct piece *piece)
{
	struct value *const *values = piece->record->values;
	const struct value *holder = model_get(model, values,
		NAME(HOLDING_CASE));

	piece->form = model_word(model, values, NAME(HOLDING_FORM));
	piece->use = use_of(model_word(model, values, NAME(HOLDING_STATUS)));
	piece->anomaly = is_anomaly(model, piece->record);
	piece->unaltered = is_unaltered(model, piece->record);
	piece->unpunched = is_unpunched(model, piece);
	read_grade(model, piece);
	piece->cased = holder != NULL || has_word(piece->form, cased);
	if (holder != NULL)
		piece->case_style = model_text(model, holder->group,
			NAME(HOLDING_CASE_STYLE));
}

bool
piece_can_be(const struct aim *aim, const char *form)
{
	const char *const *forms = NULL;

	switch (aim->what) {
	case COLLECT_CARDBACK:
	case COLLECT_FRONT:
	case COLLECT_OFFER:
	case COLLECT_STICKER:
	case COLLECT_MARKET:
		forms = with_back;
		break;
	case COLLECT_PAIRING:
	case COLLECT_COMBINATION:
	case COLLECT_BLISTER:
		forms = carded;
		break;
	case COLLECT_CHARACTER:
	case COLLECT_VARIANT:
	case COLLECT_ACCESSORY:
	case COLLECT_PACKAGE:
	case COLLECT_PREPRODUCTION:
	case COLLECT_ANOMALY:
	case COLLECT_NOTHING:
		break;
	}
	if (forms != NULL && !has_word(form, forms))
		return false;
	if (aim->form == NULL)
		return true;
	if (strcmp(aim->form, "carded") == 0)
		return has_word(form, carded);
	if (strcmp(aim->form, "loose") == 0)
		return has_word(form, loose);
	return form != NULL && strcmp(form, aim->form) == 0;
}

/* What is said of one accessory of the piece. */
static enum truth
has_accessory(const struct model *model, const struct piece *piece,
	const struct record *accessory)
{
	const struct value *list = model_get(model, piece->record->values,
		NAME(HOLDING_ACCESSORIES));
	const char *original;
	unsigned i;

	for (i = 0; i < value_count(list); i++) {
		struct value *const *values = value_item(list, i)->group;

		if (model_record(model, values, NAME(HOLDING_ACCESSORY)) !=
			accessory)
			continue;
		original = model_word(model, values,
			NAME(HOLDING_ACCESSORY_ORIGINAL));
		if (original == NULL || strcmp(original, "doubtful") == 0)
			return TRUTH_MAYBE;
		return strcmp(original, "original") == 0 ? TRUTH_YES :
			TRUTH_NO;
	}
	return has_word(piece->form, loose) ? TRUTH_MAYBE : TRUTH_YES;
}

/* Completeness in one situation: all that came with the figure there. */
static enum truth
is_complete_in(const struct pieces *pieces, const struct piece *piece,
	const struct situation *situation)
{
	const struct value *list = situation->accessories;
	enum truth truth = TRUTH_YES, one;
	unsigned i;

	if (list == NULL && situation->character != NULL)
		list = model_get(pieces->model, situation->character->values,
			NAME(CHARACTER_ACCESSORIES));
	for (i = 0; i < value_count(list); i++) {
		one = has_accessory(pieces->model, piece,
			value_item(list, i)->reference.record);
		truth = MIN(truth, one);
	}
	return truth;
}

static enum truth
is_complete(const struct pieces *pieces, const struct piece *piece)
{
	bool yes = false, no = false;
	enum truth truth;
	unsigned i, j;

	if (strcmp(piece->form, "card-only") == 0)
		return TRUTH_NO;
	for (i = 0; i < piece->reading_count; i++)
		for (j = 0; j < piece->readings[i].count; j++) {
			truth = is_complete_in(pieces, piece,
				&pieces->situations[piece->readings[i]
					.items[j]]);
			if (truth == TRUTH_MAYBE)
				return truth;
			yes = yes || truth == TRUTH_YES;
			no = no || truth == TRUTH_NO;
		}
	if (yes && no)
		return TRUTH_MAYBE;
	return no ? TRUTH_NO : TRUTH_YES;
}

static struct meeting
meet_grade(const struct aim *aim, const struct piece *piece)
{
	if (piece->scale == NULL)
		return (struct meeting){TRUTH_NO, "not graded"};
	if (piece->scale != aim->scale)
		return (struct meeting){TRUTH_NO, "graded on another scale"};
	if (piece->step < 0)
		return (struct meeting){TRUTH_MAYBE, "the grade on its label"};
	return piece->step <= aim->least ?
		(struct meeting){TRUTH_YES, NULL} :
		(struct meeting){TRUTH_NO, "below the least grade"};
}

static struct meeting
meet_case(const struct piece *piece, const char *style)
{
	if (!piece->cased)
		return (struct meeting){TRUTH_NO, "in no case"};
	if (piece->case_style == NULL || style == NULL)
		return (struct meeting){TRUTH_MAYBE, "the style of its case"};
	return strcmp(piece->case_style, style) == 0 ?
		(struct meeting){TRUTH_YES, NULL} :
		(struct meeting){TRUTH_NO, "in another style of case"};
}

static struct meeting
meet(enum truth truth, const char *lacks, const char *look_at)
{
	return (struct meeting){truth, truth == TRUTH_NO ? lacks :
		truth == TRUTH_MAYBE ? look_at : NULL};
}

struct meeting
piece_meets(const struct pieces *pieces, const struct aim *aim,
	const struct piece *piece, const char *style)
{
	struct meeting all[6], worst = {TRUTH_YES, NULL};
	unsigned count = 0, i;

	if (!piece_can_be(aim, piece->form))
		return (struct meeting){TRUTH_NO, "in another form"};
	if (piece->anomaly && !aim->anomalies)
		return (struct meeting){TRUTH_NO, "an anomaly"};
	if (!aim->altered)
		all[count++] = meet(piece->unaltered, "altered",
			"whether it was altered, as suspected");
	if (aim->unpunched)
		all[count++] = meet(piece->unpunched, "punched",
			"whether its tab is punched");
	if (aim->complete)
		all[count++] = meet(is_complete(pieces, piece), "incomplete",
			"its accessories: all there, and originals?");
	if (aim->scale != NULL)
		all[count++] = meet_grade(aim, piece);
	if (aim->same_case)
		all[count++] = meet_case(piece, style);
	for (i = 0; i < count; i++)
		if (all[i].truth < worst.truth)
			worst = all[i];
	return worst;
}
