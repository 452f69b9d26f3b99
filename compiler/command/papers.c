/*
 * Which paper was asked for, and where it goes: to standard output, or into a
 * file for its owner alone. A name that ends in .html is a page in the look of
 * the guide.
 */
#include "command/papers.h"

#include <stdio.h>
#include <string.h>

#include "base/output.h"
#include "base/place.h"
#include "base/private.h"
#include "model/text.h"
#include "shape/nearest.h"
#include "write/pieces/pieces.h"

struct papers papers;

/* What a paper is made of. */
struct making {
	const struct run *run;
	const struct records *pieces;
	const struct options *options;
	char *look;		/* the style sheet of a page, or NULL */
	GString *text;
};

bool
papers_wanted(void)
{
	return papers.offer != NULL || papers.lend != NULL ||
		papers.inventory || papers.ranks || papers.due ||
		papers.as != NULL || papers.write != NULL;
}

static int
report(GError *error)
{
	int status = g_error_matches(error, OUTPUT_ERROR, OUTPUT_REFUSED) ?
		EXIT_USAGE : EXIT_SYSTEM;

	fprintf(stderr, "hangtab: %s\n", error->message);
	g_error_free(error);
	return status;
}

static int
put(const struct making *making)
{
	GError *error = NULL;

	if (papers.write == NULL || papers.lend != NULL)
		fwrite(making->text->str, 1, making->text->len, stdout);
	if (papers.write == NULL)
		return EXIT_DONE;
	if (!private_write(papers.write, making->options->corpus,
		making->text->str, making->text->len, false, &error))
		return report(error);
	if (papers.lend == NULL)
		printf("%s\n", papers.write);
	else
		fprintf(stderr, "written to %s\n", papers.write);
	return EXIT_DONE;
}

/* Says which pieces share a name. */
static void
say_shared(const struct making *making, const char *name)
{
	size_t i;

	fprintf(stderr, "hangtab: several pieces are called \"%s\"; name the "
		"one by its id:\n", name);
	for (i = 0; i < making->pieces->count; i++) {
		const struct record *piece = making->pieces->items[i];

		if (strcmp(piece->kind->name, "holding") == 0 &&
			strcmp(piece->name, name) == 0)
			fprintf(stderr, "  %s\n", piece->id);
	}
}

/* The piece by its id or name; NULL after saying that there is none, or that
 * there are several. */
static const struct record *
find_piece(const struct making *making, const char *wanted)
{
	struct nearest nearest = nearest_to(wanted);
	const struct record *found = NULL;
	unsigned named = 0;
	size_t i;

	for (i = 0; i < making->pieces->count; i++) {
		const struct record *piece = making->pieces->items[i];

		if (strcmp(piece->kind->name, "holding") != 0)
			continue;
		if (strcmp(piece->id, wanted) == 0)
			return piece;
		if (strcmp(piece->name, wanted) == 0) {
			found = piece;
			named++;
		}
		nearest_offer(&nearest, piece->id);
		nearest_offer_title(&nearest, piece->name, piece->id);
	}
	if (named == 1)
		return found;
	if (named > 1) {
		say_shared(making, wanted);
		return NULL;
	}
	fprintf(stderr, "hangtab: you have no piece \"%s\"", wanted);
	if (nearest.best != NULL)
		fprintf(stderr, "; did you mean \"%s\"?", nearest.best);
	fprintf(stderr, "\n");
	return NULL;
}

/* Whether the piece's status is one of the words; else says so. */
static bool
check_status(const struct making *making, const struct record *piece,
	const char *const *words, const char *what)
{
	const struct value *status = model_get(making->run->model,
		piece->values, NAME(HOLDING_STATUS));

	if (status == NULL || g_strv_contains(words, status->word->word))
		return true;
	fprintf(stderr, "hangtab: \"%s\" is %s: there is nothing to %s\n",
		piece->name, status->word->title, what);
	return false;
}

static int
make_offer(struct making *making)
{
	static const char *const owned[] = {"held", "away", NULL};
	const struct record *piece = find_piece(making, papers.offer);

	if (piece == NULL || !check_status(making, piece, owned, "offer"))
		return EXIT_FINDINGS;
	pieces_offer(making->run->model, piece, making->look, making->text);
	return put(making);
}

static int
make_loan(struct making *making)
{
	static const char *const seen[] = {"held", "away", "sold", "lost",
		NULL};
	const struct record *piece = find_piece(making, papers.lend);
	int status;

	if (piece == NULL || !check_status(making, piece, seen, "lend"))
		return EXIT_FINDINGS;
	pieces_lend(making->run->model, piece, papers.certificate,
		making->text);
	status = put(making);
	if (status != EXIT_DONE)
		return status;
	fprintf(stderr, "left out: its name in your list, costs, values, "
		"places, people, photographs and notes%s\n",
		papers.certificate ? "" : ", and the number of\nits "
		"certificate, by which others could know the piece again "
		"(--certificate)");
	fprintf(stderr, papers.write == NULL ? "nothing was written or sent; "
		"--write FILE writes it\n" : "nothing was sent; fill in what "
		"is marked, and contribute it if you like\n");
	return EXIT_DONE;
}

/* The day that was given, or else today; NULL after saying what is wrong. */
static const char *
day_asked(const struct run *run)
{
	struct date date;
	GDateTime *now;
	const char *today;

	if (papers.on != NULL && shape_date(papers.on, &date) && date.day > 0)
		return papers.on;
	if (papers.on != NULL) {
		command_usage("--on takes a day, such as 2026-11-05, not "
			"\"%s\"", papers.on);
		return NULL;
	}
	now = g_date_time_new_now_local();
	today = arena_print(run->arena, "%04d-%02d-%02d",
		g_date_time_get_year(now), g_date_time_get_month(now),
		g_date_time_get_day_of_month(now));
	g_date_time_unref(now);
	return today;
}

static int
make_list(struct making *making)
{
	const struct run *run = making->run;

	if (strcmp(papers.as, "csv") == 0)
		pieces_as_csv(making->pieces, making->text);
	else if (strcmp(papers.as, "yaml") == 0)
		pieces_as_yaml(making->pieces, run->schema, making->text);
	else
		return command_usage("--as is csv or yaml");
	return put(making);
}

/* A day stands on an inventory only where one was given. */
static int
make_inventory(struct making *making)
{
	const struct run *run = making->run;
	struct date date;

	if (papers.on != NULL && day_asked(run) == NULL)
		return EXIT_USAGE;
	if (making->options->format == FORMAT_CSV)
		pieces_inventory_csv(run->model, making->pieces,
			making->text);
	else
		pieces_inventory(run->model, making->pieces,
			papers.on == NULL || !shape_date(papers.on, &date) ?
			NULL : date_words(&date, run->arena), making->look,
			making->text);
	return put(making);
}

static int
make_ranks(struct making *making)
{
	const struct run *run = making->run;
	struct seen *seen = seen_gather(run->model, run->arena);

	pieces_ranks(run->model, seen, making->pieces, making->look,
		making->text);
	seen_free(seen);
	return put(making);
}

static int
make_due(struct making *making)
{
	const char *on = day_asked(making->run);

	if (on == NULL)
		return EXIT_USAGE;
	if (papers.on == NULL && papers.write != NULL)
		return command_usage("what is written is of a day: give it "
			"with --on");
	pieces_overdue(making->run->model, making->pieces, on, true,
		making->look, making->text);
	return put(making);
}

static int
make(struct making *making)
{
	if (papers.offer != NULL)
		return make_offer(making);
	if (papers.lend != NULL)
		return make_loan(making);
	if (papers.inventory)
		return make_inventory(making);
	if (papers.ranks)
		return make_ranks(making);
	if (papers.due)
		return make_due(making);
	if (papers.as != NULL)
		return make_list(making);
	return command_usage("--write says where to write, and not what; see "
		"gaps --help");
}

/* The guide's own style sheet; false where it is missing. */
static bool
read_look(struct making *making)
{
	char *site, *path;
	bool good;

	if (papers.write == NULL || !g_str_has_suffix(papers.write, ".html"))
		return true;
	site = place_data("site");
	path = site == NULL ? NULL : g_build_filename(site, "hangtab.css",
		NULL);
	good = path != NULL && g_file_get_contents(path, &making->look, NULL,
		NULL);
	g_free(path);
	g_free(site);
	return good;
}

int
papers_make(const struct run *run, const struct records *pieces,
	const struct options *options)
{
	struct making making = {run, pieces, options, NULL,
		g_string_new(NULL)};
	int status = EXIT_SYSTEM;

	if (read_look(&making))
		status = make(&making);
	else
		fprintf(stderr, "hangtab: the site folder that belongs to the "
			"program is missing\n");
	g_string_free(making.text, TRUE);
	g_free(making.look);
	return status;
}

void
papers_overdue(const struct run *run, const struct records *pieces,
	const struct options *options)
{
	const char *on = options->format == FORMAT_TEXT ? day_asked(run) :
		NULL;
	GString *text = g_string_new(NULL);

	if (on != NULL)
		pieces_overdue(run->model, pieces, on, false, NULL, text);
	fwrite(text->str, 1, text->len, stdout);
	g_string_free(text, TRUE);
}
