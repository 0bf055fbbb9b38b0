/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/patch.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "support/golden.h"

#define BASES "tests/bad_input/bases/"
#define DIVIDER "@\n"
#define CASES_MAX 1000
#define SAYS "\n--- says\n"

/* Length of a line with its end. */
static size_t measure_line(const char *line)
{
    size_t length = strcspn(line, "\n");
    return length + (line[length] == '\n');
}

static bool is_end_of_hunk(const char *patch)
{
    return !*patch || !strncmp(patch, DIVIDER, strlen(DIVIDER));
}

/* The position in the text after the old lines of a hunk; NULL where the text at `at` is
 * different. */
static const char *match_hunk(const char *at, const char *hunk)
{
    for (; !is_end_of_hunk(hunk); hunk += measure_line(hunk)) {
        size_t length = measure_line(hunk) - 1;
        if (*hunk == '+')
            continue;
        if (strncmp(at, hunk + 1, length) != 0)
            return NULL;
        at += length;
    }
    return at;
}

/* Writes the new lines of a hunk. Result: the position in the patch after it. */
static const char *write_hunk(const char *hunk, FILE *out)
{
    for (; !is_end_of_hunk(hunk); hunk += measure_line(hunk))
        if (*hunk != '-')
            fwrite(hunk + 1, 1, measure_line(hunk) - 1, out);
    return *hunk ? hunk + strlen(DIVIDER) : hunk;
}

char *patch_apply(const char *text, const char *patch)
{
    char *made = NULL;
    size_t length = 0;
    bool fits = true;
    FILE *out = open_memstream(&made, &length);
    while (*patch && fits) {
        const char *behind = match_hunk(text, patch);
        for (; !behind && *text; behind = match_hunk(text, patch)) {
            fwrite(text, 1, measure_line(text), out);
            text += measure_line(text);
        }
        fits = behind != NULL;
        patch = write_hunk(patch, out);
        text = fits ? behind : text;
    }
    fputs(text, out);
    fclose(out);
    if (!fits) {
        free(made);
        return NULL;
    }
    return made;
}

/* Reads a base file; from malloc. */
static char *read_base(const char *name)
{
    char path[200];
    size_t length;
    if (!strcmp(name, "none"))
        return strdup("");
    snprintf(path, sizeof path, BASES "%s.yaml", name);
    return golden_read(path, &length);
}

struct patch_case patch_case_read(const char *path)
{
    static const char word[] = "base ";
    size_t length;
    struct patch_case read = {.text = golden_read(path, &length)};
    char *line_end = read.text ? strchr(read.text, '\n') : NULL;
    char *says = line_end ? strstr(line_end, SAYS) : NULL;
    if (!says || strncmp(read.text, word, strlen(word)) != 0)
        return read;
    says[1] = 0; /* the patch ends with the line end of its last line */
    *line_end = 0;
    char *base = read_base(read.text + strlen(word));
    read.scenario = base ? patch_apply(base, says == line_end ? "" : line_end + 1) : NULL;
    read.says = read.scenario ? says + strlen(SAYS) : NULL;
    free(base);
    return read;
}

void patch_case_free(struct patch_case *read)
{
    free(read->scenario);
    free(read->text);
    *read = (struct patch_case){0};
}

/* False where the case is invalid or the file cannot be written. */
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

bool patch_cases_expand(const char *from, const char *to)
{
    static char names[CASES_MAX][80];
    int count = golden_list(from, ".case", names, CASES_MAX);
    bool sound = count > 0;
    for (int i = 0; i < count; i++)
        sound &= expand(from, to, names[i]);
    return sound;
}
