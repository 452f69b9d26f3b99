/*
 * What a corpus has keys to: the records of a kind that scores features,
 * parted by what each has to belong to. Where the schema demands a market of
 * every card back, the card backs of each market have a key; where it demands
 * nothing, the whole kind has one.
 */
#ifndef STUDY_KEY_GROUP_H
#define STUDY_KEY_GROUP_H

#include "model/seen.h"
#include "study/features.h"
#include "study/key_build.h"

/* Groups with more records than this have no key. */
enum { KEY_MOST_ITEMS = 4096 };

struct key_group {
	const struct kind *kind;
	const struct record **of;	/* what all belong to; may be none */
	unsigned of_count;
	const struct record **items;	/* in reading order */
	unsigned count;
	const char *path;	/* "kind" or "kind/id", with an id for each */
	const char *name;	/* "card backs, Home": plural, then names */
};

struct key_groups {
	struct key_group *items;	/* by kind, then what they belong to */
	unsigned count;
};

/* A group with its key, the numbers of which are places in these arrays. */
struct keyed {
	const struct key_group *group;
	const struct feature **features;
	struct key_table table;
	struct key *key;
};

/*
 * Groups of two records or more; lives in `arena`. Records that are withdrawn,
 * or are said not to exist, are in none.
 */
struct key_groups *
key_groups_gather(const struct model *model, struct arena *arena);

/* The group with that path, or NULL. */
const struct key_group *
key_groups_find(const struct key_groups *groups, const char *path);

/* How common records are, by the pieces seen. */
struct commons;

struct commons *
commons_count(const struct model *model, const struct seen *seen,
	const struct features *features, struct arena *arena);

/*
 * The key of a group over the features that any of its records scores;
 * `first` lists those to ask first. Lives in `arena`.
 */
struct keyed *
key_group_build(const struct features *features,
	const struct commons *commons, const struct key_group *group,
	const struct feature *const *first, unsigned first_count,
	struct arena *arena);

/*
 * Whether a key helps: there are three records or more, and most of them it
 * leads to alone.
 */
bool
keyed_helps(const struct keyed *keyed);

/* The keys of a corpus that help, to be made one at a time. */
struct keys {
	const struct model *model;
	struct features *features;
	struct commons *commons;
	struct key_groups groups;
};

/* Finds them out by making all; lives in `arena`. */
struct keys *
keys_gather(const struct model *model, const struct seen *seen,
	struct arena *arena);

/* Makes one of them; lives in `arena`, which need not be theirs. */
struct keyed *
keys_make(const struct keys *keys, const struct key_group *group,
	struct arena *arena);

/*
 * Appends what a lead says: the names of its states, or "any other" where
 * those of no other lead of the step are as many; or that there is none.
 */
void
keyed_say_lead(const struct model *model, const struct keyed *keyed,
	const struct key_step *step, unsigned lead, GString *out);

/* The same for a feature that confirms the step's. */
void
keyed_say_also(const struct model *model, const struct keyed *keyed,
	const struct key_also *also, unsigned lead, GString *out);

/* Appends what the key comes to, in a few sentences. */
void
keyed_say_report(const struct keyed *keyed, GString *out);

#endif
