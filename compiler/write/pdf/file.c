/*
 * Objects and where they are. A packed object is found by the number of its
 * pack and its place in it, any other by its offset.
 */
#include "write/pdf/file.h"

#include <string.h>
#include <zlib.h>

#include "write/pdf/write.h"

/* A reader unpacks a whole pack for one object of it. */
enum { PACK_OBJECTS = 200, PACK_BYTES = 48 << 10 };

/* Beyond this level text gains a few percent for twice the time. */
#define LEVEL 5

enum place_kind { PLACE_NONE, PLACE_OFFSET, PLACE_PACKED };

struct place {
	enum place_kind kind;
	unsigned index;	   /* in the pack */
	guint64 where;	   /* an offset, or the number of the pack */
};

struct pdf {
	FILE *out;
	guint64 offset;
	GChecksum *digest;
	GArray *places; /* struct place, by number; 0 is nobody's */
	GString *pack;	/* bodies of the pack being filled */
	GString *index; /* and its table: number and offset of each */
	GString *scratch;
	unsigned pack_object;
	unsigned packed;
	const char *why;
};

#define PLACE(pdf, number) g_array_index((pdf)->places, struct place, number)

static void
emit(struct pdf *pdf, const char *bytes, size_t size)
{
	g_checksum_update(pdf->digest, (const guchar *)bytes, (gssize)size);
	if (fwrite(bytes, 1, size, pdf->out) != size)
		pdf->why = "the file cannot be written";
	pdf->offset += size;
}

struct pdf *
pdf_open(FILE *out)
{
	/* Bytes above 127, so that nobody takes the file for text. */
	static const char head[] = "%PDF-1.7\n%\xE2\xE3\xCF\xD3\n";
	struct pdf *pdf = g_new0(struct pdf, 1);

	pdf->out = out;
	pdf->digest = g_checksum_new(G_CHECKSUM_MD5);
	pdf->places = g_array_new(FALSE, TRUE, sizeof(struct place));
	g_array_set_size(pdf->places, 1);
	pdf->pack = g_string_new(NULL);
	pdf->index = g_string_new(NULL);
	pdf->scratch = g_string_new(NULL);
	emit(pdf, head, sizeof(head) - 1);
	return pdf;
}

unsigned
pdf_reserve(struct pdf *pdf)
{
	g_array_set_size(pdf->places, pdf->places->len + 1);
	return pdf->places->len - 1;
}

void
pdf_put_stream(struct pdf *pdf, unsigned object, const char *entries,
	const char *bytes, size_t size)
{
	uLongf packed = compressBound((uLong)size);
	Bytef *room = g_malloc(packed);

	PLACE(pdf, object) = (struct place){PLACE_OFFSET, 0, pdf->offset};
	if (compress2(room, &packed, (const Bytef *)bytes, (uLong)size,
		    LEVEL) != Z_OK)
		pdf->why = "memory ran out";
	g_string_printf(pdf->scratch,
		"%u 0 obj\n<<%s/Filter/FlateDecode/Length %lu>>\nstream\n",
		object, entries, (unsigned long)packed);
	emit(pdf, pdf->scratch->str, pdf->scratch->len);
	emit(pdf, (const char *)room, packed);
	g_string_assign(pdf->scratch, "\nendstream\nendobj\n");
	emit(pdf, pdf->scratch->str, pdf->scratch->len);
	g_free(room);
}

/* A pack: its table, then the bodies (7.5.7). */
static void
close_pack(struct pdf *pdf)
{
	GString *whole;
	char entries[96];

	if (pdf->packed == 0)
		return;
	g_snprintf(entries, sizeof(entries), "/Type/ObjStm/N %u/First %lu",
		pdf->packed, (unsigned long)pdf->index->len);
	whole = g_string_new_len(pdf->index->str, (gssize)pdf->index->len);
	g_string_append_len(whole, pdf->pack->str, (gssize)pdf->pack->len);
	pdf_put_stream(pdf, pdf->pack_object, entries, whole->str, whole->len);
	g_string_free(whole, TRUE);
	g_string_truncate(pdf->pack, 0);
	g_string_truncate(pdf->index, 0);
	pdf->packed = 0;
}

void
pdf_put(struct pdf *pdf, unsigned object, const GString *body)
{
	if (pdf->packed == 0)
		pdf->pack_object = pdf_reserve(pdf);
	PLACE(pdf, object) = (struct place){PLACE_PACKED, pdf->packed,
		pdf->pack_object};
	pdf_number(pdf->index, object);
	pdf_number(pdf->index, (double)pdf->pack->len);
	g_string_append_c(pdf->index, ' ');
	g_string_append_len(pdf->pack, body->str, (gssize)body->len);
	g_string_append_c(pdf->pack, '\n');
	pdf->packed++;
	if (pdf->packed == PACK_OBJECTS || pdf->pack->len > PACK_BYTES)
		close_pack(pdf);
}

/* Each entry is 8 bytes: kind, place, index (7.5.8.3). */
static void
append_place(GString *table, const struct place *place)
{
	int shift;

	g_string_append_c(table, (char)place->kind);
	for (shift = 32; shift >= 0; shift -= 8)
		g_string_append_c(table, (char)(place->where >> shift));
	g_string_append_c(table, (char)(place->index >> 8));
	g_string_append_c(table, (char)place->index);
}

static void
put_places(struct pdf *pdf, unsigned catalog, unsigned info)
{
	unsigned object = pdf_reserve(pdf);
	GString *table = g_string_new(NULL);
	GString *entries = g_string_new(NULL);
	guint64 start = pdf->offset;
	const char *id = g_checksum_get_string(pdf->digest);
	guint i;

	PLACE(pdf, object) = (struct place){PLACE_OFFSET, 0, start};
	for (i = 0; i < pdf->places->len; i++)
		append_place(table, &PLACE(pdf, i));
	g_string_printf(entries,
		"/Type/XRef/Size %u/W[1 5 2]/Root %u 0 R/Info %u 0 R"
		"/ID[<%s><%s>]",
		pdf->places->len, catalog, info, id, id);
	/* The digest is closed: what follows only goes to the file. */
	g_checksum_free(pdf->digest);
	pdf->digest = g_checksum_new(G_CHECKSUM_MD5);
	pdf_put_stream(pdf, object, entries->str, table->str, table->len);
	g_string_printf(entries, "startxref\n%" G_GUINT64_FORMAT "\n%%%%EOF\n",
		start);
	emit(pdf, entries->str, entries->len);
	g_string_free(entries, TRUE);
	g_string_free(table, TRUE);
}

const char *
pdf_close(struct pdf *pdf, unsigned catalog, unsigned info)
{
	const char *why;

	close_pack(pdf);
	put_places(pdf, catalog, info);
	if (fflush(pdf->out) != 0)
		pdf->why = "the file cannot be written";
	why = pdf->why;
	g_checksum_free(pdf->digest);
	g_array_free(pdf->places, TRUE);
	g_string_free(pdf->pack, TRUE);
	g_string_free(pdf->index, TRUE);
	g_string_free(pdf->scratch, TRUE);
	g_free(pdf);
	return why;
}
