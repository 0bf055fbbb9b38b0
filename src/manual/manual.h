/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef MANUAL_MANUAL_H
#define MANUAL_MANUAL_H

#include "format/page/page.h"

/* The manual: one file src/manual/NAME.md for each command and each topic, compiled in by the
 * Makefile. Help, man pages and this program's own README examples are made from the same text.
 *
 * Of Markdown a file has only: its first line `# name (section): summary`, paragraphs, headings
 * `## `, items `- `, tables of bars, blocks between lines of three backticks, and `code`. */
struct spt_manual_text {
    const char *name;
    const char *const *lines;
    int line_count;
};
extern const struct spt_manual_text spt_manual_texts[];
extern const int spt_manual_count;

/* Result: NULL for a name that the manual does not have. */
const struct spt_manual_text *spt_manual_find(const char *name);

/* Section of the man page, 1 to 8: 1 for a command. */
int spt_manual_section(const struct spt_manual_text *text);
const char *spt_manual_title(const struct spt_manual_text *text); /* name, section, summary */
const char *spt_manual_summary(const struct spt_manual_text *text);

/* Adds the text to a page: its paragraphs up to the first heading, or all that follows them. */
enum spt_manual_part { SPT_MANUAL_LEAD, SPT_MANUAL_REST };
void spt_manual_page(const struct spt_manual_text *text, enum spt_manual_part part,
                     struct spt_page *page);

#endif
