/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_CATALOG_EXAMPLE_H
#define ANSWER_CATALOG_EXAMPLE_H

#include "format/page/page.h"

/* A scenario or a table that comes with the program. */
struct spt_example {
    const char *name;  /* its file below the folder, without `.yaml` */
    const char *title; /* "" where it has none */
};

/* A row for each. */
void spt_examples_page(struct spt_page *page, const struct spt_example *examples, int count);

/* The same as members of an object that the caller has opened. */
void spt_examples_json(struct spt_json *json, const struct spt_page *page);

#endif
