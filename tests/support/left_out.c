/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/left_out.h"

#include <stdio.h>
#include <stdlib.h>

void left_out_note(const char *reason)
{
    const char *path = getenv("SPT_LEFT_OUT");
    FILE *file = path && *path ? fopen(path, "a") : NULL;
    if (!file)
        return;
    fprintf(file, "%s/%s: %s\n", criterion_current_suite->name, criterion_current_test->name,
            reason);
    fclose(file);
}

const char *python_with(const char *modules, const char *packages)
{
    static const char *const commands[] = {"python3", "/usr/bin/python3"};
    for (size_t i = 0; i < sizeof commands / sizeof *commands; i++) {
        char line[200];
        snprintf(line, sizeof line, "%s -c 'import %s' >/dev/null 2>&1", commands[i], modules);
        if (system(line) == 0)
            return commands[i];
    }
    char reason[200];
    snprintf(reason, sizeof reason, "no python3 here has %s (Debian: apt-get install %s)", modules,
             packages);
    leave_out(reason);
    return NULL;
}
