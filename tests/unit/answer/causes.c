/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sentence/causes.h"

#include <criterion/criterion.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "sentence/findings.h"

/* Thin film takes most, but only together with water; dirt alone is worth more to put right. */
static const struct spt_loss masked = {
    .causes = {[SPT_CAUSE_DEBRIS] = {true, -0.6, 9000},
               [SPT_CAUSE_WATER] = {true, -0.3, 6100},
               [SPT_CAUSE_THIN_FILM] = {true, -1.1, 7700}},
};

struct said {
    char words[2000];
};

static void gather(void *context, const char *who, const char *sentence)
{
    struct said *said = context;
    (void)who;
    size_t used = strlen(said->words);
    snprintf(said->words + used, sizeof said->words - used, "%s|", sentence);
}

static void say_stated(const struct spt_loss *loss, struct said *said)
{
    static struct spt_case question;
    struct spt_bearing_result bearing = {
        .loss = *loss, .worst_phase = -1, .modified_rating_life_h = 5300};
    struct spt_assessment assessment = {.question = &question,
                                        .bearing_count = 1,
                                        .bearings = {bearing},
                                        .modified_rating_life_h = 5300};
    const struct spt_finding_sink sink = {gather, said};
    question.reliability_percent = 90;
    question.target_life_h = question.yearly_use_h = (double)NAN;
    said->words[0] = 0;
    spt_findings_stated(&assessment, &sink);
}

Test(causes, by_share_and_by_gain_are_two_orders)
{
    int order[SPT_CAUSE_COUNT];
    struct spt_bearing_result bearing = {.loss = masked, .modified_rating_life_h = 5300};
    cr_expect_eq(spt_causes_by_share(&masked, order), 3);
    cr_expect_eq(order[0], SPT_CAUSE_THIN_FILM);
    cr_expect_eq(order[1], SPT_CAUSE_DEBRIS);
    cr_expect_eq(order[2], SPT_CAUSE_WATER);
    cr_expect_eq(spt_causes_by_gain(&masked, order), 3);
    cr_expect_eq(order[0], SPT_CAUSE_DEBRIS);
    cr_expect_eq(order[1], SPT_CAUSE_THIN_FILM);
    cr_expect_eq(spt_causes_costliest(&masked), SPT_CAUSE_THIN_FILM);
    cr_expect_eq(spt_causes_best_remedy(&bearing), SPT_CAUSE_DEBRIS);
    cr_expect_float_eq(spt_causes_whole(&masked), -2.0, 1e-12);
    bearing.modified_rating_life_h = 9400;
    cr_expect_eq(spt_causes_best_remedy(&bearing), -1, "no cure gives more than there is");
}

Test(causes, without_a_number_they_come_last)
{
    struct spt_loss loss = masked;
    int order[SPT_CAUSE_COUNT];
    loss.causes[SPT_CAUSE_THIN_FILM].log_life_share = (double)NAN;
    loss.causes[SPT_CAUSE_DEBRIS].life_if_cured_h = (double)NAN;
    spt_causes_by_share(&loss, order);
    cr_expect_eq(order[0], SPT_CAUSE_DEBRIS);
    cr_expect_eq(order[2], SPT_CAUSE_THIN_FILM);
    spt_causes_by_gain(&loss, order);
    cr_expect_eq(order[0], SPT_CAUSE_THIN_FILM);
    cr_expect_eq(order[2], SPT_CAUSE_DEBRIS);
    cr_expect_eq(spt_causes_costliest(&(struct spt_loss){0}), -1);
}

Test(causes, the_findings_name_both_and_one_where_they_are_the_same)
{
    struct said said;
    struct spt_loss same = masked;
    say_stated(&masked, &said);
    cr_expect(strstr(said.words,
                     "|Costliest cause: thin film, 55 % of the loss; with only this put "
                     "right the life would be 7 700 h (x 1.45).|Best single remedy: "
                     "debris; with only this put right the life would be 9 000 h (x "
                     "1.70).|"),
              "%s", said.words);
    same.causes[SPT_CAUSE_THIN_FILM].life_if_cured_h = 9100;
    say_stated(&same, &said);
    cr_expect(strstr(said.words, "|Costliest cause and best single remedy: thin film; with only "
                                 "this put right the life would be 9 100 h (x 1.72).|"),
              "%s", said.words);
}
