/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_CATALOG_GUIDE_PARTS_H
#define ANSWER_CATALOG_GUIDE_PARTS_H

#include "answer/catalog/guide.h"

/* Parts of a mode that the page of the mode and that of its cost in a scenario share. */

/* What it is called in the standard and elsewhere. */
void spt_guide_say_names(struct spt_page *page, const struct spt_guide_entry *entry);

/* A section with one list of short texts. */
void spt_guide_say_part(struct spt_page *page, const char *heading,
                        const struct spt_guide_entry *entry, enum spt_guide_part part);

/* Whether the model quantifies it, as a sentence. */
void spt_guide_say_quantified(struct spt_page *page, const struct spt_guide_entry *entry);

/* Causes kept by the page: "debris, thin film", or "none". */
const char *spt_guide_page_causes(struct spt_page *page, unsigned causes);

#endif
