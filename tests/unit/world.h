/*
 * A corpus from a text, through reading, shaping, linking and the model, for
 * suites that look at one of these. Run from the top of the tree.
 */
#ifndef UNIT_WORLD_H
#define UNIT_WORLD_H

#include "link/link.h"
#include "model/model.h"
#include "read/corpus.h"
#include "shape/shape.h"
#include "suite.h"

struct world {
	struct arena *arena;
	struct sources *sources;
	struct diags *diags;
	struct schema *schema;
	struct raw_corpus *raw;
	struct records *records;
	struct names *names;
	struct model *model;
};

/* A file of several kinds; it must be sound. */
static inline struct world
world_new(const char *text)
{
	struct world world = {
		.arena = arena_new(),
		.sources = sources_new(),
	};
	char *top = g_get_current_dir(), *folder;
	char *path = g_build_filename(top, "schema", NULL);

	world.diags = diags_new(world.sources);
	world.schema = schema_load(path, world.sources, world.arena,
		world.diags);
	folder = scratch_new();
	ck_assert(g_file_set_contents("in.yaml", text, -1, NULL));
	world.raw = read_corpus("in.yaml", world.sources, world.arena,
		world.diags);
	ck_assert_int_eq(g_chdir(top), 0);
	ck_assert(folder_remove(AT_FDCWD, folder));
	g_free(folder);
	world.records = shape_corpus(world.raw, world.schema, false,
		world.sources, world.arena, world.diags);
	world.names = link_records(world.records, world.schema, NULL,
		world.sources, world.arena, world.diags);
	world.model = model_make(world.records, world.raw, world.schema,
		world.names, world.sources, world.arena, world.diags);
	if (diags_count(world.diags, SEVERITY_ERROR) > 0) {
		diags_sort(world.diags);
		diags_print_text(world.diags, (struct diag_style){0}, stderr);
		ck_abort_msg("the sample is not sound");
	}
	g_free(path);
	g_free(top);
	return world;
}

static inline void
world_free(struct world *world)
{
	model_free(world->model);
	names_free(world->names);
	diags_free(world->diags);
	sources_free(world->sources);
	arena_free(world->arena);
}

/* The record of that id. */
static inline const struct record *
world_record(const struct world *world, const char *kind, const char *id)
{
	const struct record *record = names_find(world->names,
		schema_kind(world->schema, kind), id);

	ck_assert_msg(record != NULL, "no %s %s", kind, id);
	return record;
}

#endif
