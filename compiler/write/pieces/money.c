/*
 * Amounts are whole ten-thousandths, so that sums are exact.
 */
#include "write/pieces/money.h"

#include <inttypes.h>
#include <string.h>

struct sum {
	const char *currency;
	int64_t amount;
};

struct money
money_new(void)
{
	return (struct money){g_array_new(FALSE, FALSE, sizeof(struct sum))};
}

void
money_free(struct money *money)
{
	g_array_free(money->sums, TRUE);
}

void
money_add(struct money *money, const char *currency, int64_t amount)
{
	struct sum new = {currency, amount}, *sum;
	guint i;

	for (i = 0; i < money->sums->len; i++) {
		sum = &g_array_index(money->sums, struct sum, i);
		if (strcmp(sum->currency, currency) > 0)
			break;
		if (strcmp(sum->currency, currency) < 0)
			continue;
		/* Nobody owns as much; the most that can be said is said. */
		if (__builtin_add_overflow(sum->amount, amount, &sum->amount))
			sum->amount = INT64_MAX;
		return;
	}
	g_array_insert_val(money->sums, i, new);
}

void
money_add_group(struct money *money, const struct model *model,
	struct value *const *group, enum field_name amount,
	enum field_name currency)
{
	const struct value *number = model_get(model, group, amount);
	const struct value *code = model_get(model, group, currency);

	if (number != NULL && code != NULL)
		money_add(money, code->text, shape_amount(number->text));
}

const char *
money_words(const struct money *money, struct arena *arena)
{
	const char *text = NULL;
	guint i;

	for (i = 0; i < money->sums->len; i++) {
		const struct sum *sum = &g_array_index(money->sums, struct sum,
			i);
		int64_t parts = sum->amount % AMOUNT_ONE;
		bool fine = parts % 100 != 0;

		text = arena_print(arena, "%s%s%" PRId64 ".%0*" PRId64 " %s",
			text == NULL ? "" : text, text == NULL ? "" : "; ",
			sum->amount / AMOUNT_ONE, fine ? 4 : 2,
			fine ? parts : parts / 100, sum->currency);
	}
	return text;
}
