/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The calendar of `schedule`, read by a parser of RFC 5545 that others made. */
#include <criterion/criterion.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "support/golden.h"
#include "support/left_out.h"

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
static char *parse(const char *python, const char *scenario)
{
    char reader[200];
    snprintf(reader, sizeof reader, "%s -W ignore tests/cli/calendar_check.py | grep -v -e -care-",
             python);
    return read_calendar(scenario, "ical", reader);
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
    const char *python = python_with("icalendar", "python3-icalendar");
    setenv("SPALLTIME_CATALOGS", "catalogs:tests/cli/catalog", 1);
    for (size_t i = 0; i < sizeof scenarios / sizeof *scenarios; i++) {
        char *events = parse(python, scenarios[i]), *dates = list_dates(scenarios[i]);
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

/* Runs shell commands in a folder of their own, where `p` makes a calendar and `u` writes what the
 * other parser finds in calendars, NAME.ics, into NAME.u: UID, SEQUENCE and STATUS of each event.
 */
static char *run_in_folder(const char *python, const char *commands)
{
    static char command[4000];
    char path[300];
    snprintf(path, sizeof path, "%s.said.%ld", SPT_TEST_PROGRAM, (long)getpid());
    snprintf(command, sizeof command,
             "top=$PWD; d=$(mktemp -d); { sed '/^uncertainty/,$d' tests/cli/inputs/oil_plan.yaml "
             ">\"$d/a.yaml\" && cd \"$d\" && cp a.yaml b.yaml && export "
             "SPALLTIME_CATALOGS=\"$top/catalogs:$top/tests/cli/catalog\" && "
             "p() { \"$top/%s\" schedule -f ical --start 2026-03-01 \"$@\"; } && "
             "u() { %s -W ignore \"$top/tests/cli/calendar_check.py\" \"$@\" || "
             "echo no calendar; for i in *.events; do cut -f 2,4,5 $i >${i%%.events}.u; done; } && "
             "{ %s; }; } >%s; s=$?; rm -rf \"$d\"; exit $s",
             SPT_TEST_PROGRAM, python, commands, path);
    return run(command, path);
}

/* RFC 5545, sections 3.8.4.7 (UID), 3.8.7.4 (SEQUENCE) and 3.8.1.11 (STATUS). */
Test(calendar, a_plan_made_again_moves_its_visits_and_cancels_those_that_are_no_more)
{
    static const struct {
        const char *what, *commands, *want;
    } rows[] = {
        {"two plans with one title share no UID",
         "p a.yaml >a.ics; p b.yaml >b.ics; u a.ics b.ics; sort *.u | uniq -d | wc -l; "
         "cat *.u | wc -l",
         "0\n34\n"},
        {"nor do plans of two bearings in one file, or two titles",
         "p a.yaml >a.ics; sed -i 's/^bearing: .*/bearing: {catalog: press roller 60-110, name: upper}/' b.yaml; cp b.yaml "
         "a.yaml; p a.yaml >b.ics; sed -i 's/^title: .*/title: Another/' a.yaml; p a.yaml >c.ics; "
         "u a.ics b.ics c.ics; sort *.u | uniq -d | wc -l",
         "0\n"},
        {"nor do files of one name in two folders, each planned where it is",
         "mkdir one two; cp a.yaml one/hub.yaml; cp a.yaml two/hub.yaml; (cd one && p hub.yaml) "
         ">a.ics; (cd two && p hub.yaml) >b.ics; { u a.ics; u b.ics; } | sort | uniq -d | wc -l",
         "0\n"},
        {"one file has one plan, from wherever and through whatever it is named",
         "mkdir one; cp a.yaml one/hub.yaml; ln -s one/hub.yaml link.yaml; (cd one && p hub.yaml) "
         ">a.ics; p one/hub.yaml | cmp - a.ics; p ./one/../link.yaml | cmp - a.ics; "
         "p \"$d/one/hub.yaml\" | cmp - a.ics; mv one/hub.yaml moved.yaml; p moved.yaml >b.ics; "
         "{ u a.ics; u b.ics; } | sort | uniq -d | wc -l; p moved.yaml --previous a.ics 2>&1 | "
         "grep -o 'no visit of this plan'",
         "0\nno visit of this plan\n"},
        {"made again on other days a plan has the UIDs of its visits",
         "p a.yaml >a.ics; p a.yaml --start 2027-01-01 >b.ics; cmp -s a.ics b.ics || echo differ; "
         "u a.ics b.ics; sort *.u | uniq -u | wc -l",
         "differ\n0\n"},
        {"visits that are no more are cancelled, all with a higher SEQUENCE",
         "p a.yaml >a.ics; cp a.yaml c.yaml; sed -i 's/age_limit: 8/age_limit: 2/' a.yaml; "
         "p a.yaml --previous a.ics >b.ics; cp c.yaml a.yaml; p a.yaml --previous b.ics >c.ics; "
         "u a.ics b.ics c.ics; cut -f 1 a.u | sort >old; for i in a b c; do cut -f 2- $i.u | uniq -c "
         "| tr -s ' \\t' ' '; cut -f 1 $i.u | sort | cmp - old; done",
         " 17 0 -\n 5 1 -\n 12 1 CANCELLED\n 17 2 -\n"},
        {"so is a task of care that applies no more: turning a machine that stands for months",
         "sed -i 's/yearly: [0-9]*/yearly: 2000/' a.yaml; p a.yaml >a.ics; sed -i 's/yearly: "
         "2000/yearly: 3000/' a.yaml; p a.yaml --previous a.ics >b.ics; u a.ics b.ics; grep -h "
         "care- a.u b.u | sed 's/^[^-]*-//' | tr '\\t' ' '",
         "care-5@spalltime 0 -\ncare-8@spalltime 0 -\ncare-5@spalltime 1 -\n"
         "care-8@spalltime 1 CANCELLED\n"},
        {"events of others in the calendar before are passed over",
         "p a.yaml >a.ics; p b.yaml | sed 's/^SEQUENCE:0/SEQUENCE:40/' >b.ics; sed '/^END:VCAL/d' "
         "a.ics >both.ics; sed '1,4d' b.ics >>both.ics; p a.yaml --previous both.ics >c.ics; "
         "u c.ics; cut -f 2- c.u | uniq -c | tr -s ' \\t' ' '",
         " 17 1 -\n"},
    };
    const char *python = python_with("icalendar", "python3-icalendar");
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        char *said = run_in_folder(python, rows[i].commands);
        cr_expect_str_eq(said, rows[i].want, "%s: %s", rows[i].what, said);
        free(said);
    }
}
