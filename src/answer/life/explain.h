/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_LIFE_EXPLAIN_H
#define ANSWER_LIFE_EXPLAIN_H

#include "format/json.h"
#include "format/page/page.h"
#include "spalltime/assess.h"

/* Receives the steps one by one, whose texts are valid until it returns; `place` names the bearing
 * and phase they belong to. */
struct spt_step_sink {
    void (*place)(void *context, const char *bearing, const char *phase);
    void (*step)(void *context, const struct spt_step *step);
    void *context;
};

/* Sends every step of an assessment in the order of calculation. */
void spt_explain_assessment(const struct spt_assessment *assessment,
                            const struct spt_step_sink *sink);

/* The same as a JSON array of objects. */
void spt_explain_json(struct spt_json *json, const struct spt_assessment *assessment);

/* A function that sends the steps of a subject to a sink. */
typedef void spt_teller(const void *subject, const struct spt_step_sink *sink);

/* The steps of any subject as a section of a page. */
void spt_explain_page(struct spt_page *page, spt_teller *tell, const void *subject);

/* Those of an assessment, with the split of each loss as tables; and the same without a heading, a
 * section for each place. */
void spt_explain_assessment_steps(struct spt_page *page, const struct spt_assessment *assessment);
void spt_explain_assessment_page(struct spt_page *page, const struct spt_assessment *assessment);

/* The steps of any subject as a JSON array of objects. */
void spt_explain_in_json(struct spt_json *json, spt_teller *tell, const void *subject);

/* The steps of the ratings C, C0 and C_u that are computed from internal geometry, or of C_u from
 * C0. */
void spt_explain_ratings(const struct spt_bearing *bearing, const struct spt_step_sink *sink);

/* The split of a loss, each set of causes and each cause: as steps, and as two tables. */
void spt_explain_loss(const struct spt_loss *loss, const struct spt_step_sink *sink);
void spt_explain_loss_page(struct spt_page *page, const struct spt_loss *loss);

/* Formats a life with `digits` digits into SPT_HOURS_LENGTH bytes; "none" and "no limit" for NaN
 * and infinity. Result: the words, which need not be in the buffer. */
const char *spt_explain_life(double life_h, int digits, char *buffer);

/* Sends one step to a sink; `numbers` is formatted as by printf. */
void spt_explain_step(const struct spt_step_sink *sink, const char *symbol, const char *formula,
                      double value, const char *unit, const char *source, const char *numbers, ...)
    __attribute__((format(printf, 7, 8)));

#endif
