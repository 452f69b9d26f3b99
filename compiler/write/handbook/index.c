/*
 * The index: names of records with the pages that say something of them, the
 * page of their own in bold. Runs of pages are one reference. Other names lead
 * to the ones that are used: only where those are in the index themselves.
 */
#include <string.h>

#include "base/arena.h"
#include "base/order.h"
#include "write/handbook/book.h"
#include "write/handbook/mentions.h"
#include "write/handbook/places.h"

/* Kinds whose names are looked up. Labels of card backs are in the contents,
 * and terms and sources in lists of their own. */
static const char *const kinds[] = {"character", "variant", "anomaly", "offer",
	"sticker", "accessory", "blister", "mark", "imitation", "package",
	"preproduction", "company", "factory"};

struct entry {
	const char *heading;
	const struct record *record; /* NULL: it only leads elsewhere */
	const char *see;	     /* the heading it leads to, or NULL */
	bool also;
	const struct record *target; /* of that heading */
	GArray *pages;		     /* uint32_t */
};

struct index {
	struct book *book;
	struct arena *arena;
	const struct mentions *mentions;
	struct places *places;
	GHashTable *entries; /* record -> struct entry */
	GPtrArray *order;    /* struct entry, as printed */
};

bool
book_is_indexed(const struct record *record)
{
	size_t i;

	for (i = 0; i < G_N_ELEMENTS(kinds); i++) {
		if (strcmp(kinds[i], record->kind->name) == 0)
			return true;
	}
	return false;
}

static struct entry *
add_entry(struct index *index, const char *heading,
	const struct record *record)
{
	struct entry *entry = arena_one(index->arena, struct entry);

	entry->heading = heading;
	entry->record = record;
	g_ptr_array_add(index->order, entry);
	if (record == NULL)
		return entry;
	entry->pages = g_array_new(FALSE, FALSE, sizeof(uint32_t));
	g_hash_table_insert(index->entries, (gpointer)(uintptr_t)record,
		entry);
	return entry;
}

static struct entry *
entry_of(struct index *index, const struct record *record)
{
	struct entry *entry = g_hash_table_lookup(index->entries, record);

	return entry != NULL ? entry : add_entry(index, record->name, record);
}

/* The page where the record has a place of its own, or UINT32_MAX. */
static uint32_t
own_page(const struct index *index, const struct record *record)
{
	const struct spot *spot = places_find(index->places,
		book_anchor(index->book, record));

	return spot == NULL || spot->label == NULL ? UINT32_MAX : spot->page;
}

static void
gather(struct index *index)
{
	const GArray *all = index->mentions->all;
	const struct mention *mention;
	struct record_list list;
	unsigned k;
	size_t kind;
	guint i;

	for (i = 0; i < all->len; i++) {
		mention = &g_array_index(all, struct mention, i);
		g_array_append_val(entry_of(index, mention->about)->pages,
			mention->page);
	}
	for (kind = 0; kind < G_N_ELEMENTS(kinds); kind++) {
		list = model_records_of(index->book->model, kinds[kind]);
		for (k = 0; k < list.count; k++) {
			if (own_page(index, list.items[k]) != UINT32_MAX)
				entry_of(index, list.items[k]);
		}
	}
}

/* A variant is told of in the place of its character. */
static void
lead_to_character(struct index *index, struct entry *entry)
{
	const struct record *character;
	const struct entry *target;

	if (entry->record == NULL ||
		strcmp(entry->record->kind->name, "variant") != 0)
		return;
	character = model_record(index->book->model, entry->record->values,
		NAME(VARIANT_CHARACTER));
	target = character == NULL ? NULL :
		g_hash_table_lookup(index->entries, character);
	if (target == NULL)
		return;
	entry->see = target->heading;
	entry->target = character;
	entry->also = true;
}

/* What has been withdrawn leads to what took its place. */
static void
lead_to_successor(struct index *index, const struct record *record)
{
	const struct record *successor = model_record(index->book->model,
		record->values, NAME(EVERY_RETIRED_SUCCESSOR));
	const struct entry *target = successor == NULL ? NULL :
		g_hash_table_lookup(index->entries, successor);
	struct entry *entry;

	if (target == NULL || strcmp(target->heading, record->name) == 0 ||
		g_hash_table_contains(index->entries, record))
		return;
	entry = add_entry(index, record->name, NULL);
	entry->see = target->heading;
	entry->target = successor;
}

static void
lead_around(struct index *index)
{
	guint count = index->order->len, i;
	struct record_list list;
	unsigned k;
	size_t kind;

	for (i = 0; i < count; i++)
		lead_to_character(index, index->order->pdata[i]);
	for (kind = 0; kind < G_N_ELEMENTS(kinds); kind++) {
		list = model_records_of(index->book->model, kinds[kind]);
		for (k = 0; k < list.count; k++)
			lead_to_successor(index, list.items[k]);
	}
}

static gint
compare_entries(gconstpointer a, gconstpointer b, gpointer order)
{
	const struct entry *one = *(const struct entry *const *)a;
	const struct entry *two = *(const struct entry *const *)b;
	int difference = order_compare(order, one->heading, two->heading);

	if (difference != 0)
		return difference;
	if (one->record == NULL || two->record == NULL)
		return (one->record == NULL) - (two->record == NULL);
	difference = strcmp(one->record->kind->name, two->record->kind->name);
	return difference != 0 ? difference :
		strcmp(one->record->id, two->record->id);
}

static const char *
label_of(const struct index *index, uint32_t page)
{
	return arena_text(index->arena, index->mentions->labels->pdata[page],
		strlen(index->mentions->labels->pdata[page]));
}

/* A reference to a run of pages; each page is a place to be led to. */
static void
add_reference(struct index *index, struct block *block, uint32_t from,
	uint32_t to, bool own)
{
	struct run *run;
	const char *text = label_of(index, from);

	if (to > from)
		text = arena_print(index->arena, "%s–%s", text,
			label_of(index, to));
	block_text(index->arena, block, PLAIN, ", ");
	run = block_text(index->arena, block, own ? BOLD : PLAIN, text);
	run->link = arena_print(index->arena, "#page/%u", from);
	places_declare(index->places, run->link + 1);
}

static gint
compare_pages(gconstpointer a, gconstpointer b)
{
	uint32_t one = *(const uint32_t *)a, two = *(const uint32_t *)b;

	return (one > two) - (one < two);
}

static uint32_t
page_at(const struct entry *entry, guint i)
{
	return g_array_index(entry->pages, uint32_t, i);
}

/* Neighbouring pages are one reference; a page of its own stands alone. */
static void
add_references(struct index *index, struct block *block,
	const struct entry *entry)
{
	uint32_t own = own_page(index, entry->record), from, to;
	guint i = 0, k;

	for (k = 0; k < entry->pages->len && page_at(entry, k) != own;)
		k++;
	if (own != UINT32_MAX && k == entry->pages->len)
		g_array_append_val(entry->pages, own);
	g_array_sort(entry->pages, compare_pages);
	while (i < entry->pages->len) {
		from = to = page_at(entry, i++);
		while (from != own && i < entry->pages->len &&
			page_at(entry, i) == to + 1 && to + 1 != own)
			to = page_at(entry, i++);
		add_reference(index, block, from, to, from == own);
	}
}

/* Names that several records share are told apart by kind. */
static void
print_entry(struct index *index, struct block *columns, guint at)
{
	const struct entry *entry = index->order->pdata[at], *other;
	struct block *block = block_new(index->arena, columns,
		BLOCK_PARAGRAPH, STYLE_SMALL);
	bool shared = false;
	struct run *run;
	guint i;

	for (i = at > 0 ? at - 1 : 0; i <= at + 1 && i < index->order->len;
		i++) {
		other = index->order->pdata[i];
		shared = shared || (i != at &&
			strcmp(other->heading, entry->heading) == 0);
	}
	block->hang = 1;
	block->guide = entry->heading;
	block_text(index->arena, block, PLAIN, entry->heading);
	if (shared && entry->record != NULL)
		block_text(index->arena, block, PLAIN,
			arena_print(index->arena, " (%s)",
				entry->record->kind->title));
	if (entry->pages != NULL)
		add_references(index, block, entry);
	if (entry->see == NULL)
		return;
	block_text(index->arena, block, PLAIN, entry->pages == NULL ? ", " :
		"; ");
	block_text(index->arena, block, ITALIC,
		entry->also ? "see also " : "see ");
	run = block_text(index->arena, block, PLAIN, entry->see);
	run->link = arena_print(index->arena, "#%s",
		book_anchor(index->book, entry->target));
}

static gunichar
first_letter(const char *heading)
{
	char *plain = g_utf8_normalize(heading, -1, G_NORMALIZE_ALL);
	const char *at = plain;
	gunichar letter;

	while (*at != '\0' && !g_unichar_isalnum(g_utf8_get_char(at)))
		at = g_utf8_next_char(at);
	letter = g_unichar_toupper(g_utf8_get_char(at));
	g_free(plain);
	return g_unichar_isdigit(letter) ? '0' : letter;
}

static void
print_entries(struct index *index, struct block *chapter)
{
	struct block *columns = block_new(index->arena, chapter,
		BLOCK_COLUMNS, STYLE_SMALL);
	const struct entry *entry;
	gunichar letter, last = 0;
	struct block *space;
	guint i;

	columns->size = 14.5;
	for (i = 0; i < index->order->len; i++) {
		entry = index->order->pdata[i];
		letter = first_letter(entry->heading);
		if (i > 0 && letter != last) {
			space = block_new(index->arena, columns, BLOCK_SPACE,
				STYLE_SMALL);
			space->size = 6;
		}
		last = letter;
		print_entry(index, columns, i);
	}
}

/* The chapter's head stays; what stood below it in an earlier pass goes. */
static void
fill(void *closure, struct block *chapter, struct arena *arena,
	const struct mentions *mentions, struct places *places)
{
	struct index index = {closure, arena, mentions, places, NULL, NULL};
	struct order *order = order_new();
	struct block *head = chapter->first;
	struct entry *entry;
	guint i;

	index.entries = g_hash_table_new(g_direct_hash, g_direct_equal);
	index.order = g_ptr_array_new();
	while (head->next != NULL && head->kind == BLOCK_HEADING &&
		head->style != STYLE_CHAPTER)
		head = head->next;
	head->next = NULL;
	chapter->last = head;
	gather(&index);
	lead_around(&index);
	g_ptr_array_sort_with_data(index.order, compare_entries, order);
	print_entries(&index, chapter);
	for (i = 0; i < index.order->len; i++) {
		entry = index.order->pdata[i];
		if (entry->pages != NULL)
			g_array_free(entry->pages, TRUE);
	}
	g_hash_table_destroy(index.entries);
	g_ptr_array_free(index.order, TRUE);
	order_free(order);
}

void
book_index(struct book *book)
{
	struct block *chapter = book_chapter(book, "by name", "Index", "index");

	book_say(book, chapter, STYLE_SMALL,
		"A page in bold is a record's own; the others name it.");
	chapter->late = fill;
	chapter->closure = book;
}
