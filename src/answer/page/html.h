/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_PAGE_HTML_H
#define ANSWER_PAGE_HTML_H

#include <stdbool.h>
#include <stdio.h>

#include "chart/report.h"

/* Writes a report as one HTML file that loads nothing: verdict, inputs, results, charts, flags, the
 * working and its sources for every case, one after the other; a small script lets a reader pick a
 * case and see values on hovering. The same report gives the same bytes.
 * Result: false when memory is out. */
bool spt_html(const struct spt_report *report, FILE *out);

#endif
