/*
 * Text of the corpus and names of files as they may be shown: nothing in them
 * may break a line, steer a terminal or turn the reading round. For this
 * folder alone.
 */
#ifndef DIAG_SHOWN_H
#define DIAG_SHOWN_H

#include <glib.h>

/* Whether a "?" is shown in place of the character. */
static inline gboolean
shown_as_mark(gunichar c)
{
	return c > 0x10FFFF || g_unichar_iscntrl(c) ||
		(c >= 0x2028 && c <= 0x202E) || (c >= 0x2066 && c <= 0x2069);
}

/*
 * `text` as it may be shown, at most `most` characters of it (0 for all), with
 * an ellipsis where something was cut. The caller frees it with g_free.
 */
char *
shown_text(const char *text, glong most);

#endif
