/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <string.h>

#include <limits.h>

#include "cli/command.h"

const struct spt_command spt_command_table[] = {
    {"life", "FILE", "the life under a duty cycle, the causes of loss, the flags",
     SPT_TAKES_MEASURED | SPT_TAKES_REPORT | SPT_TAKES_SAMPLES, 1, 1, spt_command_life},
    {"compare", "FILE...", "scenarios and their variants side by side",
     SPT_TAKES_MEASURED | SPT_TAKES_REPORT, 1, SPT_COMPARED_MAX, spt_command_compare},
    {"reach", "FILE", "the change of a single input that reaches a wanted life",
     SPT_TAKES_MEASURED | SPT_TAKES_REPORT | SPT_TAKES_TARGET, 1, 1, spt_command_reach},
    {"choose", "FILE", "bearings of a list tried in the place of those of a scenario",
     SPT_TAKES_REPORT_BUT_EXPLAIN | SPT_TAKES_CHOICE, 1, 1, spt_command_choose},
    {"timeline", "FILE", "the damage over time with regreasing, events and drifts",
     SPT_TAKES_MEASURED | SPT_TAKES_REPORT, 1, 1, spt_command_timeline},
    {"sweep", "FILE", "many load cases at once, one row each",
     SPT_TAKES_MEASURED | SPT_TAKES_SWEEP | SPT_TAKES_OUTPUT | SPT_TAKES_CATALOG, 1, 1,
     spt_command_sweep},
    {"report", "FILE", "an HTML page with charts, tables and the calculation, or one chart",
     SPT_TAKES_MEASURED | SPT_TAKES_OUTPUT | SPT_TAKES_CATALOG | SPT_TAKES_CHART |
         SPT_TAKES_SAMPLES,
     1, 1, spt_command_report},
    {"setting", "FILE", "the life of a wheel hub against end play and preload",
     SPT_TAKES_MEASURED | SPT_TAKES_FORMAT | SPT_TAKES_OUTPUT | SPT_TAKES_CATALOG |
         SPT_TAKES_QUIET | SPT_TAKES_COLOR | SPT_TAKES_RANGE,
     1, 1, spt_command_setting},
    {"schedule", "FILE...", "a maintenance plan: greasing, oil, inspection, replacement",
     SPT_TAKES_MEASURED | SPT_TAKES_PLAN | SPT_TAKES_OUTPUT | SPT_TAKES_CATALOG | SPT_TAKES_QUIET |
         SPT_TAKES_COLOR,
     1, SPT_COMPARED_MAX, spt_command_schedule},
    {"spread", "FILE", "the uncertainty of the life, and which input causes most of it",
     SPT_TAKES_MEASURED | SPT_TAKES_FORMAT | SPT_TAKES_OUTPUT | SPT_TAKES_CATALOG |
         SPT_TAKES_QUIET | SPT_TAKES_COLOR | SPT_TAKES_SAMPLES | SPT_TAKES_SHARES,
     1, 1, spt_command_spread},
    {"fit", "FIELD.csv", "a Weibull fit to lives from the field",
     SPT_TAKES_FORMAT | SPT_TAKES_OUTPUT | SPT_TAKES_CATALOG | SPT_TAKES_QUIET | SPT_TAKES_COLOR |
         SPT_TAKES_FIELD,
     1, 1, spt_command_fit},
    {"duty", "HISTORY.csv [FILE]", "measured loads sorted into bins, as a duty to read and keep",
     SPT_TAKES_DUTY | SPT_TAKES_BINNING | SPT_TAKES_OUTPUT | SPT_TAKES_CATALOG | SPT_TAKES_QUIET |
         SPT_TAKES_COLOR,
     1, 2, spt_command_duty},
    {"check", "FILE...", "read scenarios and report every mistake in them",
     SPT_TAKES_MEASURED | SPT_TAKES_FORMAT | SPT_TAKES_UNDERSTOOD | SPT_TAKES_OUTPUT |
         SPT_TAKES_CATALOG | SPT_TAKES_QUIET,
     1, INT_MAX, spt_command_check},
    {"catalog", "[bearings|lubricants|conditions] [NAME]", "list the catalog, or show one entry",
     SPT_TAKES_FORMAT | SPT_TAKES_CATALOG | SPT_TAKES_OUTPUT | SPT_TAKES_COLOR, 0, 2,
     spt_command_catalog},
    {"damage", "[MODE|WORDS [FILE]]", "what damage looks like, and how much life its cause costs",
     SPT_TAKES_MEASURED | (SPT_TAKES_REPORT & ~(unsigned)SPT_TAKES_EXPLAIN), 0, INT_MAX,
     spt_command_damage},
    {"diagnose", "CASE.yaml", "why a bearing failed: its findings weighed against the causes",
     (SPT_TAKES_REPORT & ~(unsigned)SPT_TAKES_EXPLAIN) | SPT_TAKES_PAST, 1, 1,
     spt_command_diagnose},
    {"example", "[NAME]", "list the scenarios that come with the program, or write one",
     SPT_TAKES_FORMAT | SPT_TAKES_OUTPUT | SPT_TAKES_COLOR, 0, 1, spt_command_example},
    {"schema", "", "every key of a scenario or case file, or a JSON Schema for editors",
     SPT_TAKES_SCHEMA | SPT_TAKES_OUTPUT, 0, 0, spt_command_schema},
    {"help", "[COMMAND]", "what the commands do",
     SPT_TAKES_PRINT | SPT_TAKES_READABLE | SPT_TAKES_COLOR | SPT_TAKES_OUTPUT, 0, 1,
     spt_command_help},
};
const int spt_command_count = (int)(sizeof spt_command_table / sizeof *spt_command_table);

const struct spt_command *spt_command_find(const char *name)
{
    for (int i = 0; i < spt_command_count; i++)
        if (!strcmp(spt_command_table[i].name, name))
            return &spt_command_table[i];
    return NULL;
}
