/*
 * The order of text, by ICU. Settings that the locale or a later ICU could
 * choose otherwise are set by hand: root rules, numbers by value, blanks and
 * punctuation shifted to a fourth level.
 */
#include "base/order.h"

#include <glib.h>
#include <string.h>
#include <unicode/ucol.h>
#include <unicode/ustring.h>

struct order {
	UCollator *collator;
	UChar *wide;
	int32_t wide_size;
	uint8_t *key;
	int32_t key_size;
};

static void
set(UCollator *collator, UColAttribute attribute, UColAttributeValue value)
{
	UErrorCode status = U_ZERO_ERROR;

	ucol_setAttribute(collator, attribute, value, &status);
	if (U_FAILURE(status))
		g_error("ICU takes no setting: %s", u_errorName(status));
}

struct order *
order_new(void)
{
	struct order *order = g_new0(struct order, 1);
	UErrorCode status = U_ZERO_ERROR;

	order->collator = ucol_open("root", &status);
	if (U_FAILURE(status))
		g_error("ICU has no root order: %s", u_errorName(status));
	set(order->collator, UCOL_NUMERIC_COLLATION, UCOL_ON);
	set(order->collator, UCOL_ALTERNATE_HANDLING, UCOL_SHIFTED);
	set(order->collator, UCOL_STRENGTH, UCOL_QUATERNARY);
	set(order->collator, UCOL_NORMALIZATION_MODE, UCOL_ON);
	return order;
}

void
order_free(struct order *order)
{
	if (order == NULL)
		return;
	ucol_close(order->collator);
	g_free(order->wide);
	g_free(order->key);
	g_free(order);
}

/* The text in UTF-16, in the order's own buffer; returns its length. */
static int32_t
widen(struct order *order, const char *text, size_t size)
{
	UErrorCode status = U_ZERO_ERROR;
	int32_t length = 0;

	g_assert(size < G_MAXINT32 / 4);
	if ((int32_t)size > order->wide_size) {
		order->wide_size = (int32_t)size * 2;
		order->wide = g_renew(UChar, order->wide, order->wide_size);
	}
	/* A text is never longer in UTF-16 units than in UTF-8 bytes. */
	u_strFromUTF8WithSub(order->wide, order->wide_size, &length, text,
		(int32_t)size, 0xFFFD, NULL, &status);
	g_assert(U_SUCCESS(status));
	return length;
}

/* The root order's key in the order's own buffer; its size without the NUL. */
static size_t
make_key(struct order *order, int32_t length)
{
	int32_t size = ucol_getSortKey(order->collator, order->wide, length,
		order->key, order->key_size);

	if (size > order->key_size) {
		order->key_size = size * 2;
		order->key = g_renew(uint8_t, order->key, order->key_size);
		size = ucol_getSortKey(order->collator, order->wide, length,
			order->key, order->key_size);
	}
	g_assert(size > 0);
	return (size_t)size - 1;
}

/*
 * ICU's keys have as many level separators (byte 1) as each other and no byte
 * below, so a key that begins another goes on with more than 1 there: the text
 * can follow behind one more separator without disturbing the order.
 */
const char *
order_key(struct order *order, const char *text, struct arena *arena)
{
	size_t text_size = strlen(text);
	size_t size = make_key(order, widen(order, text, text_size));
	char *key = arena_alloc(arena, size + text_size + 2);

	memcpy(key, order->key, size);
	key[size] = 1;
	memcpy(key + size + 1, text, text_size);
	return key;
}

int
order_compare(struct order *order, const char *left, const char *right)
{
	struct arena *arena = arena_new();
	int result = strcmp(order_key(order, left, arena),
		order_key(order, right, arena));

	arena_free(arena);
	return result;
}
