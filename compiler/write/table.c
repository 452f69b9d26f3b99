/*
 * The table of writers.
 */
#include "write/writer.h"

#include "write/handbook/handbook.h"
#include "write/site/site.h"

const struct writer writers[] = {
	{"site", "index.html", site_write},
	{"handbook", "handbook.pdf", handbook_write},
	{0},
};
