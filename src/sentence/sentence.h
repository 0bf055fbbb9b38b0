/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SENTENCE_SENTENCE_H
#define SENTENCE_SENTENCE_H

#include <stddef.h>

#include "format/page/page.h"
#include "spalltime/assess.h"
#include "spalltime/status.h"

#define SPT_SENTENCE_LENGTH 480

/* The sentence of a note for a mechanic: what was found, how much, what it means. Never empty. */
void spt_sentence(const struct spt_note *note, char *text, size_t size);

/* What a flag says of the numbers beside it: nothing that changes them; an input that was not
 * stated was assumed; a limit of the method, or a state outside it, altered one. */
enum spt_flag_effect { SPT_FLAG_REMARKS, SPT_FLAG_ASSUMES, SPT_FLAG_ALTERS };
#define SPT_EFFECTS_ALL (~0u) /* sets of effects are masks of 1u << effect */
#define SPT_EFFECTS_ASSUMED (1u << SPT_FLAG_ASSUMES)
enum spt_flag_effect spt_flag_effect(enum spt_flag flag);

/* The role of its sentence: --quiet keeps what changes a number or puts it in doubt. */
enum spt_role spt_flag_role(enum spt_flag flag);

/* The flag in a few words for the verdict, where it means that something other than fatigue may end
 * the life or that the value is doubtful; NULL for all other flags. */
const char *spt_reservation(enum spt_flag flag);

/* The cautions about the method at the end of every report; one line each, NULL past the last. */
const char *spt_caution(int i);
#define SPT_CAUTION_OF_CAUSES 1 /* what else may end a life */
#define SPT_CAUTION_OF_WORK 2   /* from this one on they concern the work on the machine */

/* Why preload is avoided in practice, and which effects of it a life does not include; used by
 * every report. */
const char *spt_preload_practice(void);

/* Explains why shares of this loss are below 0 or above 100 %, or are shares of a gain; NULL where
 * there are no such shares. */
const char *spt_share_footnote(const struct spt_loss *loss);

/* What "cured" means for a cause of lost life, in plain words; never NULL. */
const char *spt_cure(enum spt_cause cause);

#endif
