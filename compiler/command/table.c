/*
 * The table of commands: what help and README list, grouped by what a person
 * is doing. A command stands here when it works.
 */
#include "command/command.h"

const struct command commands[] = {
	{"find", "WORDS...", "records that have these words, best first",
		LOOK_UP, command_find, find_entries},
	{"show", "KIND/ID [--buyer]", "one record, and what points at it",
		LOOK_UP, command_show, show_entries},
	{"narrow", "FEATURE=STATE...", "what a piece can be, from what you see on it",
		LOOK_UP, command_narrow, narrow_entries},
	{"estimate", "[ID...]", "how many there are, with the working",
		LOOK_UP, command_estimate, estimate_entries},
	{"gaps", "HOLDINGS [--run RUN]", "what your pieces fill, and what is missing",
		MY_PIECES, command_gaps, gaps_entries},
	{"match", "SPREADSHEET.csv", "which record each row is about",
		MY_PIECES, command_match, match_entries},
	{"check", "[HOLDINGS]", "what is wrong in the corpus or your pieces",
		EDIT, command_check, check_entries},
	{"new", "KIND [ID|--from CSV]", "a record to fill in, or many from a table",
		EDIT, command_new, new_entries},
	{"tidy", "[--check|--upgrade] [FILES]", "lay files of records out the one way",
		EDIT, command_tidy, tidy_entries},
	{"stats", "[MARKET...]", "what is recorded, and what is still unseen",
		EDIT, command_stats, stats_entries},
	{"explain", "[CODE]", "what a message means, and how to mend it", EDIT,
		command_explain, NULL},
	{"build", "[--only PARTS]", "compile the corpus into the guide",
		PUBLISH, command_build, build_entries},
	{0},
};
