/*
 * The table of writers.
 */
#include "write/writer.h"

#include "write/database/database.h"
#include "write/handbook/handbook.h"
#include "write/jsonschema/jsonschema.h"
#include "write/site/site.h"
#include "write/tables/tables.h"

const struct writer writers[] = {
	{"site", "index.html", site_write},
	{"database", "guide.db", database_write},
	{"tables", "tables/datapackage.json", tables_write},
	{"schema", "schema/mixed.json", jsonschema_write},
	{"handbook", "handbook.pdf", handbook_write},
	{0},
};
