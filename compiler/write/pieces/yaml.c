/*
 * Records as YAML, whatever they were read from.
 */
#include "write/pieces/pieces.h"

#include "write/draft.h"

void
pieces_as_yaml(const struct records *records, const struct schema *schema,
	GString *out)
{
	const struct node **nodes = g_new0(const struct node *,
		records->count + 1);
	bool *done = g_new0(bool, schema->count);
	size_t count, i, j;

	for (j = 0; j < records->count; j++) {
		const struct kind *kind = records->items[j]->kind;

		if (done[kind->index])
			continue;
		done[kind->index] = true;
		count = 0;
		for (i = j; i < records->count; i++)
			if (records->items[i]->kind == kind)
				nodes[count++] = records->items[i]->node;
		draft_rows(nodes, count, kind, schema, true, out);
	}
	g_free(done);
	g_free(nodes);
}
