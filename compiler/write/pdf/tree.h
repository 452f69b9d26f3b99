/*
 * The structure of a tagged PDF (ISO 32000-1, 14.7): what reading programs see
 * instead of pages. A node has children: other nodes, marked pieces of pages,
 * and links. Nodes are numbered in the order they are made, from 1; 0 is the
 * document.
 */
#ifndef WRITE_PDF_TREE_H
#define WRITE_PDF_TREE_H

#include "write/pdf/file.h"

struct pdf_tree;

struct pdf_tree *
pdf_tree_new(struct pdf *pdf);

/* A node at the end of another one; `tag` is kept, and `alt`, the text that
 * stands for a picture, or NULL. */
unsigned
pdf_tree_node(struct pdf_tree *tree, unsigned parent, const char *tag,
	const char *alt);

/* From here on marks are on this page; returns its entry /StructParents. */
unsigned
pdf_tree_page(struct pdf_tree *tree, unsigned page);

/* A marked piece of the page belongs to a node; returns its /MCID. */
unsigned
pdf_tree_mark(struct pdf_tree *tree, unsigned node);

/* A link of the page belongs to a node; returns its /StructParent. */
unsigned
pdf_tree_link(struct pdf_tree *tree, unsigned node, unsigned annotation);

/* Frees the tree without writing it. */
void
pdf_tree_free(struct pdf_tree *tree);

/* Writes the tree and frees it; returns the object of its root. */
unsigned
pdf_tree_put(struct pdf_tree *tree);

#endif
