/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/run.h"

#include <criterion/criterion.h>
#include <stdlib.h>
#include <string.h>

#include "support/golden.h"

static char *run_as(const char *command, const char *format, const char *path, int *status)
{
    size_t length = 0;
    char *yaml = golden_read(path, &length);
    cr_assert(yaml);
    char *answer = spt_run_text(command, format, yaml, length, "catalogs", status);
    free(yaml);
    cr_assert(answer);
    return answer;
}

static char *run_file(const char *command, const char *path)
{
    return run_as(command, "json", path, NULL);
}

Test(run, a_scenario_is_answered_as_by_the_program)
{
    char *answer = run_file("life", "scenarios/beet_trailer_hub.yaml");
    cr_expect(strstr(answer, "\"title\": \"Beet trailer hub, near side\""));
    cr_expect(strstr(answer, "\"modified_rating_life_h\": "));
    cr_expect(strstr(answer, "\"exit_status\": 0\n}\n"));
    cr_expect_null(strstr(answer, "\"error\""));
    spt_free(answer);
}

Test(run, a_missed_target_shows_in_the_exit_status)
{
    char *answer = run_file("compare", "scenarios/gravel_conveyor_drum.yaml");
    cr_expect(strstr(answer, "\"exit_status\": 1\n}\n"));
    spt_free(answer);
}

Test(run, a_mistake_comes_back_with_its_place)
{
    char *answer = spt_run_text("life", "json", "titel: x\n", 9, NULL, NULL);
    cr_assert(answer);
    cr_expect(strstr(answer, "\"exit_status\": 3"));
    cr_expect(strstr(answer, "the text:1:1: `titel` is not a key"), "%s", answer);
    spt_free(answer);
}

Test(run, nothing_in_place_of_a_text_is_answered_too)
{
    char *no_command = spt_run_text(NULL, "json", "title: x\n", 9, NULL, NULL);
    char *no_text = spt_run_text("life", "json", NULL, 7, NULL, NULL);
    cr_assert(no_command && no_text);
    cr_expect(strstr(no_command, "\"exit_status\": 2"), "%s", no_command);
    cr_expect(strstr(no_text, "the text:1:1: the file is empty"), "%s", no_text);
    spt_free(no_command);
    spt_free(no_text);
}

Test(run, a_command_that_answers_no_text_is_refused)
{
    const char *const names[] = {"no such thing", "help",   "sweep",   "report",
                                 "duty",          "schema", "catalog", "damage"};
    for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
        char *answer = spt_run_text(names[i], "json", "", 0, NULL, NULL);
        cr_assert(answer);
        cr_expect(strstr(answer, "\"exit_status\": 2"), "%s: %s", names[i], answer);
        cr_expect(strstr(answer, "is no command that answers one text; these are: life compare "
                                 "reach choose timeline setting schedule spread fit check"),
                  "%s", answer);
        spt_free(answer);
    }
    spt_free(NULL);
}

Test(run, check_answers_what_is_wrong_with_a_text)
{
    static const char yaml[] = "title: x\n";
    char *answer = spt_run_text("check", "json", yaml, strlen(yaml), NULL, NULL);
    cr_assert(answer);
    cr_expect(strstr(answer, "\"result\": \"mistakes\""), "%s", answer);
    cr_expect(strstr(answer, "1:1: the scenario lacks `lubricant`"), "%s", answer);
    cr_expect(strstr(answer, "\"exit_status\": 3"), "%s", answer);
    spt_free(answer);
}

Test(run, every_format_is_that_of_the_program)
{
    static const struct {
        const char *format, *begins;
    } forms[] = {{"html", "<!DOCTYPE html>"},
                 {"text", "Gravel conveyor, tail drum\n"},
                 {"csv", "bearing,phase,"}};
    for (size_t i = 0; i < sizeof forms / sizeof *forms; i++) {
        const char *path = "scenarios/gravel_conveyor_drum.yaml";
        const char *const words[] = {"life", "-f", forms[i].format, "-c", "catalogs", path};
        struct spt_run_answer program;
        int status = -1;
        char *answer = run_as("life", forms[i].format, path, &status);
        cr_expect_eq(spt_run(&(struct spt_run_request){.words = words, .word_count = 6}, &program),
                     1);
        cr_expect_eq(status, 1, "%s: %d", forms[i].format, status);
        cr_expect_eq(strncmp(answer, forms[i].begins, strlen(forms[i].begins)), 0, "%.60s", answer);
        cr_expect_str_eq(answer, program.body);
        spt_run_answer_free(&program);
        spt_free(answer);
    }
}

Test(run, a_mistake_is_told_in_the_messages_where_the_format_has_no_place_for_it)
{
    static const struct {
        const char *command, *format, *yaml, *said;
        int status;
    } cases[] = {{"life", "html", "titel: x\n", "the text:1:1: `titel` is not a key", 3},
                 {"life", "text", "titel: x\n", "the text:1:1: `titel` is not a key", 3},
                 {"life", "pdf", "title: x\n", "--format", 2},
                 {"life", NULL, "title: x\n", "--format", 2},
                 {"sweep", "html", "title: x\n", "is no command that answers one text", 2}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        int status = -1;
        char *answer = spt_run_text(cases[i].command, cases[i].format, cases[i].yaml,
                                    strlen(cases[i].yaml), NULL, &status);
        cr_assert(answer);
        cr_expect_eq(status, cases[i].status, "%zu: %d", i, status);
        cr_expect(strstr(answer, cases[i].said), "%zu: %s", i, answer);
        cr_expect_neq(*answer, '{', "%zu: %s", i, answer);
        spt_free(answer);
    }
}

static int run(const char *const *words, int count, const struct spt_run_file *files, int held,
               struct spt_run_answer *answer)
{
    return spt_run(&(struct spt_run_request){words, count, files, held, 0}, answer);
}

Test(run, a_call_that_cannot_be_made_is_usage_and_leaves_nothing)
{
    static const char *const words[] = {"help", NULL};
    const struct spt_run_file nameless = {NULL, "x", 1}, empty = {"x", NULL, 0};
    struct spt_run_answer answer;
    cr_expect_eq(spt_run(NULL, &answer), 2);
    cr_expect(!answer.body && !answer.messages && answer.exit_status == 2);
    cr_expect_eq(spt_run(&(struct spt_run_request){.words = words, .word_count = 1}, NULL), 2);
    cr_expect_eq(run(words, 2, NULL, 0, &answer), 2, "a NULL word");
    cr_expect_eq(run(NULL, 1, NULL, 0, &answer), 2);
    cr_expect_eq(run(words, -1, NULL, 0, &answer), 2);
    cr_expect_eq(run(words, 1, NULL, 1, &answer), 2);
    cr_expect_eq(run(words, 1, &nameless, 1, &answer), 2);
    cr_expect_eq(run(words, 1, &empty, 1, &answer), 2);
    spt_run_answer_free(NULL);
}

Test(run, no_word_at_all_lists_the_commands)
{
    struct spt_run_answer answer;
    cr_expect_eq(run(NULL, 0, NULL, 0, &answer), 0);
    cr_assert(answer.body);
    cr_expect(strstr(answer.body, "schedule"));
    cr_expect_eq(strlen(answer.body), answer.body_length);
    cr_expect_str_eq(answer.messages, "");
    spt_run_answer_free(&answer);
    cr_expect_null(answer.body);
}

Test(run, a_file_in_memory_comes_before_that_of_the_disk)
{
    static const char *const words[] = {"check", "scenarios/beet_trailer_hub.yaml", "none.yaml"};
    static const char text[] = "title: 5\nbearin: x\n";
    const struct spt_run_file file = {"scenarios/beet_trailer_hub.yaml", text, sizeof text - 1};
    struct spt_run_answer answer;
    cr_expect_eq(run(words, 2, &file, 1, &answer), 3);
    cr_expect(strstr(answer.messages, "beet_trailer_hub.yaml:2:1: `bearin`"), "%s",
              answer.messages);
    spt_run_answer_free(&answer);
    cr_expect_eq(run(words, 3, NULL, 0, &answer), 4);
    cr_expect(strstr(answer.messages, "none.yaml"), "%s", answer.messages);
    spt_run_answer_free(&answer);
}
