/*
 * What is written when all pages are: fonts and drawings, the tree of pages
 * and their labels, the outline, the places that links lead to, and what the
 * file says about itself.
 */
#include <stdlib.h>
#include <string.h>

#include "write/handbook/pressing.h"
#include "write/pdf/write.h"

/* Names in one leaf of a tree. */
enum { LEAF = 64, DEEPEST = 8 };

static unsigned
put(struct press *press, const GString *body)
{
	unsigned object = pdf_reserve(press->pdf);

	pdf_put(press->pdf, object, body);
	return object;
}

static gint
compare_keys(gconstpointer a, gconstpointer b)
{
	unsigned one = GPOINTER_TO_UINT(a), two = GPOINTER_TO_UINT(b);

	return (one > two) - (one < two);
}

/* A table has no order of its own: by number. */
static void
append_drawings(struct press *press, GString *body)
{
	GList *all = g_list_sort(g_hash_table_get_values(press->drawings),
		compare_keys);
	unsigned object;
	GList *at;

	for (at = all; at != NULL; at = at->next) {
		object = GPOINTER_TO_UINT(at->data);
		g_string_append_printf(body, "/D%u %u 0 R", object, object);
	}
	g_list_free(all);
}

static void
put_resources(struct press *press)
{
	GString *body = g_string_new("<</Font<<");
	unsigned file, font;
	guint i;

	for (file = 0; file < fonts_files(); file++) {
		font = pdf_font_put(press->fonts[file], &press->why);
		if (font != 0)
			g_string_append_printf(body, "/F%u %u 0 R", file, font);
	}
	g_string_append(body, ">>/XObject<<");
	append_drawings(press, body);
	for (i = 0; press->sides != NULL && i < press->sides->len; i++)
		g_string_append_printf(body, "/P%u %u 0 R", i,
			g_array_index(press->sides, unsigned, i));
	g_string_append(body, ">>>>");
	pdf_put(press->pdf, press->resources, body);
	g_string_free(body, TRUE);
}

static void
put_pages(struct press *press)
{
	GString *body = g_string_new("<</Type/Pages/Kids[");
	guint i;

	for (i = 0; i < press->pages->len; i++)
		pdf_reference(body,
			g_array_index(press->pages, unsigned, i));
	g_string_append_printf(body, "]/Count %u>>", press->pages->len);
	pdf_put(press->pdf, press->page_tree, body);
	g_string_free(body, TRUE);
}

/* The number that a label is: decimal, or small roman; 0: neither. */
static unsigned
read_label(const char *label, char *style)
{
	static const struct {
		const char *digits;
		unsigned value;
	} roman[] = {{"xc", 90}, {"xl", 40}, {"ix", 9}, {"iv", 4}, {"c", 100},
		{"l", 50}, {"x", 10}, {"v", 5}, {"i", 1}};
	unsigned number = 0;
	size_t i;

	*style = 'D';
	if (strspn(label, "0123456789") == strlen(label))
		return (unsigned)strtoul(label, NULL, 10);
	*style = 'r';
	while (*label != '\0') {
		for (i = 0; i < G_N_ELEMENTS(roman); i++) {
			if (g_str_has_prefix(label, roman[i].digits))
				break;
		}
		if (i == G_N_ELEMENTS(roman))
			return 0;
		number += roman[i].value;
		label += strlen(roman[i].digits);
	}
	return number;
}

/* One line for as many pages as count on from one another. */
static void
append_labels(struct press *press, GString *body)
{
	unsigned number, expected = 0;
	char style, last = '\0';
	const char *label;
	guint i;

	g_string_append(body, "/PageLabels<</Nums[");
	for (i = 0; i < press->labels->len; i++) {
		label = press->labels->pdata[i];
		number = label == NULL ? 0 : read_label(label, &style);
		if (number > 0 && number == expected && style == last) {
			expected++;
			continue;
		}
		if (number > 0)
			g_string_append_printf(body, " %u<</S/%c/St %u>>", i,
				style, number);
		else {
			g_string_append_printf(body, " %u<</P", i);
			pdf_text(body, label == NULL ? "" : label,
				label == NULL ? 0 : strlen(label));
			g_string_append(body, ">>");
		}
		last = number > 0 ? style : '\0';
		expected = number + 1;
	}
	g_string_append(body, "]>>");
}

static gint
compare_goals(gconstpointer a, gconstpointer b)
{
	const struct goal *one = a, *two = b;

	return strcmp(one->name, two->name);
}

static void
append_goal(GString *body, const struct goal *goal)
{
	pdf_bytes(body, goal->name, strlen(goal->name));
	g_string_append_c(body, '[');
	pdf_reference(body, goal->page);
	g_string_append(body, "/XYZ");
	pdf_number(body, goal->x);
	pdf_number(body, goal->y);
	g_string_append(body, " 0]");
}

/* The tree of names (7.9.6). */
static unsigned
put_names(struct press *press)
{
	GString *kids = g_string_new("<</Dests<</Kids["), *leaf;
	const struct goal *first, *last;
	guint from, to, i;
	unsigned object;

	g_array_sort(press->anchors, compare_goals);
	leaf = g_string_new(NULL);
	for (from = 0; from < press->anchors->len; from = to) {
		to = MIN(from + LEAF, press->anchors->len);
		first = &g_array_index(press->anchors, struct goal, from);
		last = &g_array_index(press->anchors, struct goal, to - 1);
		g_string_assign(leaf, "<</Limits[");
		pdf_bytes(leaf, first->name, strlen(first->name));
		pdf_bytes(leaf, last->name, strlen(last->name));
		g_string_append(leaf, "]/Names[");
		for (i = from; i < to; i++)
			append_goal(leaf, &g_array_index(press->anchors,
				struct goal, i));
		g_string_append(leaf, "]>>");
		pdf_reference(kids, put(press, leaf));
	}
	g_string_append(kids, "]>>>>");
	object = put(press, kids);
	g_string_free(leaf, TRUE);
	g_string_free(kids, TRUE);
	return object;
}

/* An item of the outline while it is being linked to others (12.3.3). */
struct item {
	const struct outline_item *what;
	unsigned object;
	guint parent, previous, next, first, last; /* from 1; 0: none */
	unsigned kids;
};

static void
append_item_link(GString *body, const struct item *items, const char *key,
	guint index)
{
	if (index == 0)
		return;
	g_string_append(body, key);
	pdf_reference(body, items[index].object);
}

static void
link_items(struct press *press, struct item *items)
{
	guint open[DEEPEST] = {0}, i, level, parent;
	const struct outline_item *what;

	items[0].object = pdf_reserve(press->pdf);
	for (i = 1; i <= press->outline->len; i++) {
		what = &g_array_index(press->outline, struct outline_item,
			i - 1);
		level = CLAMP(what->level, 1, DEEPEST - 1);
		parent = level > 1 ? open[level - 1] : 0;
		items[i].what = what;
		items[i].object = pdf_reserve(press->pdf);
		items[i].parent = parent;
		items[i].previous = items[parent].last;
		if (items[parent].last > 0)
			items[items[parent].last].next = i;
		else
			items[parent].first = i;
		items[parent].last = i;
		items[parent].kids++;
		open[level] = i;
	}
}

static void
put_item(struct press *press, const struct item *items, guint index)
{
	const struct item *item = &items[index];
	GString *body = press->scratch;

	g_string_assign(body, "<<");
	if (index > 0) {
		g_string_append(body, "/Title");
		pdf_text(body, item->what->title, strlen(item->what->title));
		g_string_append(body, "/Dest");
		pdf_bytes(body, item->what->anchor,
			strlen(item->what->anchor));
		g_string_append(body, "/Parent");
		pdf_reference(body, items[item->parent].object);
	}
	append_item_link(body, items, "/Prev", item->previous);
	append_item_link(body, items, "/Next", item->next);
	append_item_link(body, items, "/First", item->first);
	append_item_link(body, items, "/Last", item->last);
	/* Less than nothing: it opens closed. */
	if (item->kids > 0)
		g_string_append_printf(body, "/Count %s%u",
			index > 0 ? "-" : "", item->kids);
	g_string_append(body, ">>");
	pdf_put(press->pdf, item->object, body);
}

static unsigned
put_outline(struct press *press)
{
	guint count = press->outline->len + 1, i;
	struct item *items = g_new0(struct item, count);
	unsigned object;

	link_items(press, items);
	for (i = 0; i < count; i++)
		put_item(press, items, i);
	object = items[0].object;
	g_free(items);
	return object;
}

static void
append_entry(GString *body, const char *key, const char *text)
{
	if (text == NULL)
		return;
	g_string_append(body, key);
	pdf_text(body, text, strlen(text));
}

/* 2026-11-25T00:00:00Z is D:20261125000000Z there (7.9.4). */
static void
append_date(GString *body, const char *key, const char *date)
{
	if (date == NULL)
		return;
	g_string_append(body, key);
	g_string_append(body, "(D:");
	for (; *date != '\0'; date++) {
		if (g_ascii_isdigit(*date) || *date == 'Z')
			g_string_append_c(body, *date);
	}
	g_string_append_c(body, ')');
}

static unsigned
put_info(struct press *press)
{
	const struct imprint *imprint = press->imprint;
	GString *body = press->scratch;

	g_string_assign(body, "<<");
	append_entry(body, "/Title", imprint->title);
	append_entry(body, "/Author", imprint->author);
	append_entry(body, "/Subject", imprint->subject);
	append_entry(body, "/Keywords", imprint->keywords);
	append_entry(body, "/Creator", imprint->creator);
	append_entry(body, "/Producer", imprint->creator);
	append_date(body, "/CreationDate", imprint->date);
	append_date(body, "/ModDate", imprint->date);
	g_string_append(body, ">>");
	return put(press, body);
}

static void
append_xml(GString *out, const char *before, const char *text,
	const char *after)
{
	char *escaped;

	if (text == NULL)
		return;
	escaped = g_markup_escape_text(text, -1);
	g_string_append_printf(out, "%s%s%s", before, escaped, after);
	g_free(escaped);
}

/* The same as XMP (ISO 16684-1), for those who read only that. */
static unsigned
put_metadata(struct press *press)
{
	const struct imprint *imprint = press->imprint;
	unsigned object = pdf_reserve(press->pdf);
	GString *out = press->scratch;

	g_string_assign(out,
		"<?xpacket begin=\"\xEF\xBB\xBF\" "
		"id=\"W5M0MpCehiHzreSzNTczkc9d\"?>\n"
		"<x:xmpmeta xmlns:x=\"adobe:ns:meta/\"><rdf:RDF xmlns:rdf="
		"\"http://www.w3.org/1999/02/22-rdf-syntax-ns#\">"
		"<rdf:Description rdf:about=\"\" xmlns:dc="
		"\"http://purl.org/dc/elements/1.1/\" xmlns:xmp="
		"\"http://ns.adobe.com/xap/1.0/\">");
	append_xml(out, "<dc:title><rdf:Alt><rdf:li xml:lang=\"x-default\">",
		imprint->title, "</rdf:li></rdf:Alt></dc:title>");
	append_xml(out, "<dc:creator><rdf:Seq><rdf:li>", imprint->author,
		"</rdf:li></rdf:Seq></dc:creator>");
	append_xml(out, "<dc:language><rdf:Bag><rdf:li>", imprint->language,
		"</rdf:li></rdf:Bag></dc:language>");
	append_xml(out, "<xmp:CreateDate>", imprint->date, "</xmp:CreateDate>");
	append_xml(out, "<xmp:ModifyDate>", imprint->date, "</xmp:ModifyDate>");
	append_xml(out, "<xmp:CreatorTool>", imprint->creator,
		"</xmp:CreatorTool>");
	g_string_append(out,
		"</rdf:Description></rdf:RDF></x:xmpmeta>\n"
		"<?xpacket end=\"r\"?>");
	pdf_put_stream(press->pdf, object, "/Type/Metadata/Subtype/XML",
		out->str, out->len);
	return object;
}

/* What leads around in the file, and what it is made of. */
static void
append_ways(struct press *press, GString *body)
{
	unsigned tree = pdf_tree_put(press->tree);
	unsigned names = put_names(press);
	unsigned outline = put_outline(press);

	g_string_append_printf(body,
		"/Names %u 0 R/Outlines %u 0 R/StructTreeRoot %u 0 R"
		"/MarkInfo<</Marked true>>/PageMode/UseOutlines", names,
		outline, tree);
	append_labels(press, body);
}

unsigned
pressing_finish(struct press *press, unsigned *info)
{
	GString *body = g_string_new("<</Type/Catalog/Pages");
	unsigned object;

	if (press->how.booklet)
		pressing_sheets(press);
	pdf_reference(body, press->page_tree);
	g_string_append(body, "/Metadata");
	pdf_reference(body, put_metadata(press));
	g_string_append(body,
		"/ViewerPreferences<</DisplayDocTitle true>>");
	append_entry(body, "/Lang", press->imprint->language);
	if (press->how.booklet)
		pdf_tree_free(press->tree);
	else
		append_ways(press, body);
	put_resources(press);
	put_pages(press);
	*info = put_info(press);
	g_string_append(body, ">>");
	object = put(press, body);
	g_string_free(body, TRUE);
	return object;
}
