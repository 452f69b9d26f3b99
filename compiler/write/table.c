/*
 * The table of writers.
 */
#include "write/writer.h"

#include "write/handbook/handbook.h"

const struct writer writers[] = {
	{"handbook", "handbook.pdf", handbook_write},
	{0},
};
