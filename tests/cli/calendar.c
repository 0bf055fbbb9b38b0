/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The calendar of `schedule`, read by a parser of RFC 5545 that others made. */
#include <criterion/criterion.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "support/golden.h"

static char *run(const char *command, const char *path)
{
    size_t length;
    int status = system(command);
    char *said = golden_read(path, &length);
    cr_expect_eq(status, 0, "%s", command);
    cr_assert(said, "%s", command);
    remove(path);
    return said;
}

/* What `reader` makes of a scenario's calendar in a format. */
static char *read_calendar(const char *scenario, const char *format, const char *reader)
{
    char command[1000], path[300];
    snprintf(path, sizeof path, "%s.%s.%ld", SPT_TEST_PROGRAM, format, (long)getpid());
    snprintf(command, sizeof command, "%s | %s schedule --format %s --start 2026-03-01 - | %s >%s",
             scenario, SPT_TEST_PROGRAM, format, reader, path);
    return run(command, path);
}

/* What the parser made of it: date, identifier and summary of each event. */
static char *parse(const char *scenario)
{
    return read_calendar(scenario, "ical",
                         "/usr/bin/python3 -W ignore tests/cli/calendar_check.py");
}

/* The same dates out of the CSV, where each task of a visit has a row. */
static char *list_dates(const char *scenario)
{
    return read_calendar(scenario, "csv",
                         "sed 1d | grep -o '[0-9]\\{4\\}-[0-9][0-9]-[0-9][0-9]' | uniq");
}

Test(calendar, another_parser_reads_every_event)
{
    static const char *const scenarios[] = {
        "cat tests/cli/inputs/oil_plan.yaml",
        "sed 's/^title:.*/title: \"Größe; a, b\\\\\\\\ äöü 滚动轴承 滚动轴承 滚动轴承 滚动轴承 "
        "滚动轴承\"/' scenarios/beet_trailer_fleet.yaml",
    };
    static const char *const titles[] = {
        "Slow gearbox, shaft 2: ",
        "Größe; a, b\\ äöü 滚动轴承 滚动轴承 滚动轴承 滚动轴承 滚动轴承: "};
    if (system("/usr/bin/python3 -c 'import icalendar' >/dev/null 2>&1") != 0)
        cr_skip_test("needs python3-icalendar (apt-get install it)");
    setenv("SPALLTIME_CATALOGS", "catalogs:tests/cli/catalog", 1);
    for (size_t i = 0; i < sizeof scenarios / sizeof *scenarios; i++) {
        char *events = parse(scenarios[i]), *dates = list_dates(scenarios[i]);
        int count = 0;
        for (char *at = events, *day = dates; *at; count++) {
            cr_assert_neq(*day, '\0', "more events than dates");
            cr_expect(!strncmp(at, day, 10), "%.10s is %.10s in the CSV", at, day);
            cr_expect(strstr(at, titles[i]), "no title: %.200s", at);
            at += strcspn(at, "\n") + 1;
            day += strcspn(day, "\n") + 1;
            if (!*at)
                cr_expect_eq(*day, '\0', "more dates than events");
        }
        cr_expect_gt(count, 7, "%d", count);
        free(events);
        free(dates);
    }
}
