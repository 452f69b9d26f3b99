/*
 * Check digits of bar codes: GS1 General Specifications, section 7.9. From the
 * right, digits weigh 3 and 1 in turn; the check digit brings the sum to a
 * multiple of ten.
 */
#include "sense/sensing.h"

#include <string.h>

char
check_digit(const char *digits, size_t count)
{
	unsigned sum = 0;
	size_t i;

	for (i = 0; i < count; i++)
		sum += (unsigned)(digits[count - 1 - i] - '0') *
			(i % 2 == 0 ? 3 : 1);
	return (char)('0' + (10 - sum % 10) % 10);
}

static void
check_barcode(struct sensing *sensing, const struct record *record,
	struct value *const *beside, const struct value *value)
{
	size_t count = strlen(value->text), last;
	char wanted[2] = {check_digit(value->text, count - 1), '\0'};
	struct span span;
	struct diag *diag;

	(void)beside;
	if (value->text[count - 1] == wanted[0] ||
		sense_excused(sensing, record, DIAG_CHECK_DIGIT))
		return;
	/* The text may end in a blank or a hyphen. */
	last = strlen(value->node->text) - 1;
	while (last > 0 && !g_ascii_isdigit(value->node->text[last]))
		last--;
	span = node_span_within(value->node, model_sources(sensing->model),
		(uint32_t)last, (uint32_t)last + 1);
	diag = diag_report(sensing->diags, DIAG_CHECK_DIGIT, span,
		"the check digit of \"%s\" should be %s", value->node->text,
		wanted);
	sense_help(diag, record, "compare every digit with the card");
	diag_mend(diag, span, wanted, MEND_PROBABLE);
}

void
sense_check_digits(struct sensing *sensing)
{
	sense_each(sensing, TYPE_BARCODE, check_barcode);
}
