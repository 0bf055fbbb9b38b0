/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SENTENCE_NOTES_H
#define SENTENCE_NOTES_H

#include "format/text.h"
#include "spalltime/status.h"

/* The sentences of some flags as a list; `who` raises them, NULL: nobody in particular. */
void spt_text_notes(const struct spt_text *text, const struct spt_notes *notes, const char *who);

/* What the tool says about itself, as the last section of a text. */
void spt_text_cautions(const struct spt_text *text);

#endif
