/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef STUDY_LIFE_ASSESS_NOTES_H
#define STUDY_LIFE_ASSESS_NOTES_H

#include "spalltime/assess.h"

/* Adds to an assessed bearing `i` what concerns it as a whole: what was assumed of it, the age at
 * which it counts as old, the static safety at the hardest sample of a history; and to its phases
 * what only the duty as a whole can tell: loads that are too light for long enough. */
void spt_assess_notes(const struct spt_case *question, int i, struct spt_bearing_result *bearing);

#endif
