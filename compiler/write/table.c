/*
 * The table of writers.
 */
#include "write/writer.h"

const struct writer writers[] = {
	{0},
};
