/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Text and HTML of one answer say the same: each number and each verdict of a golden text stands in
 * the page of the same command line, which ends with the same status. Where a case prints a part of
 * the text alone, that part is looked for. */
#include <criterion/criterion.h>
#include <ctype.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "support/cli_case.h"
#include "support/golden.h"
#include "support/page_text.h"
#include "support/sandbox.h"

#define COMMANDS                                                                                   \
    "catalog check choose compare damage diagnose duty fit life reach schedule setting spread timeline"
#define DIGITS "0123456789"
#define LINE_LENGTH 1024
#define TOKEN_LENGTH 64

/* What is printed for people to see as a picture: HTML draws it, or has its numbers elsewhere. */
static bool is_picture(const char *line)
{
    /* the ends of the axis of the bars of `compare`, whose lives stand in the table */
    if (strspn(line, DIGITS " ") == strlen(line))
        return true;
    /* the heights beside the plot of `setting`, which is a chart with an axis of its own */
    return strstr(line, " % |") == line + 3 || strstr(line, " % |") == line + 4;
}

/* Cases in which the shell counts or lists lines, so that the numbers are not those of an answer.
 */
static bool is_counted(const char *name)
{
    return !strcmp(name, "check_many") || !strcmp(name, "check_every_input");
}

/* The status of a pipe is that of its last command. */
static bool is_filtered(const char *command)
{
    const char *last = command;
    for (const char *at = strstr(command, "spalltime "); at; at = strstr(at + 1, "spalltime "))
        last = at;
    return strpbrk(last, "|;") != NULL;
}

/* Plans sample uncertain inputs, so that those of which a case prints a part would take half the
 * time of all these tests; other cases print whole ones. */
static bool is_part_of_plan(const char *command)
{
    return strstr(command, "spalltime schedule") && is_filtered(command);
}

/* True for cases whose answer is text on standard output. */
static bool answers_in_text(const struct cli_case *want)
{
    static const char *const others[] = {" -f", "--format", " -o", "--output", "-qf", "--help"};
    for (size_t i = 0; i < sizeof others / sizeof *others; i++)
        if (strstr(want->command, others[i]))
            return false;
    return want->out && *want->out && !is_part_of_plan(want->command);
}

/* A program of the same name that writes pages into $root/pages, and nothing into pipes. */
static void make_wrapper(const struct sandbox *sandbox)
{
    char path[LINE_LENGTH + 64], text[2 * LINE_LENGTH];
    snprintf(path, sizeof path, "mkdir '%s/pager'", sandbox->root);
    cr_assert_eq(system(path), 0);
    snprintf(path, sizeof path, "%s/pager/spalltime", sandbox->root);
    snprintf(text, sizeof text,
             "#!/bin/sh\nroot='%s'\ncase ' " COMMANDS " ' in\n"
             "*\" $1 \"*) command=$1; shift\n"
             "  exec \"$root/tree/bin/spalltime\" \"$command\" --format html \"$@\" "
             ">>\"$root/pages\" ;;\n"
             "*) exec \"$root/tree/bin/spalltime\" \"$@\" ;;\nesac\n",
             sandbox->root);
    cr_assert(golden_write(path, text));
    snprintf(path, sizeof path, "chmod 755 '%s/pager/spalltime'", sandbox->root);
    cr_assert_eq(system(path), 0);
}

/* The text of the pages of all calls of a command; from malloc. */
static char *show_pages(const struct sandbox *sandbox, const struct cli_case *want, int *status)
{
    char path[LINE_LENGTH + 64], *line = malloc(strlen(want->command) + 2 * LINE_LENGTH);
    struct sandbox_run got;
    size_t length;
    sprintf(line, ": >\"$r/pages\"; PATH=\"$r/pager:$PATH\"; %s", want->command);
    sandbox_run(sandbox, line, &got);
    *status = got.status;
    snprintf(path, sizeof path, "%s/pages", sandbox->root);
    char *html = golden_read(path, &length);
    cr_assert(html, "%s", path);
    char *shown = page_text(html);
    free(html);
    free(got.out);
    free(got.err);
    free(line);
    return shown;
}

static bool is_thousand(const char *at)
{
    return at[0] == ' ' && isdigit((unsigned char)at[1]) && isdigit((unsigned char)at[2]) &&
           isdigit((unsigned char)at[3]) && !isdigit((unsigned char)at[4]);
}

/* Reads "22 000", "0.435", "1e7" or "9.3.3". Result: its length. */
static size_t measure_number(const char *at)
{
    size_t length = strspn(at, DIGITS);
    while (is_thousand(at + length))
        length += 4;
    while (at[length] == '.' && isdigit((unsigned char)at[length + 1]))
        length += 1 + strspn(at + length + 1, DIGITS);
    if (at[length] == 'e') {
        const size_t sign = at[length + 1] == '-' || at[length + 1] == '+';
        const size_t digits = strspn(at + length + 1 + sign, DIGITS);
        length += digits ? 1 + sign + digits : 0;
    }
    return length;
}

/* True where the number does not go on before or behind. */
static bool stands_alone(const char *text, const char *at, size_t length)
{
    const bool digit_before = at > text && isdigit((unsigned char)at[-1]);
    const bool point_before = at > text + 1 && at[-1] == '.' && isdigit((unsigned char)at[-2]);
    return !digit_before && !point_before && !isdigit((unsigned char)at[length]) &&
           !is_thousand(at + length) &&
           !(at[length] == '.' && isdigit((unsigned char)at[length + 1]));
}

static bool is_shown(const char *shown, const char *number)
{
    const size_t length = strlen(number);
    for (const char *at = strstr(shown, number); at; at = strstr(at + 1, number))
        if (stands_alone(shown, at, length))
            return true;
    return false;
}

/* Cuts off the last three digits of "5 510 000 100" where the next column may begin there. */
static bool shorten(char *number)
{
    char *last = strrchr(number, ' ');
    if (last)
        *last = 0;
    return last != NULL;
}

/* Result: how many numbers the line has. */
static int expect_numbers(const char *name, const char *line, const char *shown)
{
    int count = 0;
    for (const char *at = line + strcspn(line, DIGITS); *at; at += strcspn(at, DIGITS)) {
        char number[TOKEN_LENGTH], part[TOKEN_LENGTH];
        const size_t length = measure_number(at);
        cr_assert_lt(length, sizeof number, "%s: %s", name, line);
        snprintf(number, sizeof number, "%.*s", (int)length, at);
        strcpy(part, number);
        while (!is_shown(shown, part))
            if (!shorten(part)) {
                cr_expect_fail("%s: %s is not in the page: %s", name, number, line);
                break;
            }
        at += strlen(part);
        count++;
    }
    return count;
}

/* The first line of a verdict, behind its sign. */
static int expect_verdict(const char *name, const char *line, const char *shown)
{
    static const struct {
        const char *mark, *sign;
    } verdicts[] = {{"[+] ", "\xE2\x9C\x93"}, {"[-] ", "\xE2\x9C\x97"}, {"[?] ", "!"}};
    for (size_t i = 0; i < sizeof verdicts / sizeof *verdicts; i++)
        if (!strncmp(line, verdicts[i].mark, 4)) {
            char want[LINE_LENGTH];
            snprintf(want, sizeof want, "\n%s %s", verdicts[i].sign, line + 4);
            cr_expect(strstr(shown, want), "%s: not in the page: %s", name, line);
            return 1;
        }
    return 0;
}

/* Copies a line without the sequences that colour it, and moves to the next. */
static void take_line(const char **at, char *line)
{
    size_t used = 0;
    while (**at && **at != '\n') {
        if (**at == '\033')
            *at += strcspn(*at, "m");
        else if (used < LINE_LENGTH - 1)
            line[used++] = **at;
        ++*at;
    }
    *at += **at == '\n';
    line[used] = 0;
}

struct found {
    int cases, numbers, verdicts;
};

static void compare(const char *name, const struct cli_case *want, const char *shown,
                    struct found *found)
{
    char line[LINE_LENGTH];
    for (const char *at = want->out; *at;) {
        take_line(&at, line);
        if (is_picture(line))
            continue;
        found->numbers += expect_numbers(name, line, shown);
        found->verdicts += expect_verdict(name, line, shown);
    }
    found->cases++;
}

static void compare_case(const struct sandbox *sandbox, const char *name, struct found *found)
{
    struct cli_case want;
    int status;
    cli_case_read(name, &want);
    if (answers_in_text(&want) && !is_counted(name)) {
        char *shown = show_pages(sandbox, &want, &status);
        if (*shown)
            compare(name, &want, shown, found);
        if (*shown && !is_filtered(want.command))
            cr_expect_eq(status, want.status, "%s: the page ends with %d", name, status);
        free(shown);
    }
    free(want.text);
}

/* The cases whose names begin with a word, with at least so many of them, numbers and verdicts. */
static void compare_cases(const char *word, struct found least)
{
    static char names[CLI_CASES_MAX][80];
    struct sandbox sandbox;
    struct found found = {0};
    const int count = cli_case_list(names);
    sandbox_make(&sandbox);
    make_wrapper(&sandbox);
    for (int i = 0; i < count; i++)
        if (cli_case_begins_with(names[i], word))
            compare_case(&sandbox, names[i], &found);
    sandbox_remove(&sandbox);
    cr_expect(found.cases >= least.cases && found.numbers >= least.numbers &&
                  found.verdicts >= least.verdicts,
              "%s: only %d cases, %d numbers, %d verdicts", word, found.cases, found.numbers,
              found.verdicts);
}

/* What the names of cases begin with, and about how much there is to find. */
#define WORDS(word)                                                                                \
    word(catalog, 6, 80, 0) word(check, 3, 60, 0) word(choose, 4, 150, 3) word(compare, 9, 200, 0) \
        word(damage, 8, 100, 0) word(diagnose, 6, 300, 0) word(duty, 3, 80, 0)                     \
            word(fit, 10, 300, 1) word(lesson, 6, 600, 1) word(lessons, 1, 20, 0)                  \
                word(life, 28, 3000, 12) word(reach, 12, 200, 8) word(schedule, 8, 800, 0)         \
                    word(setting, 3, 50, 0) word(spread, 3, 100, 1) word(teaching, 2, 100, 0)      \
                        word(timeline, 6, 100, 3)
#define AGREES(word, cases, numbers, verdicts)                                                     \
    Test(agreement, word##_says_the_same_in_text_and_html)                                         \
    {                                                                                              \
        compare_cases(#word, (struct found){cases, numbers, verdicts});                            \
    }
WORDS(AGREES)
