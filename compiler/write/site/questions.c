/*
 * "Questions", a section of every page of a record that somebody has made a
 * claim about: what is claimed, by whom, and what became of it.
 */
#include "write/site/record.h"
#include "write/site/rows.h"
#include "write/site/show.h"

static void
show_prose_of(struct page *page, const struct record *question,
	enum field_name name)
{
	const struct value *value = model_get(page->site->model,
		question->values, name);

	if (value == NULL)
		return;
	g_string_append(page->out, "<div class=\"prose\">\n");
	show_prose(page, value->prose.tree, 3);
	g_string_append(page->out, "</div>\n");
}

/* Who, or that we may not say. */
static void
show_who(struct page *page, const struct record *question,
	enum field_name name)
{
	const struct record *who = model_record(page->site->model,
		question->values, name);

	if (who == NULL)
		g_string_append(page->out, "name withheld");
	else
		page_link(page, who);
}

static void
show_when(struct page *page, const struct record *question,
	enum field_name name)
{
	const struct date *date = model_date(page->site->model,
		question->values, name);

	if (date == NULL)
		return;
	g_string_append(page->out, ", ");
	show_date(page, date);
}

static bool
is_decided(const struct page *page, const struct record *question)
{
	return model_date(page->site->model, question->values,
		NAME(QUESTION_DECIDED)) != NULL;
}

static void
show_question(struct page *page, const struct record *question)
{
	const struct model *model = page->site->model;
	const struct value *status = model_get(model, question->values,
		NAME(QUESTION_STATUS));
	bool decided = is_decided(page, question);

	g_string_append(page->out, "<div class=\"question\">\n<h3>");
	page_link(page, question);
	if (status != NULL)
		html_put(page->out, " <small title=\"%s\">%s</small>",
			status->word->says == NULL ? "" : status->word->says,
			status->word->title);
	g_string_append(page->out, "</h3>\n");
	show_prose_of(page, question, NAME(QUESTION_CLAIM));
	g_string_append(page->out, "<p class=\"note\">Asked by ");
	show_who(page, question, NAME(QUESTION_FROM));
	show_when(page, question, NAME(QUESTION_OPENED));
	if (decided) {
		g_string_append(page->out, ". Decided by ");
		show_who(page, question, NAME(QUESTION_DECIDED_BY));
		show_when(page, question, NAME(QUESTION_DECIDED));
	}
	g_string_append(page->out, decided ? ", because:</p>\n" :
		". What would decide it:</p>\n");
	show_prose_of(page, question, NAME(QUESTION_WHY));
	g_string_append(page->out, "</div>\n");
}

void
questions_section(struct page *page)
{
	struct arena *arena = arena_new();
	struct record_list list = rows_pointing(page, page->record,
		NAME(QUESTION_ABOUT), arena);
	unsigned i, decided;

	page_tell_pointer(page, NAME(QUESTION_ABOUT));
	if (list.count > 0) {
		g_string_append(page->out, "<section>\n");
		page_heading(page, "questions", "Questions");
	}
	for (decided = 0; decided < 2; decided++)
		for (i = 0; i < list.count; i++)
			if (is_decided(page, list.items[i]) == (decided == 1))
				show_question(page, list.items[i]);
	if (list.count > 0)
		g_string_append(page->out, "</section>\n");
	arena_free(arena);
}
