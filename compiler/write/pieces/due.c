/*
 * What should be back and is not, and how long batches took against what was
 * promised. Of a partial date the later reading is taken, so that nothing is
 * said to be late that may not be.
 */
#include "write/pieces/pieces.h"

#include <string.h>

#include "model/text.h"
#include "write/pieces/paper.h"
#include "write/pieces/words.h"

struct looking {
	const struct model *model;
	struct date on;
	struct arena *arena;
	struct paper *paper;
	unsigned overdue;
};

static const char *
days(int64_t count, struct arena *arena)
{
	return arena_print(arena, "%d day%s", (int)count, count == 1 ? "" :
		"s");
}

/* The day with that number, in words. */
static const char *
day_words(day_number day, struct arena *arena)
{
	struct date date;
	GDate text;

	g_date_clear(&text, 1);
	g_date_set_julian(&text, (guint32)day);
	if (!shape_date(arena_print(arena, "%04d-%02d-%02d",
		(int)g_date_get_year(&text), (int)g_date_get_month(&text),
		(int)g_date_get_day(&text)), &date))
		return "";
	return date_words(&date, arena);
}

static void
say(struct looking *looking, const char *words)
{
	if (looking->overdue++ == 0)
		paper_heading(looking->paper, arena_print(looking->arena,
			"Overdue on %s", date_words(&looking->on,
				looking->arena)));
	paper_item(looking->paper, words);
}

/* The last day that was promised for a batch; 0 where none was. */
static int64_t
promised(const struct model *model, const struct record *batch)
{
	const struct date *sent = model_date(model, batch->values,
		NAME(BATCH_SENT));
	int64_t count = model_whole(model, batch->values, NAME(BATCH_DAYS),
		-1);

	/* Nobody promises a century; and no calendar goes on for ever. */
	if (sent == NULL || count < 0 || count > 36525)
		return 0;
	return sent->last + count;
}

static void
look_at_batch(struct looking *looking, const struct record *batch)
{
	const struct model *model = looking->model;
	unsigned pieces = value_count(model_get(model, batch->values,
		NAME(BATCH_PIECES)));
	int64_t due = promised(model, batch);

	if (due == 0 || looking->on.first <= due || model_date(model,
		batch->values, NAME(BATCH_RETURNED)) != NULL)
		return;
	say(looking, arena_print(looking->arena, "%s, at %s: due %s, %s late; "
		"%u piece%s", batch->name, words_value(model_get(model,
			batch->values, NAME(BATCH_SERVICE)), looking->arena),
		day_words((day_number)due, looking->arena),
		days(looking->on.first - due, looking->arena),
		pieces, pieces == 1 ? "" : "s"));
}

static void
look_at_piece(struct looking *looking, const struct record *piece)
{
	static const char *const words[] = {"away", "paid", "in-transit",
		NULL};
	const struct model *model = looking->model;
	const char *status = model_word(model, piece->values,
		NAME(HOLDING_STATUS)), *who;
	const struct value *away = model_get(model, piece->values,
		NAME(HOLDING_AWAY));
	const struct date *due = away == NULL ? NULL : model_date(model,
		away->group, NAME(HOLDING_AWAY_DUE));

	if (due == NULL || looking->on.first <= due->last ||
		status == NULL || !g_strv_contains(words, status))
		return;
	who = model_text(model, away->group, NAME(HOLDING_AWAY_WHO));
	say(looking, arena_print(looking->arena, "%s (%s)%s%s: due %s, %s "
		"late", piece->name, words_value(model_get(model,
			piece->values, NAME(HOLDING_STATUS)), looking->arena),
		who == NULL ? "" : ", with ", who == NULL ? "" : who,
		date_words(due, looking->arena), days(looking->on.first -
			due->last, looking->arena)));
}

/* What came of a batch that is back. */
static void
tell_batch(struct looking *looking, const struct record *batch)
{
	const struct model *model = looking->model;
	const struct date *sent = model_date(model, batch->values,
		NAME(BATCH_SENT)), *back = model_date(model, batch->values,
		NAME(BATCH_RETURNED));
	const struct value *list = model_get(model, batch->values,
		NAME(BATCH_PIECES));
	int64_t count = model_whole(model, batch->values, NAME(BATCH_DAYS),
		-1), due = promised(model, batch);
	unsigned i;

	paper_thing(looking->paper, batch->name);
	paper_row(looking->paper, "Service", words_value(model_get(model,
		batch->values, NAME(BATCH_SERVICE)), looking->arena));
	paper_row(looking->paper, "For", words_value(model_get(model,
		batch->values, NAME(BATCH_PURPOSE)), looking->arena));
	paper_row(looking->paper, "Sent", date_words(sent, looking->arena));
	if (count >= 0)
		paper_row(looking->paper, "Promised", days(count,
			looking->arena));
	if (due > 0 && back == NULL)
		paper_row(looking->paper, "Due", day_words((day_number)due,
			looking->arena));
	if (back != NULL && sent != NULL && sent->day > 0 && back->day > 0)
		paper_row(looking->paper, "Took", days(back->first -
			sent->first, looking->arena));
	else
		paper_row(looking->paper, "Back", date_words(back,
			looking->arena));
	for (i = 0; i < value_count(list); i++) {
		struct value *const *group = value_item(list, i)->group;
		const struct record *piece = model_record(model, group,
			NAME(BATCH_PIECE));
		const char *expected = model_text(model, group,
			NAME(BATCH_EXPECTED)), *came = model_text(model, group,
			NAME(BATCH_CAME_BACK)), *damage = model_text(model,
			group, NAME(BATCH_DAMAGE));

		if (piece == NULL)
			continue;
		paper_item(looking->paper, arena_print(looking->arena,
			"%s: expected %s, %s%s%s%s", piece->name,
			expected == NULL ? "nothing in particular" : expected,
			came == NULL ? "not back" : "came back as ",
			came == NULL ? "" : came,
			damage == NULL ? "" : "; damage: ",
			damage == NULL ? "" : damage));
	}
}

unsigned
pieces_overdue(const struct model *model, const struct records *records,
	const char *on, bool batches, const char *look, GString *out)
{
	struct paper paper;
	struct looking looking = {.model = model, .arena = arena_new(),
		.paper = &paper};
	size_t i;

	paper = batches ? paper_begin(out, look, "Out of the house") :
		(struct paper){.out = out};
	if (!shape_date(on, &looking.on)) {
		arena_free(looking.arena);
		return 0;
	}
	for (i = 0; i < records->count; i++) {
		const struct record *record = records->items[i];

		if (strcmp(record->kind->name, "batch") == 0)
			look_at_batch(&looking, record);
		else if (strcmp(record->kind->name, "holding") == 0)
			look_at_piece(&looking, record);
	}
	if (batches && looking.overdue == 0)
		paper_say(&paper, arena_print(looking.arena, "Nothing is "
			"overdue on %s.", date_words(&looking.on,
				looking.arena)));
	if (batches)
		paper_heading(&paper, "Batches");
	for (i = 0; batches && i < records->count; i++)
		if (strcmp(records->items[i]->kind->name, "batch") == 0)
			tell_batch(&looking, records->items[i]);
	if (batches)
		paper_end(&paper);
	arena_free(looking.arena);
	return looking.overdue;
}
