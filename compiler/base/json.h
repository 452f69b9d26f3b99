/*
 * JSON strings, for whoever writes JSON by hand. There is no reader and no
 * tree: what we write is flat.
 */
#ifndef BASE_JSON_H
#define BASE_JSON_H

#include <glib.h>
#include <stdio.h>

/* Prints UTF-8 `text` as a JSON string, quotes included (RFC 8259). */
void
json_print(const char *text, FILE *stream);

/* The same, appended to `out`. */
void
json_append(GString *out, const char *text);

#endif
