/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef STUDY_DIAGNOSIS_WEIGHING_H
#define STUDY_DIAGNOSIS_WEIGHING_H

#include "spalltime/diagnosis.h"

#define SPT_DIAGNOSIS_ALPHA 0.8 /* of all findings: groups are not independent either */
#define SPT_DIAGNOSIS_HARDLY 0.6

/* What is the same for every choice of evidence of a case. */
struct spt_weighing {
    const struct spt_diagnosis_case *one;
    const struct spt_diagnosis_table *table;
    int other;                                 /* the cause that is none of the list */
    double prior[SPT_DIAGNOSIS_CAUSES_MAX];    /* without what is ruled out */
    double log_time[SPT_DIAGNOSIS_CAUSES_MAX]; /* 0 where times are not weighed */
};

/* Chance of an answer to a question, for each cause: a finding of a group that excludes, or alone.
 * That of the cause that is none of the list is the mean of the others. */
void spt_weighing_share(const struct spt_weighing *weighing, int finding, double *share);

/* ln of r Q + (1 - r)(1 - Q)/others for a share Q of each cause; the mean of the likelihoods for
 * the cause that is none of the list. */
void spt_weighing_likelihood(const struct spt_weighing *weighing, const double *share, double sure,
                             int others, double *log_likelihood);

/* Largest less smallest, without the cause that is none of the list. */
double spt_weighing_spread(const struct spt_weighing *weighing, const double *log_likelihood);

/* How sure an answer in this group can be. */
double spt_weighing_sure(const struct spt_weighing *weighing, int group, double stated);

/* The evidence of the answers of the case. Result: its count, with the array in the arena; -1 when
 * memory is out. */
int spt_weighing_collect(const struct spt_weighing *weighing, struct spt_arena *arena,
                         struct spt_diagnosis_evidence **evidence);

/* Weight of each piece; that at `without` (-1: none) is left out with weight 0. */
void spt_weighing_weights(const struct spt_diagnosis_evidence *evidence, int count, int without,
                          double *weights);

/* Probability of each cause. `evidence` has at most SPT_DIAGNOSIS_FINDINGS_MAX pieces. */
void spt_weighing_posterior(const struct spt_weighing *weighing,
                            const struct spt_diagnosis_evidence *evidence, int count, int without,
                            double *posterior);

/* The most probable cause; `but` (-1: none) is passed over. */
int spt_weighing_first(const struct spt_weighing *weighing, const double *posterior, int but);

/* Fills in the checks, modes and verdict of a result that is complete otherwise. */
void spt_weighing_checks(const struct spt_weighing *weighing, struct spt_diagnosis *result);
void spt_weighing_modes(const struct spt_weighing *weighing, double *modes);
enum spt_diagnosis_verdict spt_weighing_verdict(const struct spt_weighing *weighing,
                                                struct spt_diagnosis *result);
/* Times of all causes into log_time. Result: true where they are weighed. */
bool spt_weighing_times(struct spt_weighing *weighing);

#endif
