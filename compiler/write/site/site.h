/*
 * The site: a folder of pages that works from a stick, without a network and
 * without scripts. Every page is made from the schema and the model; only the
 * kinds that readers ask for most have views of their own.
 */
#ifndef WRITE_SITE_SITE_H
#define WRITE_SITE_SITE_H

#include "write/writer.h"

/* Adds all pages and the site's own files. */
bool
site_write(const struct write_job *job, GError **error);

#endif
