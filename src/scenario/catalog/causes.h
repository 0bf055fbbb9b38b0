/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SCENARIO_CATALOG_CAUSES_H
#define SCENARIO_CATALOG_CAUSES_H

#include "scenario/catalog/guide.h"
#include "scenario/catalog/phrases.h"
#include "spalltime/diagnosis.h"

/* What a phrase of the search belongs to. */
enum spt_phrase_kind {
    SPT_PHRASE_OF_FINDING,
    SPT_PHRASE_OF_GROUP, /* names what its findings answer, and none of the answers */
    SPT_PHRASE_OF_MODE,
    SPT_PHRASE_OUTSIDE
};

struct spt_owned_phrase {
    enum spt_phrase_kind kind;
    int owner; /* finding, group, mode, or the term outside the guide */
    const char *text;
    struct spt_mark mark; /* line 0: of the damage guide */
    struct spt_phrase phrase;
};

/* What one finding says of others: those that cannot be there beside it, those that are there with
 * it, and how long the worn path is with it. */
struct spt_finding_ties {
    int excluded_count, implied_count;
    const int *excluded, *implied;
    double arc_from_rad, arc_to_rad; /* NaN: it says nothing */
};

/* The causes and findings of `spalltime diagnose`, with the phrases of the search. Strings are
 * borrowed from the catalog and the guide, which outlive it; the rest is in the arena. */
struct spt_causes {
    struct spt_arena arena;
    const struct spt_guide *guide;
    struct spt_diagnosis_table table;    /* modes in the order of the guide */
    const struct spt_finding_ties *ties; /* one for each finding */
    struct spt_vocabulary vocabulary;
    int phrase_count;
    struct spt_owned_phrase *phrases;
};

/* Reads and checks the `diagnosis:` mappings of the catalog; an earlier cause, group, finding or
 * list of the same name takes precedence. Without any, the table is empty and the modes alone are
 * searched. Result: true, or false with diagnostics, such as a cause, level or group that is not
 * known, shares that do not sum to 100, a name with a comma, the same words for two findings, a
 * phrase that does not find its own finding first or second; spt_causes_free in both cases. */
bool spt_causes_load(const struct spt_catalog *catalog, const struct spt_guide *guide,
                     struct spt_causes *causes, struct spt_diagnostics *diags);

/* Index of a cause or finding by name, or -1; the known name most similar to `name`, or NULL. */
int spt_causes_cause(const struct spt_causes *causes, const char *name);
int spt_causes_finding(const struct spt_causes *causes, const char *name);
const char *spt_causes_nearest_cause(const struct spt_causes *causes, const char *name);
const char *spt_causes_nearest_finding(const struct spt_causes *causes, const char *name);

/* "nearly always"; "ask", "open and wash", "measure". */
const char *spt_likelihood_name(enum spt_likelihood likelihood);
const char *spt_effort_name(enum spt_effort effort);
extern const struct spt_words spt_machine_words;

void spt_causes_free(struct spt_causes *causes);

#endif
