/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <string.h>

#include <limits.h>

#include "cli/command.h"

const struct spt_command spt_command_table[] = {
    {"life", "FILE", "the life of a duty cycle, its causes of loss, its flags",
     "Reads a scenario and answers with the rating life against the target, a table of the phases, "
     "the split of the lost life among its causes, the flags and the cautions. Exit status 1 means "
     "that the target is missed, or that no life can be stated although a target is set. Where the "
     "scenario has a section `uncertainty` each life comes with its band, see `spread`.",
     SPT_TAKES_MEASURED | SPT_TAKES_REPORT | SPT_TAKES_SAMPLES, 1, 1, spt_command_life},
    {"compare", "FILE...", "scenarios and their variants side by side",
     "Works out each scenario and each of its variants and shows lives, ratios to the first, what "
     "became of film and contamination, bars on a log scale, and where the life of each goes. The "
     "section `uncertainty` of a scenario gives a band to each of its lives; the variants share one "
     "draw, and the more there are, the fewer samples each gets.",
     SPT_TAKES_MEASURED | SPT_TAKES_REPORT, 1, SPT_COMPARED_MAX, spt_command_compare},
    {"reach", "FILE", "what one thing alone must come to for a wanted life",
     "Answers the inverse question for each lever alone: cleanliness, water, oil grade, "
     "temperature, load, regreasing, rating, and the end play of a hub. Where the life is reached "
     "already it says how far each may slip. The target is --life, or the scenario's "
     "`target_life`. The section `uncertainty` gives the band of the life now.",
     SPT_TAKES_MEASURED | SPT_TAKES_REPORT | SPT_TAKES_TARGET, 1, 1, spt_command_reach},
    {"timeline", "FILE", "damage through regreasings, events and drifts",
     "Follows the bearing through time by the section `service`: when the life is spent, how much "
     "each stage spends, and what each event or drift costs. CSV gives the curve of damage. The section `uncertainty` "
     "gives the band of the life as stated, without the service.",
     SPT_TAKES_MEASURED | SPT_TAKES_REPORT, 1, 1, spt_command_timeline},
    {"sweep", "FILE", "many load cases at once, one row each",
     "Answers every row of the section `sweep` (a grid of axes, the last one fastest), or of a table "
     "of load cases (--cases), as CSV, JSON Lines or a NumPy array. What is swept takes the place of "
     "the scenario's own value in every phase; `load_factor` multiplies all loads; with several "
     "phases the lives are of the whole duty, the other numbers of the phase that takes most of it. "
     "A table of cases begins with a line of names with units, such as radial_load [kN],speed "
     "[rpm],cleanliness; rows that cannot be read are told, counted, and written to --rejects. One "
     "column may be `label`, any text of up to 120 bytes: it and `case`, the line of the table, "
     "begin each row, with --columns where they are named there. The columns where --columns is "
     "absent: viscosity_ratio, contamination_factor, "
     "life_modification_factor, water_factor, basic_rating_life_h, modified_rating_life_h, status; "
     "in JSON Lines life_status too. Others: equivalent_load_n, effective_viscosity_ratio, warnings "
     "(the codes of the flags that `life` raises for a row, a blank between them, without those of "
     "what the scenario leaves open; it takes time). A life that is unlimited is inf, one "
     "that cannot be said is empty (nan in an array); JSON has null for both, and life_status tells "
     "them apart: rated, unlimited, none. Of a hub `wheel_load`, `side_force`, `side_share`, `road_speed` and `setting` (end "
     "play above 0, preload below) can be swept; its load distribution is solved for each row, the "
     "lives without a prefix are of both rows together, and all other numbers, with setting_factor "
     "too, have inboard_ or outboard_ before their name. A hub that cannot be solved has no life and "
     "a status that says why: cannot_carry, moved_too_far, no_reference, not_converged. "
     "The rows are the same for any number of threads and shards. An interrupted run "
     "keeps FILE.part. Exit status 3 where rows were rejected, 130 or 143 where a signal ended it.",
     SPT_TAKES_MEASURED | SPT_TAKES_SWEEP | SPT_TAKES_OUTPUT | SPT_TAKES_CATALOG, 1, 1,
     spt_command_sweep},
    {"report", "FILE", "a page with charts, tables and the working, or one chart",
     "Writes one HTML file that needs no network and no script: verdict, inputs, life of each phase, "
     "where the life goes, variants, charts, the service plan, flags and every step of the working; "
     "with the section `uncertainty` each life has its band. With --chart NAME "
     "it writes one chart as SVG instead: variants, phases, loss, film, contamination, survival, "
     "zones, timeline or setting; with --variant NAME of that variant. Printed, the page keeps to "
     "what is open on the screen: the case that is shown, and no fold that is closed. Exit status "
     "as for life.",
     SPT_TAKES_MEASURED | SPT_TAKES_OUTPUT | SPT_TAKES_CATALOG | SPT_TAKES_CHART |
         SPT_TAKES_SAMPLES,
     1, 1, spt_command_report},
    {"setting", "FILE", "life of a wheel hub against end play and preload",
     "Works out how the life of a hub depends on its setting: the best one, the one as set, the "
     "range that keeps 80 % of the best life, which side falls off sooner, and what scatter of the "
     "setting costs. Preload is below 0. CSV gives the curve. Exit status 3 where a hub cannot "
     "carry a load.",
     SPT_TAKES_MEASURED | SPT_TAKES_FORMAT | SPT_TAKES_OUTPUT | SPT_TAKES_CATALOG |
         SPT_TAKES_QUIET | SPT_TAKES_COLOR | SPT_TAKES_RANGE,
     1, 1, spt_command_setting},
    {"schedule", "FILE", "what to do and when: greasing, oil, inspection, replacement",
     "Works out how often to regrease and with how much, when drifts of water and dirt (section "
     "`service`, its `limits`) ask for fresh oil or grease, how often to inspect and at what age "
     "to replace, each with what governs it, in running hours, calendar and distance (section "
     "`usage`). With the section `costs` it gives the cheapest age of replacement, and with "
     "`fleet` the failures of a year with and without the plan; with `uncertainty` the intervals "
     "that rest on fatigue life come with those of its band. Tasks that fall due close together "
     "become one visit. CSV and ical give the calendar; ical needs --start. Exit status 1 means "
     "that less than the target reliability is left at the target life.",
     SPT_TAKES_MEASURED | SPT_TAKES_PLAN | SPT_TAKES_OUTPUT | SPT_TAKES_CATALOG | SPT_TAKES_QUIET |
         SPT_TAKES_COLOR,
     1, 1, spt_command_schedule},
    {"spread", "FILE", "how sure the life is, and which input makes it unsure",
     "Draws the inputs that the section `uncertainty` spreads (load, speed, temperature, water, "
     "cleanliness, rating, end play), works out the life of each sample, and gives 5, 50 and 95 % of the "
     "rated life, the time to spall with the scatter of fatigue in it, how much each input moves "
     "the life, and the phases that it leaves alone. The same seed gives the same answer, on any number of threads. CSV gives "
     "both distributions. Exit status 1 means that the median misses the target.",
     SPT_TAKES_MEASURED | SPT_TAKES_FORMAT | SPT_TAKES_OUTPUT | SPT_TAKES_CATALOG |
         SPT_TAKES_QUIET | SPT_TAKES_COLOR | SPT_TAKES_SAMPLES | SPT_TAKES_SHARES,
     1, 1, spt_command_spread},
    {"fit", "FIELD.csv", "a Weibull fit of lives from the field",
     "Reads lives of failed and running bearings from a CSV file and fits slope, scale, L10 and "
     "L50 with bounds. The header names the columns: `time [h]` or `distance [km]` (also min "
     "or s, miles), `state` (failed, found failed or running), and, as wanted, `last good [h]`, "
     "`known from [h]`, `mode`, `count` and `remark`. A bearing that came out sound, or for another "
     "reason, counts as running. One that a look found failed after it was last good at another is "
     "`found failed`: it failed somewhere between the two, or since new where `last good` is empty; "
     "stated as failed just then it would make the life too long. `known from` is how long a "
     "bearing had run when records began, for then those that failed sooner are not in the file. "
     "With fewer than 3 failures the slope is assumed and the bounds are one-sided. With several "
     "words in `mode` the answer is for all modes together and each is fitted for itself; --mode "
     "counts one, and bearings that another ended are running until then. "
     "--against tells whether the field is worse than a scenario's rating (exit status 1 where it "
     "is), and with the section `uncertainty` whether the bounds of the field and the band of the "
     "rating overlap; --variants weighs a scenario and its variants by how well each explains the "
     "returns. Against a hub each one counted is a hub with both its bearings. "
     "CSV gives the points of a probability plot.",
     SPT_TAKES_FORMAT | SPT_TAKES_OUTPUT | SPT_TAKES_CATALOG | SPT_TAKES_QUIET | SPT_TAKES_COLOR |
         SPT_TAKES_FIELD,
     1, 1, spt_command_fit},
    {"duty", "HISTORY.csv [FILE]", "measured loads put into bins, as a duty to see and keep",
     "Reads a measured history (CSV) and puts it into bins of load, speed and temperature, each of "
     "which becomes a phase with the revolutions and the basic damage of its samples. The header "
     "names the columns with their units: `time [s]` (each row holds until the next) or `duration "
     "[s]`, and `radial_load [kN]`, `axial_load`, `equivalent_load`, for a hub `wheel_load` and "
     "`side_force`, then `speed [rpm]` or `road_speed [km/h]` and `temperature [degC]`. What it "
     "does not give is taken from the duty of the scenario FILE, where all phases must agree on "
     "it. One row that cannot be used refuses the whole file. With --format yaml the answer is a "
     "section `duty` for a scenario; --history gives other commands the same duty at once. CSV and "
     "JSON list the phases.",
     SPT_TAKES_DUTY | SPT_TAKES_BINNING | SPT_TAKES_OUTPUT | SPT_TAKES_CATALOG | SPT_TAKES_QUIET |
         SPT_TAKES_COLOR,
     1, 2, spt_command_duty},
    {"check", "FILE...", "read scenarios and report every mistake in them",
     "Reads each scenario, with its catalog names and its variants, works nothing out, and says "
     "what "
     "is wrong and where. Any number of files; the exit status is that of the worst.",
     SPT_TAKES_MEASURED | SPT_TAKES_CATALOG | SPT_TAKES_QUIET, 1, INT_MAX, spt_command_check},
    {"catalog", "[bearings|lubricants|conditions] [NAME]", "list the catalog, or show one entry",
     "Lists the names that scenarios may use, with the ratings worked out, or one entry with its "
     "source. Folders given with --catalog come first, then those in SPALLTIME_CATALOGS (divided "
     "by "
     "colons), then the installed one.",
     SPT_TAKES_FORMAT | SPT_TAKES_CATALOG | SPT_TAKES_OUTPUT | SPT_TAKES_COLOR, 0, 2,
     spt_command_catalog},
    {"damage", "[MODE|WORDS [FILE]]", "what a damaged bearing shows, and what its cause costs",
     "Without a word it lists the damage modes; with the name of a mode it shows that one; with "
     "other words it looks for the modes they describe. With a mode (its name, or a word that only "
     "one mode goes by) and a scenario it works out what the suspected cause costs there, in the "
     "scenario and each of its variants, and what the cure would give.",
     SPT_TAKES_MEASURED | (SPT_TAKES_REPORT & ~(unsigned)SPT_TAKES_EXPLAIN), 0, 2,
     spt_command_damage},
    {"schema", "", "every key of a scenario file, or a JSON Schema for editors",
     "Lists the keys, their units and meanings; with --format json it prints a JSON Schema that "
     "editors use to complete and check scenarios.",
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
