/*
 * Open rows, asked about one by one at a terminal.
 */
#include <stdio.h>
#include <string.h>

#include "command/matches.h"

/* A number from 1 to `most`; 0 for anything else; -1 to stop. */
static int
read_answer(unsigned most)
{
	char line[64];
	guint64 number;

	if (fgets(line, sizeof(line), stdin) == NULL || line[0] == 'q')
		return -1;
	number = g_ascii_strtoull(line, NULL, 10);
	return number > most ? 0 : (int)number;
}

static int
ask_row(struct matches *matches, struct match_row *row)
{
	const GArray *candidates = row->matched.candidates;
	const struct record *record;
	int answer;
	guint i;

	printf("\nline %u: %s\n", row->source->line, row->cells[ADDED_NAME]);
	if (row->cells[ADDED_QUESTION][0] != '\0')
		printf("  %s\n", row->cells[ADDED_QUESTION]);
	if (row->matched.ask != NULL)
		printf("  To ask a seller: %s\n", row->matched.ask);
	for (i = 0; i < candidates->len; i++) {
		record = g_array_index(candidates, struct match_candidate,
			i).record;
		printf("  %u  %s (%s)\n", i + 1, record->name,
			record->kind->title);
	}
	printf("which? (Enter: leave it open, q: stop asking) ");
	fflush(stdout);
	answer = read_answer(candidates->len);
	if (answer <= 0)
		return answer;
	record = g_array_index(candidates, struct match_candidate,
		(guint)answer - 1).record;
	matches_settle(matches, row, record, "1.00", MATCHES_BY_HAND);
	row->answered = true;
	return answer;
}

void
matches_ask(struct matches *matches)
{
	unsigned i;

	for (i = 0; i < matches->count; i++) {
		struct match_row *row = &matches->rows[i];

		if (row->state == ROW_OPEN && row->has_matched &&
			row->matched.candidates->len > 0 &&
			ask_row(matches, row) < 0)
			break;
	}
	printf("\n");
	matches_count(matches);
}
