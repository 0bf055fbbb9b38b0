/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_CATALOG_CHECK_H
#define ANSWER_CATALOG_CHECK_H

#include "format/page/page.h"

enum spt_check_result { SPT_CHECK_FINE, SPT_CHECK_MISTAKES, SPT_CHECK_NOT_READ, SPT_CHECK_COUNT };

/* What was found of a scenario file. */
struct spt_checked {
    const char *path;
    enum spt_check_result result;
    int phases, variants; /* of a file that is fine */
    const char *messages; /* the lines that were said of it; "" for none */
};

/* The files that are fine, a line each, for text: what is wrong has been said by then. */
void spt_check_lines(struct spt_page *page, const struct spt_checked *files, int count);

/* A row for each file, and what was said of it. */
void spt_check_page(struct spt_page *page, const struct spt_checked *files, int count);

/* The same as members of an object that the caller has opened, with the rows of the page. */
void spt_check_json(struct spt_json *json, const struct spt_page *page,
                    const struct spt_checked *files);

#endif
