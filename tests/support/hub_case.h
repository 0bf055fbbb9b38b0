/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef TESTS_HUB_CASE_H
#define TESTS_HUB_CASE_H

#include "spalltime/assess.h"

/* A greased tapered roller bearing with one phase, and the same with an oil bath; the numbers are
 * ours. The phase is static. */
struct spt_case hub_case(void);
struct spt_case oil_case(void);

#endif
