/* SPDX-License-Identifier: GPL-3.0-or-later */
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

TestSuite(diagnosis_property, .init = load, .fini = release);

#define HUB_FINDINGS                                                                               \
    "dents of all sizes without order; gritty grease; seal lip torn or hard or worn; "             \
    "heavy dust or mud at the seal; path as it should be; !milky grease or drops of water; "       \
    "!hot from the first hours; !hotter after each greasing"
#define HUB_LIVES                                                                                  \
    "load and time alone 232000; dirt from outside 13100; water let in 79300; "                    \
    "worn-out lubricant 220000; too tight 30000"

static void make(struct diagnosis_case *made)
{
    diagnosis_case_make(made, &file.causes, SPT_MACHINE_HUB, HUB_FINDINGS, 9000, HUB_LIVES);
}

static struct spt_diagnosis weigh(const struct spt_diagnosis_case *one)
{
    struct spt_diagnosis got;
    cr_assert_eq(spt_diagnose(one, &arena, &got), SPT_OK);
    return got;
}

static void expect_same(const struct spt_diagnosis *a, const struct spt_diagnosis *b,
                        double tolerance, const char *what)
{
    for (int c = 0; c < file.causes.table.cause_count; c++)
        cr_expect(near(a->posterior[c], b->posterior[c], 0, tolerance), "%s, %s: %g, %g", what,
                  file.causes.table.causes[c].name, a->posterior[c], b->posterior[c]);
}

Test(diagnosis_property, posteriors_sum_to_1)
{
    struct diagnosis_case made;
    double sum = 0;
    make(&made);
    const struct spt_diagnosis got = weigh(&made.one);
    for (int c = 0; c < file.causes.table.cause_count; c++)
        sum += got.posterior[c];
    cr_expect(near(sum, 1, 1e-12, 0));
}

Test(diagnosis_property, the_order_of_findings_changes_nothing)
{
    struct diagnosis_case made, turned;
    make(&made);
    make(&turned);
    for (int i = 0; i < made.one.answer_count; i++)
        turned.answers[i] = made.answers[made.one.answer_count - 1 - i];
    turned.one.answers = turned.answers;
    const struct spt_diagnosis a = weigh(&made.one), b = weigh(&turned.one);
    expect_same(&a, &b, 1e-12, "order of findings");
}

/* The table with its causes, groups and findings the other way round. */
Test(diagnosis_property, the_order_of_the_table_changes_nothing)
{
    static struct spt_diagnosis_cause causes[SPT_DIAGNOSIS_CAUSES_MAX];
    static struct spt_diagnosis_group groups[SPT_DIAGNOSIS_GROUPS_MAX];
    static struct spt_diagnosis_finding findings[SPT_DIAGNOSIS_FINDINGS_MAX];
    static enum spt_likelihood levels[SPT_DIAGNOSIS_FINDINGS_MAX][SPT_DIAGNOSIS_CAUSES_MAX];
    const struct spt_diagnosis_table *table = &file.causes.table;
    struct spt_diagnosis_table turned = *table;
    struct diagnosis_case made;
    make(&made);
    const struct spt_diagnosis before = weigh(&made.one);
    const int cause_count = table->cause_count, finding_count = table->finding_count;
    for (int c = 0; c < cause_count; c++)
        causes[c] = table->causes[cause_count - 1 - c];
    for (int g = 0; g < table->group_count; g++)
        groups[g] = table->groups[table->group_count - 1 - g];
    for (int f = 0; f < finding_count; f++) {
        findings[f] = table->findings[finding_count - 1 - f];
        for (int c = 0; c < cause_count; c++)
            levels[f][c] = findings[f].of_cause[cause_count - 1 - c];
        findings[f].of_cause = levels[f];
        findings[f].group = table->group_count - 1 - findings[f].group;
    }
    turned.causes = causes;
    turned.groups = groups;
    turned.findings = findings;
    for (int i = 0; i < made.one.answer_count; i++)
        made.answers[i].finding = finding_count - 1 - made.answers[i].finding;
    double life_h[SPT_DIAGNOSIS_CAUSES_MAX];
    for (int c = 0; c < cause_count; c++)
        life_h[c] = made.life_h[cause_count - 1 - c];
    made.one.table = &turned;
    made.one.answers = made.answers;
    made.one.ruled_out = NULL;
    made.one.life_h = life_h;
    const struct spt_diagnosis after = weigh(&made.one);
    for (int c = 0; c < cause_count; c++)
        cr_expect(near(after.posterior[c], before.posterior[cause_count - 1 - c], 0, 1e-12));
}

/* A table in which one finding is as likely under every cause. */
static void level_finding(struct spt_diagnosis_table *table, struct spt_diagnosis_finding *findings,
                          enum spt_likelihood *levels, int finding, enum spt_likelihood level)
{
    *table = file.causes.table;
    memcpy(findings, table->findings, (size_t)table->finding_count * sizeof *findings);
    for (int c = 0; c < table->cause_count; c++)
        levels[c] = level;
    findings[finding].of_cause = levels;
    table->findings = findings;
}

Test(diagnosis_property, a_finding_as_likely_under_every_cause_changes_nothing)
{
    static struct spt_diagnosis_finding findings[SPT_DIAGNOSIS_FINDINGS_MAX];
    enum spt_likelihood levels[SPT_DIAGNOSIS_CAUSES_MAX];
    struct spt_diagnosis_table table;
    struct diagnosis_case with, without;
    const int added = spt_causes_finding(&file.causes, "bits of metal or rubber in the grease");
    level_finding(&table, findings, levels, added, SPT_LIKELIHOOD_OFTEN);
    make(&with);
    make(&without);
    with.answers[with.one.answer_count++] = (struct spt_diagnosis_answer){added, true, 1};
    with.one.table = without.one.table = &table;
    const struct spt_diagnosis a = weigh(&with.one), b = weigh(&without.one);
    expect_same(&a, &b, 1e-12, "a finding that says nothing");
}

Test(diagnosis_property, an_answer_that_is_hardly_known_moves_less)
{
    struct diagnosis_case made;
    diagnosis_case_make(&made, &file.causes, SPT_MACHINE_HUB, "gritty grease", (double)NAN, NULL);
    const int cause = diagnosis_cause(&file.causes, "dirt from outside");
    double before = INFINITY;
    static const double sures[] = {1, 0.8, 0.6, 0.5 + 1e-9};
    for (int i = 0; i < 4; i++) {
        made.answers[0].sure = sures[i];
        const struct spt_diagnosis got = weigh(&made.one);
        cr_expect_lt(got.posterior[cause], before);
        before = got.posterior[cause];
        if (i == 3) /* nothing is left of it */
            for (int c = 0; c < file.causes.table.cause_count; c++)
                cr_expect(near(got.posterior[c], got.prior[c], 0, 1e-6));
    }
}

Test(diagnosis_property, without_findings_and_hours_the_posterior_is_the_prior)
{
    struct diagnosis_case made;
    for (int machine = 0; machine < SPT_MACHINE_COUNT; machine++) {
        diagnosis_case_make(&made, &file.causes, (enum spt_machine_group)machine, "", (double)NAN,
                            NULL);
        const struct spt_diagnosis got = weigh(&made.one);
        cr_expect_eq(got.verdict, SPT_DIAGNOSIS_UNTOLD);
        for (int c = 0; c < file.causes.table.cause_count; c++)
            cr_expect(near(got.posterior[c], got.judged[c], 0, 1e-12));
    }
}

Test(diagnosis_property, what_is_ruled_out_is_0_and_the_others_keep_their_ratios)
{
    struct diagnosis_case made;
    make(&made);
    const struct spt_diagnosis before = weigh(&made.one);
    const int out = diagnosis_cause(&file.causes, "dirt built in");
    const int other = diagnosis_cause(&file.causes, "another cause");
    const int first = diagnosis_cause(&file.causes, "dirt from outside");
    made.ruled_out[out] = true;
    made.one.ruled_out = made.ruled_out;
    const struct spt_diagnosis after = weigh(&made.one);
    cr_expect_eq(after.posterior[out], 0);
    for (int c = 0; c < file.causes.table.cause_count; c++)
        if (c != out && c != other)
            cr_expect(near(after.posterior[c] / after.posterior[first],
                           before.posterior[c] / before.posterior[first], 1e-9, 0));
}

Test(diagnosis_property, a_huge_count_of_one_cause_makes_it_certain)
{
    struct diagnosis_case made;
    double counts[SPT_DIAGNOSIS_CAUSES_MAX] = {0};
    const int cause = diagnosis_cause(&file.causes, "overload");
    make(&made);
    counts[cause] = 1e9;
    made.one.counts = counts;
    const struct spt_diagnosis got = weigh(&made.one);
    cr_expect(near(got.prior[cause], 1, 1e-6, 0));
    cr_expect_eq(got.order[0], cause);
}

Test(diagnosis_property, a_likelier_finding_never_lowers_its_cause)
{
    static struct spt_diagnosis_finding findings[SPT_DIAGNOSIS_FINDINGS_MAX];
    const int finding = spt_causes_finding(&file.causes, "shaft or shoulder out of true");
    const int cause = diagnosis_cause(&file.causes, "handling");
    enum spt_likelihood levels[SPT_DIAGNOSIS_CAUSES_MAX];
    struct spt_diagnosis_table table = file.causes.table;
    struct diagnosis_case made;
    double before = 0;
    memcpy(findings, table.findings, (size_t)table.finding_count * sizeof *findings);
    memcpy(levels, findings[finding].of_cause, (size_t)table.cause_count * sizeof *levels);
    findings[finding].of_cause = levels;
    table.findings = findings;
    diagnosis_case_make(&made, &file.causes, SPT_MACHINE_HUB,
                        "shaft or shoulder out of true; rough when turned by hand", (double)NAN,
                        NULL);
    made.one.table = &table;
    for (int level = 0; level < SPT_LIKELIHOOD_COUNT; level++) {
        levels[cause] = (enum spt_likelihood)level;
        const struct spt_diagnosis got = weigh(&made.one);
        cr_expect_gt(got.posterior[cause], before, "level %d", level);
        before = got.posterior[cause];
    }
}

Test(diagnosis_property, scaling_hours_and_lives_together_changes_no_life)
{
    for (double factor = 0.1; factor < 50; factor *= 3) {
        double plain, scaled;
        cr_assert_eq(spt_diagnosis_time(5000, 0.5, 4000, 1000, &plain), SPT_OK);
        cr_assert_eq(spt_diagnosis_time(5000 * factor, 0.5, 4000 * factor, 1000 * factor, &scaled),
                     SPT_OK);
        cr_expect(near(scaled, plain, 1e-12, 0), "%g", factor);
    }
}

Test(diagnosis_property, each_gain_is_between_0_and_the_entropy)
{
    struct diagnosis_case made;
    double entropy = 0;
    make(&made);
    const struct spt_diagnosis got = weigh(&made.one);
    for (int c = 0; c < file.causes.table.cause_count; c++)
        entropy -= got.posterior[c] > 0 ? got.posterior[c] * log2(got.posterior[c]) : 0;
    for (int i = 0; i < got.check_count; i++) {
        const struct spt_diagnosis_check *check = &got.checks[i];
        double sum = 0;
        cr_expect(check->gain_bit >= 0 && check->gain_bit <= entropy);
        for (int k = 0; k < check->outcome_count; k++)
            sum += check->outcomes[k].probability;
        cr_expect(near(sum, 1, 1e-12, 0), "answers of a question: %.15g", sum);
    }
}

Test(diagnosis_property, evidence_adds_up_to_the_odds_of_the_first_two)
{
    struct diagnosis_case made;
    make(&made);
    const struct spt_diagnosis got = weigh(&made.one);
    const int first = got.order[0], second = got.order[1];
    double sum = log(got.prior[first] / got.prior[second] * got.time[first] / got.time[second]);
    for (int i = 0; i < got.evidence_count; i++)
        sum += got.evidence[i].log_odds;
    cr_expect(near(sum, log(got.posterior[first] / got.posterior[second]), 1e-9, 0));
}

Test(diagnosis_property, a_bearing_run_to_destruction_is_known_less)
{
    struct diagnosis_case made;
    diagnosis_case_make(&made, &file.causes, SPT_MACHINE_HUB,
                        "straw to blue colour that stays; torn or smeared metal; "
                        "little or no lubricant in the rollers",
                        (double)NAN, NULL);
    const struct spt_diagnosis plain = weigh(&made.one);
    made.one.destroyed = true;
    const struct spt_diagnosis burnt = weigh(&made.one);
    cr_expect_str_eq(file.causes.table.causes[plain.order[0]].name, "too little lubricant");
    cr_expect_lt(burnt.posterior[burnt.order[0]], plain.posterior[plain.order[0]]);
    cr_expect_eq(burnt.verdict, SPT_DIAGNOSIS_UNTOLD);
}

Test(diagnosis_property, refuses_what_is_out_of_range)
{
    struct diagnosis_case made;
    struct spt_diagnosis got;
    double x;
    make(&made);
#define REFUSED(change)                                                                            \
    {                                                                                              \
        struct spt_diagnosis_case one = made.one;                                                  \
        change;                                                                                    \
        cr_expect_eq(spt_diagnose(&one, &arena, &got), SPT_BAD_ARGUMENT, "%s", #change);           \
    }
    double negative[SPT_DIAGNOSIS_CAUSES_MAX] = {-1};
    REFUSED(one.table = NULL);
    REFUSED(one.answers = NULL);
    REFUSED(one.hours = -1);
    REFUSED(one.hours = INFINITY);
    REFUSED(one.last_sound_h = 9001);
    REFUSED(one.doubt = -0.1);
    REFUSED(one.counts = negative);
    REFUSED(made.answers[0].sure = 0.5);
    made.answers[0].sure = 1;
    REFUSED(made.answers[1] = made.answers[0]);
    cr_expect_eq(spt_diagnosis_time(-1, 0.5, 100, (double)NAN, &x), SPT_BAD_ARGUMENT);
    cr_expect_eq(spt_diagnosis_time(100, 0.5, 0, (double)NAN, &x), SPT_BAD_ARGUMENT);
    cr_expect_eq(spt_diagnosis_time(100, 0.5, 100, 200, &x), SPT_BAD_ARGUMENT);
    cr_expect(isnan(x));
}

/* ---- paths ---- */

/* Letters of geometry and trade knowledge (pictures of ISO 15243, from memory): a arc, s short, f
 * round, F round and wide at load, e arc at one edge, E round at one edge, z slanted, b broad, w
 * long, 2 two patches; inner ring first. */
Test(diagnosis_property, paths_follow_the_ring_to_which_the_load_stands_still)
{
    static const struct {
        enum spt_path_condition condition;
        const char *outer_stands, *inner_stands;
    } rows[] = {
        {SPT_PATH_NORMAL, "fa", "af"},      {SPT_PATH_LOOSE, "fs", "sf"},
        {SPT_PATH_TIGHT, "fF", "Ff"},       {SPT_PATH_THRUST, "ff", "ff"},
        {SPT_PATH_BENT, "Ee", "eE"},        {SPT_PATH_INNER_ASKEW, "zb", "eE"},
        {SPT_PATH_OUTER_ASKEW, "Ee", "bz"}, {SPT_PATH_INNER_OVAL, "2w", "2f"},
        {SPT_PATH_OUTER_OVAL, "f2", "w2"},
    };
    static const char letters[] = "asfFeEzbw2";
    static const enum spt_ring turning[] = {SPT_RING_INNER, SPT_RING_INNER, SPT_RING_OUTER,
                                            SPT_RING_OUTER};
    static const bool load_turns[] = {false, true, false, true};
    static const enum spt_ring standing[] = {SPT_RING_OUTER, SPT_RING_INNER, SPT_RING_INNER,
                                             SPT_RING_OUTER};
    cr_assert_eq(strlen(letters), SPT_PATH_COUNT);
    for (int line = 0; line < 4; line++) {
        const enum spt_ring stands = spt_path_standing(turning[line], load_turns[line]);
        cr_expect_eq(stands, standing[line], "line %d", line + 1);
        for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
            const char *want =
                stands == SPT_RING_OUTER ? rows[i].outer_stands : rows[i].inner_stands;
            for (int ring = 0; ring < SPT_RING_COUNT; ring++)
                cr_expect_eq(
                    letters[spt_path_expected(rows[i].condition, stands, (enum spt_ring)ring)],
                    want[ring], "line %d, row %zu, ring %d", line + 1, i, ring);
        }
    }
}

Test(diagnosis_property, an_arc_tells_its_load_zone)
{
    static const struct {
        double deg, zone;
    } rows[] = {{75, 0.1033}, {120, 0.25}, {180, 0.5}, {300, 0.933}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        cr_expect(near(spt_path_zone(rows[i].deg * acos(-1) / 180), rows[i].zone, 0, 5e-5));
    cr_expect(isnan(spt_path_zone(-0.1)) && isnan(spt_path_zone(6.4)));
}
