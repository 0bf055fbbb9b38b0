/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/life/sheet.h"

#include "sentence/findings.h"
#include "sentence/sentence.h"
#include "spalltime/version.h"

void spt_page_sheet_head(struct spt_page *page)
{
    spt_page_say(page, SPT_BODY, "", "Calculation by spalltime %s.", SPT_VERSION);
}

static void say_signature(struct spt_page *page, const char *mark)
{
    spt_page_say(page, SPT_BODY, mark,
                 "name .................... date ............ signature ............");
}

void spt_page_sheet_foot(struct spt_page *page)
{
    spt_page_open(page, "Signatures");
    say_signature(page, "worked out  ");
    say_signature(page, "checked     ");
    spt_page_close(page);
}

/* What the method takes for granted in this case; the steps of the calculation name the sources. */
static void say_granted(struct spt_page *page, const struct spt_assessment *assessment)
{
    if (assessment->bearings[0].phase_count > 1)
        spt_page_say(page, SPT_BODY, "- ",
                     "The damages of the phases add up (Palmgren 1924, Miner 1945).");
    if (assessment->bearing_count > 1)
        spt_page_say(page, SPT_BODY, "- ",
                     "The bearings together survive with the product of their survivals.");
    if (assessment->question->hub)
        spt_page_say(page, SPT_BODY, "- ", "%s", spt_preload_practice());
    spt_page_say(page, SPT_BODY, "- ", "%s", spt_caution(SPT_CAUTION_OF_CAUSES));
}

void spt_page_assumptions(struct spt_page *page, const struct spt_assessment *assessment)
{
    spt_page_open(page, "Assumptions");
    spt_page_flags_of(page, assessment, SPT_EFFECTS_ASSUMED);
    say_granted(page, assessment);
    spt_page_close(page);
}
