/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <string.h>

#include <limits.h>

#include "cli/command.h"

const struct spt_command spt_command_table[] = {
    {"life", "FILE", "the life under a duty cycle, the causes of loss, the flags",
     "Reads a scenario and prints the rating life and the target, a table of the phases, the "
     "share that each cause has in the lost life, the flags and the cautions. Exit status 1 means "
     "that the life misses the target, or that a target is set but no life can be stated. If the "
     "scenario has a section `uncertainty`, each life is printed with its band (see `spread`).",
     SPT_TAKES_MEASURED | SPT_TAKES_REPORT | SPT_TAKES_SAMPLES, 1, 1, spt_command_life},
    {"compare", "FILE...", "scenarios and their variants side by side",
     "Calculates each scenario and each of its variants and prints their lives, the ratio of each "
     "life to the first one, the film and the contamination, bars on a logarithmic scale, and the "
     "causes of loss of each. If a scenario has a section `uncertainty`, each of its lives is "
     "printed with its band. All its variants are calculated from the same random samples; the "
     "more variants there are, the fewer samples each of them gets. Exit status 1 means that a case "
     "misses its target.",
     SPT_TAKES_MEASURED | SPT_TAKES_REPORT, 1, SPT_COMPARED_MAX, spt_command_compare},
    {"reach", "FILE", "the change of a single input that reaches a wanted life",
     "For each lever (an input that can be changed: cleanliness, water, oil grade, temperature, "
     "load, regreasing, rating, and the end play of a hub) finds the value that reaches the "
     "wanted life while everything else stays as it is. If the life is reached already, it prints "
     "how far each lever may get worse. The wanted life is --life, or `target_life` of the "
     "scenario. The section `uncertainty` gives the band of the present life. Exit status 1 means "
     "that the wanted life is not reached now.",
     SPT_TAKES_MEASURED | SPT_TAKES_REPORT | SPT_TAKES_TARGET, 1, 1, spt_command_reach},
    {"choose", "FILE", "bearings of a list tried in the place of those of a scenario",
     "Tries each bearing of a list (--from, a CSV file or a catalog file; without it all of the "
     "catalogs) in the place of the one of the scenario, or each pair of tapered rows in those of "
     "a hub, and prints which pass, cheapest, lightest or smallest first, and for each other the "
     "one worst reason. The whole calculation of `life` is made for each, with its own factors, "
     "sizes and ratings. To pass, the life has to be 1.3 times `target_life` (--margin), the static "
     "safety that of the guide, P at most half of C, the speed within the sheet's limit and that "
     "of the lubricant, and no load light enough to skid. A hub keeps the shoulders of its outer "
     "rings and shares its loads by the handbook. Exit status 1 means that none passes.",
     SPT_TAKES_REPORT_BUT_EXPLAIN | SPT_TAKES_CHOICE, 1, 1, spt_command_choose},
    {"timeline", "FILE", "the damage over time with regreasing, events and drifts",
     "Follows the bearing over time as the section `service` states: when its life ends, how much "
     "of the life each stage uses up, and how much life each event or drift costs. CSV contains "
     "the curve of accumulated damage. The section `uncertainty` gives the band of the life in "
     "the condition as stated, without the service. Exit status 1 means that the life with the "
     "service misses the target.",
     SPT_TAKES_MEASURED | SPT_TAKES_REPORT, 1, 1, spt_command_timeline},
    {"sweep", "FILE", "many load cases at once, one row each",
     "Calculates one row for each point of the grid in the section `sweep` (the last axis varies "
     "fastest), or for each row of a table of load cases (--cases), and writes CSV, JSON Lines or "
     "a NumPy array. A swept value replaces the value of the scenario in every phase; "
     "`load_factor` multiplies all loads. With several phases the lives hold for the whole duty, "
     "and the other numbers for the phase that causes most of the damage. The first line of a "
     "table of cases has the names of the columns with their units, such as radial_load "
     "[kN],speed [rpm],cleanliness. Rows that cannot be read are reported, counted, and written "
     "to --rejects. A column `label` may hold any text of up to 120 bytes. Each row of the output "
     "begins with `case`, the line in the table, and with `label` if there is one; with --columns "
     "these two are written only if named there. Without --columns the columns are: "
     "viscosity_ratio, contamination_factor, life_modification_factor, water_factor, "
     "basic_rating_life_h, modified_rating_life_h, status; in JSON Lines life_status too. Further "
     "columns: equivalent_load_n, effective_viscosity_ratio, warnings (codes of the flags that "
     "`life` raises for the row, separated by blanks, without those about inputs that the "
     "scenario does not state; this makes the sweep slower). An unlimited life is written as inf "
     "and a life that cannot be stated as an empty cell (nan in an array). JSON has null for "
     "both, and life_status says which of them it is: rated, unlimited or none. For a hub "
     "`wheel_load`, `side_force`, `side_share`, `road_speed` and `setting` (end play is positive, "
     "preload negative) can be swept. Its load distribution is solved for each row. Lives without "
     "a prefix are those of both bearing rows together; all other numbers, and setting_factor, "
     "have the prefix inboard_ or outboard_. If a hub cannot be solved, it has no life and its "
     "status gives the reason: cannot_carry, moved_too_far, no_reference, not_converged. The "
     "output does not depend on the number of threads and shards. An interrupted run keeps "
     "FILE.part. Exit status 3 if rows were rejected, 130 or 143 if a signal ended the run.",
     SPT_TAKES_MEASURED | SPT_TAKES_SWEEP | SPT_TAKES_OUTPUT | SPT_TAKES_CATALOG, 1, 1,
     spt_command_sweep},
    {"report", "FILE", "an HTML page with charts, tables and the calculation, or one chart",
     "Writes one HTML file that needs no network and no script: verdict, inputs, life of each "
     "phase, causes of loss, variants, charts, maintenance plan, flags, and every step of the "
     "calculation. If there is a section `uncertainty`, each life has its band. With --chart NAME "
     "it writes a single chart as SVG instead: variants, phases, loss, film, contamination, "
     "survival, zones, timeline or setting; add --variant NAME for the chart of a variant. A "
     "printed page contains what is open on the screen: the case that is shown, and only sections "
     "that are unfolded. Exit status as for life.",
     SPT_TAKES_MEASURED | SPT_TAKES_OUTPUT | SPT_TAKES_CATALOG | SPT_TAKES_CHART |
         SPT_TAKES_SAMPLES,
     1, 1, spt_command_report},
    {"setting", "FILE", "the life of a wheel hub against end play and preload",
     "Calculates how the life of a hub depends on its setting: the best setting, the setting of "
     "the scenario, the range of settings with at least 80 % of the best life, the side on which "
     "the life drops faster, and how much life the scatter of the setting costs. Preload is "
     "negative. CSV contains the curve. Exit status 3 if a hub cannot carry its load.",
     SPT_TAKES_MEASURED | SPT_TAKES_FORMAT | SPT_TAKES_OUTPUT | SPT_TAKES_CATALOG |
         SPT_TAKES_QUIET | SPT_TAKES_COLOR | SPT_TAKES_RANGE,
     1, 1, spt_command_setting},
    {"schedule", "FILE", "a maintenance plan: greasing, oil, inspection, replacement",
     "Calculates how often to regrease and with how much grease, when the oil or grease must be "
     "renewed because a drift of water or contamination reaches its limit (`limits` in the "
     "section `service`), how often to inspect, and at what age to replace. Each interval is "
     "printed with the rule that determines it, in running hours, calendar time and distance "
     "(section `usage`). With the section `costs` it finds the cheapest age of replacement, with "
     "`fleet` the failures in a year with and without the plan, and with `uncertainty` the band "
     "of the intervals that depend on the fatigue life. Tasks that are due at about the same time "
     "become one visit. CSV and ical contain the calendar; ical needs --start. Exit status 1 "
     "means that at the target life the survival is below the target reliability.",
     SPT_TAKES_MEASURED | SPT_TAKES_PLAN | SPT_TAKES_OUTPUT | SPT_TAKES_CATALOG | SPT_TAKES_QUIET |
         SPT_TAKES_COLOR,
     1, 1, spt_command_schedule},
    {"spread", "FILE", "the uncertainty of the life, and which input causes most of it",
     "Draws random samples of the inputs that are uncertain according to the section "
     "`uncertainty` (load, speed, temperature, water, cleanliness, rating, end play), calculates "
     "the life of each sample, and prints the 5, 50 and 95 % quantiles of the rated life, the "
     "time to spall including the scatter of fatigue, the influence of each input on the life, "
     "and the phases that an input does not change. The same seed gives the same answer for any "
     "number of threads. CSV contains both distributions. Exit status 1 means that the median "
     "misses the target.",
     SPT_TAKES_MEASURED | SPT_TAKES_FORMAT | SPT_TAKES_OUTPUT | SPT_TAKES_CATALOG |
         SPT_TAKES_QUIET | SPT_TAKES_COLOR | SPT_TAKES_SAMPLES | SPT_TAKES_SHARES,
     1, 1, spt_command_spread},
    {"fit", "FIELD.csv", "a Weibull fit to lives from the field",
     "Reads the lives of failed and running bearings from a CSV file and fits slope, scale, L10 "
     "and L50 with confidence bounds. The header names the columns: `time [h]` or `distance [km]` "
     "(also min, s or miles), `state` (failed, found failed or running), and optionally `last "
     "good [h]`, `known from [h]`, `mode`, `count` and `remark`. A bearing that was replaced "
     "while sound, or for another reason, counts as running. A bearing that an inspection found "
     "failed is `found failed`: it failed at an unknown time between the inspection that last saw "
     "it sound (`last good`; empty: since new) and this one. Stating it as failed at the "
     "inspection would make the life too long. `known from` is the age of a bearing when its "
     "records begin; bearings that failed earlier are then missing from the file. With fewer than "
     "3 failures the slope is assumed and the bounds are one-sided. With several words in `mode` "
     "all modes are fitted together and each one by itself; --mode counts one mode, and bearings "
     "that failed by another count as running until then. --against compares the field data with "
     "the rating of a scenario (exit status 1 if the field is worse) and, with a section "
     "`uncertainty`, says whether the confidence bounds overlap the band of the rating. "
     "--variants ranks a scenario and its variants by the likelihood of the field data. If the "
     "scenario has a hub, each bearing of the field data is a whole hub with both its bearing "
     "rows. CSV contains the points of a probability plot.",
     SPT_TAKES_FORMAT | SPT_TAKES_OUTPUT | SPT_TAKES_CATALOG | SPT_TAKES_QUIET | SPT_TAKES_COLOR |
         SPT_TAKES_FIELD,
     1, 1, spt_command_fit},
    {"duty", "HISTORY.csv [FILE]", "measured loads sorted into bins, as a duty to read and keep",
     "Reads a measured history (CSV) and sorts its samples into bins of load, speed and "
     "temperature. Each bin becomes a phase with the revolutions and the basic damage of its "
     "samples. The header names the columns with their units: `time [s]` (a row holds until the "
     "next one) or `duration [s]`, and `radial_load [kN]`, `axial_load`, `equivalent_load`, for a "
     "hub `wheel_load` and `side_force`, then `speed [rpm]` or `road_speed [km/h]` and "
     "`temperature [degC]`. Values without a column are taken from the duty of the scenario FILE, "
     "in which all phases must have the same value. If one row is invalid, the whole file is "
     "refused. With --format yaml the output is a section `duty` for a scenario; the option "
     "--history of other commands uses the same duty directly. CSV and JSON list the phases.",
     SPT_TAKES_DUTY | SPT_TAKES_BINNING | SPT_TAKES_OUTPUT | SPT_TAKES_CATALOG | SPT_TAKES_QUIET |
         SPT_TAKES_COLOR,
     1, 2, spt_command_duty},
    {"check", "FILE...", "read scenarios and report every mistake in them",
     "Reads each scenario with its catalog names and its variants, and reports each mistake with "
     "its place. Any number of files; the exit status is that of the worst file. HTML, JSON and "
     "CSV list each file with its result, HTML and JSON also with the mistakes. With --explain, "
     "text and HTML show the inputs of each file that is fine, without its variants, quantity by "
     "quantity in the units of the program, and what is assumed where nothing was stated.",
     SPT_TAKES_MEASURED | SPT_TAKES_FORMAT | SPT_TAKES_UNDERSTOOD | SPT_TAKES_OUTPUT |
         SPT_TAKES_CATALOG | SPT_TAKES_QUIET,
     1, INT_MAX, spt_command_check},
    {"catalog", "[bearings|lubricants|conditions] [NAME]", "list the catalog, or show one entry",
     "Lists the names that scenarios may use, with the calculated ratings, or shows one entry "
     "with its source. Folders given with --catalog are searched first, then those in "
     "SPALLTIME_CATALOGS (separated by colons), then the installed catalog.",
     SPT_TAKES_FORMAT | SPT_TAKES_CATALOG | SPT_TAKES_OUTPUT | SPT_TAKES_COLOR, 0, 2,
     spt_command_catalog},
    {"damage", "[MODE|WORDS [FILE]]", "what damage looks like, and how much life its cause costs",
     "Without a word it lists the damage modes. With the name of a mode it shows that mode; with "
     "other words it searches for modes that fit this description. With a mode (its name, or a "
     "word that belongs to one mode only) and a scenario it calculates how much life the "
     "suspected cause costs in the scenario and in each of its variants, and how much the remedy "
     "would gain.",
     SPT_TAKES_MEASURED | (SPT_TAKES_REPORT & ~(unsigned)SPT_TAKES_EXPLAIN), 0, 2,
     spt_command_damage},
    {"schema", "", "every key of a scenario file, or a JSON Schema for editors",
     "Lists the keys of a scenario with their units and meanings. With --format json it prints a "
     "JSON Schema, with which editors complete and check scenarios.",
     SPT_TAKES_SCHEMA | SPT_TAKES_OUTPUT, 0, 0, spt_command_schema},
    {"help", "[COMMAND]", "what the commands do", "Lists the commands, or explains one.",
     SPT_TAKES_PRINT, 0, 1, spt_command_help},
};
const int spt_command_count = (int)(sizeof spt_command_table / sizeof *spt_command_table);

const struct spt_command *spt_command_find(const char *name)
{
    for (int i = 0; i < spt_command_count; i++)
        if (!strcmp(spt_command_table[i].name, name))
            return &spt_command_table[i];
    return NULL;
}
