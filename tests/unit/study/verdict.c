/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Judging a machine by its parts. The thresholds are rules of this tool; what is looked at here is
 * on which side of them a part falls. */
#include <criterion/criterion.h>
#include <math.h>
#include <string.h>

#include "sentence/sentence.h"
#include "sentence/verdict.h"
#include "spalltime/verdict.h"
#include "support/near.h"
#include "support/schedule_case.h"

/* A machine with one phase at 60 degC, and the plan for it. */
struct machine {
    struct spt_case question;
    struct spt_phase phase;
    struct spt_phase_result result;
    struct spt_assessment assessment;
    struct spt_schedule plan;
    struct spt_judgement judgement;
};

static struct machine *make(enum spt_lubrication kind)
{
    static struct machine machine;
    memset(&machine, 0, sizeof machine);
    machine.question.lubricant.kind = kind;
    machine.question.lubricant.solubility = SPT_SOLUBILITY_ADDITIVATED;
    machine.question.reliability_percent = 90;
    machine.question.target_life_h = 10000;
    machine.question.yearly_use_h = (double)NAN;
    machine.phase.time_share = 1;
    machine.phase.speed_rpm = 400;
    machine.phase.condition.water_ppm = 50;
    machine.result.phase = &machine.phase;
    machine.result.temperature_c = 60;
    machine.assessment.question = &machine.question;
    machine.assessment.bearing_count = 1;
    machine.assessment.bearings[0].phases = &machine.result;
    machine.assessment.bearings[0].phase_count = 1;
    machine.assessment.modified_rating_life_h = 14000;
    machine.plan.question = &machine.question;
    machine.plan.life_h = machine.plan.replace_h = 12385;
    machine.plan.replace_governor = SPT_GOVERNOR_FATIGUE;
    machine.plan.regrease_h = machine.plan.stated_regrease_h = (double)NAN;
    machine.plan.stated_renewals_h = (double)NAN;
    machine.plan.grease_risk =
        (struct spt_grease_risk){1000, (double)NAN, (double)NAN, (double)NAN, (double)NAN};
    machine.plan.greasing = (struct spt_greasing){.interval_h = (double)NAN,
                                                  .every_h = (double)NAN,
                                                  .every_days = (double)NAN,
                                                  .kept_h = (double)NAN};
    return &machine;
}

static enum spt_grade judge(struct machine *machine, enum spt_concern part)
{
    spt_verdict_of(&machine->assessment, &machine->plan, &machine->judgement);
    return machine->judgement.parts[part].grade;
}

Test(verdict_parts, fatigue_is_judged_by_the_life_under_the_plan)
{
    struct machine *machine = make(SPT_LUBRICATION_OIL_BATH);
    cr_expect_eq(judge(machine, SPT_CONCERN_FATIGUE), SPT_GRADE_MET);
    cr_expect_not(spt_verdict_fails(&machine->judgement));
    machine->plan.life_h = 9999;
    cr_expect_eq(judge(machine, SPT_CONCERN_FATIGUE), SPT_GRADE_MISSED,
                 "not by the life as stated");
    cr_expect(spt_verdict_fails(&machine->judgement));
    machine->plan.life_h = (double)NAN;
    cr_expect_eq(judge(machine, SPT_CONCERN_FATIGUE), SPT_GRADE_MISSED, "not shown to be met");
    machine->plan.life_h = (double)INFINITY;
    cr_expect_eq(judge(machine, SPT_CONCERN_FATIGUE), SPT_GRADE_MET);
}

Test(verdict_parts, without_a_target_fatigue_is_left_out_and_nothing_is_met)
{
    struct machine *machine = make(SPT_LUBRICATION_OIL_BATH);
    machine->question.target_life_h = (double)NAN;
    cr_expect_eq(judge(machine, SPT_CONCERN_FATIGUE), SPT_GRADE_ABSENT);
    cr_expect_null(spt_verdict_name(&machine->judgement));
    cr_expect_eq(spt_verdict_mark(&machine->judgement), SPT_UNJUDGED);
    spt_notes_add(&machine->result.notes, SPT_FLAG_OIL_PEAK, 145, 120);
    cr_expect_eq(judge(machine, SPT_CONCERN_OIL_HEAT), SPT_GRADE_UNFIT);
    cr_expect_str_eq(spt_verdict_name(&machine->judgement), "unfit");
}

Test(verdict_parts, greasing_by_whether_it_can_be_kept)
{
    static const struct {
        enum spt_greasing_state state;
        enum spt_grade grade;
    } rows[] = {{SPT_GREASING_NONE, SPT_GRADE_ABSENT},
                {SPT_GREASING_KEPT, SPT_GRADE_MET},
                {SPT_GREASING_OFTEN, SPT_GRADE_CAUTION},
                {SPT_GREASING_CANNOT, SPT_GRADE_UNFIT}};
    struct machine *machine = make(SPT_LUBRICATION_GREASE);
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        machine->plan.greasing.state = rows[i].state;
        cr_expect_eq(judge(machine, SPT_CONCERN_GREASING), rows[i].grade, "%zu", i);
        cr_expect_eq(spt_verdict_fails(&machine->judgement), rows[i].grade == SPT_GRADE_UNFIT);
    }
    machine->plan.greasing.state = SPT_GREASING_KEPT;
    spt_notes_add(&machine->result.notes, SPT_FLAG_GREASE_SPEED, 600000, 500000);
    cr_expect_eq(judge(machine, SPT_CONCERN_GREASING), SPT_GRADE_CAUTION);
}

/* A year's risk above 5 %: a note by its middle, a caution where even the low end is above. */
Test(verdict_parts, grease_risk_is_judged_where_a_year_is_known)
{
    struct machine *machine = make(SPT_LUBRICATION_GREASE);
    machine->plan.grease_risk = (struct spt_grease_risk){1000, 0.3, 0.08, 0.8, (double)NAN};
    cr_expect_eq(judge(machine, SPT_CONCERN_GREASE_RISK), SPT_GRADE_NOTE, "per 1000 h it is told");
    machine->question.yearly_use_h = 1000;
    cr_expect_eq(judge(machine, SPT_CONCERN_GREASE_RISK), SPT_GRADE_CAUTION);
    cr_expect_not(spt_verdict_fails(&machine->judgement));
    machine->plan.grease_risk.low = 0.049;
    cr_expect_eq(judge(machine, SPT_CONCERN_GREASE_RISK), SPT_GRADE_NOTE);
    cr_expect_eq(machine->judgement.grade, SPT_GRADE_MET, "a note changes nothing");
    machine->plan.grease_risk.share = 0.049;
    cr_expect_eq(judge(machine, SPT_CONCERN_GREASE_RISK), SPT_GRADE_MET);
}

/* The user's limit takes the place of the rule; what would meet it is said, the plan stays. */
Test(verdict_parts, grease_risk_above_the_limit_of_the_user_is_missed)
{
    char text[SPT_CONCERN_LENGTH];
    struct machine *machine = make(SPT_LUBRICATION_GREASE);
    machine->question.yearly_use_h = 400;
    machine->question.grease_risk_limit = 0.02;
    machine->plan.grease_risk = (struct spt_grease_risk){400, 0.08, 0.016, 0.35, 44.5};
    machine->plan.regrease_h = 150;
    cr_expect_eq(judge(machine, SPT_CONCERN_GREASE_RISK), SPT_GRADE_MISSED);
    cr_expect(spt_verdict_fails(&machine->judgement));
    cr_expect(near(machine->judgement.regrease_h, 150, 0, 0), "the interval itself stays");
    cr_expect_str_eq(spt_verdict_part(&machine->judgement, SPT_CONCERN_GREASE_RISK, text),
                     "the grease fails in 8 % of the machines a year, where 2 % is allowed: grease "
                     "every 40 h to meet it, or seal better; a new bearing changes nothing");
    machine->plan.grease_risk.within_h = (double)NAN; /* greased for life */
    judge(machine, SPT_CONCERN_GREASE_RISK);
    cr_expect_str_eq(spt_verdict_part(&machine->judgement, SPT_CONCERN_GREASE_RISK, text),
                     "the grease fails in 8 % of the machines a year, where 2 % is allowed; a new "
                     "bearing changes nothing");
    machine->question.grease_risk_limit = 0.08;
    cr_expect_eq(judge(machine, SPT_CONCERN_GREASE_RISK), SPT_GRADE_MET, "not by the 5 % rule");
    cr_expect_not(spt_verdict_fails(&machine->judgement));
}

/* Saturation of an oil with additives: 197.6 ppm at 0 degC, 1202 ppm at 60 degC (log10 S = A - B/T,
 * A 6.65036, B 1189.46, from the manual of a moisture sensor). */
Test(verdict_parts, water_by_the_coldest_standstill_and_the_run)
{
    static const struct {
        double water_ppm;
        enum spt_grade oil, grease;
    } rows[] = {
        {100, SPT_GRADE_MET, SPT_GRADE_MET},          {150, SPT_GRADE_NOTE, SPT_GRADE_NOTE},
        {215, SPT_GRADE_NOTE, SPT_GRADE_NOTE},        {220, SPT_GRADE_CAUTION, SPT_GRADE_CAUTION},
        {1190, SPT_GRADE_CAUTION, SPT_GRADE_CAUTION}, {1210, SPT_GRADE_UNFIT, SPT_GRADE_CAUTION},
        {5100, SPT_GRADE_UNFIT, SPT_GRADE_MISSED}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        for (int greased = 0; greased < 2; greased++) {
            struct machine *machine =
                make(greased ? SPT_LUBRICATION_GREASE : SPT_LUBRICATION_OIL_BATH);
            machine->phase.condition.water_ppm = rows[i].water_ppm;
            cr_expect_eq(judge(machine, SPT_CONCERN_WATER), greased ? rows[i].grease : rows[i].oil,
                         "%g ppm, %d", rows[i].water_ppm, greased);
        }
}

/* What good practice keeps to is no reason to warn, however cold it stands or runs. */
Test(verdict_parts, a_hundred_ppm_at_the_freezing_point_is_never_a_caution)
{
    for (int greased = 0; greased < 2; greased++)
        for (double t = -30; t <= 110; t += 2.385) {
            struct machine *machine =
                make(greased ? SPT_LUBRICATION_GREASE : SPT_LUBRICATION_OIL_BATH);
            machine->phase.condition.water_ppm = 100;
            machine->phase.condition.coldest_c = 0;
            machine->result.temperature_c = t;
            cr_expect_leq(judge(machine, SPT_CONCERN_WATER), SPT_GRADE_NOTE, "%g degC", t);
        }
}

Test(verdict_parts, water_that_is_only_assumed_is_never_too_much)
{
    struct machine *machine = make(SPT_LUBRICATION_GREASE);
    machine->phase.condition.water_ppm = 20000;
    machine->phase.condition.water_assumed = true;
    cr_expect_eq(judge(machine, SPT_CONCERN_WATER), SPT_GRADE_MET);
    machine->result.surroundings.moisture = SPT_MOISTURE_CONDENSATION;
    cr_expect_eq(judge(machine, SPT_CONCERN_WATER), SPT_GRADE_NOTE);
    machine->result.surroundings.moisture = SPT_MOISTURE_SPLASH;
    cr_expect_eq(judge(machine, SPT_CONCERN_WATER), SPT_GRADE_CAUTION);
}

/* A short cold start is no running state. */
Test(verdict_parts, water_in_the_run_is_judged_without_cold_starts)
{
    struct machine *machine = make(SPT_LUBRICATION_OIL_BATH);
    struct spt_phase phases[2] = {machine->phase, machine->phase};
    struct spt_phase_result results[2] = {machine->result, machine->result};
    for (int i = 0; i < 2; i++) {
        results[i].phase = &phases[i];
        phases[i].condition.water_ppm = 400;
    }
    results[1].temperature_c = 5;
    phases[0].time_share = 0.905;
    phases[1].time_share = 0.095;
    machine->assessment.bearings[0].phases = results;
    machine->assessment.bearings[0].phase_count = 2;
    cr_expect_eq(judge(machine, SPT_CONCERN_WATER), SPT_GRADE_CAUTION);
    phases[0].time_share = 0.895;
    phases[1].time_share = 0.105;
    cr_expect_eq(judge(machine, SPT_CONCERN_WATER), SPT_GRADE_UNFIT);
}

/* What puts a life in doubt belongs to a part, so that no command can forget it. */
Test(verdict_parts, every_reservation_belongs_to_a_part)
{
    for (int i = 0; i < SPT_FLAG_COUNT; i++) {
        const bool of_water = i == SPT_FLAG_WATER_COLD || i == SPT_FLAG_WATER_SATURATED;
        if (spt_reservation((enum spt_flag)i) && !of_water)
            cr_expect_gt(spt_verdict_rule_of((enum spt_flag)i).grade, SPT_GRADE_ABSENT, "%s",
                         spt_flag_code((enum spt_flag)i));
    }
}

Test(verdict_parts, the_headline_tells_life_greasing_risk_replacement_and_cautions)
{
    char words[SPT_HEADLINE_LENGTH];
    struct machine *machine = make(SPT_LUBRICATION_GREASE);
    machine->question.yearly_use_h = 700;
    machine->plan.greasing = (struct spt_greasing){.state = SPT_GREASING_KEPT,
                                                   .interval_h = 463,
                                                   .months = 3,
                                                   .every_h = 400,
                                                   .every_days = 91,
                                                   .kept_h = 174};
    machine->plan.regrease_h = 174;
    machine->plan.grease_risk = (struct spt_grease_risk){700, 0.0081, 0.0019, 0.042, (double)NAN};
    judge(machine, SPT_CONCERN_FATIGUE);
    cr_expect_str_eq(spt_verdict_headline(&machine->judgement, words),
                     "Fatigue meets 10 000 h; grease every 400 h or 3 months; grease risk 0.81 % a "
                     "year (0.19 % to 4.2 %); replace at 12 400 h.");
    machine->plan.life_h = machine->plan.replace_h = 8234;
    machine->plan.regrease_h = machine->plan.stated_regrease_h = 150;
    spt_notes_add(&machine->result.notes, SPT_FLAG_HEAVY_CONTAMINATION, 0.05, 0.1);
    machine->phase.condition.water_ppm = 300;
    judge(machine, SPT_CONCERN_FATIGUE);
    cr_expect_str_eq(spt_verdict_headline(&machine->judgement, words),
                     "Fatigue MISSES 10 000 h with a life of 8 230 h; grease every 150 h, as "
                     "the service states; grease risk 0.81 % a year (0.19 % to 4.2 %); replace at "
                     "8 230 h; caution: rust at standstill is not in the life; wear may end it "
                     "first.");
}

/* What the service brings counts where it is worse than the condition as stated, part by part. */
Test(verdict_parts, the_worst_that_the_service_brings_counts)
{
    char text[SPT_CONCERN_LENGTH];
    struct machine *machine = make(SPT_LUBRICATION_GREASE);
    struct spt_worst_state *worst = &machine->plan.worst;
    machine->plan.regrease_h = 1000;
    machine->plan.greasing = (struct spt_greasing){.state = SPT_GREASING_KEPT,
                                                   .interval_h = 1100,
                                                   .months = 12,
                                                   .every_h = 1000,
                                                   .every_days = (double)NAN,
                                                   .kept_h = 1000};
    *worst = (struct spt_worst_state){.greasing = machine->plan.greasing,
                                      .grease_risk = machine->plan.grease_risk,
                                      .oil_kept_h = (double)NAN};
    worst->water = (struct spt_water_state){.running = 3, .ppm = 9000};
    worst->water_at_h = 2000;
    worst->greasing.kept_h = worst->greasing.every_h = 400;
    worst->greasing_at_h = 500;
    cr_expect_eq(judge(machine, SPT_CONCERN_WATER), SPT_GRADE_MET, "nothing is followed");
    worst->followed = true;
    cr_expect_eq(judge(machine, SPT_CONCERN_WATER), SPT_GRADE_MISSED);
    cr_expect(near(machine->judgement.parts[SPT_CONCERN_WATER].at_h, 2000, 0, 0));
    cr_expect_eq(judge(machine, SPT_CONCERN_GREASING), SPT_GRADE_CAUTION);
    cr_expect(near(machine->judgement.regrease_h, 1000, 0, 0), "the interval itself stays");
    cr_expect_str_eq(spt_verdict_part(&machine->judgement, SPT_CONCERN_GREASING, text),
                     "every 1 000 h or 12 months; the service brings a state that needs it every "
                     "400 h or 12 months (by 500 h of the service)");
    spt_notes_add(&worst->notes, SPT_FLAG_DUST_CONTRADICTED, 0, 0);
    cr_expect_eq(judge(machine, SPT_CONCERN_INPUTS), SPT_GRADE_CAUTION);
    machine->question.yearly_use_h = 1000;
    machine->question.grease_risk_limit = 0.02;
    machine->plan.grease_risk = (struct spt_grease_risk){1000, 0.01, 0.002, 0.05, (double)NAN};
    worst->grease_risk = (struct spt_grease_risk){1000, 0.03, 0.006, 0.15, (double)NAN};
    cr_expect_eq(judge(machine, SPT_CONCERN_GREASE_RISK), SPT_GRADE_MISSED);
}
