/*
 * YAML files into trees, by libyaml. Records use a plain part of YAML 1.1:
 * mappings with text keys, lists and scalars. Anchors, aliases, tags, merge
 * keys and several documents in one file are refused by name.
 */
#ifndef READ_YAML_H
#define READ_YAML_H

#include "base/arena.h"
#include "diag/diag.h"
#include "read/node.h"

/*
 * Reads file number `file` of `sources` into a tree in `arena`. Returns NULL
 * when the file holds no document or cannot be read at all; in the latter case
 * that was reported. Duplicate keys are reported and the first kept.
 */
struct node *
read_yaml(const struct sources *sources, uint32_t file, struct arena *arena,
	struct diags *diags);

#endif
