/*
 * Where the program finds the data that comes with it: the schema, the site's
 * own files and the pages of diagnostics. They are folders of the source tree,
 * or of an installation's share folder.
 */
#ifndef BASE_PLACE_H
#define BASE_PLACE_H

/*
 * Path of the data folder `name` ("schema", "site" or "codes"), or NULL where
 * there is none. The first that exists of: $HANGTAB_DATA/name; a folder of
 * that name in one of the three folders above the program (a source tree);
 * share/hangtab beside the program's bin; the data folder given when hangtab
 * was built. The caller frees the path with g_free().
 */
char *
place_data(const char *name);

#endif
