/*
 * Shaped words: what the rest of the handbook takes for granted about them.
 */
#include "write/handbook/fonts.h"

#include <string.h>

#include "base/arena.h"
#include "suite.h"

static struct arena *arena;
static struct fonts *fonts;

static void
set_up(void)
{
	const char *why = NULL;

	arena = arena_new();
	fonts = fonts_open(arena, &why);
	ck_assert_msg(fonts != NULL, "%s", why);
}

static void
tear_down(void)
{
	fonts_close(fonts);
	arena_free(arena);
}

static const struct shaped *
shape(enum face face, const char *text)
{
	return fonts_word(fonts, face, NULL, text, strlen(text));
}

START_TEST(test_each_word_once)
{
	const char *text = "blister";
	char number[16];
	const struct shaped *word = shape(FACE_TEXT, text);
	int i;

	/* Enough words to make the table grow. */
	for (i = 0; i < 9000; i++) {
		g_snprintf(number, sizeof(number), "w%d", i);
		shape(FACE_LABEL, number);
	}
	ck_assert_ptr_eq(shape(FACE_TEXT, text), word);
	ck_assert_ptr_ne(shape(FACE_TEXT_BOLD, text), word);
	ck_assert_ptr_ne(fonts_word(fonts, FACE_TEXT, "nl", text, 7), word);
	ck_assert_ptr_eq(fonts_word(fonts, FACE_TEXT, "nl", text, 7),
		fonts_word(fonts, FACE_TEXT, "nl", text, 7));
}
END_TEST

/* Room for page numbers is measured with zeros: see places.h. */
START_TEST(test_figures_are_of_one_width)
{
	char digit[2] = "0";
	int face;
	float width;

	for (face = 0; face < FACE_COUNT; face++) {
		width = shape(face, "0")->width;
		for (digit[0] = '1'; digit[0] <= '9'; digit[0]++)
			ck_assert_float_eq_tol(shape(face, digit)->width, width,
				1e-4f);
	}
}
END_TEST

START_TEST(test_every_face_has_greek)
{
	static const char *const words[] = {"Φύλακες", "Ἀλάτι", "ᾠδή", "Łódź",
		"façade", "Ærø", "½", "–", "…", "“”", "•", "€£"};
	const struct shaped *word;
	size_t i;
	int face;

	for (face = 0; face < FACE_COUNT; face++) {
		for (i = 0; i < G_N_ELEMENTS(words); i++) {
			word = shape(face, words[i]);
			ck_assert_msg(!word->missing, "%s in face %d", words[i],
				face);
		}
	}
	ck_assert(shape(FACE_TEXT, "漢")->missing);
}
END_TEST

START_TEST(test_small_capitals_are_true)
{
	ck_assert_uint_ne(shape(FACE_TEXT_CAPS, "a")->glyphs[0].id,
		shape(FACE_TEXT, "a")->glyphs[0].id);
	ck_assert_uint_ne(shape(FACE_LABEL_CAPS, "a")->glyphs[0].id,
		shape(FACE_LABEL, "a")->glyphs[0].id);
	ck_assert_uint_ne(shape(FACE_TEXT_CAPS, "a")->glyphs[0].id,
		shape(FACE_TEXT, "A")->glyphs[0].id);
}
END_TEST

START_TEST(test_clusters_cover_the_text)
{
	static const char *const words[] = {"office", "a\u0301o\u0308", "שלום…",
		"x", "Ἠώς", "<b>", "\u200d", "😀"};
	const struct shaped *word;
	unsigned bytes, glyphs, i, k;

	for (i = 0; i < G_N_ELEMENTS(words); i++) {
		word = shape(FACE_TEXT, words[i]);
		for (bytes = glyphs = k = 0; k < word->cluster_count; k++) {
			bytes += word->clusters[k].bytes;
			glyphs += word->clusters[k].glyphs;
			ck_assert(bytes == word->size ||
				((unsigned char)word->text[bytes] & 0xC0) !=
					0x80);
		}
		ck_assert_uint_eq(bytes, word->size);
		ck_assert_uint_eq(glyphs, word->glyph_count);
	}
	word = shape(FACE_TEXT, "שלום…");
	ck_assert(word->backward);
	ck_assert_uint_eq(word->clusters[0].bytes, 2);
	ck_assert_uint_eq(word->clusters[4].bytes, 3);
}
END_TEST

START_TEST(test_fit)
{
	const struct shaped *word = shape(FACE_LABEL, "Ἀλάτιxxxxxxxxxxxx");
	const struct shaped *part;
	size_t from = 0, size;

	ck_assert_uint_eq(fonts_fit(word, 0, 1000), word->size);
	while (from < word->size) {
		size = fonts_fit(word, from, 1.4);
		ck_assert_uint_gt(size, 0);
		part = fonts_word(fonts, FACE_LABEL, NULL, word->text + from,
			size);
		/* Kerning at the cut may differ a little. */
		ck_assert_float_le(part->width, 1.45f);
		from += size;
	}
	ck_assert_uint_eq(from, word->size);
	/* At least one cluster, however narrow the place. */
	ck_assert_uint_gt(fonts_fit(word, 0, 0), 0);
}
END_TEST

int
main(void)
{
	Suite *suite = suite_create("handbook fonts");
	TCase *tests = tcase_create("fonts");

	tcase_add_checked_fixture(tests, set_up, tear_down);
	tcase_add_test(tests, test_each_word_once);
	tcase_add_test(tests, test_figures_are_of_one_width);
	tcase_add_test(tests, test_every_face_has_greek);
	tcase_add_test(tests, test_small_capitals_are_true);
	tcase_add_test(tests, test_clusters_cover_the_text);
	tcase_add_test(tests, test_fit);
	suite_add_tcase(suite, tests);
	return suite_run(suite);
}
