/*
 * The working in lines: the answer first, then what it rests on.
 */
#include "write/working.h"

#include <glib.h>
#include <inttypes.h>
#include <math.h>
#include <string.h>

#include "study/disagree.h"

const char working_of[] = "carded pieces that are not altered";
const char working_caution[] = "An estimate is no appraisal, and "
	"authenticates no piece.";

struct writing {
	const struct reckoning *reckoning;
	struct arena *arena;
	GArray *lines;
};

const char *
working_heading(enum working_part part)
{
	static const char *const headings[] = {
		[WORKING_ANSWER] = "How many",
		[WORKING_RISK] = "What a buyer risks",
		[WORKING_DATA] = "Data",
		[WORKING_METHOD] = "Method",
		[WORKING_CAVEAT] = "Take care",
		[WORKING_ASSUMED] = "Taken for granted",
		[WORKING_QUOTED] = "What others say",
		[WORKING_REPORT] = "Population reports",
	};

	return headings[part];
}

struct working_whole
working_whole(const struct figure *figure)
{
	/* Wide enough for what a figure can be, narrow enough for the type. */
	const double most = 1e15, least = 1e-9;
	struct working_whole whole = {
		.point = (int64_t)floor(fmin(figure->point, most) + 0.5),
		.low = (int64_t)floor(fmin(figure->low, most) + least),
	};

	whole.open = !(figure->high < most);
	if (!whole.open)
		whole.high = (int64_t)ceil(figure->high - least);
	return whole;
}

const char *
working_answer(const struct choice *choice, struct arena *arena)
{
	const struct figure *figure = &choice->figure;
	struct working_whole whole = working_whole(figure);
	const char *about = reckon_is_bound(choice->method) ?
		"at least about" : "about";

	if (figure->state == FIGURE_NONE)
		return "none seen";
	if (figure->state == FIGURE_LEAST)
		return arena_print(arena, "at least %.0f seen; too few to "
			"estimate", figure->seen);
	if (whole.open)
		return arena_print(arena, "%s %" PRId64 " (%" PRId64
			" or more)", about, whole.point, whole.low);
	return arena_print(arena, "%s %" PRId64 " (%" PRId64 " to %" PRId64
		")", about, whole.point, whole.low, whole.high);
}

/* Per cents: whole ones, but never 0 or 100 where there are some. */
static const char *
per_cent(double share, struct arena *arena)
{
	double shown = share * 100;

	if (shown > 0 && shown < 1)
		return arena_print(arena, "%.1f", fmax(shown, 0.1));
	if (shown < 100 && shown > 99)
		return arena_print(arena, "%.1f", fmin(shown, 99.9));
	return arena_print(arena, "%.0f", shown);
}

const char *
working_share(unsigned affected, unsigned all, struct range range,
	struct arena *arena)
{
	return arena_print(arena, "%s %% (%s to %s %%)",
		per_cent((double)affected / MAX(all, 1u), arena),
		per_cent(range.low, arena), per_cent(range.high, arena));
}

const char *
working_quoted(const struct quoted *quoted, struct arena *arena)
{
	GString *text = g_string_new(NULL);
	const char *kept;

	if (quoted->number != QUOTED_NONE)
		g_string_append_printf(text, "%" PRId64, quoted->number);
	if (quoted->low != QUOTED_NONE && quoted->high != QUOTED_NONE)
		g_string_append_printf(text, quoted->number == QUOTED_NONE ?
			"%" PRId64 " to %" PRId64 : " (%" PRId64 " to %"
			PRId64 ")", quoted->low, quoted->high);
	else if (quoted->low != QUOTED_NONE)
		g_string_append_printf(text, "%s%" PRId64 " or more",
			quoted->number == QUOTED_NONE ? "" : ", ",
			quoted->low);
	else if (quoted->high != QUOTED_NONE)
		g_string_append_printf(text, "%sat most %" PRId64,
			quoted->number == QUOTED_NONE ? "" : ", ",
			quoted->high);
	if (quoted->of != NULL)
		g_string_append_printf(text, " %s", quoted->of->title);
	if (quoted->form != NULL)
		g_string_append_printf(text, ", %s", quoted->form->title);
	kept = arena_text(arena, text->str, text->len);
	g_string_free(text, TRUE);
	return kept;
}

static void
say(struct writing *writing, enum working_part part, const char *text)
{
	struct working_line line = {part, text, NULL};

	g_array_append_val(writing->lines, line);
}

/* With its first letter in upper case. */
static const char *
capital(struct writing *writing, const char *text)
{
	return arena_print(writing->arena, "%c%s", g_ascii_toupper(*text),
		text + 1);
}

static const char *
plural(uint64_t count)
{
	return count == 1 ? "" : "s";
}

static void
say_answer(struct writing *writing)
{
	const struct reckoning *reckoning = writing->reckoning;
	const struct figure *figure = &reckoning->choice.figure;
	unsigned known = reckoning->evidence->known;
	const char *answer = capital(writing, working_answer(
		&reckoning->choice, writing->arena));

	if (figure->state != FIGURE_GIVEN)
		say(writing, WORKING_ANSWER, arena_print(writing->arena,
			"%s. Counted are %s.", answer, working_of));
	else
		say(writing, WORKING_ANSWER, arena_print(writing->arena,
			"%s %s, with 95 %% confidence in the limits; %u told "
			"apart so far.", answer, working_of, known));
	if (figure->state == FIGURE_LEAST && figure->low > figure->seen)
		say(writing, WORKING_ANSWER, arena_print(writing->arena,
			"If all are as likely to be seen, there are at least "
			"%.0f (97.5 %% confidence).", floor(figure->low +
			1e-9)));
}

/* What a buyer risks: the share of the anomaly, and what that comes to. */
static void
say_risk(struct writing *writing, bool exact)
{
	const struct risk_share *share = &writing->reckoning->share;
	const struct subject *subject = &writing->reckoning->subject;
	struct arena *arena = writing->arena;
	struct choice number = {.figure = share->number};

	if (share->all == 0)
		return;
	say(writing, WORKING_RISK, arena_print(arena, "%u of the %u piece%s "
		"told apart of %s %s it: %s, with 95 %% limits after Wilson "
		"1927.", share->affected, share->all, plural(share->all),
		subject->pairing != NULL ? "this pairing" :
		"the pairings it is known on",
		share->affected == 1 ? "is" : "are",
		working_share(share->affected, share->all, share->wilson,
			arena)));
	if (exact)
		say(writing, WORKING_RISK, arena_print(arena, "With exact "
			"limits (Clopper and Pearson 1934): %s.",
			working_share(share->affected, share->all,
				share->exact, arena)));
	if (share->number.state == FIGURE_GIVEN)
		say(writing, WORKING_RISK, arena_print(arena, "That share of "
			"how many of the pairing there may be: %s (limits "
			"recovered on the log scale, Zou and Donner 2008). "
			"Share and number rest on the same pieces, so the "
			"limits may be too narrow.",
			working_answer(&number, arena)));
}

static void
say_seen(struct writing *writing)
{
	const struct evidence *evidence = writing->reckoning->evidence;
	const struct history *history = &evidence->history;
	const struct listing *listings = evidence->listings;
	unsigned *room, once, twice, last = history->occasions;

	if (evidence->known == 0)
		return;
	if (history->pieces == 0) {
		say(writing, WORKING_DATA, arena_print(writing->arena,
			"%u piece%s told apart, without a dated sighting.",
			evidence->known, plural(evidence->known)));
		return;
	}
	say(writing, WORKING_DATA, arena_print(writing->arena, "%u piece%s in "
		"%u sighting%s on %u occasion%s (one list in one year), %d to "
		"%d.", history->pieces, plural(history->pieces),
		evidence->sightings, plural(evidence->sightings),
		history->occasions, plural(history->occasions),
		listings[0].year, listings[last - 1].year));
	room = g_new(unsigned, history->occasions + 1);
	history_frequencies(history, room);
	once = room[0];
	twice = history->occasions > 1 ? room[1] : 0;
	g_free(room);
	say(writing, WORKING_DATA, arena_print(writing->arena, "Seen once: "
		"%u; twice: %u; more often: %u.", once, twice,
		history->pieces - once - twice));
	if (evidence->undated > 0)
		say(writing, WORKING_DATA, arena_print(writing->arena,
			"%u more known without a dated sighting.",
			evidence->undated));
}

static void
put_out(GString *text, unsigned count, const char *what)
{
	if (count > 0)
		g_string_append_printf(text, "%s%u %s", text->len == 0 ? "" :
			", ", count, what);
}

static void
say_left_out(struct writing *writing)
{
	const struct evidence *evidence = writing->reckoning->evidence;
	GString *text = g_string_new(NULL);

	put_out(text, evidence->out[STANDING_DOUBTED], "doubted");
	put_out(text, evidence->out[STANDING_IMITATED],
		"with an imitation on them");
	put_out(text, evidence->out[STANDING_ALTERED],
		"altered (known or disclosed)");
	put_out(text, evidence->out[STANDING_OTHER_FORM], "not carded");
	if (text->len > 0)
		say(writing, WORKING_DATA, arena_print(writing->arena,
			"Pieces not counted: %s.", text->str));
	g_string_free(text, TRUE);
	if (evidence->relisted > 0)
		say(writing, WORKING_DATA, arena_print(writing->arena,
			"%u line%s not counted: the same lot in another "
			"list.", evidence->relisted,
			plural(evidence->relisted)));
	if (evidence->unrecognised > 0)
		say(writing, WORKING_DATA, arena_print(writing->arena,
			"%u sighting%s not counted: nobody could tell which "
			"piece it was.", evidence->unrecognised,
			plural(evidence->unrecognised)));
}

static void
say_unsettled(struct writing *writing)
{
	const struct reckoning *reckoning = writing->reckoning;
	const struct evidence *evidence = reckoning->evidence;
	struct arena *arena = writing->arena;

	if (evidence->anomalous > 0 &&
		reckoning->subject.form != SUBJECT_ANOMALY &&
		reckoning->subject.form != SUBJECT_ANOMALY_ON)
		say(writing, WORKING_DATA, arena_print(arena, "Of the pieces "
			"counted, anomalies: %u.", evidence->anomalous));
	if (evidence->possible > 0)
		say(writing, WORKING_DATA, arena_print(arena, "%u more may "
			"belong here, which is not settled: between %u and %u "
			"are known. With all of them: %s.",
			evidence->possible, evidence->known,
			evidence->known + evidence->possible,
			working_answer(&reckoning->widest, arena)));
	if (evidence->suspected > 0)
		say(writing, WORKING_DATA, arena_print(arena, "Of the pieces "
			"counted, suspected of an alteration: %u; without "
			"them %u are known.", evidence->suspected,
			evidence->known - evidence->suspected));
	if (evidence->unsure > 0)
		say(writing, WORKING_DATA, arena_print(arena, "Of the pieces "
			"counted, known by marks that a second piece could "
			"share: %u. A missed or a wrong match changes the "
			"estimate.", evidence->unsure));
}

/* Why the rule came to this method. */
static const char *
reason(const struct choice *choice, struct arena *arena)
{
	switch (choice->method) {
	case METHOD_CHAO:
	case METHOD_CHAO_CLASSIC:
		return arena_print(arena, "chosen because two sightings were "
			"of one piece %u times, and with equal chances that "
			"would be about %.1f: as many come about by chance in "
			"%s %% of cases", choice->test.pairs,
			choice->test.expected, per_cent(choice->test.uneven,
				arena));
	case METHOD_CHAPMAN:
		return "chosen because two occasions saw any";
	case METHOD_EXACT:
		return choice->test.done ? "chosen because the sightings do "
			"not contradict equal chances" : "chosen because "
			"nothing is known of unequal chances";
	case METHOD_SCHNABEL:
		return "chosen because there are too many sightings for exact "
			"limits";
	case METHOD_CHAPMAN_LOG_NORMAL:
	case METHOD_SADINLE:
	case METHOD_SCHUMACHER:
	case METHOD_ACE:
	case METHOD_POISSON:
	case METHOD_ZELTERMAN:
	case METHODS:
		break;
	}
	return "asked for by name";
}

static void
say_raw(struct writing *writing)
{
	const struct figure *figure = &writing->reckoning->choice.figure;
	struct arena *arena = writing->arena;
	const char *limits;

	if (!figure->raised)
		return;
	limits = isinf(figure->raw_high) ? arena_print(arena, "%.1f or more",
		figure->raw_low) : arena_print(arena, "%.1f to %.1f",
			figure->raw_low, figure->raw_high);
	say(writing, WORKING_METHOD, arena_print(arena, "The method itself "
		"gives %.1f (%s). Of this the figure or a limit is below the "
		"%.0f known; it was raised, and the method does not fit these "
		"data.", figure->raw_point, limits, figure->seen));
}

static void
say_method(struct writing *writing)
{
	const struct reckoning *reckoning = writing->reckoning;
	const struct choice *choice = &reckoning->choice;
	const struct method_words *words = method_words(choice->method);
	struct arena *arena = writing->arena;
	GString *numbers;

	if (choice->figure.state == FIGURE_NONE)
		return;
	if (choice->figure.state == FIGURE_LEAST) {
		say(writing, WORKING_METHOD, reckoning->asked ?
			arena_print(arena, "%s (%s) gives no number here: it "
				"needs %s, and some seen again.", words->title,
				words->source, words->needs) :
			"A number needs known pieces seen again three times "
			"or more, and two pieces of which that is so.");
		return;
	}
	say(writing, WORKING_METHOD, arena_print(arena, "%s (%s), %s.",
		capital(writing, words->title), words->source,
		reckoning->asked ? "asked for by name" :
		reason(choice, arena)));
	say(writing, WORKING_METHOD, arena_print(arena, "%s.",
		capital(writing, words->formula)));
	numbers = g_string_new(NULL);
	working_method(reckoning, numbers);
	say(writing, WORKING_METHOD, arena_print(arena, "%s: N = %.1f.",
		numbers->str, choice->figure.raised ?
		choice->figure.raw_point : choice->figure.point));
	g_string_free(numbers, TRUE);
	say(writing, WORKING_METHOD, isinf(choice->figure.high) ?
		arena_print(arena, "95 %% limits: %s. Here: %.1f, and none "
			"above.", words->limits, choice->figure.low) :
		arena_print(arena, "95 %% limits: %s. Here: %.1f to %.1f.",
			words->limits, choice->figure.low,
			choice->figure.high));
	say_raw(writing);
}

static void
say_caveats(struct writing *writing)
{
	const struct choice *choice = &writing->reckoning->choice;
	unsigned i;

	for (i = 0; i < choice->caveat_count; i++)
		say(writing, WORKING_CAVEAT, arena_print(writing->arena,
			"%s.", capital(writing, caveat_words(
				choice->caveats[i]))));
	if (writing->reckoning->subject.form == SUBJECT_CARDBACK &&
		choice->figure.state == FIGURE_GIVEN)
		say(writing, WORKING_CAVEAT, "Pieces of different characters "
			"are seldom as likely to be seen: the sum of the "
			"pairings may say more.");
	if (choice->figure.state == FIGURE_GIVEN)
		say(writing, WORKING_CAVEAT, "Counted is what can turn up in "
			"the lists that are read here; what never comes out "
			"of a collection is in no estimate.");
}

static void
say_assumed(struct writing *writing)
{
	const struct choice *choice = &writing->reckoning->choice;
	char **parts, **part;

	if (choice->figure.state != FIGURE_GIVEN)
		return;
	parts = g_strsplit(method_words(choice->method)->assumes, "; ", 0);
	for (part = parts; *part != NULL; part++)
		say(writing, WORKING_ASSUMED, arena_print(writing->arena,
			"%s.", capital(writing, *part)));
	g_strfreev(parts);
}

static const char *
agreement_words(enum agreement agreement)
{
	static const char *const words[] = {
		[AGREEMENT_NONE] = "",
		[AGREEMENT_AGREES] = " This agrees with the computed limits.",
		[AGREEMENT_MORE] = " That is more than the computed limits "
			"allow.",
		[AGREEMENT_FEWER] = " That is fewer than the computed limits "
			"allow.",
		[AGREEMENT_OVERTAKEN] = " More have been told apart since.",
	};

	return words[agreement];
}

static void
say_quoted(struct writing *writing)
{
	const struct quoted_list *list = &writing->reckoning->quoted;
	unsigned i;

	for (i = 0; i < list->count; i++) {
		const struct quoted *quoted = &list->items[i];
		struct working_line line = {WORKING_QUOTED, NULL,
			quoted->source};

		line.text = arena_print(writing->arena, "%s: %s%s%s%s%s.%s",
			working_quoted(quoted, writing->arena),
			quoted->source == NULL ? "source not stated" :
			quoted->source->name, quoted->date == NULL ? "" : ", ",
			quoted->date == NULL ? "" : quoted->date->text,
			quoted->method == NULL ? "" : "; ",
			quoted->method == NULL ? "" : quoted->method,
			agreement_words(study_agreement(quoted,
				writing->reckoning->evidence,
				&writing->reckoning->choice)));
		g_array_append_val(writing->lines, line);
	}
}

static void
say_report(struct writing *writing, const struct certified *one)
{
	struct working_line line = {WORKING_REPORT, NULL,
		one->snapshot->census};
	GString *text = g_string_new(NULL);

	g_string_append_printf(text, "%s: %" PRId64 " certificate%s on lines "
		"for this alone", one->snapshot->census->name,
		one->certificates, plural((uint64_t)one->certificates));
	if (one->shared > 0)
		g_string_append_printf(text, ", %" PRId64 " on lines "
			"that cover others too", one->shared);
	g_string_append_printf(text, ". Pieces with one that are known here: "
		"%u", one->known);
	if (one->repeats > 0)
		g_string_append_printf(text, ", with %u certificate%s more "
			"than pieces", one->repeats, plural(one->repeats));
	if (one->crossed > 0)
		g_string_append_printf(text, "; certified by another service "
			"too: %u", one->crossed);
	g_string_append_printf(text, ". So between %" PRId64 " and %" PRId64
		" pieces, as the rest may be repeats.", one->least,
		one->most);
	line.text = arena_text(writing->arena, text->str, text->len);
	g_array_append_val(writing->lines, line);
	g_string_free(text, TRUE);
}

static void
say_reports(struct writing *writing)
{
	const struct certified_list *list = &writing->reckoning->reports;
	unsigned i;

	for (i = 0; i < list->count; i++)
		say_report(writing, &list->items[i]);
	if (list->count > 1)
		say(writing, WORKING_REPORT, "Services are not added up: a "
			"piece may have gone from one to another.");
}

struct working *
working_of_reckoning(const struct reckoning *reckoning, bool exact,
	struct arena *arena)
{
	struct working *working = arena_one(arena, struct working);
	struct working_line *lines;
	struct writing writing = {reckoning, arena, g_array_new(FALSE, FALSE,
		sizeof(struct working_line))};

	say_answer(&writing);
	say_risk(&writing, exact);
	say_seen(&writing);
	say_left_out(&writing);
	say_unsettled(&writing);
	say_method(&writing);
	say_caveats(&writing);
	say_assumed(&writing);
	say_quoted(&writing);
	say_reports(&writing);
	working->count = writing.lines->len;
	lines = arena_array(arena, struct working_line, working->count);
	memcpy(lines, writing.lines->data, sizeof(*lines) * working->count);
	working->lines = lines;
	g_array_free(writing.lines, TRUE);
	return working;
}
