/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every answer that README.md and the manual show is what the program prints: in a block that
 * starts with ```console, a line "$ command" is run and the lines up to the next one are its
 * output. */
#include <criterion/criterion.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "cli/command.h"
#include "manual/manual.h"
#include "support/golden.h"

#define START "```console\n"
#define END "```\n"
#define COMMAND_LENGTH 1024

/* Writes what a command prints, `spalltime` being the built program. */
static void write_output(const char *line, size_t length, FILE *out)
{
    char command[COMMAND_LENGTH], buffer[4096];
    snprintf(command, sizeof command, "spalltime() { %s \"$@\"; }; %.*s 2>&1", SPT_TEST_PROGRAM,
             (int)length, line);
    FILE *pipe = popen(command, "r");
    cr_assert(pipe);
    for (size_t got; (got = fread(buffer, 1, sizeof buffer, pipe)) > 0;)
        fwrite(buffer, 1, got, out);
    pclose(pipe);
}

/* Copies one block with the outputs of its commands put in; gives the place behind it. */
static const char *write_block(const char *at, FILE *out, int *commands)
{
    while (*at && strncmp(at, END, strlen(END)) != 0) {
        size_t length = strcspn(at, "\n");
        if (!strncmp(at, "$ ", 2)) {
            fwrite(at, 1, length + 1, out);
            write_output(at + 2, length - 2, out);
            ++*commands;
        }
        at += length + (at[length] == '\n');
    }
    return at;
}

static char *with_outputs(const char *readme, int *commands)
{
    char *made = NULL;
    size_t length = 0;
    FILE *out = open_memstream(&made, &length);
    const char *at = readme;
    for (const char *block = strstr(at, START); block; block = strstr(at, START)) {
        block += strlen(START);
        fwrite(at, 1, (size_t)(block - at), out);
        at = write_block(block, out, commands);
    }
    fputs(at, out);
    fclose(out);
    return made;
}

/* Result: the number of commands that the file shows. */
static int check_file(const char *path)
{
    size_t length = 0;
    int commands = 0, line = 0;
    char *text = golden_read(path, &length);
    cr_assert(text, "%s", path);
    char *made = with_outputs(text, &commands);
    cr_expect(golden_same(made, text, 0, &line), "%s differs in line %d", path, line);
    if (golden_regenerates())
        cr_assert(golden_write(path, made));
    free(made);
    free(text);
    return commands;
}

Test(readme, every_answer_shown_is_what_the_program_prints)
{
    const int commands = check_file("README.md");
    cr_expect(commands >= 5, "only %d commands found", commands);
}

Test(readme, every_text_of_the_manual_shows_two_answers_that_the_program_prints)
{
    for (int i = 0; i < spt_manual_count; i++) {
        char path[200];
        const bool command = spt_manual_section(&spt_manual_texts[i]) == 1;
        snprintf(path, sizeof path, "src/manual/%s/%s.md", command ? "command" : "topic",
                 spt_manual_texts[i].name);
        const int commands = check_file(path);
        cr_expect(commands >= 2 || !strcmp(spt_manual_texts[i].name, "spalltime"),
                  "%s: only %d commands found", path, commands);
    }
}

/* The names between backticks of a line. */
static void expect_names(const struct spt_manual_text *text, const char *line)
{
    while ((line = strchr(line, '`'))) {
        char name[80];
        const size_t length = strcspn(line + 1, "`");
        snprintf(name, sizeof name, "%.*s", (int)length, line + 1);
        cr_expect(spt_manual_find(name), "%s.md: there is no `%s`", text->name, name);
        line += length + 2;
    }
}

Test(readme, every_command_has_a_text_and_what_it_refers_to_is_there)
{
    for (int i = 0; i < spt_command_count; i++)
        cr_expect(spt_manual_find(spt_command_table[i].name), "%s", spt_command_table[i].name);
    for (int i = 0; i < spt_manual_count; i++) {
        const struct spt_manual_text *text = &spt_manual_texts[i];
        int heads = 0;
        for (int line = 0; line < text->line_count; line++) {
            if (heads)
                expect_names(text, text->lines[line]);
            heads += !strcmp(text->lines[line], "## See also");
        }
        cr_expect_eq(heads, 1, "%s.md has no See also at its end", text->name);
        cr_expect(spt_manual_section(text) >= 1 && spt_manual_section(text) <= 8, "%s", text->name);
    }
}
