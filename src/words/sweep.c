/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/sweep.h"
#include "words/table.h"

SPT_DEFINE_WORDS(
    spt_sweep_status_words, SPT_SWEEP_STATUS_COUNT, [SPT_SWEEP_OK] = "ok",
    [SPT_SWEEP_NO_DAMAGE] = "no_damage", [SPT_SWEEP_FILM_TOO_THIN] = "film_too_thin",
    [SPT_SWEEP_GREASE_EXHAUSTED] = "grease_exhausted", [SPT_SWEEP_TOO_HOT] = "too_hot",
    [SPT_SWEEP_OIL_TOO_STIFF] = "oil_too_stiff", [SPT_SWEEP_RADIAL_NOT_RATED] = "radial_not_rated",
    [SPT_SWEEP_NO_ANSWER] = "no_answer", [SPT_SWEEP_REFUSED] = "refused",
    [SPT_SWEEP_CANNOT_CARRY] = "cannot_carry", [SPT_SWEEP_MOVED_TOO_FAR] = "moved_too_far",
    [SPT_SWEEP_NO_REFERENCE] = "no_reference", [SPT_SWEEP_NOT_CONVERGED] = "not_converged");

const char *spt_sweep_status_name(enum spt_sweep_status status)
{
    return spt_word(&spt_sweep_status_words, (int)status);
}
