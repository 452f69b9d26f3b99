/*
 * Pairings shown by what people know them by: market, card back, character.
 */
#ifndef WRITE_SITE_PAIRS_H
#define WRITE_SITE_PAIRS_H

#include "write/site/page.h"

/* A pairing, and the combination of it that matters, or NULL. */
struct pair {
	const struct record *pairing;
	const char *key;
};

/* The kind of pairings, or NULL in a schema without. */
const struct kind *
pairs_kind(const struct site *site);

/* Sorts pairs by market, card back, character and key. */
void
pairs_sort(const struct site *site, struct pair *pairs, unsigned count);

/*
 * Appends them by market and card back, each character once a card back.
 * Markets are headings of that level.
 */
void
pairs_show(struct page *page, const struct pair *pairs, unsigned count,
	int level);

/*
 * Appends a link in few words: the card back's label, after the character's
 * name unless `before` is of the same one.
 */
void
pair_short(struct page *page, const struct record *pairing,
	const struct record *before);

/* Pairings counted by what is concluded: known, and not settled. */
struct pair_count {
	unsigned known;
	unsigned unsure;
};

/* Counts what surely exists, and what may; what is disproved is neither. */
struct pair_count
pairs_count(const struct site *site, const struct record_list *pairings);

/*
 * Appends a tile: a link to the pairing that shows at a glance what is
 * concluded, how much was seen and whether an anomaly is known. Classes and
 * words are explained by tile_legend.
 */
void
tile_show(struct page *page, const struct record *pairing, const char *words);

/* Appends only the tile's classes, and only its words. */
void
tile_classes(struct page *page, const struct record *pairing);
void
tile_words(struct page *page, const struct record *pairing);

/* How deep the ink of a tile is, from 0 to 4, by pieces seen. */
unsigned
tile_depth(unsigned specimens);

void
tile_legend(struct page *page);

#endif
