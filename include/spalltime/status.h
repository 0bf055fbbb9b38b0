/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_STATUS_H
#define SPT_STATUS_H

#ifdef __cplusplus
extern "C" {
#endif

/* What a function of the library answers. SPT_OK is 0; every other value means that
 * the output holds NaN (or was left empty) and why. "Answered, but outside the scope
 * of the standard" is not a status: that is a flag in the result, see flag.h.
 * No pointer may be NULL where the comment on it does not say so. An array that goes with a count
 * may be NULL where the count is 0; with a count above 0 it is refused (SPT_BAD_ARGUMENT, or NaN
 * from a function without a status), and so is a workspace or room for results. */
enum spt_status {
    SPT_OK = 0,
    SPT_BAD_ARGUMENT,   /* an input is NaN, infinite, or outside the range its contract states */
    SPT_NOT_APPLICABLE, /* the method gives no value here (for instance kappa below 0.1) */
    SPT_CANNOT_CARRY,   /* this arrangement has no equilibrium under this load */
    SPT_FREE,           /* nothing is loaded: no equilibrium is singled out, life is unlimited */
    SPT_NOT_CONVERGED,  /* an iteration ended without meeting its tolerance */
    SPT_NO_MEMORY,      /* an allocation failed */
    SPT_NO_ROOM,        /* the caller's array or workspace is too small */
    SPT_STATUS_COUNT
};

/* One plain sentence for each status; never NULL, also for values outside the enumeration. */
const char *spt_status_text(enum spt_status status);

#ifdef __cplusplus
}
#endif

#endif
