/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "format/escape.h"

#include <criterion/criterion.h>
#include <stdlib.h>
#include <string.h>

#define REPLACED "\xEF\xBF\xBD"

static char *escape(const char *text)
{
    char *written = NULL;
    size_t length = 0;
    FILE *out = open_memstream(&written, &length);
    spt_escape(out, text);
    fclose(out);
    return written;
}

Test(escape, texts_come_out_harmless_and_whole)
{
    static const struct {
        const char *text, *want;
    } rows[] = {
        {"", ""},
        {"plain text, 70 % of 2.385 kN", "plain text, 70 % of 2.385 kN"},
        {"</title><script>alert(1)</script>",
         "&lt;/title&gt;&lt;script&gt;alert(1)&lt;/script&gt;"},
        {"\" onload=\"alert(1)", "&quot; onload=&quot;alert(1)"},
        {"' onload='x", "&#39; onload=&#39;x"},
        {"a & b &amp; c", "a &amp; b &amp;amp; c"},
        {"]]> --> <!--", "]]&gt; --&gt; &lt;!--"},
        {"tab\tline\nreturn\r", "tab\tline\nreturn\r"},
        {"bell\a nul-like\x01 escape\x1B[31m delete\x7F",
         "bell" REPLACED " nul-like" REPLACED " escape" REPLACED "[31m delete" REPLACED},
        {"C1 \xC2\x85 and NBSP \xC2\xA0", "C1 " REPLACED " and NBSP \xC2\xA0"},
        {"\xD0\xA4\xD0\xB0\xD0\xB7\xD0\xB0 \xE6\xBC\xA2 \xF0\x9F\x9A\x9C",
         "\xD0\xA4\xD0\xB0\xD0\xB7\xD0\xB0 \xE6\xBC\xA2 \xF0\x9F\x9A\x9C"},
        {"\xE2\x80\xAEtxt.exe\xE2\x80\xAC", REPLACED "txt.exe" REPLACED},
        {"\xE2\x81\xA6isolate\xE2\x81\xA9", REPLACED "isolate" REPLACED},
        {"\xEF\xBF\xBE\xEF\xBF\xBF", REPLACED REPLACED},
        {"cut \xE6\xBC", "cut " REPLACED REPLACED},
        {"overlong \xC0\xAF", "overlong " REPLACED REPLACED},
        {"surrogate \xED\xA0\x80", "surrogate " REPLACED REPLACED REPLACED},
        {"\xFF\xFE<", REPLACED REPLACED "&lt;"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        char *got = escape(rows[i].text);
        cr_expect_str_eq(got, rows[i].want, "row %zu: %s", i, rows[i].text);
        free(got);
    }
}

Test(escape, nothing_is_written_for_no_text)
{
    char *got = escape(NULL);
    cr_expect_str_eq(got, "");
    free(got);
}
