/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a case says before any answer: its question, what happened, what was found. */
#include <string.h>

#include "answer/diagnosis/diagnosis_parts.h"
#include "answer/diagnosis/diagnosis_words.h"

void spt_diagnosis_say_note(struct spt_page *page, const struct spt_diagnosis_report *report)
{
    if (report->stated->note)
        spt_page_say(page, SPT_BODY, "", "%s.", spt_page_name(page, report->stated->note));
}

bool spt_diagnosis_asks(const struct spt_diagnosis_report *reports, int count)
{
    for (int i = 0; i < count; i++)
        if (reports[i].stated->question)
            return true;
    return false;
}

/* True where all cases ask the same. */
static bool ask_the_same(const struct spt_diagnosis_report *reports, int count)
{
    for (int i = 0; i < count; i++)
        if (!reports[i].stated->question || !reports->stated->question ||
            strcmp(reports[i].stated->question, reports->stated->question) != 0)
            return false;
    return true;
}

static void ask(struct spt_page *page, const struct spt_diagnosis_report *report)
{
    if (report->stated->question)
        spt_page_say(page, SPT_BODY, "Question: ", "%s",
                     spt_page_name(page, report->stated->question));
}

void spt_diagnosis_ask_all(struct spt_page *page, const struct spt_diagnosis_report *reports,
                           int count)
{
    if (count > 1 && ask_the_same(reports, count))
        ask(page, reports);
}

/* A finding as it was stated, in words. */
static void say_finding(struct spt_page *page, const struct spt_diagnosis_report *report, int at)
{
    const struct spt_case_finding *finding = &report->stated->findings[at];
    spt_page_say(
        page, SPT_BODY, "- ", "%s%s%s%s.",
        finding->seen ? "" : "not there: ", report->causes->table.findings[finding->finding].name,
        finding->sure < 1 ? spt_page_words(page, " (sure: %s)", spt_sure_name(finding->sure)) : "",
        finding->note ? spt_page_words(page, ": %s", spt_page_name(page, finding->note)) : "");
}

void spt_diagnosis_tell_story(struct spt_page *page, const struct spt_diagnosis_report *reports,
                              int count, const struct spt_diagnosis_report *report)
{
    spt_diagnosis_say_note(page, report);
    if (count == 1 || !ask_the_same(reports, count))
        ask(page, report);
    spt_page_open(page, "What was found");
    for (int i = 0; i < report->stated->finding_count; i++)
        say_finding(page, report, i);
    if (report->stated->destroyed)
        spt_page_say(page, SPT_BODY, "- ", "run to destruction.");
    if (!report->stated->finding_count)
        spt_page_say(page, SPT_BODY, "", "Nothing.");
    spt_page_close(page);
}

void spt_diagnosis_say_said(struct spt_page *page, const struct spt_diagnosis_report *report,
                            bool told)
{
    const struct spt_damage_case *stated = report->stated;
    for (int i = 0; i < stated->finding_count; i++) {
        const struct spt_case_finding *finding = &stated->findings[i];
        const struct spt_diagnosis_finding *known =
            &report->causes->table.findings[finding->finding];
        if (finding->said)
            spt_page_say(page, SPT_BODY, "- ", "\"%s\" was taken for: %s%s.",
                         spt_page_name(page, finding->said), finding->seen ? "" : "not ",
                         known->name);
        if (known->remark && finding->seen)
            spt_page_say(page, SPT_BODY, "- ", "%s: %s", known->name, known->remark);
        if (finding->note && !told)
            spt_page_say(page, SPT_BODY, "- ", "%s: %s.", known->name,
                         spt_page_name(page, finding->note));
    }
}
