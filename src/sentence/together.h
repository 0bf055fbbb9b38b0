/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SENTENCE_TOGETHER_H
#define SENTENCE_TOGETHER_H

#include <stddef.h>

#include "spalltime/assess.h"

/* What all the bearings of a case are called together: "both rows" of a hub, "both bearings", "all
 * bearings". */
const char *spt_together(const struct spt_case *question);

/* Some of them, by a set of bits 1 << index, into a buffer: "all bearings", "drive end" or "drive
 * end, fan end". */
const char *spt_together_of(const struct spt_case *question, unsigned bearings, char *words,
                            size_t size);

#endif
