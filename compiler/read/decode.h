/*
 * Bytes of a text file of unknown origin to UTF-8.
 */
#ifndef READ_DECODE_H
#define READ_DECODE_H

#include <glib.h>

enum encoding {
	ENCODING_UTF8,
	ENCODING_UTF8_MARKED,	/* with a byte order mark */
	ENCODING_UTF16_LITTLE,
	ENCODING_UTF16_BIG,
	ENCODING_WINDOWS_1252,
};

/* "UTF-8", "UTF-16", "Windows-1252". */
const char *
encoding_name(enum encoding encoding);

/*
 * The text in UTF-8 without a byte order mark; *encoding is what it was in.
 * By the mark; without one, UTF-16 where every other byte is mostly 0, UTF-8
 * where it is valid, else Windows-1252. What stands for no character, and the
 * character NUL, become U+FFFD.
 */
GString *
decode_text(const char *bytes, size_t size, enum encoding *encoding);

#endif
