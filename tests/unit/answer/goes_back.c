/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whether a damaged bearing may go back: never looser than what was seen or what was not looked at
 * allows. All of it is judgement of practice, no source. */
#include <criterion/criterion.h>
#include <math.h>
#include <string.h>

#include "answer/diagnosis/diagnosis.h"
#include "support/diagnosis_case.h"
#include "support/guide_file.h"

/* Every group with a finding that keeps a bearing out, looked at and nothing found. */
#define SOUND                                                                                      \
    "!first spall at one edge; !dents of all sizes without order; !torn or smeared metal; "        \
    "!ring or rib broken with a coarse grain; !cage bent or broken; "                              \
    "!even grey lines like a washboard; !worn dull or polished; "                                  \
    "!straw to blue colour that stays; !ring turned in its seat; "
#define DRY "!rust or black lines a roller pitch apart; "

static struct guide_file file;

static void load(void)
{
    guide_file_load(&file);
}

static void release(void)
{
    guide_file_free(&file);
}

TestSuite(goes_back, .init = load, .fini = release);

static struct diagnosis_case made;
static struct spt_case_finding findings[SPT_DIAGNOSIS_FINDINGS_MAX];
static struct spt_damage_case stated;
static struct spt_arena arena;

/* A hub of these findings, weighed. */
static struct spt_diagnosis_report report_of(const char *said)
{
    struct spt_diagnosis_report report = {.causes = &file.causes, .stated = &stated};
    diagnosis_case_make(&made, &file.causes, SPT_MACHINE_HUB, said, (double)NAN, NULL);
    report.asked = made.one;
    for (int i = 0; i < made.one.answer_count; i++)
        findings[i] = (struct spt_case_finding){
            .finding = made.answers[i].finding, .seen = made.answers[i].seen, .sure = 1};
    stated = (struct spt_damage_case){.findings = findings, .finding_count = made.one.answer_count};
    cr_assert_eq(spt_diagnose(&report.asked, &arena, &report.result), SPT_OK);
    return report;
}

static void expect_back(const char *said, enum spt_goes_back answer, const char *because)
{
    const struct spt_diagnosis_report report = report_of(said);
    const struct spt_going_back going = spt_diagnosis_goes_back(&report);
    cr_expect_eq(going.answer, answer, "%s: %d, not %d", said, (int)going.answer, (int)answer);
    cr_expect_str_eq(going.because, because, "%s", said);
    spt_arena_free(&arena);
}

Test(goes_back, follows_the_strictest_of_findings_and_shown_modes)
{
    static const struct {
        const char *said;
        enum spt_goes_back answer;
        const char *because;
    } rows[] = {
        {"red-brown powder in the seat", SPT_GOES_BACK_NO, "creep"},
        {"red-brown powder in the seat; " SOUND DRY, SPT_GOES_BACK_UNKNOWN, ""},
        {"rust or etch stains on running surfaces; red-brown powder in the seat", SPT_GOES_BACK_NO,
         "creep"},
        {"rust or etch stains on running surfaces; gritty grease; cage bent or broken",
         SPT_GOES_BACK_NO, "cage bent or broken"},
        {"rust or etch stains on running surfaces; " SOUND, SPT_GOES_BACK_INSPECTED,
         "rust or etch stains on running surfaces"},
        {"loose or play grew; hot with no pattern; " SOUND DRY, SPT_GOES_BACK_INSPECTED,
         "set too loose"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        expect_back(rows[i].said, rows[i].answer, rows[i].because);
}

Test(goes_back, is_not_known_before_every_group_was_looked_at)
{
    expect_back("loose or play grew; hot with no pattern", SPT_GOES_BACK_UNKNOWN, "");
    expect_back("rust or etch stains on running surfaces", SPT_GOES_BACK_UNKNOWN, "");
    expect_back("!first spall at one edge", SPT_GOES_BACK_UNKNOWN, "");
    expect_back(SOUND DRY, SPT_GOES_BACK_UNKNOWN, ""); /* no mode is shown: never yes */
    const struct spt_diagnosis_report report = report_of("rust or etch stains on running surfaces; "
                                                         "!worn dull or polished");
    const struct spt_going_back going = spt_diagnosis_goes_back(&report);
    cr_expect_str_eq(going.unseen, "spall, mark, smear, electric, colour, cage, seat, break");
    spt_arena_free(&arena);
}

/* Nothing that is added to what was seen makes the answer looser. */
Test(goes_back, one_more_finding_never_loosens_it)
{
    const struct spt_diagnosis_table *table = &file.causes.table;
    static const int rank[] = {
        [SPT_GOES_BACK_NO] = 2, [SPT_GOES_BACK_UNKNOWN] = 1, [SPT_GOES_BACK_INSPECTED] = 0};
    for (int f = 0; f < table->finding_count; f++) {
        char said[400];
        const char *base = "cage pockets worn wide; even grey lines like a washboard";
        snprintf(said, sizeof said, "%s; %s", base, table->findings[f].name);
        if (strstr(base, table->findings[f].name))
            continue;
        const struct spt_diagnosis_report report = report_of(said);
        cr_expect_eq(rank[spt_diagnosis_goes_back(&report).answer], 2, "%s", said);
        spt_arena_free(&arena);
    }
}

Test(goes_back, says_what_puts_a_wheel_bearing_out_of_service)
{
    const struct spt_diagnosis_report report =
        report_of("loose or play grew; hot with no pattern; gritty grease; !turns stiffly");
    cr_expect(spt_diagnosis_stops(&report, 0));
    cr_expect(spt_diagnosis_stops(&report, 1));
    cr_expect_not(spt_diagnosis_stops(&report, 2));
    cr_expect_not(spt_diagnosis_stops(&report, 3));
    struct spt_diagnosis_report plant = report;
    plant.asked.machine = SPT_MACHINE_PLANT;
    cr_expect_not(spt_diagnosis_stops(&plant, 0), "a motor is no wheel");
    spt_arena_free(&arena);
}
