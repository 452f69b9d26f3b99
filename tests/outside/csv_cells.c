/*
 * Spreadsheets as hangtab reads them, for checks against other readers. Takes
 * files by name and answers each with a line of JSON: its rows, read leniently
 * and kept as they are (read/sheet.h), and read strictly without the blanks
 * around cells (read/csv.h); null where that refuses.
 */
#include <glib.h>
#include <stdio.h>
#include <string.h>

#include "base/json.h"
#include "read/csv.h"
#include "read/sheet.h"

static void
print_sheet(const char *bytes, size_t size)
{
	struct arena *arena = arena_new();
	const struct sheet *sheet = sheet_read(bytes, size, arena);
	unsigned i, j;

	for (i = 0; i < sheet->count; i++) {
		fputs(i == 0 ? "[" : "],[", stdout);
		for (j = 0; j < sheet->rows[i].count; j++) {
			fputs(j == 0 ? "" : ",", stdout);
			json_print(sheet->rows[i].cells[j], stdout);
		}
	}
	fputs(sheet->count > 0 ? "]" : "", stdout);
	arena_free(arena);
}

static void
print_table(const struct csv_table *table)
{
	size_t i;
	uint32_t j;

	for (i = 0; i < table->count; i++) {
		fputs(i == 0 ? "[" : "],[", stdout);
		for (j = 0; j < table->rows[i].count; j++) {
			fputs(j == 0 ? "" : ",", stdout);
			json_print(table->rows[i].cells[j].text, stdout);
		}
	}
	fputs(table->count > 0 ? "]" : "", stdout);
}

static void
print_strictly(const char *path)
{
	struct sources *sources = sources_new();
	struct diags *diags = diags_new(sources);
	struct arena *arena = arena_new();
	char *why = NULL;
	uint32_t file = sources_read(sources, path, path, &why);
	const struct csv_table *table = file == 0 ? NULL : read_csv(sources,
		file, arena, diags);

	if (table == NULL)
		fputs("null", stdout);
	else {
		fputc('[', stdout);
		print_table(table);
		fputc(']', stdout);
	}
	g_free(why);
	arena_free(arena);
	diags_free(diags);
	sources_free(sources);
}

int
main(int argc, char **argv)
{
	char *bytes;
	gsize size;
	int i;

	for (i = 1; i < argc; i++) {
		if (!g_file_get_contents(argv[i], &bytes, &size, NULL))
			return 1;
		fputs("{\"sheet\":[", stdout);
		print_sheet(bytes, size);
		fputs("],\"table\":", stdout);
		print_strictly(argv[i]);
		puts("}");
		g_free(bytes);
	}
	return 0;
}
