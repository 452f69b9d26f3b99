/*
 * tables/: the guide's relations as CSV files (RFC 4180, UTF-8, rows ended by
 * CR LF, the first row the names of the columns), with a Frictionless data
 * package that says what is in them. Nothing stands for what is absent; cells
 * that a spreadsheet would run as formulas are guarded as base/csv.h says.
 */
#ifndef WRITE_TABLES_TABLES_H
#define WRITE_TABLES_TABLES_H

#include "write/writer.h"

write_function tables_write;

#endif
