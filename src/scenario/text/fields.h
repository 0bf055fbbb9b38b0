/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SCENARIO_TEXT_FIELDS_H
#define SCENARIO_TEXT_FIELDS_H

#include "scenario/text/document.h"
#include "scenario/text/units.h"
#include "words/words.h"

/* A number with the dimension it was written in, for fields that take several. */
struct spt_amount {
    double value; /* NaN: absent */
    enum spt_dimension
        dimension; /* SPT_NO_DIMENSION with a value of NaN and `word` set: the word */
    int word;      /* which of the field's words was written, such as "estimate"; -1: none */
};

enum spt_field_kind {
    SPT_FIELD_QUANTITY, /* double, in the unit of its dimension; NaN where absent */
    SPT_FIELD_AMOUNT,   /* struct spt_amount: one of two dimensions, or one of `words` */
    SPT_FIELD_INTEGER,  /* int; -1 where absent */
    SPT_FIELD_TEXT,     /* const char *; NULL where absent */
    SPT_FIELD_CHOICE,   /* int, index of the word; -1 where absent */
    SPT_FIELD_YES_NO,   /* int, 0 or 1; -1 where absent */
    SPT_FIELD_SECTION,  /* a struct whose first member is `const struct spt_node *at` */
    SPT_FIELD_NAMED,    /* const struct spt_node *: a section, or the name of a catalog entry */
    SPT_FIELD_MAPPING,  /* const struct spt_node *: a section, read by whoever needs it */
    SPT_FIELD_LIST,     /* const struct spt_node *: a sequence of sections */
    SPT_FIELD_LINES     /* const struct spt_node *: a sequence of texts, or of `words` */
};

/* One key of a section. This table drives reading, messages, defaults, the JSON Schema and the
 * field reference; nothing about a key is said twice. */
struct spt_field {
    const char *key;
    enum spt_field_kind kind;
    bool required;
    size_t offset; /* of the member in the section's struct */
    enum spt_dimension dimension;
    enum spt_dimension other_dimension; /* SPT_FIELD_AMOUNT */
    double min, max;                    /* in program units, or in digits for an integer */
    bool above_min;                     /* min itself is not allowed */
    const struct spt_words *words;      /* that may be chosen */
    bool or_none;                       /* SPT_FIELD_LINES: "none" is one of them too */
    const struct spt_section *section;
    const char *example; /* "15 kN", for messages and the reference */
    const char *help;    /* one line */
};

struct spt_section {
    const char *name; /* as in "bearing", for messages */
    const char *help;
    const struct spt_field *fields;
    int count;
    size_t size; /* of the struct */
};

/* Reads a mapping into the struct of its section. Every member is set; absent ones get the value
 * the kind names. `into` starts with `const struct spt_node *at`, set to the mapping. Errors:
 * unknown key (nearest named), missing required key, wrong kind of value, not a number, no or wrong
 * unit, out of range, unknown word, empty or over-long text; each a diagnostic. */
void spt_section_read(const struct spt_section *section, const struct spt_node *mapping, void *into,
                      struct spt_diagnostics *diags);

/* Sets every member to "absent", for a section that is not there. */
void spt_section_clear(const struct spt_section *section, void *into);

/* The word of a list nearest to `text` by edit distance, NULL where none is near. */
const char *spt_nearest(const char *text, const char *const *words, int count);

#endif
