/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SENTENCE_FINDINGS_H
#define SENTENCE_FINDINGS_H

#include "format/page/page.h"
#include "spalltime/assess.h"

/* Receives sentences one by one; `who` is the name of the bearing or phase, NULL for the whole
 * case. */
struct spt_finding_sink {
    void (*say)(void *context, const char *who, const char *sentence);
    void *context;
};

/* Sends one sentence, formatted as by printf, of at most 1199 bytes. */
__attribute__((format(printf, 3, 4))) void
spt_finding_say(const struct spt_finding_sink *sink, const char *who, const char *format, ...);

/* The condition as stated in sentences: its life, then for each bearing the phase with most damage,
 * the cause with the largest share of the loss, and the best single remedy (the largest gain). */
void spt_findings_stated(const struct spt_assessment *assessment,
                         const struct spt_finding_sink *sink);

/* The section of the flags of the assessment, its bearings and its phases; a flag that several
 * phases raise is reported once, at the first of them, with their number; one with the same
 * sentence for all bearings is reported once for all. */
void spt_page_flags(struct spt_page *page, const struct spt_assessment *assessment);

/* The same without the section, of the flags whose effect is in the set, a mask of
 * 1u << enum spt_flag_effect. */
void spt_page_flags_of(struct spt_page *page, const struct spt_assessment *assessment,
                       unsigned effects);

#endif
