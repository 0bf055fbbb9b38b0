/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_CLEANLINESS_H
#define SPT_CLEANLINESS_H

#include <stdbool.h>

#include "spalltime/status.h"

#ifdef __cplusplus
extern "C" {
#endif

/* The 14 conditions of ISO 281:2007 Annex A, cleanest first in each of the three groups. */
enum spt_cleanliness {
    SPT_CLEANLINESS_CIRCULATING_13_10, /* in-line filter, beta_6(c)  = 200 */
    SPT_CLEANLINESS_CIRCULATING_15_12, /* in-line filter, beta_12(c) = 200 */
    SPT_CLEANLINESS_CIRCULATING_17_14, /* in-line filter, beta_25(c) >= 75 */
    SPT_CLEANLINESS_CIRCULATING_19_16, /* in-line filter, beta_40(c) >= 75 */
    SPT_CLEANLINESS_BATH_13_10,        /* oil bath, or circulating with off-line filter */
    SPT_CLEANLINESS_BATH_15_12,
    SPT_CLEANLINESS_BATH_17_14,
    SPT_CLEANLINESS_BATH_19_16,
    SPT_CLEANLINESS_BATH_21_18,
    SPT_CLEANLINESS_GREASE_HIGH,
    SPT_CLEANLINESS_GREASE_NORMAL,
    SPT_CLEANLINESS_GREASE_SLIGHT,
    SPT_CLEANLINESS_GREASE_SEVERE,
    SPT_CLEANLINESS_GREASE_VERY_SEVERE,
    SPT_CLEANLINESS_COUNT
};

enum spt_lubrication {
    SPT_LUBRICATION_GREASE,
    SPT_LUBRICATION_OIL_BATH,
    SPT_LUBRICATION_CIRCULATING,
    SPT_LUBRICATION_COUNT
};

/* Constants of e_C = a (1 - b / D_pw^(1/3)), a = min(1, c kappa^0.68 D_pw^0.55). */
struct spt_cleanliness_constants {
    double c;
    double b;
};

/* The constants of a condition; D_pw matters only for SPT_CLEANLINESS_GREASE_SLIGHT, whose b
 * changes at 500 mm. Both NaN for a value outside the enumeration.
 * Source: ISO 281:2007 Annex A, all constants from memory. */
struct spt_cleanliness_constants spt_cleanliness_constants(enum spt_cleanliness condition,
                                                           double pitch_diameter_mm);

/* First (cleanest) condition and number of conditions that belong to a way of lubricating. */
enum spt_cleanliness spt_cleanliness_first(enum spt_lubrication kind);
int spt_cleanliness_count(enum spt_lubrication kind);

/* Short name used in files and reports: "normal", "-/15/12" (the same for bath and circulating
 * oil). Never NULL; "unknown" outside the enumeration. */
const char *spt_cleanliness_name(enum spt_cleanliness condition);

/* The way of lubricating that a condition belongs to. */
enum spt_lubrication spt_cleanliness_kind(enum spt_cleanliness condition);

/* Contamination factor e_C, 0 to 1.
 * In:     condition; kappa (> 0; above 4 the value at 4 is used by the caller's own limit);
 *         D_pw in mm (> 0). A negative value of the bracket gives 0.
 * Status: SPT_BAD_ARGUMENT, NaN.
 * Source: ISO 281:2007 Annex A (from memory). */
enum spt_status spt_cleanliness_factor(enum spt_cleanliness condition, double kappa,
                                       double pitch_diameter_mm, double *e_c);

/* An ISO 4406 code: particles per mL above 4, 6 and 14 um(c); -1 where the code has "-". */
struct spt_iso4406 {
    int over_4;
    int over_6;
    int over_14;
};

/* Reads "-/15/12", "18/15/12" or "15/12" (two numbers are the 6 and 14 um ones), numbers 0 to 28,
 * not rising from left to right, the 6 and 14 um ones both there. `length` bytes, spaces around are
 * allowed.
 * Status: SPT_BAD_ARGUMENT where the text is no such code, all three members -1. */
enum spt_status spt_iso4406_parse(const char *text, unsigned length, struct spt_iso4406 *code);

/* The scale number for a particle count per mL (>= 0); 29 stands for "more than 28".
 * -1 for NaN or a negative count.
 * Source: ISO 4406:2017 table 1. */
int spt_iso4406_number(double particles_per_ml);

/* The Annex A condition of a code for oil bath or circulating oil: the cleanest condition that
 * lists a code (its own or an equivalent) not below the given one in the 6 and in the 14 um number.
 * So a cleaner code never gets a dirtier condition. `rounded` is set where the code itself is not
 * listed. The 4 um number is carried and not looked at. Equivalents, for both kinds of oil:
 * -/13/10: 12/10 11/9 12/9; -/15/12: 14/12 16/12 16/13; -/17/14: 18/14 18/15 19/15. Circulating
 * -/19/16: 20/17 21/18 22/18. Oil bath -/19/16: 18/16 20/17 21/17; -/21/18: 21/19 22/19 23/19.
 * Status: SPT_BAD_ARGUMENT where the code lacks a number or rises; SPT_NOT_APPLICABLE for grease or
 * for oil dirtier than the last class; *condition is then SPT_CLEANLINESS_COUNT. Source: ISO
 * 281:2007 Annex A, the lists from memory. */
enum spt_status spt_cleanliness_from_code(enum spt_lubrication kind, const struct spt_iso4406 *code,
                                          enum spt_cleanliness *condition, bool *rounded);

#ifdef __cplusplus
}
#endif

#endif
