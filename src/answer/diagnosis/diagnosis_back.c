/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whether a bearing may go back: never a plain yes. Judgement of practice, no source. */
#include <stdio.h>
#include <string.h>

#include "answer/diagnosis/diagnosis.h"

#define SHOWN 0.5 /* a mode of this chance is shown */

/* What a mode of the guide says. */
static enum spt_finding_back back_of_mode(const struct spt_diagnosis_report *report, int mode)
{
    return report->causes->guide->entries[mode].goes_back == SPT_RETURN_NO
               ? SPT_FINDING_BACK_NO
               : SPT_FINDING_BACK_INSPECTED;
}

/* Takes a word and what says it where it is stricter than what was known. */
static void take_stricter(enum spt_finding_back back, const char *name, enum spt_finding_back *most,
                          struct spt_going_back *going)
{
    if (back <= *most)
        return;
    *most = back;
    snprintf(going->because, sizeof going->because, "%s", name);
}

/* True where a finding of the group keeps a bearing out. */
static bool decides(const struct spt_diagnosis_table *table, int group)
{
    for (int f = 0; f < table->finding_count; f++)
        if (table->findings[f].group == group && table->findings[f].back == SPT_FINDING_BACK_NO)
            return true;
    return false;
}

/* True where the case says something about the group, be it that it was not there. */
static bool is_looked_at(const struct spt_diagnosis_report *report, int group)
{
    const struct spt_damage_case *stated = report->stated;
    for (int i = 0; i < stated->finding_count; i++)
        if (report->causes->table.findings[stated->findings[i].finding].group == group)
            return true;
    return false;
}

/* The groups that keep a bearing out and were not looked at: "spall, mark". */
static void list_unseen(const struct spt_diagnosis_report *report, char *line, size_t size)
{
    const struct spt_diagnosis_table *table = &report->causes->table;
    *line = 0;
    for (int group = 0; group < table->group_count; group++) {
        const size_t used = strlen(line);
        if (decides(table, group) && !is_looked_at(report, group))
            snprintf(line + used, size - used, "%s%s", used ? ", " : "", table->groups[group].name);
    }
}

struct spt_going_back spt_diagnosis_goes_back(const struct spt_diagnosis_report *report)
{
    const struct spt_damage_case *stated = report->stated;
    const struct spt_diagnosis_table *table = &report->causes->table;
    enum spt_finding_back most = SPT_FINDING_BACK_OPEN;
    struct spt_going_back going = {.answer = SPT_GOES_BACK_UNKNOWN};
    if (stated->destroyed)
        take_stricter(SPT_FINDING_BACK_NO, "run to destruction", &most, &going);
    for (int i = 0; i < stated->finding_count; i++)
        if (stated->findings[i].seen) {
            const struct spt_diagnosis_finding *finding =
                &table->findings[stated->findings[i].finding];
            take_stricter(finding->back, finding->name, &most, &going);
        }
    for (int mode = 0; mode < table->mode_count; mode++)
        if (report->result.modes[mode] >= SHOWN)
            take_stricter(back_of_mode(report, mode), table->modes[mode], &most, &going);
    list_unseen(report, going.unseen, sizeof going.unseen);
    if (most == SPT_FINDING_BACK_NO)
        going.answer = SPT_GOES_BACK_NO;
    else if (most == SPT_FINDING_BACK_INSPECTED && !*going.unseen)
        going.answer = SPT_GOES_BACK_INSPECTED;
    else
        *going.because = 0;
    return going;
}

bool spt_diagnosis_stops(const struct spt_diagnosis_report *report, int at)
{
    const struct spt_case_finding *finding = &report->stated->findings[at];
    return report->asked.machine == SPT_MACHINE_HUB && finding->seen &&
           report->causes->table.findings[finding->finding].stops;
}
