/*
 * The data package of the tables; for this folder alone.
 */
#ifndef WRITE_TABLES_PACKAGE_H
#define WRITE_TABLES_PACKAGE_H

#include "write/relations/relations.h"

/* Appends datapackage.json (Frictionless Data Package, version 1). */
void
package_append(const struct relations *relations, GString *out);

#endif
