/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_CATALOG_CHECK_H
#define ANSWER_CATALOG_CHECK_H

#include "format/page/page.h"
#include "spalltime/assess.h"

enum spt_check_result { SPT_CHECK_FINE, SPT_CHECK_MISTAKES, SPT_CHECK_NOT_READ, SPT_CHECK_COUNT };

/* What was found of a scenario or a case file. */
struct spt_checked {
    const char *path;
    enum spt_check_result result;
    int phases, variants; /* of a scenario that is fine */
    int cases;            /* of a case file that is fine; 0: a scenario */
    const char *messages; /* the lines that were said of it; "" for none */
    /* of a file that is fine, where its inputs are to be shown as they were understood; or NULL */
    const struct spt_assessment *understood;
};

/* The files that are fine, a line each, for text: what is wrong has been said by then; with the
 * inputs below, where they are to be shown. */
void spt_check_lines(struct spt_page *page, const struct spt_checked *files, int count);

/* A row for each file, what was said of it, and its inputs where they are to be shown. */
void spt_check_page(struct spt_page *page, const struct spt_checked *files, int count);

/* The same as members of an object that the caller has opened, with the rows of the page. */
void spt_check_json(struct spt_json *json, const struct spt_page *page,
                    const struct spt_checked *files);

#endif
