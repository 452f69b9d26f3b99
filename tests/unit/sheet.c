/*
 * Spreadsheets as people keep them: encodings, what stands between cells, and
 * rows that can't be taken apart.
 *
 * Sources: RFC 4180 for cells and quotes; the byte order marks and surrogates
 * of the Unicode Standard; Windows-1252 as Python's codec "cp1252" has it.
 */
#include <string.h>

#include "suite.h"

#include "read/sheet.h"

static struct arena *arena;

static void
setup(void)
{
	arena = arena_new();
}

static void
teardown(void)
{
	arena_free(arena);
}

static const struct sheet *
read_text(const char *text)
{
	return sheet_read(text, strlen(text), arena);
}

static void
check_cell(const struct sheet *sheet, unsigned row, unsigned cell,
	const char *text)
{
	ck_assert_uint_lt(row, sheet->count);
	ck_assert_uint_lt(cell, sheet->rows[row].count);
	ck_assert_str_eq(sheet->rows[row].cells[cell], text);
}

START_TEST(delimiters)
{
	const struct sheet *sheet = read_text("a,b;c\n1,2\n3,4;5\n");

	ck_assert_int_eq(sheet->between, ',');
	ck_assert_int_eq(read_text("a;b\n1,5;2\n1,6;3\n")->between, ';');
	ck_assert_int_eq(read_text("a\tb\n1,5\t2\n")->between, '\t');
	ck_assert_int_eq(read_text("a|b\n1|2\n")->between, '|');
	sheet = read_text("item\nKedge, 24A\n");
	ck_assert_int_eq(sheet->between, '\0');
	check_cell(sheet, 1, 0, "Kedge, 24A");
	sheet = read_text("sep=;\na,b;c\n");
	check_cell(sheet, 0, 0, "a,b");
	ck_assert_uint_eq(sheet->rows[0].line, 2);
}
END_TEST

START_TEST(encodings)
{
	static const char little[] = "\xFF\xFE" "a\0;\0\xEF\0\r\0\n\0"
		"\x3D\xD8\x00\xDE;\0z\0";
	static const char big[] = "\0a\0;\0b\0\n\0c\0;\0d";
	const struct sheet *sheet = sheet_read(little, sizeof(little) - 1,
		arena);

	ck_assert_int_eq(sheet->encoding, ENCODING_UTF16_LITTLE);
	check_cell(sheet, 0, 1, "\xC3\xAF");
	check_cell(sheet, 1, 0, "\xF0\x9F\x98\x80");
	sheet = sheet_read(big, sizeof(big) - 1, arena);
	ck_assert_int_eq(sheet->encoding, ENCODING_UTF16_BIG);
	check_cell(sheet, 1, 1, "d");
	sheet = read_text("Gro\xDFvater;\x80 5;\x93q\x94\n");
	ck_assert_int_eq(sheet->encoding, ENCODING_WINDOWS_1252);
	check_cell(sheet, 0, 0, "Gro\xC3\x9Fvater");
	check_cell(sheet, 0, 1, "\xE2\x82\xAC 5");
	check_cell(sheet, 0, 2, "\xE2\x80\x9Cq\xE2\x80\x9D");
	sheet = read_text("\xEF\xBB\xBF" "a;b\n");
	ck_assert_int_eq(sheet->encoding, ENCODING_UTF8_MARKED);
	check_cell(sheet, 0, 0, "a");
}
END_TEST

START_TEST(cells)
{
	const struct sheet *sheet = read_text("a,b\r\n\" x \",\"1\r\n2\"\r\n"
		"\"say \"\"so\"\"\",'=1\r\n");

	check_cell(sheet, 1, 0, " x ");
	check_cell(sheet, 1, 1, "1\r\n2");
	check_cell(sheet, 2, 0, "say \"so\"");
	check_cell(sheet, 2, 1, "=1");
	ck_assert_uint_eq(sheet->rows[2].line, 4);
	sheet = read_text("a, \"b, c\"\n5\" tall,x\n");
	check_cell(sheet, 0, 1, "b, c");
	check_cell(sheet, 1, 0, "5\" tall");
}
END_TEST

START_TEST(broken)
{
	const struct sheet *sheet = read_text("a,b\n\"x,1\ny,2\nz,3\n");

	ck_assert_uint_eq(sheet->count, 4);
	ck_assert_ptr_nonnull(sheet->rows[1].wrong);
	check_cell(sheet, 1, 0, "\"x,1");
	ck_assert_ptr_null(sheet->rows[2].wrong);
	check_cell(sheet, 3, 1, "3");
	sheet = sheet_read("a,b\nx\0,1\ny,2\n", 13, arena);
	ck_assert_uint_eq(sheet->count, 3);
	ck_assert_ptr_nonnull(sheet->rows[1].wrong);
	ck_assert_ptr_null(sheet->rows[2].wrong);
	ck_assert_uint_eq(read_text("")->count, 0);
	ck_assert_uint_eq(read_text("\n\r\n\r")->count, 0);
}
END_TEST

/* Every line begins a quote: reading them is not to take their square. */
START_TEST(many_quotes)
{
	GString *text = g_string_new("a,b\n");
	const struct sheet *sheet;
	unsigned i, wrong = 0;

	for (i = 0; i < 50000; i++)
		g_string_append(text, i % 2 == 0 ? "\"x,1\n" : "\"\"\"y,2\n");
	sheet = sheet_read(text->str, text->len, arena);
	for (i = 0; i < sheet->count; i++)
		wrong += sheet->rows[i].wrong != NULL;
	ck_assert_uint_gt(wrong, 0);
	g_string_free(text, TRUE);
}
END_TEST

int
main(void)
{
	Suite *suite = suite_create("sheet");
	TCase *tests = tcase_create("sheet");

	tcase_add_checked_fixture(tests, setup, teardown);
	tcase_add_test(tests, delimiters);
	tcase_add_test(tests, encodings);
	tcase_add_test(tests, cells);
	tcase_add_test(tests, broken);
	tcase_add_test(tests, many_quotes);
	suite_add_tcase(suite, tests);
	return suite_run(suite);
}
