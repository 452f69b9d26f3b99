/*
 * The table of source files. Files stay in memory for the whole run, since
 * every message may need to show a line of any of them.
 */
#include "base/source.h"

#include <errno.h>
#include <fcntl.h>
#include <glib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

/* Spans hold 32-bit offsets; half of that is a corpus file beyond reason. */
enum { LARGEST_FILE = 1 << 30 };

struct sources {
	GArray *files;
	GHashTable *edits;	/* path → GBytes; NULL: none */
};

/*
 * The first byte of each line, and how many characters stand before each block
 * of bytes. Gathered when a place in the file is first asked for: most files
 * never are, and a file with many messages is asked for each of them, though
 * all of it may be one line.
 */
enum { BLOCK = 1024 };

struct line_starts {
	uint32_t *bytes;
	uint32_t count;
	uint32_t *characters;
};

struct sources *
sources_new(void)
{
	struct sources *sources = g_new0(struct sources, 1);

	sources->files = g_array_new(FALSE, TRUE, sizeof(struct source));
	return sources;
}

void
sources_free(struct sources *sources)
{
	guint i;

	if (sources == NULL)
		return;
	for (i = 0; i < sources->files->len; i++) {
		struct source *source;

		source = &g_array_index(sources->files, struct source, i);
		g_free((void *)(uintptr_t)source->path);
		g_free((void *)(uintptr_t)source->bytes);
		g_free(source->lines->bytes);
		g_free(source->lines->characters);
		g_free(source->lines);
	}
	g_array_free(sources->files, TRUE);
	if (sources->edits != NULL)
		g_hash_table_destroy(sources->edits);
	g_free(sources);
}

uint32_t
sources_add(struct sources *sources, const char *path, char *bytes,
	uint32_t size)
{
	struct source source = {g_strdup(path), bytes, size,
		g_new0(struct line_starts, 1)};

	g_array_append_val(sources->files, source);
	return sources->files->len;
}

/* The file's bytes with a NUL behind, or NULL and errno. */
static char *
read_all(int fd, size_t *size)
{
	struct stat info;
	size_t room, used = 0;
	ssize_t got;
	char *bytes;

	if (fstat(fd, &info) != 0)
		return NULL;
	if (!S_ISREG(info.st_mode)) {
		errno = S_ISDIR(info.st_mode) ? EISDIR : EINVAL;
		return NULL;
	}
	if (info.st_size > LARGEST_FILE) {
		errno = EFBIG;
		return NULL;
	}
	room = (size_t)info.st_size;
	bytes = g_malloc(room + 1);
	while (used < room) {
		got = read(fd, bytes + used, room - used);
		if (got < 0 && errno == EINTR)
			continue;
		if (got < 0) {
			g_free(bytes);
			return NULL;
		}
		if (got == 0)
			break;
		used += (size_t)got;
	}
	bytes[used] = '\0';
	*size = used;
	return bytes;
}

void
sources_edit(struct sources *sources, const char *path, const char *bytes,
	size_t size)
{
	if (sources->edits == NULL)
		sources->edits = g_hash_table_new_full(g_str_hash,
			g_str_equal, g_free, (GDestroyNotify)g_bytes_unref);
	g_hash_table_insert(sources->edits, g_strdup(path),
		g_bytes_new(bytes, size));
}

/* The bytes that stand for a file, as g_malloc gives them, or NULL. */
static char *
edited(const struct sources *sources, const char *path, size_t *size)
{
	GBytes *edit = NULL;
	const char *bytes;
	char *copy;

	if (sources->edits != NULL)
		edit = g_hash_table_lookup(sources->edits, path);
	if (edit == NULL)
		return NULL;
	bytes = g_bytes_get_data(edit, size);
	copy = g_malloc(*size + 1);
	if (*size > 0)
		memcpy(copy, bytes, *size);
	copy[*size] = '\0';
	return copy;
}

uint32_t
sources_read(struct sources *sources, const char *file, const char *path,
	char **why)
{
	size_t size = 0;
	char *bytes = edited(sources, path, &size);
	int fd, error;

	if (bytes != NULL)
		return sources_add(sources, path, bytes, (uint32_t)size);
	/* O_NONBLOCK: a pipe left in the folder must not hang the compiler. */
	fd = open(file, O_RDONLY | O_CLOEXEC | O_NONBLOCK);
	if (fd >= 0)
		bytes = read_all(fd, &size);
	error = errno;
	if (fd >= 0)
		close(fd);
	if (bytes == NULL) {
		*why = g_strdup(g_strerror(error));
		return 0;
	}
	return sources_add(sources, path, bytes, (uint32_t)size);
}

const struct source *
sources_get(const struct sources *sources, uint32_t file)
{
	if (file == 0 || file > sources->files->len)
		return NULL;
	return &g_array_index(sources->files, struct source, file - 1);
}

uint32_t
sources_count(const struct sources *sources)
{
	return sources->files->len;
}

/* Characters that begin from byte `from` up to, not including, byte `to`. */
static uint32_t
count_characters(const struct source *source, uint32_t from, uint32_t to)
{
	uint32_t i, count = 0;

	for (i = from; i < to && i < source->size; i++)
		count += ((unsigned char)source->bytes[i] & 0xC0) != 0x80;
	return count;
}

static void
gather_characters(const struct source *source)
{
	uint32_t blocks = source->size / BLOCK + 1, i;
	uint32_t *characters = g_new(uint32_t, blocks);

	characters[0] = 0;
	for (i = 1; i < blocks; i++)
		characters[i] = characters[i - 1] + count_characters(source,
			(i - 1) * BLOCK, i * BLOCK);
	source->lines->characters = characters;
}

/* Characters before a byte of the file. */
static uint32_t
characters_before(const struct source *source, uint32_t byte)
{
	uint32_t to = MIN(byte, source->size), block = to / BLOCK;

	return source->lines->characters[block] + count_characters(source,
		block * BLOCK, to);
}

static void
gather_lines(const struct source *source)
{
	GArray *starts = g_array_new(FALSE, FALSE, sizeof(uint32_t));
	const char *end = source->bytes + source->size;
	const char *at = source->bytes;
	uint32_t start = 0;

	while (at != NULL) {
		g_array_append_val(starts, start);
		at = memchr(at, '\n', (size_t)(end - at));
		if (at != NULL)
			start = (uint32_t)(++at - source->bytes);
	}
	source->lines->count = starts->len;
	source->lines->bytes = (uint32_t *)(void *)g_array_free(starts, FALSE);
	gather_characters(source);
}

/* The number, from 0, of the line that holds `byte`. */
static uint32_t
find_line(const struct line_starts *lines, uint32_t byte)
{
	uint32_t low = 0, high = lines->count;

	while (high - low > 1) {
		uint32_t middle = low + (high - low) / 2;

		if (lines->bytes[middle] <= byte)
			low = middle;
		else
			high = middle;
	}
	return low;
}

/* The same; gathers the lines first if that is still to do. */
static uint32_t
line_of(const struct source *source, uint32_t byte)
{
	if (source->lines->bytes == NULL)
		gather_lines(source);
	return find_line(source->lines, byte);
}

struct span
source_line(const struct source *source, uint32_t byte)
{
	uint32_t line = line_of(source, byte);
	const struct line_starts *lines = source->lines;
	struct span span = {0, lines->bytes[line], source->size};

	if (line + 1 < lines->count)
		span.to = lines->bytes[line + 1] - 1;
	if (span.to > span.from && source->bytes[span.to - 1] == '\r')
		span.to--;
	return span;
}

struct place
source_place(const struct source *source, uint32_t byte)
{
	uint32_t line = line_of(source, byte);
	uint32_t start = source->lines->bytes[line];

	return (struct place){line + 1, 1 + characters_before(source, byte) -
		characters_before(source, start)};
}
