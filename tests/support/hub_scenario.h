/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef TESTS_HUB_SCENARIO_H
#define TESTS_HUB_SCENARIO_H

#include "scenario/scenario.h"
#include "spalltime/setting.h"

/* An invented trailer hub read from a scenario text, with the workspace of its bench. */
struct hub_scenario {
    struct spt_scenario scenario;
    struct spt_hub_workspace workspace;
    struct spt_case settled;
    struct spt_hub_bench bench;
    struct spt_phase_result *results; /* of both rows */
    struct spt_assessment assessment;
};

/* Reads the scenario: `hub` has the lines of its section (two blanks, key, value), those of the
 * rows may be omitted; `duty` has its list of phases; NULL: defaults. Asserts success. */
void hub_scenario_read(struct hub_scenario *test, const char *hub, const char *duty);

/* Makes the settled case and assesses it as `life` does. */
void hub_scenario_assess(struct hub_scenario *test);

/* The same lives, several times as fast: without the search for the setting that would cure, which
 * only the split of the loss asks for. */
void hub_scenario_assess_uncured(struct hub_scenario *test);

void hub_scenario_free(struct hub_scenario *test);

#define HUB_SCENARIO_PLACES                                                                        \
    "  inboard_position: -8 mm\n  outboard_position: 52 mm\n  rolling_radius: 380 mm\n"            \
    "  laminae: 31\n"

#endif
