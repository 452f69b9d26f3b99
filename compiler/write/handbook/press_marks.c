/*
 * What printed matter belongs to: marks in the page's content (ISO 32000-1,
 * 14.6), nodes of the structure, and the links that lead away. An element that
 * goes on over a page is one node with a mark on either page.
 */
#include <string.h>

#include "write/handbook/pressing.h"
#include "write/pdf/write.h"

void
pressing_close_mark(struct press *press)
{
	pressing_end_text(press);
	if (press->mark != MARK_NONE)
		g_string_append(press->content, "EMC\n");
	press->mark = MARK_NONE;
}

/* The node of an element, made with those above it when it is first asked. */
static unsigned
node_of(struct press *press, const struct element *element)
{
	gpointer key = (gpointer)(uintptr_t)element;
	unsigned node;

	if (element == NULL)
		return 0;
	node = GPOINTER_TO_UINT(g_hash_table_lookup(press->nodes, key));
	if (node != 0)
		return node;
	node = pdf_tree_node(press->tree, node_of(press, element->parent),
		element->tag, element->says);
	g_hash_table_insert(press->nodes, key, GUINT_TO_POINTER(node));
	return node;
}

static void
open_node(struct press *press, unsigned node, const char *tag)
{
	press->mark = MARK_NODE;
	press->node = node;
	g_string_append_printf(press->content, "/%s<</MCID %u>>BDC\n", tag,
		pdf_tree_mark(press->tree, node));
}

void
pressing_mark(struct press *press, const struct element *element)
{
	unsigned node;

	if (press->how.booklet)
		return;
	node = element == NULL ? 0 : node_of(press, element);
	if (element == NULL && press->mark == MARK_FURNITURE)
		return;
	if (element != NULL && press->mark == MARK_NODE && press->node == node)
		return;
	pressing_close_mark(press);
	if (element != NULL) {
		open_node(press, node, element->tag);
		return;
	}
	press->mark = MARK_FURNITURE;
	g_string_append(press->content, "/Artifact BMC\n");
}

static void
put_note(struct press *press, unsigned object, const char *link,
	const double *area, unsigned owner)
{
	GString *body = press->scratch;
	bool inside = link[0] == '#';
	int i;

	g_string_assign(body, "<</Type/Annot/Subtype/Link/Border[0 0 0]/Rect[");
	for (i = 0; i < 4; i++)
		pdf_number(body, area[i]);
	g_string_append(body, inside ? "]/Dest" : "]/A<</S/URI/URI");
	pdf_bytes(body, link + inside, strlen(link + inside));
	g_string_append(body, inside ? "" : ">>");
	if (owner != G_MAXUINT)
		g_string_append_printf(body, "/StructParent %u", owner);
	g_string_append(body, ">>");
	pdf_put(press->pdf, object, body);
}

void
pressing_link(struct press *press, const struct element *element,
	const char *link, double x, double y, double width, double height)
{
	double left = x + press->shift, shift = press->shift;
	const double area[4] = {left, pressing_y(press, y + height) + shift,
		left + width, pressing_y(press, y) + shift};
	unsigned object, owner = G_MAXUINT, node;

	if (press->how.booklet)
		return;
	object = pdf_reserve(press->pdf);

	if (element == NULL) {
		pressing_mark(press, NULL);
	} else {
		pressing_close_mark(press);
		node = pdf_tree_node(press->tree, node_of(press, element),
			"Link", NULL);
		open_node(press, node, "Link");
		owner = pdf_tree_link(press->tree, node, object);
	}
	put_note(press, object, link, area, owner);
	g_array_append_val(press->notes, object);
}
