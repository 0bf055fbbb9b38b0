/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef TESTS_PLAIN_H
#define TESTS_PLAIN_H

#include "spalltime/assess.h"

#define DEG 0.017453292519943295

/* A bearing of which only the type is known: every number is NaN, the number of rows is that of the
 * type. */
struct spt_bearing plain_bearing(enum spt_bearing_type type);

/* Internal geometry with D_pw 100 mm and this gamma (D/D_pw at 90 degrees) and contact angle, 12
 * elements of 10 mm length in each row, and the groove ratios of the standards. */
struct spt_geometry plain_geometry(double gamma, double angle_deg);

/* A case of one bearing at 90 % reliability; every other number is NaN. */
struct spt_case plain_case(const char *title);

#endif
