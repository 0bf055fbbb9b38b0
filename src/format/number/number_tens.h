/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef FORMAT_NUMBER_NUMBER_TENS_H
#define FORMAT_NUMBER_NUMBER_TENS_H

/* Shared by number.c and number_cells.c. */

#define SPT_TENS_LEAST (-16)
#define SPT_TENS_MOST 22 /* 10^22 is the largest power of ten that is a double */
static const double spt_tens[] = {1e-16, 1e-15, 1e-14, 1e-13, 1e-12, 1e-11, 1e-10, 1e-9, 1e-8, 1e-7,
                                  1e-6,  1e-5,  1e-4,  1e-3,  1e-2,  1e-1,  1e0,   1e1,  1e2,  1e3,
                                  1e4,   1e5,   1e6,   1e7,   1e8,   1e9,   1e10,  1e11, 1e12, 1e13,
                                  1e14,  1e15,  1e16,  1e17,  1e18,  1e19,  1e20,  1e21, 1e22};

/* One of these powers scales a number from 2^-56 to below 2^73 to six digits before the point. */
#define SPT_USUAL_LEAST 0x1p-56
#define SPT_USUAL_END 0x1p73

/* Within this distance of a tie (scaled to six digits before the point) rounding is decided
 * exactly; it is far larger than the error of the scaled number, 1e-9. */
#define SPT_DOUBTFUL 1e-6

#endif
