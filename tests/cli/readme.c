/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every answer that README.md shows is what the program prints: in a block that starts with
 * ```console, a line "$ command" is run and the lines up to the next one are its output. */
#include <criterion/criterion.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "support/golden.h"

#define README "README.md"
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

Test(readme, every_answer_shown_is_what_the_program_prints)
{
    size_t length = 0;
    int commands = 0, line = 0;
    char *readme = golden_read(README, &length);
    cr_assert(readme);
    char *made = with_outputs(readme, &commands);
    cr_expect(commands >= 5, "only %d commands found", commands);
    cr_expect(golden_same(made, readme, 0, &line), "README.md differs in line %d", line);
    if (golden_regenerates())
        cr_assert(golden_write(README, made));
    free(made);
    free(readme);
}
