/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SCENARIO_TEXT_FIELDS_H
#define SCENARIO_TEXT_FIELDS_H

#include "scenario/text/document.h"
#include "scenario/text/units.h"
#include "words/words.h"

/* A number with the dimension it was written in, for fields that accept more than one. */
struct spt_amount {
    double value; /* NaN: absent */
    /* SPT_NO_DIMENSION where a word was written: value is NaN and `word` is set */
    enum spt_dimension dimension;
    int word; /* index of the word that was written, such as "estimate"; -1: none */
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
    SPT_FIELD_MAPPING,  /* const struct spt_node *: a section, which other code reads */
    SPT_FIELD_LIST,     /* const struct spt_node *: a sequence of sections */
    SPT_FIELD_LINES     /* const struct spt_node *: a sequence of texts, or of `words` */
};

/* One key of a section. Reading, messages, defaults, the JSON Schema and the field reference all
 * use this table, so that everything about a key is defined once. */
struct spt_field {
    const char *key;
    enum spt_field_kind kind;
    bool required;
    size_t offset; /* of the member in the section's struct */
    enum spt_dimension dimension;
    enum spt_dimension other_dimension; /* SPT_FIELD_AMOUNT */
    double min, max;                    /* in program units; integers as they are */
    bool above_min;                     /* min itself is not allowed */
    const struct spt_words *words;      /* allowed words */
    bool or_none;                       /* SPT_FIELD_LINES: "none" is allowed too */
    bool or_name;                       /* SPT_FIELD_LIST: a name may stand for a section */
    const struct spt_section *section;
    const char *example; /* "15 kN", for messages and the reference */
    const char *help;    /* one line */
};

struct spt_section {
    const char *name; /* such as "bearing", for messages */
    const char *help;
    const struct spt_field *fields;
    int count;
    size_t size; /* of the struct; 0: any names are its keys, with texts */
};

/* Reads a mapping into the struct of its section. Every member is set; absent ones get the value
 * given above for their kind. `into` starts with `const struct spt_node *at`, set to the mapping.
 * Errors: unknown key (with the most similar one), missing required key, wrong kind of value, not a
 * number, no or wrong unit, out of range, unknown word, empty or too long text; each with a
 * diagnostic. */
void spt_section_read(const struct spt_section *section, const struct spt_node *mapping, void *into,
                      struct spt_diagnostics *diags);

/* Sets every member to its absent value, for a missing section. */
void spt_section_clear(const struct spt_section *section, void *into);

/* The field of this key; NULL where the section has none. */
const struct spt_field *spt_section_find(const struct spt_section *section, const char *key);

/* The word of a list most similar to `text` by edit distance, NULL where none is similar. */
const char *spt_nearest(const char *text, const char *const *words, int count);

#endif
