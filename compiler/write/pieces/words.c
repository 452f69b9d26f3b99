/*
 * Words for pieces. Fields of holdings are exported nowhere, so that what is
 * said of a group is put together here, field by field, and never as a whole.
 */
#include "write/pieces/words.h"

#include "model/text.h"

const enum field_name words_parts[] = {NAME(HOLDING_CHARACTER),
	NAME(HOLDING_CARDBACK), NAME(HOLDING_FRONT), NAME(HOLDING_BLISTER),
	NAME(HOLDING_VARIANT), NAME(HOLDING_PACKAGE),
	NAME(HOLDING_PREPRODUCTION), NAME(HOLDING_ANOMALY),
	FIELD_NAME_COUNT};

static const char *
keep(GString *text, struct arena *arena)
{
	const char *kept = text->len == 0 ? NULL : arena_text(arena, text->str,
		text->len);

	g_string_free(text, TRUE);
	return kept;
}

const char *
words_value(const struct value *value, struct arena *arena)
{
	GString *text = g_string_new(NULL);

	if (value != NULL && value->form == VALUE_ONE &&
		value->field->type == TYPE_DATE)
		g_string_append(text, date_words(&value->date, arena));
	else
		value_append_text(value, text);
	return keep(text, arena);
}

const char *
words_identity(const struct value *identity, struct arena *arena)
{
	GString *text = g_string_new(NULL);
	unsigned i;

	if (identity != NULL && identity->identity.kind == IDENTITY_UNKNOWN)
		g_string_append(text, "not known");
	for (i = 0; identity != NULL && i < identity->identity.count; i++) {
		bool negated = identity->identity.kind == IDENTITY_NOT;

		g_string_append(text, i == 0 ? "" : negated ? ", " : " or ");
		g_string_append(text, negated ? "not " : "");
		reference_append_text(&identity->identity.items[i], text);
	}
	return keep(text, arena);
}

const char *
words_piece(const struct model *model, const struct record *piece,
	struct arena *arena)
{
	static const enum field_name main_parts[] = {NAME(HOLDING_CHARACTER),
		NAME(HOLDING_CARDBACK), NAME(HOLDING_PACKAGE),
		NAME(HOLDING_PREPRODUCTION)};
	GString *text = g_string_new(NULL);
	size_t i;

	for (i = 0; i < G_N_ELEMENTS(main_parts); i++) {
		const struct value *value = model_get(model, piece->values,
			main_parts[i]);

		if (value == NULL || value->identity.count == 0 ||
			value->identity.kind == IDENTITY_NOT)
			continue;
		g_string_append(text, text->len > 0 ? ", " : "");
		if (value->identity.count > 2)
			g_string_append_printf(text, "one of %u %s",
				value->identity.count,
				value->identity.items[0].kind->titles);
		else
			g_string_append(text, words_identity(value, arena));
	}
	if (text->len == 0)
		g_string_append(text, "A piece not yet identified");
	return keep(text, arena);
}

const struct value *
words_certificate(const struct model *model, const struct record *piece)
{
	const struct value *list = model_get(model, piece->values,
		NAME(HOLDING_CERTIFICATES)), *last;

	if (value_count(list) == 0)
		return NULL;
	last = value_item(list, value_count(list) - 1);
	return model_date(model, last->group,
		NAME(HOLDING_CERTIFICATE_UNTIL)) == NULL ? last : NULL;
}

const char *
words_grade(const struct model *model, const struct value *certificate,
	struct arena *arena)
{
	const char *grade = model_text(model, certificate->group,
		NAME(HOLDING_CERTIFICATE_GRADE));
	const struct value *more = model_get(model, certificate->group,
		NAME(HOLDING_CERTIFICATE_QUALIFIERS));
	GString *text = g_string_new(grade);
	unsigned i;

	for (i = 0; i < value_count(more); i++)
		g_string_append_printf(text, "%s%s", text->len > 0 ? ", " : "",
			value_item(more, i)->text);
	return keep(text, arena);
}
