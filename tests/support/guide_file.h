/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef TESTS_GUIDE_FILE_H
#define TESTS_GUIDE_FILE_H

#include "scenario/catalog/causes.h"

/* A catalog with the guide and the causes in it, for tests; free both with guide_file_free. */
struct guide_file {
    struct spt_catalog catalog;
    struct spt_guide guide;
    struct spt_causes causes;
};

/* The guide that comes with the program; the tests run from the top of the source tree. */
void guide_file_load(struct guide_file *file);
void guide_file_free(struct guide_file *file);

#endif
