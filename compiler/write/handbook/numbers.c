/*
 * How many there may be, in the handbook: the same answers as everywhere. The
 * working is on the pages; here is the number and what it rests on.
 */
#include "write/handbook/numbers.h"

#include "write/working.h"

void
numbers_answer(struct book *book, struct block *cell, struct subject subject)
{
	struct arena *arena = arena_new();
	const struct reckoning *one = reckon(book->reckonings, subject, arena);

	copy_text(book, cell, BOLD, working_answer(&one->choice,
		book->arena));
	arena_free(arena);
}

unsigned
numbers_known(struct book *book, struct subject subject)
{
	return evidence_known(reckonings_evidences(book->reckonings),
		&subject);
}

void
numbers_basis(struct book *book, struct block *cell, struct subject subject)
{
	struct arena *arena = arena_new();
	const struct reckoning *one = reckon(book->reckonings, subject, arena);
	const struct risk_share *share = &one->share;

	copy_text(book, cell, PLAIN, "computed");
	if (one->choice.figure.state == FIGURE_GIVEN)
		copy_text(book, cell, PLAIN, arena_print(book->arena, " (%s)",
			method_words(one->choice.method)->title));
	if (share->all > 0)
		copy_text(book, cell, PLAIN, arena_print(book->arena, "; %u "
			"of the %u told apart there, or %s", share->affected,
			share->all, working_share(share->affected, share->all,
				share->wilson, book->arena)));
	arena_free(arena);
}

void
numbers_fact(struct book *book, struct block *table, struct subject subject)
{
	struct arena *arena = arena_new();
	const struct reckoning *one = reckon(book->reckonings, subject, arena);
	struct block *cell;

	if (one->evidence->known > 0) {
		cell = copy_fact(book, table, "how many");
		copy_text(book, cell, BOLD, working_answer(&one->choice,
			book->arena));
		copy_text(book, cell, PLAIN, arena_print(book->arena,
			", computed; %u %s told apart", one->evidence->known,
			one->evidence->known == 1 ?
			"carded piece without alterations" :
			"carded pieces without alterations"));
	}
	arena_free(arena);
}
