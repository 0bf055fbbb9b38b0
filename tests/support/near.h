/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef TESTS_NEAR_H
#define TESTS_NEAR_H

#include <stdbool.h>

/* True where |got - want| <= absolute + relative |want|; false for NaN. Equal infinities are near.
 * A published row sets `absolute` to half a unit of its last printed digit. */
bool near(double got, double want, double relative, double absolute);

/* A repeatable pseudo-random number, uniform in [low, high); `state` is any seed. */
double random_between(unsigned long long *state, double low, double high);

#endif
