/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Any two commands on one file agree: on the headline, the verdict, its parts and the exit status.
 */
#include <criterion/criterion.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>

#include "support/golden.h"
#include "support/page_text.h"

#define SCENARIOS "scenarios/"
#define SCENARIOS_MAX 100
#define ANSWER_MAX (1 << 20)
#define HEAD_MAX 8192

/* What a command says at its head; `status` is that of the exit. */
struct head {
    int status;
    char member[HEAD_MAX]; /* the member "verdict" of JSON */
    char headline[HEAD_MAX];
};

static int run(const char *command, char *answer)
{
    FILE *pipe = popen(command, "r");
    cr_assert_not_null(pipe);
    size_t length = fread(answer, 1, ANSWER_MAX - 1, pipe);
    answer[length] = 0;
    while (fgetc(pipe) != EOF) /* the rest is not looked at */
        ;
    int status = pclose(pipe);
    return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

static void copy_between(const char *text, const char *from, const char *to, char *copy)
{
    const char *start = strstr(text, from);
    const char *end = start ? strstr(start + strlen(from), to) : NULL;
    cr_assert(end && end - start < HEAD_MAX, "no %s", from);
    snprintf(copy, HEAD_MAX, "%.*s", (int)(end - start), start);
}

/* Result: false where the command needs what the scenario lacks. */
static bool read_head(const char *command, const char *name, struct head *head)
{
    static char answer[ANSWER_MAX];
    char line[8200];
    snprintf(line, sizeof line,
             "%s %s --format json --catalog catalogs " SCENARIOS "%s.yaml 2>/dev/null",
             SPT_TEST_PROGRAM, command, name);
    head->status = run(line, answer);
    if (head->status > 1)
        return false;
    copy_between(answer, "\"verdict\": {", "\n  },", head->member);
    copy_between(head->member, "\"headline\": \"", "\",\n", head->headline);
    return true;
}

/* The report is HTML only: it has the headline, without the marks of code and JSON, and the exit
 * status. */
static void expect_report(const char *name, const struct head *head)
{
    static char answer[ANSWER_MAX], headline[HEAD_MAX];
    char line[8200];
    size_t used = 0;
    snprintf(line, sizeof line, "%s report --catalog catalogs " SCENARIOS "%s.yaml 2>/dev/null",
             SPT_TEST_PROGRAM, name);
    cr_expect_eq(run(line, answer), head->status, "report %s", name);
    for (const char *at = head->headline + strlen("\"headline\": \""); *at; at++)
        if (*at != '`' && *at != '\\')
            headline[used++] = *at;
    headline[used] = 0;
    char *shown = page_text(answer);
    cr_expect(strstr(shown, headline), "report %s does not say: %s", name, headline);
    free(shown);
}

static int agree(const char *name)
{
    static const char *const commands[] = {"life",   "compare",  "reach",   "setting",
                                           "spread", "timeline", "schedule"};
    static struct head first, other;
    int seen = 0;
    cr_assert(read_head(commands[0], name, &first), "%s", name);
    for (size_t i = 1; i < sizeof commands / sizeof *commands; i++) {
        if (!read_head(commands[i], name, &other))
            continue;
        seen++;
        cr_expect_str_eq(other.member, first.member, "%s of %s", commands[i], name);
        cr_expect_eq(other.status, first.status, "%s of %s", commands[i], name);
    }
    expect_report(name, &first);
    return seen;
}

Test(verdict, of_any_two_commands_on_a_shipped_scenario_is_the_same)
{
    static char names[SCENARIOS_MAX][80];
    int count = golden_list(SCENARIOS, ".yaml", names, SCENARIOS_MAX), seen = 0;
    cr_assert_gt(count, 5);
    for (int i = 0; i < count; i++)
        seen += agree(names[i]);
    cr_expect_gt(seen, 2 * count, "most scenarios are answered by several commands");
}

/* Sound machines are not warned of: every part but fatigue that the case has is met. */
Test(verdict, nothing_cries_wolf_at_a_sound_machine)
{
    static const char *const sound[] = {"lesson_1_clean", "feed_mixer_gearbox"};
    static const char *const parts[] = {"grease risk", "water", "oil heat", "inputs"};
    static const char *const commands[] = {"life", "schedule", "reach --life 100h"};
    static struct head head;
    int met = 0;
    for (size_t i = 0; i < sizeof sound / sizeof *sound; i++)
        for (size_t c = 0; c < sizeof commands / sizeof *commands; c++) {
            cr_assert(read_head(commands[c], sound[i], &head), "%s %s", commands[c], sound[i]);
            for (size_t p = 0; p < sizeof parts / sizeof *parts; p++) {
                char wanted[HEAD_MAX];
                snprintf(wanted, sizeof wanted, "\"part\": \"%s\",", parts[p]);
                const char *part = strstr(head.member, wanted);
                const char *verdict = part ? strstr(part, "\"verdict\": ") : NULL;
                met += verdict != NULL;
                cr_expect(!verdict || !strncmp(verdict, "\"verdict\": \"met\"", 16),
                          "%s %s: %.100s", commands[c], sound[i], part);
            }
        }
    cr_expect_eq(met, 18, "three parts of each, in each command");
}
