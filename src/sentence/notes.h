/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SENTENCE_NOTES_H
#define SENTENCE_NOTES_H

#include "format/page/page.h"
#include "spalltime/status.h"

/* The sentence of a flag as an item of a list, or of several; `who` raised them, NULL: nothing in
 * particular. */
void spt_page_note(struct spt_page *page, const struct spt_note *note, const char *who);
void spt_page_notes(struct spt_page *page, const struct spt_notes *notes, const char *who);

/* The cautions about the method, the last section of a page. */
void spt_page_cautions(struct spt_page *page);

/* Codes of notes, a blank between them; `more` may be NULL. Kept as long as the page. */
const char *spt_page_codes(struct spt_page *page, const struct spt_notes *notes,
                           const struct spt_notes *more);

#endif
