/*
 * Reading for ids alone. Most files are written plainly, and a look at the
 * beginnings of their lines finds the ids in a fraction of the time that YAML
 * takes. A file with anything unexpected in it is read as YAML after all.
 */
#include "read/past.h"

#include <glib.h>
#include <string.h>

#include "base/order.h"
#include "read/corpus.h"

struct reading {
	struct sources *sources;
	struct arena *arena;
	struct diags *diags;
	GArray *ids;		/* struct past_id */
};

/* A file looked through: where in it, and at which record. */
struct look {
	struct reading *reading;
	const char *kind;
	uint32_t file;
	const char *bytes;
	int column;		/* of the fields of records; -1: not known */
	bool list;
	bool open;		/* a record has begun */
	const char *id;		/* of it, or NULL */
	bool retired;
	struct span span;
	guint first;		/* id of this record; its former ids follow */
};

static bool
is_id_char(char c)
{
	return g_ascii_islower(c) || g_ascii_isdigit(c) || c == '-';
}

static size_t
id_size(const char *text)
{
	size_t size = 0;

	while (is_id_char(text[size]))
		size++;
	return size;
}

static void
add_id(struct look *look, const char *text, size_t size)
{
	struct past_id id = {
		.kind = look->kind,
		.id = arena_text(look->reading->arena, text, size),
		.span = {look->file, (uint32_t)(text - look->bytes), 0},
	};

	id.span.to = id.span.from + (uint32_t)size;
	g_array_append_val(look->reading->ids, id);
}

static bool
is_line_end(const char *text)
{
	text += strspn(text, " ");
	return *text == '\0' || strchr("\r\n#", *text) != NULL;
}

static bool
take_id(struct look *look, const char *text)
{
	size_t size = id_size(text);

	if (look->id != NULL || size == 0)
		return false;
	look->id = arena_text(look->reading->arena, text, size);
	look->span = (struct span){look->file, (uint32_t)(text - look->bytes),
		(uint32_t)(text + size - look->bytes)};
	return true;
}

/* A list of former ids on one line, in brackets. */
static bool
take_former(struct look *look, const char *text)
{
	size_t size;

	if (*text++ != '[')
		return false;
	for (;;) {
		text += strspn(text, " ");
		size = id_size(text);
		if (size == 0)
			return false;
		add_id(look, text, size);
		text += size;
		text += strspn(text, " ");
		if (*text == ']')
			return is_line_end(text + 1);
		if (*text++ != ',')
			return false;
	}
}

/* A line of a record: a key, and what follows it. */
static bool
take_field(struct look *look, const char *line)
{
	size_t size = strspn(line, "abcdefghijklmnopqrstuvwxyz0123456789_");
	const char *value = line + size + 1;

	if (size == 0 || line[size] != ':' || strchr(" \r\n", *value) == NULL)
		return false;
	value += strspn(value, " ");
	if (size == strlen("id") && memcmp(line, "id", size) == 0)
		return take_id(look, value) &&
			is_line_end(value + id_size(value));
	if (size == strlen("retired") && memcmp(line, "retired", size) == 0)
		look->retired = true;
	if (size == strlen("formerly") && memcmp(line, "formerly", size) == 0)
		return take_former(look, value);
	return true;
}

/* Ends the record that is being looked at: false if it had no id. */
static bool
end_record(struct look *look)
{
	GArray *ids = look->reading->ids;
	struct past_id id = {look->kind, look->id, look->span, look->retired,
		NULL};
	guint i;

	if (!look->open)
		return true;
	for (i = look->first; i < ids->len; i++)
		g_array_index(ids, struct past_id, i).later = look->id;
	g_array_append_val(ids, id);
	look->open = false;
	return look->id != NULL;
}

static void
begin_record(struct look *look)
{
	look->open = true;
	look->id = NULL;
	look->retired = false;
	look->first = look->reading->ids->len;
}

/* A record in braces: nothing is taken but an id right behind the brace. */
static bool
take_braces(struct look *look, const char *text)
{
	const char *end = strstr(text, "\n- ");
	size_t size = end == NULL ? strlen(text) : (size_t)(end - text);

	if (memmem(text, size, "formerly", strlen("formerly")) != NULL ||
		memmem(text, size, "retired", strlen("retired")) != NULL ||
		strncmp(text, "{id: ", 5) != 0 || !take_id(look, text + 5))
		return false;
	return strchr(",}", text[5 + strlen(look->id)]) != NULL;
}

static bool
take_item(struct look *look, const char *line)
{
	size_t blanks = strspn(line + 1, " ");

	if (!end_record(look) || blanks == 0)
		return false;
	begin_record(look);
	if (line[1 + blanks] == '{') {
		look->column = G_MAXINT;
		return take_braces(look, line + 1 + blanks);
	}
	look->column = 1 + (int)blanks;
	return take_field(look, line + look->column);
}

static bool
take_line(struct look *look, const char *line)
{
	int indent = (int)strspn(line, " ");
	const char *text = line + indent;

	if (*text == '#' || is_line_end(text))
		return true;
	if (look->column < 0 && indent == 0) {
		look->list = *text == '-';
		look->column = 0;
		if (!look->list)
			begin_record(look);
	}
	if (indent == 0 && look->list)
		return *text == '-' && take_item(look, line);
	if (indent < look->column && look->column < G_MAXINT)
		return false;
	return indent > look->column || look->column == G_MAXINT ||
		take_field(look, text);
}

/* Looks through a file of one kind; false: it has to be read as YAML. */
static bool
look_through(struct look *look)
{
	const char *line = look->bytes;

	look->column = -1;
	while (*line != '\0') {
		if (!take_line(look, line))
			return false;
		line = strchr(line, '\n');
		if (line == NULL)
			break;
		line++;
	}
	return end_record(look);
}

/* An id that is written as text somewhere in a record. */
static void
add_node(struct reading *reading, const struct raw_record *raw,
	const struct node *node, bool retired, const char *later)
{
	struct past_id id = {raw->kind, NULL, node->span, retired, later};

	if (node->kind != NODE_SCALAR)
		return;
	id.id = arena_text(reading->arena, node->text, node->count);
	g_array_append_val(reading->ids, id);
}

static void
read_whole(struct reading *reading, const struct corpus_file *file)
{
	struct raw_corpus *raw = read_corpus_file(file, reading->sources,
		reading->arena, reading->diags);
	size_t i;
	uint32_t j;

	for (i = 0; i < raw->count; i++) {
		const struct node *record = raw->records[i].node, *id, *former;

		id = node_get(record, "id");
		if (id == NULL || id->kind != NODE_SCALAR)
			continue;
		add_node(reading, &raw->records[i], id,
			node_get(record, "retired") != NULL, NULL);
		former = node_get(record, "formerly");
		for (j = 0; former != NULL && former->kind == NODE_LIST &&
			j < former->count; j++)
			add_node(reading, &raw->records[i], former->items[j],
				false, id->text);
	}
}

static void
read_file(struct reading *reading, const struct corpus_file *file)
{
	struct look look = {.reading = reading, .kind = file->kind};
	guint before = reading->ids->len;
	char *why = NULL, *name;

	if (corpus_file_is_settings(file))
		return;
	if (corpus_file_is_essay(file)) {
		name = g_path_get_basename(file->path);
		look.bytes = name;
		add_id(&look, name, strlen(name) - strlen(".md"));
		g_free(name);
		return;
	}
	look.file = sources_read(reading->sources, file->path, file->path,
		&why);
	g_free(why);
	if (look.file != 0 && file->kind != NULL) {
		look.bytes = sources_get(reading->sources, look.file)->bytes;
		if (look_through(&look))
			return;
	}
	g_array_set_size(reading->ids, before);
	read_whole(reading, file);
}

/* The folder of the latest edition, or NULL. */
static const char *
find_latest(const char *past, struct arena *arena)
{
	GDir *dir = g_dir_open(past, 0, NULL);
	struct order *order;
	const char *name, *latest = NULL;

	if (dir == NULL)
		return NULL;
	order = order_new();
	for (name = g_dir_read_name(dir); name != NULL;
		name = g_dir_read_name(dir)) {
		char *path = g_build_filename(past, name, NULL);

		if (name[0] != '.' && g_file_test(path, G_FILE_TEST_IS_DIR) &&
			(latest == NULL ||
			order_compare(order, name, latest) > 0))
			latest = arena_text(arena, name, strlen(name));
		g_free(path);
	}
	order_free(order);
	g_dir_close(dir);
	return latest;
}

struct past
read_past(const char *path, struct sources *sources, struct arena *arena,
	struct diags *diags)
{
	struct reading reading = {sources, arena, diags,
		g_array_new(FALSE, TRUE, sizeof(struct past_id))};
	const char *folder = arena_print(arena, "%s/past", path);
	struct past past = {find_latest(folder, arena), NULL, 0};
	struct corpus_files files;
	size_t i;

	if (past.edition != NULL) {
		files = corpus_files(arena_print(arena, "%s/%s", folder,
			past.edition), arena, diags);
		for (i = 0; i < files.count; i++)
			read_file(&reading, &files.items[i]);
	}
	past.count = reading.ids->len;
	past.ids = arena_array(arena, struct past_id, past.count);
	if (past.count > 0)
		memcpy(past.ids, reading.ids->data,
			sizeof(*past.ids) * past.count);
	g_array_free(reading.ids, TRUE);
	return past;
}
