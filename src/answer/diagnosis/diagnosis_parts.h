/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_DIAGNOSIS_DIAGNOSIS_PARTS_H
#define ANSWER_DIAGNOSIS_DIAGNOSIS_PARTS_H

#include "answer/diagnosis/diagnosis.h"

/* Parts of the page. */

/* What happened, as the case has it. */
void spt_diagnosis_say_note(struct spt_page *page, const struct spt_diagnosis_report *report);

/* True where a case asks a question of a class, which sees the answer only then. */
bool spt_diagnosis_asks(const struct spt_diagnosis_report *reports, int count);

/* The question that all cases have in common. */
void spt_diagnosis_ask_all(struct spt_page *page, const struct spt_diagnosis_report *reports,
                           int count);

/* What happened, the question unless it is that of all, and what was found. */
void spt_diagnosis_tell_story(struct spt_page *page, const struct spt_diagnosis_report *reports,
                              int count, const struct spt_diagnosis_report *report);

/* What words were taken for, and what findings tell beside the cause; their notes unless they were
 * told before. */
void spt_diagnosis_say_said(struct spt_page *page, const struct spt_diagnosis_report *report,
                            bool told);

/* The verdict, the causes, and what speaks for and against the first of them. */
void spt_diagnosis_show_verdict(struct spt_page *page, const struct spt_diagnosis_report *report);
void spt_diagnosis_show_causes(struct spt_page *page, const struct spt_diagnosis_report *report);
void spt_diagnosis_show_evidence(struct spt_page *page, const struct spt_diagnosis_report *report);

/* What fatigue alone explains at these hours; nothing where times do not count. */
void spt_diagnosis_show_fatigue(struct spt_page *page, const struct spt_diagnosis_report *report);

/* What to look at next, what keeps the next bearing sound with the commands that work it out, and
 * on which finding the answer hangs. */
void spt_diagnosis_show_checks(struct spt_page *page, const struct spt_diagnosis_report *report);
void spt_diagnosis_show_prevention(struct spt_page *page,
                                   const struct spt_diagnosis_report *report);
void spt_diagnosis_show_stability(struct spt_page *page, const struct spt_diagnosis_report *report);

/* The path that was measured, and how the paths of both rings tell a condition from another. */
void spt_diagnosis_show_path(struct spt_page *page, const struct spt_diagnosis_report *report);
void spt_diagnosis_show_paths(struct spt_page *page, const struct spt_diagnosis_report *reports,
                              int count);

/* A table of several cases, one row each, and the rows of CSV. */
void spt_diagnosis_show_list(struct spt_page *page, const struct spt_diagnosis_report *reports,
                             int count);
void spt_diagnosis_keep_rows(struct spt_page *page, const struct spt_diagnosis_report *reports,
                             int count);

/* What puts the answer in doubt, or was left out of it: each as a sentence, which may hold a name
 * of the user (SPT_NAMED). */
void spt_diagnosis_warn(const struct spt_diagnosis_report *report,
                        void (*take)(void *to, const char *sentence), void *to);

/* Causes that prevention is about: at most two, none where no cause is named. */
int spt_diagnosis_to_prevent(const struct spt_diagnosis_report *report, int *causes);

/* The cause that is fatigue of the case as stated, and the one that is none of the list. */
int spt_diagnosis_fatigue(const struct spt_diagnosis_report *report);
int spt_diagnosis_other(const struct spt_diagnosis_table *table);

/* A factor of the odds of one cause against another. */
struct spt_diagnosis_factor {
    const char *what, *sure;
    double odds, against, favour; /* the last two: shares of the largest, for a bar */
};

/* The factors of the odds of the first cause against `second`: shares, hours, each finding.
 * Result: NULL when memory is out. */
struct spt_diagnosis_factor *spt_diagnosis_factors(struct spt_page *page,
                                                   const struct spt_diagnosis_report *report,
                                                   int second, int *count);

/* The causes that the first is held against: the second, and the best with a name where that has
 * none. Result: their count, 0 where all others are ruled out. */
int spt_diagnosis_rivals(const struct spt_diagnosis_report *report, int rivals[2]);

/* True for a factor that speaks clearly against the first cause. */
bool spt_diagnosis_speaks_against(const struct spt_diagnosis_factor *factor);

/* Safety lines, printed with every answer; NULL ends them. */
extern const char *const spt_diagnosis_safety[];

#endif
