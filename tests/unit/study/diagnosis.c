/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Cases of which the first cause is trade knowledge. Priors, likelihoods and thresholds are
 * judgement of practice, no source; the numbers were worked out from the same table by another
 * program. */
#include <criterion/criterion.h>
#include <math.h>
#include <string.h>

#include "support/diagnosis_case.h"
#include "support/guide_file.h"
#include "support/near.h"

static struct guide_file file;
static struct spt_arena arena;

static void load(void)
{
    guide_file_load(&file);
}

static void release(void)
{
    spt_arena_free(&arena);
    guide_file_free(&file);
}

TestSuite(diagnosis, .init = load, .fini = release);

static const struct row {
    const char *title;
    enum spt_machine_group machine;
    const char *findings;
    double hours;
    const char *lives, *first;
    double first_share;
    const char *second;
    double second_share, other_share;
    enum spt_diagnosis_verdict verdict;
    const char *moved;
    double factor;
} rows[] = {
    {"field trailer hub", SPT_MACHINE_HUB,
     "dents of all sizes without order; gritty grease; seal lip torn or hard or worn; heavy dust or mud at the seal; path as it should be; !milky grease or drops of water",
     9000,
     "load and time alone 232000; dirt from outside 13100; water let in 79300; worn-out lubricant 220000",
     "dirt from outside", 0.937385, "dirt built in", 0.024155, 0.017032, SPT_DIAGNOSIS_CLEAR,
     "dents of all sizes without order", 2.8309},
    {"launched boat trailer", SPT_MACHINE_HUB,
     "milky grease or drops of water; washed under pressure or waded; rust or etch stains on running surfaces; both rows alike; !gritty grease; !stood for weeks in the damp",
     (double)NAN, NULL, "water let in", 0.696908, "worn-out lubricant", 0.071591, 0.045655,
     SPT_DIAGNOSIS_LIKELY, "milky grease or drops of water", 2.4358},
    {"laid-up harvester", SPT_MACHINE_HUB,
     "rust or black lines a roller pitch apart; stood for weeks in the damp; rough when turned by hand; !washed under pressure or waded",
     (double)NAN, NULL, "damp standing", 0.627019, "water let in", 0.060827, 0.052579,
     SPT_DIAGNOSIS_LIKELY, "rust or black lines a roller pitch apart", 10.5502},
    {"fan motor, eager gun", SPT_MACHINE_PLANT,
     "hotter after each greasing; cavity full and grease forced out; brown lacquer that wipes off with solvent; !other lubricant than asked",
     (double)NAN, NULL, "too much grease", 0.861228, "worn-out lubricant", 0.032754, 0.021385,
     SPT_DIAGNOSIS_CLEAR, "cavity full and grease forced out", 8.7896},
    {"hub set tight", SPT_MACHINE_HUB,
     "hot from the first hours; path all round from a one-sided load; scored roller ends and rib; nut tightened hard or set without turning; !greasing overdue",
     (double)NAN, NULL, "too tight", 0.972797, "wrong part or order", 0.013989, 0.003384,
     SPT_DIAGNOSIS_CLEAR, "nut tightened hard or set without turning", 4.0990},
    {"spindle bent", SPT_MACHINE_HUB,
     "path slants or is heavy at one edge; first spall at one edge; shaft or shoulder out of true; !not home or chip behind the ring",
     (double)NAN, NULL, "out of line", 0.812323, "too loose", 0.053734, 0.016519,
     SPT_DIAGNOSIS_CLEAR, "shaft or shoulder out of true", 9.4539},
    {"motor on a converter", SPT_MACHINE_PLANT,
     "even grey lines like a washboard; converter or welding or belt charge near; black grease with a burnt smell; rumble or hum that grew",
     (double)NAN, NULL, "electric current", 0.912606, "worn-out lubricant", 0.023868, 0.013152,
     SPT_DIAGNOSIS_CLEAR, "even grey lines like a washboard", 23.5020},
    {"stand-by pump", SPT_MACHINE_PLANT,
     "dull worn hollows a roller pitch apart; carried far or beside a shaking machine at rest; rough when turned by hand; !rust or etch stains on running surfaces",
     (double)NAN, NULL, "shaken at rest", 0.824174, "damp standing", 0.033283, 0.021412,
     SPT_DIAGNOSIS_CLEAR, "dull worn hollows a roller pitch apart", 20.0097},
    {"kerb", SPT_MACHINE_HUB,
     "bright dents a roller pitch apart; kerb or pothole or crash; rough when turned by hand; !force through the rollers when fitted",
     (double)NAN, NULL, "one blow", 0.734832, "out of line", 0.032987, 0.027964,
     SPT_DIAGNOSIS_LIKELY, "bright dents a roller pitch apart", 8.8459},
    {"forty hours after fitting", SPT_MACHINE_PLANT,
     "nicks or gouges or drift marks; force through the rollers when fitted; opened or fitted not long before; first spall at marks a roller pitch apart",
     40, "load and time alone 30000", "wrong tool", 0.863599, "handling", 0.062069, 0.008732,
     SPT_DIAGNOSIS_CLEAR, "nicks or gouges or drift marks", 3.8703},
    {"old gearbox", SPT_MACHINE_PLANT,
     "first spall in the middle of the loaded arc; path as it should be; !seal lip torn or hard or worn; !milky grease or drops of water; !greasing overdue; !loads above the plate",
     60000,
     "load and time alone 30000; dirt from outside 6000; water let in 12000; overload 9000; out of line 8000; wrong lubricant 15000; worn-out lubricant 20000",
     "load and time alone", 0.626013, "wrong lubricant", 0.168381, 0.017928, SPT_DIAGNOSIS_LIKELY,
     "first spall in the middle of the loaded arc", 3.3722},
    {"drum that slips", SPT_MACHINE_PLANT,
     "ring turned in its seat; red-brown powder in the seat; this row only; !hot from the first hours; !little or no lubricant in the rollers",
     (double)NAN, NULL, "loose fit", 0.571441, "out of line", 0.089349, 0.036230,
     SPT_DIAGNOSIS_LIKELY, "ring turned in its seat", 2.8278},
};

static void diagnose(const struct row *row, struct diagnosis_case *made,
                     struct spt_diagnosis *result)
{
    diagnosis_case_make(made, &file.causes, row->machine, row->findings, row->hours, row->lives);
    cr_assert_eq(spt_diagnose(&made->one, &arena, result), SPT_OK, "%s", row->title);
}

Test(diagnosis, weighs_the_cases_of_practice)
{
    const struct spt_diagnosis_table *table = &file.causes.table;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct diagnosis_case made;
        struct spt_diagnosis got;
        const struct row *row = &rows[i];
        diagnose(row, &made, &got);
        cr_expect_str_eq(table->causes[got.order[0]].name, row->first, "%s", row->title);
        cr_expect(near(got.posterior[got.order[0]], row->first_share, 0, 1e-5), "%s: %.6f",
                  row->title, got.posterior[got.order[0]]);
        const int second = diagnosis_cause(&file.causes, row->second);
        cr_expect(near(got.posterior[second], row->second_share, 0, 1e-5), "%s: %.6f", row->title,
                  got.posterior[second]);
        const int other = diagnosis_cause(&file.causes, "another cause");
        cr_expect(near(got.posterior[other], row->other_share, 0, 1e-5), "%s: %.6f", row->title,
                  got.posterior[other]);
        cr_expect_eq(got.verdict, row->verdict, "%s: %d", row->title, (int)got.verdict);
        cr_assert_geq(got.moved_most, 0);
        const struct spt_diagnosis_evidence *most = &got.evidence[got.moved_most];
        cr_expect_str_eq(table->findings[most->findings[0]].name, row->moved, "%s", row->title);
        cr_expect(near(most->factor, row->factor, 1e-4, 0), "%s: %.4f", row->title, most->factor);
    }
}

Test(diagnosis, tells_what_fatigue_alone_explains)
{
    struct diagnosis_case made;
    struct spt_diagnosis got;
    diagnose(&rows[10], &made, &got);
    cr_expect(near(got.fatigue_share, 0.266439, 0, 1e-6), "%.7f", got.fatigue_share);
    cr_expect(near(got.fatigue_share_smeared, 0.304938, 0, 1e-6), "%.7f",
              got.fatigue_share_smeared);
    diagnose(&rows[0], &made, &got);
    cr_expect(near(got.fatigue_share_smeared, 0.000146, 0, 1e-6), "%.7f",
              got.fatigue_share_smeared);
    diagnose(&rows[1], &made, &got);
    cr_expect(!got.timed && isnan(got.fatigue_share));
}

Test(diagnosis, times_a_cause_by_its_law)
{
    double plain, smeared;
    cr_assert_eq(spt_diagnosis_time(5000, 0, 4000, (double)NAN, &plain), SPT_OK);
    cr_assert_eq(spt_diagnosis_time(5000, 0.5, 4000, (double)NAN, &smeared), SPT_OK);
    cr_expect(near(plain, 0.109826475, 0, 1e-8), "%.9f", plain);
    cr_expect(near(smeared, 0.133121260, 0, 1e-8), "%.9f", smeared);
    cr_assert_eq(spt_diagnosis_time(30000, 0.5, 60000, (double)NAN, &smeared), SPT_OK);
    cr_expect(near(smeared, 0.346950455, 0, 1e-8), "%.9f", smeared);
    cr_assert_eq(spt_diagnosis_time(30000, 0.5, 60000, 50000, &smeared), SPT_OK);
    cr_expect(near(smeared, 0.058944341, 0, 1e-8), "%.9f", smeared);
    cr_assert_eq(spt_diagnosis_time(5000, 0, 4000, 0, &plain), SPT_OK);
    cr_expect(near(plain, 1 - 0.928758254, 0, 1e-8), "%.9f", plain);
}

Test(diagnosis, times_early_causes_and_those_of_any_time)
{
    struct diagnosis_case made;
    struct spt_diagnosis got;
    diagnose(&rows[9], &made, &got); /* 40 h, 30 000 h */
    cr_expect(near(got.time[diagnosis_cause(&file.causes, "wrong tool")], 0.160338908, 0, 1e-8));
    cr_expect(near(got.time[diagnosis_cause(&file.causes, "overload")], 0.079292472, 0, 1e-8));
    made.one.last_sound_h = 20; /* integrals of the two densities from 20 to 40 h */
    cr_assert_eq(spt_diagnose(&made.one, &arena, &got), SPT_OK);
    cr_expect(
        near(got.time[diagnosis_cause(&file.causes, "overload")], log(2) / log(300000), 1e-9, 0));
    const double early = (erf(log(7.5) / 2 / sqrt(2)) - erf(log(3.75) / 2 / sqrt(2))) / 2;
    cr_expect(near(got.time[diagnosis_cause(&file.causes, "wrong tool")], early, 1e-9, 0));
}

Test(diagnosis, shifts_priors_by_the_counts_of_a_shop)
{
    double counts[SPT_DIAGNOSIS_CAUSES_MAX] = {0}, prior[SPT_DIAGNOSIS_CAUSES_MAX];
    static const struct {
        const char *cause;
        double count, prior;
    } expected[] = {{"dirt from outside", 11, 0.34},
                    {"water let in", 4, 0.155},
                    {"wrong part or order", 5, 0.135},
                    {"another cause", 0, 0.025}};
    for (size_t i = 0; i < 4; i++)
        counts[diagnosis_cause(&file.causes, expected[i].cause)] = expected[i].count;
    cr_assert_eq(spt_diagnosis_prior(&file.causes.table, SPT_MACHINE_HUB, counts, prior), SPT_OK);
    for (size_t i = 0; i < 4; i++)
        cr_expect(near(prior[diagnosis_cause(&file.causes, expected[i].cause)], expected[i].prior,
                       1e-12, 0),
                  "%s", expected[i].cause);
}

static double mode_of(const struct spt_diagnosis *got, const char *name)
{
    for (int m = 0; m < file.causes.table.mode_count; m++)
        if (!strcmp(file.causes.table.modes[m], name))
            return got->modes[m];
    cr_assert_fail("no mode %s", name);
    return (double)NAN;
}

Test(diagnosis, tells_the_modes_that_the_findings_show)
{
    struct diagnosis_case made;
    struct spt_diagnosis got;
    diagnose(&rows[4], &made, &got);
    cr_expect(near(mode_of(&got, "set too tight"), 0.9990, 0, 5e-5));
    cr_expect(near(mode_of(&got, "roller end scoring"), 0.6667, 0, 5e-5));
    diagnose(&rows[7], &made, &got);
    cr_expect(near(mode_of(&got, "false brinelling"), 0.96, 0, 5e-5));
}

Test(diagnosis, names_the_check_that_tells_most)
{
    struct diagnosis_case made;
    struct spt_diagnosis got;
    diagnose(&rows[3], &made, &got);
    const struct spt_diagnosis_check *check = &got.checks[0];
    cr_assert_eq(got.check_count, 3);
    cr_expect_eq(check->finding,
                 spt_causes_finding(&file.causes, "greased oftener or more than asked"));
    cr_expect(near(check->gain_bit, 0.3620, 0, 5e-5), "%.4f", check->gain_bit);
    cr_assert_eq(check->outcome_count, 2);
    cr_expect(check->outcomes[0].posterior > 0.95);
    cr_expect(near(check->outcomes[1].posterior, 0.61, 0, 0.005), "%.3f",
              check->outcomes[1].posterior);
}

/* One seal lets in both. */
Test(diagnosis, names_two_causes_at_once_where_both_fit_better_together)
{
    struct diagnosis_case made;
    struct spt_diagnosis got;
    diagnosis_case_make(&made, &file.causes, SPT_MACHINE_HUB,
                        "dents of all sizes without order; gritty grease; "
                        "milky grease or drops of water; rust or black lines a roller pitch apart; "
                        "washed under pressure or waded; seal lip torn or hard or worn",
                        (double)NAN, NULL);
    cr_assert_eq(spt_diagnose(&made.one, &arena, &got), SPT_OK);
    cr_expect_eq(got.verdict, SPT_DIAGNOSIS_TWO);
    cr_expect_eq(got.pair[0], diagnosis_cause(&file.causes, "dirt from outside"));
    cr_expect_eq(got.pair[1], diagnosis_cause(&file.causes, "water let in"));
    cr_expect_gt(got.pair_factor, 1);
}

Test(diagnosis, stays_open_where_the_findings_do_not_tell)
{
    static const struct {
        const char *findings;
        enum spt_untold because;
    } cases[] = {
        {"rough when turned by hand; rumble or hum that grew", SPT_UNTOLD_LOW},
        {"gritty grease", SPT_UNTOLD_FEW},
        {"pin-point melted craters; dropped before fitting; hotter after each greasing; "
         "dull worn hollows a roller pitch apart; two opposite arcs",
         SPT_UNTOLD_OTHER},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        struct diagnosis_case made;
        struct spt_diagnosis got;
        diagnosis_case_make(&made, &file.causes, SPT_MACHINE_HUB, cases[i].findings, (double)NAN,
                            NULL);
        cr_assert_eq(spt_diagnose(&made.one, &arena, &got), SPT_OK);
        cr_expect_eq(got.verdict, SPT_DIAGNOSIS_UNTOLD, "%s", cases[i].findings);
        cr_expect_eq(got.untold, cases[i].because, "%s: %d, first %s %.2f", cases[i].findings,
                     (int)got.untold, file.causes.table.causes[got.order[0]].name,
                     got.posterior[got.order[0]]);
    }
}

/* Rules out all causes of the list but the first `left`. */
static void rule_out(struct diagnosis_case *made, int left)
{
    for (int c = 0; c < file.causes.table.cause_count; c++)
        if (file.causes.table.causes[c].time != SPT_CAUSE_TIME_OTHER && left-- <= 0)
            made->ruled_out[c] = true;
}

Test(diagnosis, pairs_no_cause_that_was_ruled_out)
{
    for (int left = 0; left < 4; left++) {
        struct diagnosis_case made;
        struct spt_diagnosis got;
        diagnosis_case_make(&made, &file.causes, SPT_MACHINE_HUB,
                            "milky grease or drops of water; gritty grease", 900,
                            "load and time alone 5000");
        rule_out(&made, left);
        cr_assert_eq(spt_diagnose(&made.one, &arena, &got), SPT_OK);
        for (int i = 0; i < 2; i++)
            cr_expect(left < 2 ? got.pair[i] == -1 : !made.ruled_out[got.pair[i]], "%d left", left);
        cr_expect_eq((bool)isnan(got.pair_factor), left < 2, "%d left", left);
        cr_expect_eq(got.untold == SPT_UNTOLD_RULED_OUT, left == 0, "%d left", left);
        if (!left)
            cr_expect_eq(got.verdict, SPT_DIAGNOSIS_UNTOLD);
    }
}
