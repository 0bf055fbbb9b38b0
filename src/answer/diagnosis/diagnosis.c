/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/diagnosis/diagnosis.h"

#include <stddef.h>
#include <string.h>

#include "answer/diagnosis/diagnosis_parts.h"
#include "answer/diagnosis/diagnosis_words.h"

#define SHOWN 0.5
#define PLAIN 0.9
#define LINE_LENGTH 800

/* Adds words to a line with a divider. */
static void add_words(char *line, const char *divider, const char *words)
{
    const size_t used = strlen(line);
    snprintf(line + used, LINE_LENGTH - used, "%s%s", used ? divider : "", words);
}

/* ---- two at once, modes, return ---- */

static void show_pair(struct spt_page *page, const struct spt_diagnosis_report *report)
{
    const struct spt_diagnosis *result = &report->result;
    if (result->pair[1] < 0 || result->verdict == SPT_DIAGNOSIS_UNTOLD)
        return;
    spt_page_open(page, "Two at once");
    spt_page_say(page, SPT_BODY, "", "%s and %s together fit %.2g times %s as %s alone.",
                 spt_diagnosis_cause(report, result->pair[0]),
                 spt_diagnosis_cause(report, result->pair[1]), result->pair_factor,
                 result->pair_factor > 1 ? "as well" : "as well (below 1: worse)",
                 spt_diagnosis_cause(report, result->pair[0]));
    spt_page_close(page);
}

static void say_modes(struct spt_page *page, const struct spt_diagnosis_report *report)
{
    char line[LINE_LENGTH] = "";
    const struct spt_diagnosis *result = &report->result;
    for (int mode = 0; mode < report->causes->table.mode_count; mode++)
        if (result->modes[mode] >= SHOWN)
            add_words(line, "; ",
                      spt_page_words(page, "%s (%s)", report->causes->table.modes[mode],
                                     result->modes[mode] >= PLAIN ? "plain" : "shown"));
    spt_page_say(page, SPT_BODY, "", "Modes of damage: %s.",
                 *line ? line : "none is shown by these findings");
}

/* What is out of service whatever the cause, as the safety lines say of every wheel bearing. */
static void say_stops(struct spt_page *page, const struct spt_diagnosis_report *report)
{
    char line[LINE_LENGTH] = "";
    for (int i = 0; i < report->stated->finding_count; i++)
        if (spt_diagnosis_stops(report, i))
            add_words(line, "; ",
                      report->causes->table.findings[report->stated->findings[i].finding].name);
    if (*line)
        spt_page_say(page, SPT_BODY, "", "Out of service now: %s.", line);
}

static void show_back(struct spt_page *page, const struct spt_diagnosis_report *report)
{
    const struct spt_going_back going = spt_diagnosis_goes_back(report);
    spt_page_open(page, "Modes, and may it go back");
    say_modes(page, report);
    if (*going.because)
        spt_page_say(page, SPT_BODY, "", "May it go back: %s (%s).",
                     spt_diagnosis_back_name(going.answer),
                     spt_page_words(page, "%s", going.because));
    else
        spt_page_say(page, SPT_BODY, "",
                     "May it go back: not known: wash, look, feel; where in doubt, discard.");
    if (*going.unseen && !*going.because)
        spt_page_say(page, SPT_BODY, "", "Not looked at: %s.", going.unseen);
    say_stops(page, report);
    spt_page_close(page);
}

/* ---- basis and safety ---- */

static void show_basis(struct spt_page *page, const struct spt_diagnosis_report *report)
{
    spt_page_open(page, "Basis");
    spt_page_say(page, SPT_BODY, "",
                 "Judgement of practice, no source: how common causes are, how likely a finding is "
                 "with each, and from when on it is called clear. The table is "
                 "`catalogs/diagnosis.yaml`; a shop can replace it.");
    if (report->past)
        spt_page_say(page, SPT_BODY, "",
                     "%g confirmed cases of %s shift how common causes are; the judgement counts "
                     "as 20. Only cases that another check confirmed belong there, never answers "
                     "of this program, which would feed on themselves.",
                     report->past_total, spt_page_name(page, report->past));
    if (report->result.timed)
        spt_page_say(page, SPT_BODY, "", "Times: %s of %s, by the law behind a1.",
                     spt_page_name(page, report->bearing), spt_page_name(page, report->scenario));
    spt_page_close(page);
}

/* Printed with every answer. Common practice, no source. */
const char *const spt_diagnosis_safety[] = {
    "A rough, loose, hot, coloured, cracked or rust-pitted wheel bearing is out of service "
    "now, whatever the cause. Any damage to the cage, crack or heat colour: discard.",
    "Renew cup and inner assembly together, seal and locking part too; look at the other row "
    "and the other wheel, and after a blow, heat or creep for cracks in spindle and hub.",
    "Never heat a ring or hub with a flame, never spin a bearing with compressed air; eye "
    "protection where hard steel is driven. Hot hubs burn: do not quench them.",
    "Chock and support before a wheel is lifted, lock a machine off before it is opened. Shaft "
    "voltage is measured by an electrician, clear of turning parts.",
    "A seal of fluoro rubber that was burnt leaves acid: gloves, no bare skin.",
    "An opinion on stated findings, no proof for a claim or a court. Keep parts, grease and "
    "photographs until it is settled; sample the grease before washing.",
    NULL,
};

static void show_safety(struct spt_page *page)
{
    spt_page_open(page, "Safety");
    for (int i = 0; spt_diagnosis_safety[i]; i++)
        spt_page_say(page, SPT_BODY, "- ", "%s", spt_diagnosis_safety[i]);
    spt_page_close(page);
}

/* ---- the page ---- */

/* The answer of one case. */
static void show_answer(struct spt_page *page, const struct spt_diagnosis_report *report, bool told)
{
    spt_diagnosis_say_said(page, report, told);
    spt_diagnosis_show_verdict(page, report);
    spt_diagnosis_show_causes(page, report);
    spt_diagnosis_show_evidence(page, report);
    spt_diagnosis_show_fatigue(page, report);
    show_pair(page, report);
    show_back(page, report);
    spt_diagnosis_show_checks(page, report);
    spt_diagnosis_show_prevention(page, report);
    spt_diagnosis_show_stability(page, report);
    spt_diagnosis_show_path(page, report);
}

/* A case of a class: what happened and what was found, the answer behind a fold. */
static void show_lesson(struct spt_page *page, const struct spt_diagnosis_report *reports,
                        int count, const struct spt_diagnosis_report *report)
{
    spt_diagnosis_tell_story(page, reports, count, report);
    spt_page_open_as(page, SPT_SECTION_ANSWER, "The answer");
    show_answer(page, report, true);
    spt_page_close(page);
}

/* The question and all cases of a class, then all answers in a table behind a fold. */
static void show_lessons(struct spt_page *page, const struct spt_diagnosis_report *reports,
                         int count)
{
    spt_diagnosis_ask_all(page, reports, count);
    for (int i = 0; i < count; i++) {
        if (count > 1)
            spt_page_open(page, "%s", spt_page_name(page, reports[i].stated->title));
        show_lesson(page, reports, count, &reports[i]);
        if (count > 1)
            spt_page_close(page);
    }
    if (count < 2)
        return;
    spt_page_open_as(page, SPT_SECTION_ANSWER, "All answers");
    spt_diagnosis_show_list(page, reports, count);
    spt_page_close(page);
}

/* A table of all cases, then each behind a fold; one alone stands open. */
static void show_cases(struct spt_page *page, const struct spt_diagnosis_report *reports, int count)
{
    if (count > 1)
        spt_diagnosis_show_list(page, reports, count);
    for (int i = 0; i < count; i++) {
        if (count > 1)
            spt_page_open_as(page, SPT_SECTION_ANSWER, "%s",
                             spt_page_name(page, reports[i].stated->title));
        spt_diagnosis_say_note(page, &reports[i]);
        show_answer(page, &reports[i], false);
        if (count > 1)
            spt_page_close(page);
    }
}

void spt_diagnosis_page(struct spt_page *page, const struct spt_diagnosis_report *reports,
                        int count)
{
    if (spt_diagnosis_asks(reports, count))
        show_lessons(page, reports, count);
    else
        show_cases(page, reports, count);
    spt_diagnosis_show_paths(page, reports, count);
    show_basis(page, reports);
    show_safety(page);
    spt_diagnosis_keep_rows(page, reports, count);
}
