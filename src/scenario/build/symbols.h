/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SCENARIO_BUILD_SYMBOLS_H
#define SCENARIO_BUILD_SYMBOLS_H

#include "scenario/text/document.h"
#include "scenario/text/fields.h"

/* A trade symbol of a bearing sheet, such as `C0`, and the key that it stands for. */
struct spt_symbol {
    const char *text;
    const char *inside; /* "axial_factors", "geometry", or NULL: a key of the bearing itself */
    const char *key;
};

/* Symbol number i in the order of the table; NULL past the last. */
const struct spt_symbol *spt_symbol_at(int i);

/* The symbol, case counts (d is the bore, D the outside diameter); NULL where it is none. */
const struct spt_symbol *spt_symbol_find(const char *text);

/* The section in which the key of a symbol stands: that of the bearing, its `axial_factors` or its
 * `geometry`. `inside` as in spt_symbol. */
const struct spt_section *spt_symbol_section(const char *inside);

/* Replaces the trade symbols of a bearing's mapping by the keys that they stand for, in place: the
 * marks stay, factors go into `axial_factors`, insides into `geometry`. Of T and B the first is the
 * width. A quantity that is stated twice, by symbol and key or by two symbols, is reported. */
void spt_symbols_spell_out(struct spt_node *bearing, struct spt_arena *arena,
                           struct spt_diagnostics *diags);

/* The same for every bearing of a scenario, wherever it stands: under `bearing`, `inboard` or
 * `outboard`. */
void spt_symbols_spell_out_all(struct spt_node *root, struct spt_arena *arena,
                               struct spt_diagnostics *diags);

#endif
