/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SCENARIO_TEXT_EDIT_H
#define SCENARIO_TEXT_EDIT_H

#include "scenario/text/document.h"

/* The node at a path of keys and numbers of list members, counted from 0: "duty.0.speed". NULL
 * where there is none. */
const struct spt_node *spt_node_at(const struct spt_node *root, const char *path);

/* The text of a YAML document with one scalar changed, everything else to the byte as it was. A key
 * that its section does not have is put in before the section's last one.
 * In:     the source, a path as above, the value as it would stand in the file (in quotes where
 *         YAML needs them, which is found out here), the arena for the result.
 * Result: the text, NUL-terminated; NULL with at least one diagnostic where the document is not
 *         valid, the path leads nowhere or to something else than a scalar on one line, or the
 *         value is none. */
const char *spt_edit_value(const struct spt_source *source, const char *path, const char *value,
                           struct spt_arena *arena, struct spt_diagnostics *diags);

#endif
