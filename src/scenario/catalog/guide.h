/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SCENARIO_CATALOG_GUIDE_H
#define SCENARIO_CATALOG_GUIDE_H

#include "scenario/catalog/catalog.h"
#include "scenario/text/fields.h"
#include "spalltime/assess.h"
#include "spalltime/status.h"

/* The lists of short texts that an entry of the damage guide has. */
enum spt_guide_part {
    SPT_GUIDE_NAMES,        /* our name, then the name in ISO 15243 */
    SPT_GUIDE_WORDS,        /* what people call it (search terms) */
    SPT_GUIDE_LOOKS,        /* what it looks like */
    SPT_GUIDE_PLACES,       /* where it appears first */
    SPT_GUIDE_CAUSES,       /* usual causes */
    SPT_GUIDE_CHECKS,       /* what to check next */
    SPT_GUIDE_MODEL_CAN,    /* what the model can tell about it */
    SPT_GUIDE_MODEL_CANNOT, /* and what it cannot */
    SPT_GUIDE_BACK,         /* when the bearing may be used again, and when not */
    SPT_GUIDE_PART_COUNT
};

enum spt_guide_quantified {
    SPT_QUANTIFIED_NO,
    SPT_QUANTIFIED_PARTLY,
    SPT_QUANTIFIED_YES,
    SPT_QUANTIFIED_COUNT
};
enum spt_guide_return { SPT_RETURN_NO, SPT_RETURN_INSPECTED, SPT_RETURN_COUNT };

struct spt_lines {
    int count;
    const char *const *lines;
};

struct spt_guide_entry {
    const char *name;
    const char *iso_name; /* the mode of ISO 15243:2017 that it is, or belongs to */
    const char *clause;
    const char *group;
    const char *source;
    bool pattern; /* a pattern known in practice rather than a mode of the standard */
    enum spt_guide_quantified quantified;
    enum spt_guide_return goes_back;
    struct spt_lines parts[SPT_GUIDE_PART_COUNT];
    unsigned model_causes;              /* 1u << enum spt_cause */
    enum spt_setting_side setting_side; /* side for the cause "setting" */
    int flag_count;
    const enum spt_flag *flags; /* flags of an assessment that indicate this mode */
};

/* The damage guide; strings are borrowed from the catalog, the rest is in the arena. */
struct spt_guide {
    struct spt_arena arena;
    int count;
    struct spt_guide_entry *entries; /* in the order of folders, files and lines */
};

/* Reads and checks the `damage:` mappings of the catalog; an earlier entry of the same name takes
 * precedence. Result: true, or false with diagnostics; spt_guide_free in both cases. */
bool spt_guide_load(const struct spt_catalog *catalog, struct spt_guide *guide,
                    struct spt_diagnostics *diags);

/* The entry of this name, or of the mode of this name in the standard; case is ignored. NULL where
 * there is none. */
const struct spt_guide_entry *spt_guide_find(const struct spt_guide *guide, const char *name);

/* As above, else the entry that alone has this line in its `words`, such as "fluting". */
const struct spt_guide_entry *spt_guide_find_word(const struct spt_guide *guide, const char *word);

/* The known name most similar to `name`, or NULL. */
const char *spt_guide_nearest(const struct spt_guide *guide, const char *name);

/* "no", "partly", "yes"; "either", "preload", "end play"; "no", "after inspection". */
const char *spt_guide_quantified_name(enum spt_guide_quantified quantified);
const char *spt_guide_side_name(enum spt_setting_side side);
const char *spt_guide_return_name(enum spt_guide_return goes_back);

/* Key of a part in the file, JSON and CSV: "looks". */
const char *spt_guide_part_name(enum spt_guide_part part);

void spt_guide_free(struct spt_guide *guide);

/* The keys of an entry, for the reader and the tests. */

#endif
