/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "scenario/text/diagnostics.h"

#include <criterion/criterion.h>
#include <stdlib.h>
#include <string.h>

static const struct spt_source source = {"x.yaml", "one\ntwo\r\nthree", 14};

static char *print(const struct spt_diagnostics *diags)
{
    char *text = NULL;
    size_t length = 0;
    FILE *out = open_memstream(&text, &length);
    spt_diagnostics_print(diags, out);
    fclose(out);
    return text;
}

Test(diagnostics, are_sorted_by_place_and_told_once)
{
    struct spt_diagnostics diags = {0};
    spt_diagnostics_add(&diags, (struct spt_mark){&source, 3, 2}, "later %d", 7);
    spt_diagnostics_add(&diags, (struct spt_mark){&source, 2, 3}, "right");
    spt_diagnostics_add(&diags, (struct spt_mark){&source, 2, 1}, "left");
    spt_diagnostics_add(&diags, (struct spt_mark){&source, 2, 1}, "left");
    char *text = print(&diags);
    cr_expect_str_eq(text, "x.yaml:2:1: left\n  two\n  ^\nx.yaml:2:3: right\n  two\n    ^\n"
                           "x.yaml:3:2: later 7\n  three\n   ^\n");
    cr_expect_eq(diags.count, 3);
    free(text);
}

/* A builder stops where a message was raised, whether or not there was workspace to keep it. */
Test(diagnostics, count_what_was_raised_though_it_is_not_kept)
{
    struct spt_diagnostics diags = {0};
    for (int i = 0; i < 30; i++)
        spt_diagnostics_add(&diags, (struct spt_mark){&source, 1, 30 - i}, "m%d", i);
    cr_expect_eq(diags.count, SPT_DIAGNOSTICS_MAX);
    cr_expect_eq(diags.dropped, 10);
    cr_expect_eq(diags.raised, 30);
    cr_expect_str_eq(diags.list[0].text, "m29", "the first places are kept");
    spt_diagnostics_add(&diags, (struct spt_mark){&source, 1, 1}, "m29");
    cr_expect_eq(diags.raised, 31);
    cr_expect_eq(diags.dropped, 10);
}

Test(diagnostics, of_a_whole_file_or_of_none_have_no_line)
{
    struct spt_diagnostics diags = {.out_of_memory = true};
    spt_diagnostics_add(&diags, (struct spt_mark){&source, 0, 0}, "odd");
    spt_diagnostics_add(&diags, (struct spt_mark){0}, "nowhere");
    char *text = print(&diags);
    cr_expect(strstr(text, "x.yaml: odd\n"));
    cr_expect(strstr(text, "nowhere\n"));
    cr_expect(strstr(text, "out of memory while reading\n"));
    cr_expect(spt_diagnostics_any(&diags));
    free(text);
}
