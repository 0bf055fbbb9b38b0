/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_PAGE_HTML_H
#define ANSWER_PAGE_HTML_H

#include <stdbool.h>
#include <stdio.h>

#include "chart/report.h"

/* Writes a report as one HTML file that loads nothing: verdict, inputs, results, charts, flags, the
 * calculation and its sources for every case, one after the other; a small script lets the reader
 * select a case and shows values under the pointer. The output depends only on the report.
 * Result: false when memory is out. */
bool spt_html(const struct spt_report *report, FILE *out);

#endif
