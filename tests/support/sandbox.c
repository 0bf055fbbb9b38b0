/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/sandbox.h"

#include <criterion/criterion.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

#include "spalltime/version.h"
#include "support/golden.h"

#define PATH_LENGTH 1024
#define SCRATCH "/scratch"

void sandbox_make(struct sandbox *sandbox)
{
    char here[PATH_LENGTH / 2], command[4 * PATH_LENGTH];
    cr_assert(getcwd(here, sizeof here));
    snprintf(sandbox->root, sizeof sandbox->root, "%s/%s.cli.%ld", here, SPT_TEST_PROGRAM,
             (long)getpid());
    snprintf(command, sizeof command,
             "r='%s'; mkdir -p \"$r/tree/bin\" \"$r/tree/share/spalltime/catalogs\" && "
             "cp %s \"$r/tree/bin/spalltime\" && "
             "cp tests/cli/catalog/*.yaml \"$r/tree/share/spalltime/catalogs/\" && "
             "ln -s \"$PWD/scenarios\" \"$r/tree/share/spalltime/scenarios\"",
             sandbox->root, SPT_TEST_PROGRAM);
    cr_assert_eq(system(command), 0, "%s", command);
    strcpy(sandbox->work, "/tmp/spalltime.XXXXXX");
    cr_assert(mkdtemp(sandbox->work), "no folder can be made in /tmp");
}

void sandbox_remove(const struct sandbox *sandbox)
{
    char command[2 * PATH_LENGTH];
    snprintf(command, sizeof command, "rm -rf '%s' '%s'", sandbox->root, sandbox->work);
    cr_assert_eq(system(command), 0);
}

/* The text with each `from` replaced; from malloc. Frees the text. */
static char *replace_all(char *text, const char *from, const char *to)
{
    char *made = NULL;
    size_t length = 0;
    FILE *out = open_memstream(&made, &length);
    const char *at = text;
    for (const char *next = strstr(at, from); next; next = strstr(at, from)) {
        fwrite(at, 1, (size_t)(next - at), out);
        fputs(to, out);
        at = next + strlen(from);
    }
    fputs(at, out);
    fclose(out);
    free(text);
    return made;
}

static char *read_output(const struct sandbox *sandbox, const char *name)
{
    char path[2 * PATH_LENGTH], scratch[sizeof sandbox->work + sizeof SCRATCH];
    size_t length;
    snprintf(path, sizeof path, "%s/%s", sandbox->root, name);
    snprintf(scratch, sizeof scratch, "%s" SCRATCH, sandbox->work);
    char *text = golden_read(path, &length);
    cr_assert(text, "%s", path);
    cr_expect_eq(strlen(text), length, "a NUL in the output");
    return replace_all(replace_all(text, scratch, "SCRATCH"), SPT_VERSION, "VERSION");
}

void sandbox_run(const struct sandbox *sandbox, const char *command, struct sandbox_run *got)
{
    static char line[8 * PATH_LENGTH];
    snprintf(line, sizeof line,
             "r='%s'; SCRATCH='%s" SCRATCH "'; rm -rf \"$SCRATCH\"; mkdir \"$SCRATCH\"; "
             "PATH=\"$r/tree/bin:$PATH\"; LC_ALL=C.UTF-8; export SCRATCH PATH LC_ALL; "
             "unset SPALLTIME_CATALOGS NO_COLOR; { %s\n} >\"$r/out\" 2>\"$r/err\" </dev/null",
             sandbox->root, sandbox->work, command);
    int status = system(line);
    *got = (struct sandbox_run){.status = WIFEXITED(status) ? WEXITSTATUS(status) : -1,
                                .out = read_output(sandbox, "out"),
                                .err = read_output(sandbox, "err")};
}
