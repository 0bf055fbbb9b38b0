/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The steps from the basic rating life to the life under a plan multiply out. */
#include <criterion/criterion.h>
#include <math.h>

#include "spalltime/verdict.h"
#include "support/near.h"
#include "support/schedule_case.h"

static void expect_product(const struct spt_case *question, const struct spt_service *service,
                           const char *what)
{
    struct spt_schedule_inputs inputs = schedule_inputs(question);
    struct spt_schedule plan;
    struct spt_stairs stairs;
    double product = 1;
    static struct spt_phase phases[2];
    const struct spt_timeline_workspace workspace = {phases, schedule_results};
    inputs.service = service;
    inputs.timeline_workspace = &workspace;
    inputs.outline = true;
    cr_assert_eq(spt_schedule(&inputs, schedule_results, &plan), SPT_OK, "%s", what);
    cr_assert_eq(spt_stairs_of(question, &plan, schedule_results, &stairs), SPT_OK, "%s", what);
    for (int i = 0; i < stairs.count; i++)
        product *= stairs.steps[i].factor;
    const double first_h = stairs.steps[0].life_h;
    cr_assert(isfinite(first_h) && isfinite(plan.life_h), "%s", what);
    cr_expect(near(product, plan.life_h / first_h, 1e-9, 0), "%s: %.15g, not %.15g", what, product,
              plan.life_h / first_h);
}

Test(stairs, multiply_out_to_the_life_under_the_plan)
{
    static const enum spt_lubrication kinds[] = {SPT_LUBRICATION_GREASE, SPT_LUBRICATION_OIL_BATH,
                                                 SPT_LUBRICATION_CIRCULATING};
    static const double reliabilities[] = {90, 96.3, 99};
    for (size_t k = 0; k < sizeof kinds / sizeof *kinds; k++)
        for (size_t r = 0; r < sizeof reliabilities / sizeof *reliabilities; r++) {
            struct spt_case question = schedule_case(kinds[k]);
            const struct spt_service service = schedule_drift_service(500, 4000);
            question.reliability_percent = reliabilities[r];
            expect_product(&question, NULL, "alone");
            expect_product(&question, &service, "with a drift");
        }
}

/* The outline and the whole plan have the same life, greasing and replacement. */
Test(stairs, an_outline_has_the_life_of_the_whole_plan)
{
    struct spt_case question = schedule_case(SPT_LUBRICATION_GREASE);
    const struct spt_service service = schedule_drift_service(500, 4000);
    for (int i = 0; i < 2; i++) {
        struct spt_schedule_inputs inputs = schedule_inputs(&question);
        struct spt_schedule whole, outline;
        static struct spt_phase phases[2];
        const struct spt_timeline_workspace workspace = {phases, schedule_results};
        inputs.service = i ? &service : NULL;
        inputs.timeline_workspace = &workspace;
        cr_assert_eq(spt_schedule(&inputs, schedule_results, &whole), SPT_OK);
        inputs.outline = true;
        cr_assert_eq(spt_schedule(&inputs, schedule_results, &outline), SPT_OK);
        cr_expect_eq(outline.life_h, whole.life_h);
        cr_expect_eq(outline.replace_h, whole.replace_h);
        cr_expect_eq(outline.regrease_h, whole.regrease_h);
        cr_expect_eq(outline.grease_risk.share, whole.grease_risk.share);
    }
}
