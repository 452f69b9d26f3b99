/*
 * The list of font files, and the table of shaped words. Words are found by
 * face, language and text in an open-addressing table; HarfBuzz sees each only
 * once. Which fonts: a book face cut for small sizes that has real Greek, and
 * a narrow humanist sans for tables, both with small capitals of their own.
 */
#include "write/handbook/fonts.h"

#include <glib.h>
#include <hb-ot.h>
#include <hb.h>
#include <string.h>

#include "base/arena.h"

enum file {
	FILE_TEXT,
	FILE_TEXT_ITALIC,
	FILE_TEXT_BOLD,
	FILE_TEXT_BOLD_ITALIC,
	FILE_LABEL,
	FILE_LABEL_ITALIC,
	FILE_LABEL_BOLD,
	FILE_COUNT
};

#define GENTIUM "truetype/gentiumplus/GentiumBookPlus-"
#define BIOLINUM "opentype/linux-libertine/LinBiolinum_"

static const struct {
	const char *path;
	const char *package;
} files[FILE_COUNT] = {
	[FILE_TEXT] = {GENTIUM "Regular.ttf", "fonts-sil-gentiumplus"},
	[FILE_TEXT_ITALIC] = {GENTIUM "Italic.ttf", "fonts-sil-gentiumplus"},
	[FILE_TEXT_BOLD] = {GENTIUM "Bold.ttf", "fonts-sil-gentiumplus"},
	[FILE_TEXT_BOLD_ITALIC] = {GENTIUM "BoldItalic.ttf",
		"fonts-sil-gentiumplus"},
	[FILE_LABEL] = {BIOLINUM "R.otf", "fonts-linuxlibertine"},
	[FILE_LABEL_ITALIC] = {BIOLINUM "RI.otf", "fonts-linuxlibertine"},
	[FILE_LABEL_BOLD] = {BIOLINUM "RB.otf", "fonts-linuxlibertine"},
};

static const char *const roots[] = {"/usr/share/fonts/",
	"/usr/local/share/fonts/"};

/* A face that stands in for itself has none. */
static const struct {
	enum file file;
	const char *feature;
	enum face stand_in;
} faces[FACE_COUNT] = {
	[FACE_TEXT] = {FILE_TEXT, NULL, FACE_TEXT},
	[FACE_TEXT_ITALIC] = {FILE_TEXT_ITALIC, NULL, FACE_TEXT},
	[FACE_TEXT_BOLD] = {FILE_TEXT_BOLD, NULL, FACE_TEXT},
	[FACE_TEXT_BOLD_ITALIC] = {FILE_TEXT_BOLD_ITALIC, NULL, FACE_TEXT_BOLD},
	[FACE_TEXT_CAPS] = {FILE_TEXT, "smcp", FACE_TEXT},
	[FACE_LABEL] = {FILE_LABEL, NULL, FACE_TEXT},
	[FACE_LABEL_ITALIC] = {FILE_LABEL_ITALIC, NULL, FACE_TEXT_ITALIC},
	[FACE_LABEL_BOLD] = {FILE_LABEL_BOLD, NULL, FACE_TEXT_BOLD},
	[FACE_LABEL_CAPS] = {FILE_LABEL, "smcp", FACE_LABEL},
};

struct fonts {
	struct arena *arena;
	hb_buffer_t *buffer;
	hb_font_t *files[FILE_COUNT];
	double units[FILE_COUNT];
	const struct shaped **table;
	size_t room; /* a power of two */
	size_t count;
	GHashTable *languages; /* text -> the same text, interned */
};

static hb_font_t *
open_file(struct fonts *fonts, enum file file)
{
	hb_face_t *face;
	hb_font_t *font;
	hb_blob_t *blob = NULL;
	const char *path;
	size_t i;

	for (i = 0; i < G_N_ELEMENTS(roots) && blob == NULL; i++) {
		path = arena_print(fonts->arena, "%s%s", roots[i],
			files[file].path);
		blob = hb_blob_create_from_file_or_fail(path);
	}
	if (blob == NULL)
		return NULL;
	face = hb_face_create(blob, 0);
	font = hb_font_create(face);
	fonts->units[file] = hb_face_get_upem(face);
	hb_face_destroy(face);
	hb_blob_destroy(blob);
	return font;
}

struct fonts *
fonts_open(struct arena *arena, const char **why)
{
	struct fonts *fonts = arena_one(arena, struct fonts);
	int file;

	fonts->arena = arena;
	fonts->buffer = hb_buffer_create();
	fonts->room = 4096;
	fonts->table = g_new0(const struct shaped *, fonts->room);
	fonts->languages = g_hash_table_new(g_str_hash, g_str_equal);
	for (file = 0; file < FILE_COUNT; file++) {
		fonts->files[file] = open_file(fonts, file);
		if (fonts->files[file] != NULL)
			continue;
		*why = arena_print(arena,
			"cannot open the font \"%s\" below "
			"%s; install the package %s",
			files[file].path, roots[0], files[file].package);
		fonts_close(fonts);
		return NULL;
	}
	return fonts;
}

void
fonts_close(struct fonts *fonts)
{
	int file;

	if (fonts == NULL)
		return;
	for (file = 0; file < FILE_COUNT; file++)
		hb_font_destroy(fonts->files[file]);
	hb_buffer_destroy(fonts->buffer);
	g_hash_table_destroy(fonts->languages);
	g_free(fonts->table);
}

static const char *
intern(struct fonts *fonts, const char *language)
{
	const char *found;
	char *copy;

	if (language == NULL || *language == '\0')
		return NULL;
	found = g_hash_table_lookup(fonts->languages, language);
	if (found != NULL)
		return found;
	copy = arena_text(fonts->arena, language, strlen(language));
	g_hash_table_add(fonts->languages, copy);
	return copy;
}

/* FNV-1a; the languages are few, so that they need not be mixed in. */
static uint32_t
hash_text(enum face face, const char *text, size_t size)
{
	uint32_t hash = 2166136261u ^ (uint32_t)face;
	size_t i;

	for (i = 0; i < size; i++)
		hash = (hash ^ (unsigned char)text[i]) * 16777619u;
	return hash;
}

static void
run_shaper(struct fonts *fonts, enum face face, const char *language,
	const char *text, size_t size)
{
	hb_feature_t feature;
	unsigned features = 0;

	hb_buffer_reset(fonts->buffer);
	hb_buffer_add_utf8(fonts->buffer, text, (int)size, 0, (int)size);
	hb_buffer_set_language(fonts->buffer,
		hb_language_from_string(language ? language : "en", -1));
	hb_buffer_guess_segment_properties(fonts->buffer);
	if (faces[face].feature != NULL)
		features = hb_feature_from_string(faces[face].feature, -1,
			&feature);
	hb_shape(fonts->files[faces[face].file], fonts->buffer, &feature,
		features);
}

static bool
lacks_glyph(const struct fonts *fonts)
{
	unsigned count, i;
	hb_glyph_info_t *infos;

	infos = hb_buffer_get_glyph_infos(fonts->buffer, &count);
	for (i = 0; i < count; i++) {
		if (infos[i].codepoint == 0)
			return true;
	}
	return false;
}

/*
 * Glyphs that HarfBuzz gave the same byte form one cluster. Clusters are kept
 * in the order of the text; right to left, glyphs come in the other order.
 */
static void
take_clusters(struct fonts *fonts, struct shaped *word)
{
	unsigned count, done, next = 0, at;
	struct cluster *cluster;
	hb_glyph_info_t *infos;

	infos = hb_buffer_get_glyph_infos(fonts->buffer, &count);
	cluster = arena_array(fonts->arena, struct cluster, count);
	word->clusters = cluster;
	for (done = 0; done < count; cluster++) {
		at = infos[word->backward ? count - 1 - done : done].cluster;
		for (; done < count; done++) {
			next = infos[word->backward ? count - 1 - done : done]
				       .cluster;
			if (next != at)
				break;
			cluster->glyphs++;
		}
		if (done == count)
			next = word->size;
		cluster->bytes = (uint16_t)(next - at);
		word->cluster_count++;
	}
}

static void
take_glyphs(struct fonts *fonts, struct shaped *word)
{
	double unit = fonts->units[faces[word->face].file], x = 0;
	hb_glyph_position_t *places;
	hb_glyph_info_t *infos;
	struct glyph *glyphs;
	unsigned count, i;

	infos = hb_buffer_get_glyph_infos(fonts->buffer, &count);
	places = hb_buffer_get_glyph_positions(fonts->buffer, &count);
	glyphs = arena_array(fonts->arena, struct glyph, count);
	for (i = 0; i < count; i++) {
		glyphs[i].id = infos[i].codepoint;
		glyphs[i].x = (float)((x + places[i].x_offset) / unit);
		glyphs[i].y = (float)(-places[i].y_offset / unit);
		x += places[i].x_advance;
	}
	word->glyphs = glyphs;
	word->glyph_count = (uint16_t)count;
	word->width = (float)(x / unit);
	word->backward = HB_DIRECTION_IS_BACKWARD(
		hb_buffer_get_direction(fonts->buffer));
}

static const struct shaped *
shape(struct fonts *fonts, const struct shaped *key)
{
	struct shaped *word = arena_one(fonts->arena, struct shaped);

	*word = *key;
	word->text = arena_text(fonts->arena, key->text, key->size);
	run_shaper(fonts, word->face, word->language, word->text, word->size);
	while (lacks_glyph(fonts) && faces[word->face].stand_in != word->face) {
		word->face = faces[word->face].stand_in;
		run_shaper(fonts, word->face, word->language, word->text,
			word->size);
	}
	word->missing = lacks_glyph(fonts);
	take_glyphs(fonts, word);
	take_clusters(fonts, word);
	return word;
}

/* The slot that holds the word, or the empty one where it belongs. */
static size_t
find_slot(const struct fonts *fonts, const struct shaped *key)
{
	size_t slot = key->hash & (fonts->room - 1);
	const struct shaped *word;

	while (true) {
		word = fonts->table[slot];
		if (word == NULL)
			return slot;
		if (word->hash == key->hash && word->asked == key->asked &&
			word->language == key->language &&
			word->size == key->size &&
			memcmp(word->text, key->text, key->size) == 0)
			return slot;
		slot = (slot + 1) & (fonts->room - 1);
	}
}

static void
grow(struct fonts *fonts)
{
	const struct shaped **old = fonts->table;
	size_t room = fonts->room, i;

	fonts->room *= 2;
	fonts->table = g_new0(const struct shaped *, fonts->room);
	for (i = 0; i < room; i++) {
		if (old[i] != NULL)
			fonts->table[find_slot(fonts, old[i])] = old[i];
	}
	g_free(old);
}

const struct shaped *
fonts_word(struct fonts *fonts, enum face face, const char *language,
	const char *text, size_t size)
{
	struct shaped key = {0};
	size_t slot;

	/* Counts of glyphs are 16 bits wide; no honest word comes near. */
	key.text = text;
	key.size = (uint32_t)MIN(size, (size_t)8192);
	key.hash = hash_text(face, text, key.size);
	key.language = intern(fonts, language);
	key.asked = face;
	key.face = face;
	slot = find_slot(fonts, &key);
	if (fonts->table[slot] != NULL)
		return fonts->table[slot];
	if (fonts->count * 2 >= fonts->room) {
		grow(fonts);
		slot = find_slot(fonts, &key);
	}
	key.index = (uint32_t)fonts->count++;
	fonts->table[slot] = shape(fonts, &key);
	return fonts->table[slot];
}

size_t
fonts_fit(const struct shaped *word, size_t from, double width)
{
	size_t byte = 0, taken = 0, glyph, first = 0, next, i;
	double used = 0;

	for (i = 0; i < word->cluster_count; i++) {
		next = first + word->clusters[i].glyphs;
		glyph = word->backward ? word->glyph_count - next : first;
		byte += word->clusters[i].bytes;
		first = next;
		if (byte <= from)
			continue;
		next = glyph + word->clusters[i].glyphs;
		used += (next < word->glyph_count ?
					(double)word->glyphs[next].x :
					(double)word->width) -
			(double)word->glyphs[glyph].x;
		if (taken > 0 && used > width)
			break;
		taken = byte - from;
	}
	return taken;
}

double
fonts_space(const struct fonts *fonts, enum face face, uint32_t *glyph)
{
	hb_font_t *font = fonts->files[faces[face].file];
	hb_codepoint_t id = 0;

	hb_font_get_nominal_glyph(font, ' ', &id);
	*glyph = id;
	return hb_font_get_glyph_h_advance(font, id) /
		fonts->units[faces[face].file];
}

unsigned
fonts_files(void)
{
	return FILE_COUNT;
}

unsigned
fonts_file(enum face face)
{
	return faces[face].file;
}

hb_font_t *
fonts_font(const struct fonts *fonts, unsigned file)
{
	return fonts->files[file];
}
