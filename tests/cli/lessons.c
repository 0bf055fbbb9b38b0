/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The lessons in scenarios/lesson_*.yaml quote their answers in comments:
 *     #   $ the command that works the question out
 *     #   > a line of its answer, letter for letter
 * The case in tests/cli/cases of the same name runs that command (cli.c); here every quoted line
 * must be a line of its expected output, so a lesson cannot state a number the program does not. */
#include <criterion/criterion.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "support/golden.h"

#define FOLDER "scenarios/"
#define DAMAGED "scenarios/damaged/"
#define COMMAND_MARK "#   $ "
#define QUOTE_MARK "#   > "
#define CASE_MARK "\n$ SPALLTIME_CATALOGS=catalogs "
#define LESSONS 8
#define DAMAGED_BEARINGS 5
#define FILES_MAX 100

static char *read_file(const char *folder, const char *name, const char *suffix)
{
    char path[300];
    size_t length;
    snprintf(path, sizeof path, "%s%.79s%s", folder, name, suffix);
    char *text = golden_read(path, &length);
    cr_assert(text, "%s", path);
    return text;
}

/* True where `line` (of `length`) is one of the lines of the text. */
static bool has_line(const char *text, const char *line, size_t length)
{
    for (const char *at = text; *at;) {
        size_t here = strcspn(at, "\n");
        if (here == length && !strncmp(at, line, length))
            return true;
        at += here + (at[here] == '\n');
    }
    return false;
}

static void expect_same_command(const char *name, const char *command, size_t length,
                                const char *golden)
{
    const char *own = strstr(golden, CASE_MARK);
    cr_assert(own, "%s: its case runs no command with the catalogs of the program", name);
    own += strlen(CASE_MARK);
    cr_expect(strcspn(own, "\n") == length && !strncmp(own, command, length),
              "%s: the case runs another command than the lesson tells: %.*s", name, (int)length,
              command);
}

/* `prefix` comes before the name of the case. */
static void check_lesson(const char *folder, const char *prefix, const char *name)
{
    char *lesson = read_file(folder, name, ".yaml"), run[100];
    snprintf(run, sizeof run, "%s%s", prefix, name);
    char *golden = read_file("tests/cli/cases/", run, ".case");
    const char *out = strstr(golden, "\n--- stdout\n");
    int commands = 0, quotes = 0;
    cr_assert(out, "%s", name);
    for (const char *at = lesson; *at;) {
        size_t length = strcspn(at, "\n");
        if (!strncmp(at, COMMAND_MARK, strlen(COMMAND_MARK)) && ++commands)
            expect_same_command(name, at + strlen(COMMAND_MARK), length - strlen(COMMAND_MARK),
                                golden);
        if (!strncmp(at, QUOTE_MARK, strlen(QUOTE_MARK)) && ++quotes)
            cr_expect(has_line(out, at + strlen(QUOTE_MARK), length - strlen(QUOTE_MARK)),
                      "%s: the program does not print %.*s", name, (int)length, at);
        at += length + (at[length] == '\n');
    }
    cr_expect_eq(commands, 1, "%s: %d commands", name, commands);
    cr_expect_geq(quotes, 3, "%s: only %d quoted lines", name, quotes);
    cr_expect(strstr(lesson, "\n# Question: ") || strstr(lesson, "\nquestion: "), "%s asks nothing",
              name);
    free(lesson);
    free(golden);
}

Test(lessons, every_quoted_answer_is_a_line_that_the_program_prints)
{
    static char names[FILES_MAX][80];
    int count = golden_list(FOLDER, ".yaml", names, FILES_MAX), lessons = 0;
    for (int i = 0; i < count; i++)
        if (!strncmp(names[i], "lesson_", 7) && ++lessons)
            check_lesson(FOLDER, "", names[i]);
    cr_expect_eq(lessons, LESSONS, "%d lessons", lessons);
}

Test(lessons, every_damaged_bearing_quotes_what_the_program_prints)
{
    static char names[FILES_MAX][80];
    const int count = golden_list(DAMAGED, ".yaml", names, FILES_MAX);
    for (int i = 0; i < count; i++)
        check_lesson(DAMAGED, "diagnose_", names[i]);
    cr_expect_eq(count, DAMAGED_BEARINGS, "%d damaged bearings", count);
}

/* What stands in a file from its title on, without the remark of the line and without what a lesson
 * may change: title, note, and the lines that the lessons are about. */
static char *common_part(const char *name)
{
    static const char *const own[] = {
        "title:",         "note:",   "  end_play:", "  preload:",  "  inboard_misalignment:",
        "  cleanliness:", "  dust:", "  water:",    "  moisture:", "  grease_age:",
        "    wheel_load:"};
    char *text = read_file(FOLDER, name, ".yaml"), *made = NULL;
    size_t size = 0;
    FILE *out = open_memstream(&made, &size);
    for (const char *at = text; *at;) {
        size_t length = strcspn(at, "\n");
        bool kept = *at != '#';
        for (size_t i = 0; i < sizeof own / sizeof *own; i++)
            kept = kept && strncmp(at, own[i], strlen(own[i])) != 0;
        if (kept)
            fwrite(at, 1, length + 1, out);
        at += length + (at[length] == '\n');
    }
    fclose(out);
    free(text);
    return made;
}

Test(lessons, all_share_one_hub_and_one_duty)
{
    static char names[FILES_MAX][80];
    int count = golden_list(FOLDER, ".yaml", names, FILES_MAX);
    char *first = common_part("lesson_1_clean");
    cr_assert(strstr(first, "inboard: hub inboard 60-110") && strstr(first, "side_share"));
    for (int i = 0; i < count; i++) {
        if (strncmp(names[i], "lesson_", 7) != 0)
            continue;
        char *other = common_part(names[i]);
        cr_expect_str_eq(other, first, "%s has another hub or duty than lesson 1", names[i]);
        free(other);
    }
    free(first);
}
