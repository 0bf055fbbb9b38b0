/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Writes the scenario of each case of tests/bad_input as a file of its own, as inputs for the
 * targets.
 * usage: expand FOLDER_OF_CASES FOLDER */
#include <stdbool.h>
#include <stdio.h>

#include "support/golden.h"
#include "support/patch.h"

#define CASES_MAX 1000

/* False where the case is unsound or the file cannot be written. */
static bool expand(const char *from, const char *to, const char *name)
{
    char path[4096];
    snprintf(path, sizeof path, "%s/%s.case", from, name);
    struct patch_case read = patch_case_read(path);
    snprintf(path, sizeof path, "%s/%s.yaml", to, name);
    bool written = read.scenario && golden_write(path, read.scenario);
    patch_case_free(&read);
    if (!written)
        fprintf(stderr, "%s: cannot be written, or its case is unsound\n", path);
    return written;
}

int main(int argc, char **argv)
{
    static char names[CASES_MAX][80];
    int count = argc == 3 ? golden_list(argv[1], ".case", names, CASES_MAX) : 0;
    bool sound = count > 0;
    for (int i = 0; i < count; i++)
        sound &= expand(argv[1], argv[2], names[i]);
    return sound ? 0 : 1;
}
