/*
 * The tree is kept as two tables, of nodes and of their children in the order
 * they came, and written at the end; pages of a long book would otherwise wait
 * for the last of them.
 */
#include "write/pdf/tree.h"

#include <stdbool.h>
#include <string.h>

#include "write/pdf/write.h"

struct node {
	const char *tag;
	const char *alt;
	unsigned object;
	unsigned parent;
	guint32 first, last; /* children, from 1; 0: none */
};

enum child_kind { CHILD_NODE, CHILD_MARK, CHILD_LINK };

struct child {
	enum child_kind kind;
	unsigned what; /* a node, a mark of `page`, or an annotation */
	unsigned page; /* object */
	guint32 next;
};

struct owner {
	unsigned key;
	guint32 first; /* among marks; a link has one node and no marks */
	guint32 count;
	unsigned node;
};

struct pdf_tree {
	struct pdf *pdf;
	GArray *nodes;	  /* struct node */
	GArray *children; /* struct child; 0 is nobody's */
	GArray *marks;	  /* unsigned: the node of each, page by page */
	GArray *owners;	  /* struct owner: pages and links, by key */
	unsigned page;
	guint current; /* index of the page among owners */
	unsigned root;
	GString *body;
};

/* More in one dictionary would make readers slow (7.9.7). */
enum { LEAF = 128 };

#define NODE(tree, i) g_array_index((tree)->nodes, struct node, i)
#define CHILD(tree, i) g_array_index((tree)->children, struct child, i)

struct pdf_tree *
pdf_tree_new(struct pdf *pdf)
{
	struct pdf_tree *tree = g_new0(struct pdf_tree, 1);
	struct node document = {.tag = "Document"};

	tree->pdf = pdf;
	tree->nodes = g_array_new(FALSE, TRUE, sizeof(struct node));
	tree->children = g_array_new(FALSE, TRUE, sizeof(struct child));
	tree->marks = g_array_new(FALSE, TRUE, sizeof(unsigned));
	tree->owners = g_array_new(FALSE, TRUE, sizeof(struct owner));
	tree->body = g_string_new(NULL);
	tree->root = pdf_reserve(pdf);
	document.object = pdf_reserve(pdf);
	g_array_append_val(tree->nodes, document);
	g_array_set_size(tree->children, 1);
	return tree;
}

static void
add_child(struct pdf_tree *tree, unsigned node, struct child child)
{
	guint32 index = tree->children->len;

	g_array_append_val(tree->children, child);
	if (NODE(tree, node).first == 0)
		NODE(tree, node).first = index;
	else
		CHILD(tree, NODE(tree, node).last).next = index;
	NODE(tree, node).last = index;
}

unsigned
pdf_tree_node(struct pdf_tree *tree, unsigned parent, const char *tag,
	const char *alt)
{
	struct node node = {.tag = tag, .alt = alt, .parent = parent};
	unsigned index = tree->nodes->len;

	node.object = pdf_reserve(tree->pdf);
	g_array_append_val(tree->nodes, node);
	add_child(tree, parent, (struct child){.kind = CHILD_NODE,
		.what = index});
	return index;
}

unsigned
pdf_tree_page(struct pdf_tree *tree, unsigned page)
{
	struct owner owner = {.key = tree->owners->len,
		.first = tree->marks->len};

	tree->page = page;
	tree->current = tree->owners->len;
	g_array_append_val(tree->owners, owner);
	return owner.key;
}

unsigned
pdf_tree_mark(struct pdf_tree *tree, unsigned node)
{
	struct owner *owner = &g_array_index(tree->owners, struct owner,
		tree->current);
	unsigned mark = owner->count++;

	g_array_append_val(tree->marks, node);
	add_child(tree, node, (struct child){.kind = CHILD_MARK, .what = mark,
		.page = tree->page});
	return mark;
}

unsigned
pdf_tree_link(struct pdf_tree *tree, unsigned node, unsigned annotation)
{
	struct owner owner = {.key = tree->owners->len, .node = node};

	g_array_append_val(tree->owners, owner);
	add_child(tree, node, (struct child){.kind = CHILD_LINK,
		.what = annotation, .page = tree->page});
	return owner.key;
}

/* Marks of the node's own page, /Pg, are plain numbers. */
static void
append_child(struct pdf_tree *tree, const struct child *child, unsigned page)
{
	GString *body = tree->body;

	if (child->kind == CHILD_NODE) {
		pdf_reference(body, NODE(tree, child->what).object);
		return;
	}
	if (child->kind == CHILD_MARK && child->page == page) {
		pdf_number(body, child->what);
		return;
	}
	g_string_append(body, child->kind == CHILD_MARK ?
		"<</Type/MCR/MCID" : "<</Type/OBJR/Obj");
	if (child->kind == CHILD_MARK)
		pdf_number(body, child->what);
	else
		pdf_reference(body, child->what);
	g_string_append(body, "/Pg");
	pdf_reference(body, child->page);
	g_string_append(body, ">>");
}

static unsigned
first_page(const struct pdf_tree *tree, const struct node *node)
{
	guint32 i;

	for (i = node->first; i != 0; i = CHILD(tree, i).next) {
		if (CHILD(tree, i).kind == CHILD_MARK)
			return CHILD(tree, i).page;
	}
	return 0;
}

static void
put_node(struct pdf_tree *tree, const struct node *node, bool document)
{
	unsigned page = first_page(tree, node);
	GString *body = tree->body;
	guint32 i;

	g_string_printf(body, "<</Type/StructElem/S/%s/P", node->tag);
	pdf_reference(body, document ? tree->root :
		NODE(tree, node->parent).object);
	if (page > 0) {
		g_string_append(body, "/Pg");
		pdf_reference(body, page);
	}
	if (strcmp(node->tag, "TH") == 0)
		g_string_append(body, "/A<</O/Table/Scope/Column>>");
	if (node->alt != NULL) {
		g_string_append(body, "/Alt");
		pdf_text(body, node->alt, strlen(node->alt));
	}
	g_string_append(body, "/K[");
	for (i = node->first; i != 0; i = CHILD(tree, i).next)
		append_child(tree, &CHILD(tree, i), page);
	g_string_append(body, "]>>");
	pdf_put(tree->pdf, node->object, body);
}

static void
append_owner(struct pdf_tree *tree, const struct owner *owner)
{
	guint32 i;
	unsigned node;

	pdf_number(tree->body, owner->key);
	if (owner->node != 0) {
		pdf_reference(tree->body, NODE(tree, owner->node).object);
		return;
	}
	g_string_append_c(tree->body, '[');
	for (i = 0; i < owner->count; i++) {
		node = g_array_index(tree->marks, unsigned, owner->first + i);
		pdf_reference(tree->body, NODE(tree, node).object);
	}
	g_string_append_c(tree->body, ']');
}

/* From the key of a page or link to its nodes (14.7.4.4). */
static unsigned
put_owners(struct pdf_tree *tree)
{
	GString *kids = g_string_new("<</Kids[");
	unsigned object, count = tree->owners->len;
	guint from, i;

	for (from = 0; from < count; from += LEAF) {
		g_string_printf(tree->body, "<</Limits[%u %u]/Nums[", from,
			MIN(from + LEAF, count) - 1);
		for (i = from; i < MIN(from + LEAF, count); i++)
			append_owner(tree, &g_array_index(tree->owners,
				struct owner, i));
		g_string_append(tree->body, "]>>");
		object = pdf_reserve(tree->pdf);
		pdf_put(tree->pdf, object, tree->body);
		pdf_reference(kids, object);
	}
	g_string_append(kids, "]>>");
	object = pdf_reserve(tree->pdf);
	pdf_put(tree->pdf, object, kids);
	g_string_free(kids, TRUE);
	return object;
}

void
pdf_tree_free(struct pdf_tree *tree)
{
	g_array_free(tree->nodes, TRUE);
	g_array_free(tree->children, TRUE);
	g_array_free(tree->marks, TRUE);
	g_array_free(tree->owners, TRUE);
	g_string_free(tree->body, TRUE);
	g_free(tree);
}

unsigned
pdf_tree_put(struct pdf_tree *tree)
{
	unsigned root = tree->root, owners, i;

	for (i = 0; i < tree->nodes->len; i++)
		put_node(tree, &NODE(tree, i), i == 0);
	owners = put_owners(tree);
	g_string_printf(tree->body,
		"<</Type/StructTreeRoot/K[%u 0 R]/ParentTree %u 0 R"
		"/ParentTreeNextKey %u>>",
		NODE(tree, 0).object, owners, tree->owners->len);
	pdf_put(tree->pdf, root, tree->body);
	pdf_tree_free(tree);
	return root;
}
