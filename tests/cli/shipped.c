/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What comes with the program is sound: every scenario is read and answered, every catalog entry is
 * worked out. */
#include <criterion/criterion.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/wait.h>

#include "support/golden.h"

#define SCENARIOS "scenarios/"
#define SCENARIOS_MAX 100

static int run(const char *command)
{
    char line[512];
    snprintf(line, sizeof line, "%s %s >/dev/null 2>&1", SPT_TEST_PROGRAM, command);
    int status = system(line);
    return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

Test(shipped, every_scenario_is_read_and_compared)
{
    static char names[SCENARIOS_MAX][80];
    int count = golden_list(SCENARIOS, ".yaml", names, SCENARIOS_MAX);
    cr_assert_gt(count, 5);
    for (int i = 0; i < count; i++) {
        char command[200];
        snprintf(command, sizeof command, "check " SCENARIOS "%s.yaml", names[i]);
        cr_expect_eq(run(command), 0, "%s", command);
        snprintf(command, sizeof command, "compare " SCENARIOS "%s.yaml", names[i]);
        cr_expect_leq(run(command), 1, "%s", command);
    }
}

Test(shipped, every_catalog_entry_is_worked_out)
{
    cr_expect_eq(run("catalog"), 0);
    cr_expect_eq(run("damage"), 0);
}
