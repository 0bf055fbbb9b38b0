/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef TESTS_HUB_EXAMPLE_H
#define TESTS_HUB_EXAMPLE_H

#include "spalltime/hub.h"

/* An invented heavy trailer hub, back-to-back, and its wheel with 45 kN and a side force as a
 * fraction of that; ratings computed from the geometry. */
struct spt_hub example_hub(void);
struct spt_hub_load example_load(double side_share);

/* Workspace length sufficient for every hub of the tests. */
#define EXAMPLE_LENGTH 16384

/* Prepares in a static workspace; aborts on failure. One model at a time. */
struct spt_hub_model example_model(const struct spt_hub *hub);

#endif
