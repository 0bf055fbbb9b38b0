/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SCENARIO_CAUSES_LOAD_H
#define SCENARIO_CAUSES_LOAD_H

#include "scenario/catalog/causes.h"

/* A finding as written in the file. */
struct spt_raw_modes {
    const struct spt_node *at;
    const struct spt_node *levels[SPT_LIKELIHOOD_COUNT];
};
struct spt_raw_finding {
    const struct spt_node *at;
    const char *group, *remark;
    int look, base, goes_back, stops;
    const struct spt_node *levels[SPT_LIKELIHOOD_COUNT];
    struct spt_raw_modes modes;
    const struct spt_node *words, *excludes, *implies;
    double arc_from_rad, arc_to_rad;
};

/* Everything while it is read: entries of all folders by name, the first of each. */
struct spt_causes_loading {
    struct spt_causes *causes;
    struct spt_diagnostics *diags;
    struct spt_diagnosis_cause *cause_list;
    struct spt_diagnosis_group *group_list;
    struct spt_diagnosis_finding *finding_list;
    struct spt_finding_ties *ties;                                /* of the findings */
    const struct spt_node *group_words[SPT_DIAGNOSIS_GROUPS_MAX]; /* NULL: none */
    const struct spt_node *finding_keys[SPT_DIAGNOSIS_FINDINGS_MAX];
    struct spt_raw_finding *raws; /* of the findings */
    const struct spt_node *cause_keys[SPT_DIAGNOSIS_CAUSES_MAX];
    const struct spt_node *stops, *synonyms, *everyday, *outside; /* NULL: none */
};

/* Reads the phrases of findings, groups and modes and checks that the search tells them apart.
 * Mistakes, or that memory is out, stand in the diagnostics. */
void spt_causes_read_phrases(struct spt_causes_loading *loading);

#endif
