/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "format/html_table.h"

#include <stdarg.h>
#include <string.h>

#include "format/escape.h"

#define WORDS_LENGTH 1024
#define PROSE_LENGTH 24 /* longer texts get a column of a minimum width */

void spt_table_open(FILE *out, const char *caption, const char *const *heads)
{
    fputs("<div class=\"wide\" role=\"region\" tabindex=\"0\" aria-label=\"", out);
    spt_escape(out, caption);
    fputs("\">\n<table>\n<caption>", out);
    spt_escape(out, caption);
    fputs("</caption>\n<thead><tr>", out);
    for (; *heads; heads++) {
        const char *head = *heads;
        fputs(*head == '#' ? "<th scope=\"col\" class=\"n\">" : "<th scope=\"col\">", out);
        spt_escape(out, *head == '#' ? head + 1 : head);
        fputs("</th>", out);
    }
    fputs("</tr></thead>\n<tbody>\n", out);
}

void spt_table_close(FILE *out)
{
    fputs("</tbody>\n</table>\n</div>\n", out);
}

void spt_table_row(FILE *out, const char *name)
{
    fputs("<tr><th scope=\"row\">", out);
    spt_escape(out, name);
    fputs("</th>", out);
}

void spt_table_row_end(FILE *out)
{
    fputs("</tr>\n", out);
}

void spt_table_text(FILE *out, const char *text)
{
    fputs(strlen(text) > PROSE_LENGTH ? "<td class=\"p\">" : "<td>", out);
    spt_escape(out, text);
    fputs("</td>", out);
}

void spt_table_number(FILE *out, const char *number)
{
    fputs("<td class=\"n\">", out);
    spt_escape(out, number);
    fputs("</td>", out);
}

void spt_table_numberf(FILE *out, const char *format, ...)
{
    char words[WORDS_LENGTH];
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(words, sizeof words, format, arguments);
    va_end(arguments);
    spt_table_number(out, words);
}

void spt_table_pair(FILE *out, const char *name, const char *format, ...)
{
    char words[WORDS_LENGTH];
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(words, sizeof words, format, arguments);
    va_end(arguments);
    spt_table_row(out, name);
    spt_table_text(out, words);
    spt_table_row_end(out);
}
