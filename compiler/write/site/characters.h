/*
 * The list of characters, each with its card backs at a glance.
 */
#ifndef WRITE_SITE_CHARACTERS_H
#define WRITE_SITE_CHARACTERS_H

#include "write/site/page.h"

bool
characters_write(const struct site *site, const struct kind *kind,
	GError **error);

#endif
