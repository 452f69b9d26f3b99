/*
 * Gaps as private pages: -o DIR, and --pocket FILE for the phone.
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/output.h"
#include "base/place.h"
#include "base/private.h"
#include "command/gapping.h"
#include "study/reckon.h"
#include "write/report/report.h"
#include "write/site/fold.h"

/* Pages of the guide in the file for the phone, at most. */
enum { MOST_FOLDED = 120 };

/* Today in words, or the day that SOURCE_DATE_EPOCH says. */
static char *
say_today(void)
{
	const char *epoch = g_getenv("SOURCE_DATE_EPOCH");
	GDateTime *now = epoch == NULL ? g_date_time_new_now_local() :
		g_date_time_new_from_unix_utc(g_ascii_strtoll(epoch, NULL,
			10));
	static const char *const months[] = {"January", "February", "March",
		"April", "May", "June", "July", "August", "September",
		"October", "November", "December"};
	char *words;

	if (now == NULL)
		now = g_date_time_new_now_utc();
	words = g_strdup_printf("on %d %s %d", g_date_time_get_day_of_month(
		now), months[g_date_time_get_month(now) - 1],
		g_date_time_get_year(now));
	g_date_time_unref(now);
	return words;
}

/* The guide's own style sheet, and what the report adds to it. */
static char *
read_style(void)
{
	char *folder = place_data("site"), *style = NULL;
	static const char *const names[] = {"hangtab.css", "report.css"};
	GString *all = g_string_new(NULL);
	bool read = folder != NULL;
	size_t i;

	for (i = 0; read && i < G_N_ELEMENTS(names); i++) {
		char *path = g_build_filename(folder, names[i], NULL);

		read = g_file_get_contents(path, &style, NULL, NULL);
		if (read)
			g_string_append(all, style);
		g_free(style);
		style = NULL;
		g_free(path);
	}
	g_free(folder);
	if (read)
		return g_string_free(all, FALSE);
	g_string_free(all, TRUE);
	fputs("hangtab: the site folder that belongs to the program is "
		"missing\n", stderr);
	return NULL;
}

static int
write_page(const char *path, const char *corpus, const GString *page)
{
	GError *error = NULL;
	int status;

	if (private_write(path, corpus, page->str, page->len, true, &error))
		return EXIT_DONE;
	status = g_error_matches(error, OUTPUT_ERROR, OUTPUT_REFUSED) ?
		EXIT_USAGE : EXIT_SYSTEM;
	fprintf(stderr, "hangtab: %s\n", error->message);
	g_error_free(error);
	return status;
}

static int
write_folder(const struct report *report, const char *folder,
	const char *corpus)
{
	GString *page = g_string_new(NULL);
	char *path = g_build_filename(folder, "index.html", NULL);
	int status;
	unsigned i;

	report_index(report, page);
	status = write_page(path, corpus, page);
	for (i = 0; status == EXIT_DONE && i < report->count; i++) {
		char *of_run = g_build_filename(folder, report_run_path(
			report, i), NULL);

		g_string_truncate(page, 0);
		report_run(report, i, page);
		status = write_page(of_run, corpus, page);
		g_free(of_run);
	}
	if (status == EXIT_DONE)
		printf("%s\n", path);
	g_free(path);
	g_string_free(page, TRUE);
	return status;
}

static int
write_pocket(const struct report *report, const struct gapping *gapping,
	const char *path, const char *corpus)
{
	struct record_list list = report_folded(report, MOST_FOLDED);
	struct seen *seen = seen_gather(report->model, report->arena);
	struct write_job job = {
		.model = report->model,
		.seen = seen,
		.reckonings = reckonings_gather(report->model, seen,
			gapping->run->arena),
		.jobs = 1,
	};
	GString *folded = g_string_new(NULL), *page = g_string_new(NULL);
	int status;

	site_fold(&job, list.items, list.count, folded);
	report_pocket(report, list, folded->str, page);
	status = write_page(path, corpus, page);
	if (status == EXIT_DONE)
		printf("%s\n", path);
	g_string_free(page, TRUE);
	g_string_free(folded, TRUE);
	seen_free(seen);
	return status;
}

int
gaps_write_report(const struct gapping *gapping, const char *folder,
	const char *pocket, const char *corpus)
{
	char *made = say_today();
	char *style = read_style();
	struct report report = {
		.model = gapping->run->model,
		.pieces = gapping->pieces,
		.fillings = gapping->fillings,
		.count = gapping->count,
		.next = gapping->next,
		.rarities = gapping->rarities,
		.made = made,
		.style = style,
		.arena = gapping->run->arena,
	};
	int status = style == NULL ? EXIT_SYSTEM : EXIT_DONE;

	if (status == EXIT_DONE && folder != NULL)
		status = write_folder(&report, folder, corpus);
	if (status == EXIT_DONE && pocket != NULL)
		status = write_pocket(&report, gapping, pocket, corpus);
	g_free(style);
	g_free(made);
	return status;
}
