/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SENTENCE_NOTES_H
#define SENTENCE_NOTES_H

#include "format/text.h"
#include "spalltime/status.h"

/* Writes the sentences of some flags as a list; `who` raised them, NULL: nothing in particular. */
void spt_text_notes(const struct spt_text *text, const struct spt_notes *notes, const char *who);

/* Writes the cautions about the method, the last section of a text. */
void spt_text_cautions(const struct spt_text *text);

#endif
