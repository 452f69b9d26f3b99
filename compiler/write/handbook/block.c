/*
 * Making blocks and runs: each goes to the end of its parent.
 */
#include "write/handbook/block.h"

#include <string.h>

#include "base/arena.h"

struct block *
block_new(struct arena *arena, struct block *parent, enum block_kind kind,
	enum style style)
{
	struct block *block = arena_one(arena, struct block);

	block->kind = kind;
	block->style = style;
	if (parent == NULL)
		return block;
	if (parent->last == NULL)
		parent->first = block;
	else
		parent->last->next = block;
	parent->last = block;
	return block;
}

static struct run *
add_run(struct arena *arena, struct block *block, enum run_kind kind)
{
	struct run *run = arena_one(arena, struct run);

	run->kind = kind;
	if (block->last_run == NULL)
		block->runs = run;
	else
		block->last_run->next = run;
	block->last_run = run;
	return run;
}

struct run *
block_text(struct arena *arena, struct block *block, unsigned emphasis,
	const char *text)
{
	struct run *run = add_run(arena, block, RUN_TEXT);

	run->emphasis = emphasis;
	run->text = text;
	run->size = strlen(text);
	return run;
}

struct run *
block_symbol(struct arena *arena, struct block *block, enum symbol symbol,
	const char *says)
{
	struct run *run = add_run(arena, block, RUN_SYMBOL);

	run->symbol = symbol;
	run->text = says;
	return run;
}

struct run *
block_page(struct arena *arena, struct block *block, const char *anchor)
{
	struct run *run = add_run(arena, block, RUN_PAGE);

	run->text = anchor;
	run->size = strlen(anchor);
	return run;
}

struct block *
block_say(struct arena *arena, struct block *parent, enum block_kind kind,
	enum style style, const char *text)
{
	struct block *block = block_new(arena, parent, kind, style);

	block_text(arena, block, PLAIN, text);
	return block;
}
