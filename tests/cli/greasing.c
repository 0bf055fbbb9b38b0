/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One greasing interval for one file: every command prints the same number, and it moves with
 * nothing that wears no grease. */
#include <criterion/criterion.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>

#include "support/golden.h"
#include "support/json_text.h"

#define SCENARIOS "scenarios/"
#define SCENARIOS_MAX 100
#define NUMBER_LENGTH 40

static char answer[1 << 22];

/* Runs a command; gives its standard output, "" where it fails. */
static const char *ask(const char *arguments)
{
    char line[700];
    snprintf(line, sizeof line, "%s %s 2>/dev/null", SPT_TEST_PROGRAM, arguments);
    FILE *pipe = popen(line, "r");
    cr_assert(pipe);
    answer[fread(answer, 1, sizeof answer - 1, pipe)] = 0;
    pclose(pipe);
    return answer;
}

/* The two numbers as they are printed; "-" without an answer. */
struct numbers {
    char raw[NUMBER_LENGTH], kept[NUMBER_LENGTH];
};

static void copy_value(const char *value, char *to)
{
    size_t length = value ? strcspn(value, ",\n}") : 0;
    snprintf(to, NUMBER_LENGTH, "%.*s", value ? (int)length : 1, value ? value : "-");
}

/* The interval as calculated, and that of the plan. */
static struct numbers read_numbers(const char *raw, const char *plan)
{
    struct numbers numbers;
    copy_value(json_find(raw, "grease_interval_h"), numbers.raw);
    copy_value(json_find(plan, "regrease_every_h"), numbers.kept);
    return numbers;
}

static struct numbers ask_for(const char *command, const char *file)
{
    char arguments[500];
    snprintf(arguments, sizeof arguments, "%s --format json %s", command, file);
    const char *json = ask(arguments);
    const char *one = json_item(json_find(json, "cases"), 0);
    return one ? read_numbers(one, one)
               : read_numbers(json_find(json, "greasing"), json_find(json, "verdict"));
}

static void expect_same(struct numbers want, struct numbers got, const char *file,
                        const char *command)
{
    if (!strcmp(got.raw, "-"))
        return; /* the command has no answer for this file, such as a timeline without a service */
    cr_expect_str_eq(want.raw, got.raw, "%s: %s has the interval %s, life %s", file, command,
                     got.raw, want.raw);
    cr_expect_str_eq(want.kept, got.kept, "%s: %s greases every %s h, life %s", file, command,
                     got.kept, want.kept);
}

/* The interval of the greasing in the calendar, also where the service states a shorter one. */
static void expect_calendar(struct numbers want, const char *file)
{
    char arguments[500];
    snprintf(arguments, sizeof arguments, "schedule --format json %s", file);
    const char *tasks = json_find(ask(arguments), "tasks");
    for (int i = 0; json_item(tasks, i); i++) {
        const char *task = json_item(tasks, i), *governor = json_find(task, "governed_by");
        char every[NUMBER_LENGTH];
        if (strncmp(json_find(task, "task"), "\"regrease\"", 10) != 0 ||
            !strncmp(governor, "\"no interval\"", 13))
            continue;
        copy_value(json_find(task, "every_h"), every);
        cr_expect_str_eq(every, want.kept, "%s: the plan greases every %s h, not %s", file, every,
                         want.kept);
    }
}

Test(greasing, every_command_prints_the_same_interval_for_a_shipped_scenario)
{
    static char names[SCENARIOS_MAX][80];
    static const char *const commands[] = {"schedule", "timeline", "reach --life 9000h", "compare"};
    int count = golden_list(SCENARIOS, ".yaml", names, SCENARIOS_MAX), greased = 0, answers = 0;
    cr_assert_gt(count, 5);
    for (int i = 0; i < count; i++) {
        char file[200];
        snprintf(file, sizeof file, SCENARIOS "%.79s.yaml", names[i]);
        const struct numbers want = ask_for("life", file);
        greased += strcmp(want.raw, "null") != 0 && strcmp(want.raw, "-") != 0;
        for (size_t c = 0; c < sizeof commands / sizeof *commands; c++) {
            const struct numbers got = ask_for(commands[c], file);
            answers += strcmp(got.raw, "-") != 0;
            expect_same(want, got, file, commands[c]);
        }
        expect_calendar(want, file);
    }
    cr_expect_gt(greased, 8);
    cr_expect_gt(answers, 3 * count);
}

static void write_scenario(const char *path, const char *target, const char *reliability,
                           const char *costs)
{
    FILE *file = fopen(path, "w");
    cr_assert(file);
    fprintf(file,
            "title: swept\n"
            "bearing: {type: tapered roller, bore: 60 mm, outside_diameter: 110 mm, width: 29.75 "
            "mm, dynamic_load_rating: 126 kN, static_load_rating: 167 kN, contact_angle: 15 deg, "
            "turning: outer}\n"
            "lubricant: {kind: grease, grade: VG 150}\n"
            "condition: {cleanliness: severe, dust: heavy abrasive, moisture: splash, grease_age: "
            "30 h}\n"
            "%s%s%s"
            "duty: [{phase: on, time: 100 %%, speed: 253 rpm, equivalent_load: 13.7 kN, "
            "temperature: 61 degC}]\n",
            target, reliability, costs);
    cr_assert_eq(fclose(file), 0);
}

Test(greasing, target_reliability_and_costs_do_not_move_it)
{
    static const char *const targets[] = {"", "target_life: 463 h\n", "target_life: 20000 h\n",
                                          "target_life: 900000 h\n"};
    static const char *const reliabilities[] = {"", "reliability: 97.7 %\n",
                                                "reliability: 99.95 %\n"};
    static const char *const costs[] = {"", "costs: {planned: 260, failure: 1900}\n",
                                        "costs: {planned: 2, failure: 99000}\n"};
    static const char *const commands[] = {"life", "schedule", "reach --life 9000h", "compare"};
    char path[] = "/tmp/spalltime_greasing_XXXXXX";
    struct numbers first = {{0}, {0}};
    int folder = mkstemp(path);
    cr_assert_geq(folder, 0);
    for (int i = 0; i < 12; i++) {
        write_scenario(path, targets[i % 4], reliabilities[i % 3], costs[i / 4]);
        for (size_t c = 0; c < sizeof commands / sizeof *commands; c++) {
            const struct numbers got = ask_for(commands[c], path);
            if (!*first.raw)
                first = got;
            cr_expect_str_eq(first.raw, got.raw, "%d, %s", i, commands[c]);
            cr_expect_str_eq(first.kept, got.kept, "%d, %s", i, commands[c]);
        }
    }
    cr_expect_gt(strtod(first.raw, NULL), 10);
    remove(path);
}

static int exit_of(const char *command, const char *file)
{
    char line[600];
    snprintf(line, sizeof line, "%s %s %s >/dev/null 2>&1", SPT_TEST_PROGRAM, command, file);
    int status = system(line);
    return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

/* Where no event or drift follows, the target is met by both or missed by both. */
Test(greasing, life_and_schedule_agree_on_the_target)
{
    static char names[SCENARIOS_MAX][80];
    int count = golden_list(SCENARIOS, ".yaml", names, SCENARIOS_MAX), compared = 0;
    for (int i = 0; i < count; i++) {
        char file[200];
        size_t length;
        snprintf(file, sizeof file, SCENARIOS "%.79s.yaml", names[i]);
        char *text = golden_read(file, &length);
        const bool service = strstr(text, "\nservice:");
        free(text);
        if (service)
            continue;
        cr_expect_eq(exit_of("life", file), exit_of("schedule", file), "%s", file);
        compared++;
    }
    cr_expect_gt(compared, 8);
}
