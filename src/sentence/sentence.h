/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SENTENCE_SENTENCE_H
#define SENTENCE_SENTENCE_H

#include <stddef.h>

#include "spalltime/assess.h"
#include "spalltime/status.h"

#define SPT_SENTENCE_LENGTH 320

/* The sentence of a note, for a mechanic: what it is, how much, what it means. Never empty. */
void spt_sentence(const struct spt_note *note, char *text, size_t size);

/* The flag in a few words for the verdict, where it means that fatigue may not be what ends the
 * life or that the figure is in doubt; NULL for all other flags. */
const char *spt_reservation(enum spt_flag flag);

/* What the tool says about itself at the end of every report; one line each, NULL past the last. */
const char *spt_caution(int i);
#define SPT_CAUTION_OF_WORK 2 /* from this one on they are for whoever does the work */

/* Why practice stays off preload and what of it is not in a life; one fact for every report. */
const char *spt_preload_practice(void);

/* Why shares of this loss lie below 0 or above 100 %, or are shares of a gain, in plain words; NULL
 * where none does or is. */
const char *spt_share_footnote(const struct spt_loss *loss);

/* What "cured" means for a cause of lost life, in plain words; never NULL. */
const char *spt_cure(enum spt_cause cause);

#endif
