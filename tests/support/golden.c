/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/golden.h"

#include <ctype.h>
#include <dirent.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

bool golden_regenerates(void)
{
    const char *wish = getenv("SPT_REGENERATE");
    return wish && !strcmp(wish, "1");
}

char *golden_read(const char *path, size_t *length)
{
    FILE *file = fopen(path, "rb");
    char *text = NULL;
    size_t capacity = 0;
    *length = 0;
    while (file && !feof(file) && !ferror(file)) {
        capacity += 65536;
        char *larger = realloc(text, capacity);
        if (!larger)
            break;
        text = larger;
        *length += fread(text + *length, 1, capacity - 1 - *length, file);
    }
    if (file)
        fclose(file);
    if (text)
        text[*length] = 0;
    return text;
}

bool golden_write(const char *path, const char *text)
{
    FILE *file = fopen(path, "wb");
    bool written = file && fputs(text, file) >= 0;
    if (file && fclose(file))
        written = false;
    return written;
}

static int compare_names(const void *a, const void *b)
{
    return strcmp(a, b);
}

int golden_list(const char *folder, const char *suffix, char (*names)[80], int most)
{
    DIR *opened = opendir(folder);
    int count = 0;
    for (struct dirent *item = opened ? readdir(opened) : NULL; item; item = readdir(opened)) {
        size_t length = strlen(item->d_name), end = strlen(suffix);
        if (item->d_name[0] == '.' || length <= end || length - end >= sizeof *names ||
            strcmp(item->d_name + length - end, suffix) != 0)
            continue;
        if (count == most) {
            count = -1;
            break;
        }
        memcpy(names[count], item->d_name, length - end);
        names[count++][length - end] = 0;
    }
    if (opened)
        closedir(opened);
    if (opened && count > 0)
        qsort(names, (size_t)count, sizeof *names, compare_names);
    return opened ? count : -1;
}

/* Skips a number in both texts; false where one has none or they differ by more than the
 * tolerance. */
static bool skip_numbers(const char **got, const char **want, double tolerance)
{
    char *got_end, *want_end;
    if (!isdigit((unsigned char)**got) || !isdigit((unsigned char)**want))
        return false;
    double a = strtod(*got, &got_end), b = strtod(*want, &want_end);
    if (!(fabs(a - b) <= tolerance * fmax(fabs(a), fabs(b))))
        return false;
    *got = got_end;
    *want = want_end;
    return true;
}

bool golden_same(const char *got, const char *want, double tolerance, int *line)
{
    *line = 1;
    while (*got && *want) {
        if (tolerance > 0 && skip_numbers(&got, &want, tolerance))
            continue;
        if (*got != *want)
            return false;
        *line += *got == '\n';
        got++;
        want++;
    }
    return *got == *want;
}
