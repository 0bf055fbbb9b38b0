/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef TESTS_PLAIN_H
#define TESTS_PLAIN_H

#include "spalltime/assess.h"

#define DEG 0.017453292519943295

/* A bearing of which nothing but the type is known: every number is NaN, the rows are the type's.
 */
struct spt_bearing plain_bearing(enum spt_bearing_type type);

/* Inside geometry with D_pw 100 mm that has this gamma and contact angle (D/D_pw at 90 degrees),
 * 12 elements of 10 mm length in each of the type's rows, and the standards' grooves. */
struct spt_geometry plain_geometry(double gamma, double angle_deg);

/* A machine of one bearing at 90 % of which nothing else is known: every number is NaN. */
struct spt_case plain_case(const char *title);

#endif
