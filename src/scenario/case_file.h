/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SCENARIO_CASE_FILE_H
#define SCENARIO_CASE_FILE_H

#include "scenario/catalog/causes.h"
#include "scenario/text/fields.h"

/* A finding as a case states it. */
struct spt_case_finding {
    int finding;
    bool seen;
    double sure;
    const char *note; /* NULL: none */
    const char *said; /* the words that were taken for it; NULL: it was named */
    struct spt_mark mark;
};

/* A variant of the scenario that stands for a cause at work. */
struct spt_case_condition {
    int cause;
    const char *variant;
    struct spt_mark mark;
};

/* A text of a case with its place; NULL: not stated. */
struct spt_case_text {
    const char *text;
    struct spt_mark mark;
};

/* One damaged bearing. */
struct spt_damage_case {
    struct spt_mark top;
    const char *title, *note;
    const char *question; /* what a class is asked, which sees the answer only then; NULL: nobody */
    enum spt_machine_group machine;
    struct spt_case_text scenario, row, past;
    bool in_km;
    double ran, last_sound; /* h or km; NaN: not stated */
    bool on_bench, destroyed;
    int finding_count, condition_count;
    struct spt_case_finding *findings;
    struct spt_case_condition *conditions;
    const char **because; /* for each cause, why it is ruled out; NULL: it is not */
    enum spt_ring turning;
    bool turning_stated, load_turns;
    enum spt_ring arc_ring;
    double arc_rad; /* length of the worn path; NaN: not stated */
    struct spt_mark arc_mark;
};

/* The cases of a file; strings are borrowed from the source. */
struct spt_case_file {
    struct spt_arena arena;
    int count;
    struct spt_damage_case *cases;
};

/* The keys of a case. A file has one, or `cases` with what they have in common beside it. */
extern const struct spt_section spt_section_damage_case;

/* True for what is written as a case file and not as a scenario: it has `case`, `cases` or
 * `findings` and no `title`. */
bool spt_case_file_is(const struct spt_source *source);

/* Reads a case, or several under `cases` with what they have in common beside it.
 * In:     the source and the table, which outlive it.
 * Result: true, or false with diagnostics, such as a scenario in its place, a finding, cause or key
 * that is not known, the same finding twice, two findings that exclude each other, words that fit
 * two findings or none; spt_case_file_free in both cases. */
bool spt_case_file_read(const struct spt_source *source, const struct spt_causes *causes,
                        struct spt_case_file *file, struct spt_diagnostics *diags);
void spt_case_file_free(struct spt_case_file *file);

/* How sure a finding is: "yes", "fairly", "hardly". */
const char *spt_sure_name(double sure);
extern const struct spt_words spt_ring_words; /* "inner", "outer" */

/* The confirmed cases of a shop as CSV: `date,cause,count,remark` (a remark is not read; a
 * date may be empty; counts are whole).
 * Result: true with the count of each cause added to `counts`, or false with diagnostics. */
bool spt_past_read(FILE *in, const struct spt_source *source, const struct spt_causes *causes,
                   double *counts, struct spt_diagnostics *diags);

#endif
