/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What puts an answer in doubt or was left out of it. */
#include <math.h>
#include <stdarg.h>
#include <stdio.h>

#include "answer/diagnosis/diagnosis_parts.h"
#include "answer/diagnosis/diagnosis_words.h"

#define LINE_LENGTH 500

/* Where warnings go. */
struct taker {
    void (*take)(void *to, const char *sentence);
    void *to;
    char line[LINE_LENGTH];
};

static void warn(struct taker *taker, const char *format, ...)
    __attribute__((format(printf, 2, 3)));
static void warn(struct taker *taker, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(taker->line, sizeof taker->line, format, arguments);
    va_end(arguments);
    taker->take(taker->to, taker->line);
}

/* The place of a finding among those of the case, seen or looked for and not there; -1: neither. */
static int find_stated(const struct spt_diagnosis_report *report, int finding, bool seen)
{
    const struct spt_damage_case *stated = report->stated;
    for (int i = 0; i < stated->finding_count; i++)
        if (stated->findings[i].finding == finding && stated->findings[i].seen == seen)
            return i;
    return -1;
}

/* What a finding that was seen says against others that were stated. */
static void warn_of_ties(const struct spt_diagnosis_report *report, int at, struct taker *taker)
{
    const struct spt_damage_case *stated = report->stated;
    const struct spt_diagnosis_finding *findings = report->causes->table.findings;
    const struct spt_case_finding *one = &stated->findings[at];
    const struct spt_finding_ties *ties = &report->causes->ties[one->finding];
    for (int i = 0; i < ties->excluded_count; i++) {
        const int other = find_stated(report, ties->excluded[i], true);
        if (other >= 0)
            warn(taker,
                 "%s (line %d) and %s (line %d) contradict each other; look again, or leave one "
                 "out.",
                 findings[one->finding].name, one->mark.line, findings[ties->excluded[i]].name,
                 stated->findings[other].mark.line);
    }
    for (int i = 0; i < ties->implied_count; i++) {
        const int other = find_stated(report, ties->implied[i], false);
        if (other >= 0)
            warn(taker,
                 "%s (line %d) was seen, but %s, which goes with it, was not (line %d); look "
                 "again, or leave one out.",
                 findings[one->finding].name, one->mark.line, findings[ties->implied[i]].name,
                 stated->findings[other].mark.line);
    }
}

/* A measured path that does not go with the path that was found. */
static void warn_of_arc(const struct spt_diagnosis_report *report, int at, struct taker *taker)
{
    const struct spt_damage_case *stated = report->stated;
    const struct spt_case_finding *one = &stated->findings[at];
    const struct spt_finding_ties *ties = &report->causes->ties[one->finding];
    const bool out = stated->arc_rad < ties->arc_from_rad || stated->arc_rad > ties->arc_to_rad;
    if (out && stated->arc_ring == report->standing)
        warn(taker,
             "%s (line %d) does not go with a measured arc of %.0f deg (line %d); look again, or "
             "leave one out.",
             report->causes->table.findings[one->finding].name, one->mark.line,
             stated->arc_rad * 180 / acos(-1), stated->arc_mark.line);
}

/* Why hours do not count, or not by the life of a variant. */
static void warn_of_times(const struct spt_diagnosis_report *report, struct taker *taker)
{
    const struct spt_damage_case *stated = report->stated;
    if (isnan(stated->ran) && report->scenario)
        warn(taker, "Hours not stated: times do not count.");
    else if (!report->result.timed && !isnan(stated->ran))
        warn(taker, "%s",
             report->scenario ? "The hours do not count: the scenario has no finite life."
                              : "The hours do not count: they need a `scenario`.");
    for (int i = 0; report->result.timed && i < stated->condition_count; i++) {
        const double life_h = report->asked.life_h[stated->conditions[i].cause];
        if (!(life_h > 0) || isinf(life_h))
            warn(taker,
                 "The variant \"" SPT_NAMED "\" has no finite life: %s is taken to strike at any "
                 "time.",
                 stated->conditions[i].variant,
                 spt_diagnosis_cause(report, stated->conditions[i].cause));
    }
}

/* Cases of no known cause say that the list has a gap. */
static void warn_of_counts(const struct spt_diagnosis_report *report, struct taker *taker)
{
    const int other = spt_diagnosis_other(&report->causes->table);
    if (!report->asked.counts || !(report->asked.counts[other] > 0))
        return;
    warn(taker,
         "The shop counts %g cases of %s: they speak against every cause of the list. Where the "
         "cause was found, add it to the table and count it by its name.",
         report->asked.counts[other], spt_diagnosis_cause(report, other));
}

void spt_diagnosis_warn(const struct spt_diagnosis_report *report,
                        void (*take)(void *to, const char *sentence), void *to)
{
    struct taker taker = {take, to, ""};
    for (int i = 0; i < report->stated->finding_count; i++)
        if (report->stated->findings[i].seen) {
            warn_of_ties(report, i, &taker);
            warn_of_arc(report, i, &taker);
        }
    if (report->stated->destroyed)
        warn(&taker, "Run to destruction: the end hides what began it, so colours, smears, cage, "
                     "grease, seats, turning and breaks count hardly. What was done before and the "
                     "other row tell most.");
    warn_of_times(report, &taker);
    warn_of_counts(report, &taker);
}
