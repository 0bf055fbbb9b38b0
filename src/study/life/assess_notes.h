/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef STUDY_LIFE_ASSESS_NOTES_H
#define STUDY_LIFE_ASSESS_NOTES_H

#include "spalltime/assess.h"

/* Adds the notes of an assessed bearing `i` as a whole: assumptions, calendar age limit, static
 * safety at the sample with the largest load of a history; and to its phases those that depend on
 * the whole duty: loads that are too light for long enough. */
void spt_assess_notes(const struct spt_case *question, int i, struct spt_bearing_result *bearing);

#endif
