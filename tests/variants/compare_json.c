/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Compares the *.json files of two folders: the same texts, numbers to 1e-12 of the larger. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "support/golden.h"

#define FILES_MAX 200
#define TOLERANCE 1e-12

static char *read_file(const char *folder, const char *name)
{
    char path[512];
    size_t length;
    snprintf(path, sizeof path, "%s/%.80s.json", folder, name);
    return golden_read(path, &length);
}

int main(int argc, char **argv)
{
    static char names[FILES_MAX][80];
    int bad = 0;
    int count = argc == 3 ? golden_list(argv[1], ".json", names, FILES_MAX) : -1;
    for (int i = 0; i < count; i++) {
        char *want = read_file(argv[1], names[i]), *got = read_file(argv[2], names[i]);
        int line = 0;
        if (!want || !got || !golden_same(got, want, TOLERANCE, &line)) {
            printf("variants: %s/%s.json differs in line %d\n", argv[2], names[i], line);
            bad++;
        }
        free(want);
        free(got);
    }
    if (count > 0 && !bad)
        printf("variants: %s: %d answers as in %s\n", argv[2], count, argv[1]);
    return count <= 0 || bad;
}
