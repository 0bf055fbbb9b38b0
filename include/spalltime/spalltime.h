/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_SPALLTIME_H
#define SPT_SPALLTIME_H

/* The whole library. A call may switch GSL's error handler off, which is one for the process; the
 * last of the calls that run at a time puts the caller's back. Do not set another meanwhile. */

#include "spalltime/adjust.h"
#include "spalltime/assess.h"
#include "spalltime/ball_contact.h"
#include "spalltime/batch.h"
#include "spalltime/bearing.h"
#include "spalltime/cleanliness.h"
#include "spalltime/damage.h"
#include "spalltime/film.h"
#include "spalltime/fit.h"
#include "spalltime/flag.h"
#include "spalltime/grease.h"
#include "spalltime/heat.h"
#include "spalltime/history.h"
#include "spalltime/hub.h"
#include "spalltime/hub_bench.h"
#include "spalltime/hub_case.h"
#include "spalltime/life.h"
#include "spalltime/load.h"
#include "spalltime/loss.h"
#include "spalltime/random_input.h"
#include "spalltime/rank.h"
#include "spalltime/rating.h"
#include "spalltime/reach.h"
#include "spalltime/regreasing.h"
#include "spalltime/replacement.h"
#include "spalltime/schedule.h"
#include "spalltime/setting.h"
#include "spalltime/sjoevall.h"
#include "spalltime/status.h"
#include "spalltime/survival.h"
#include "spalltime/suspect.h"
#include "spalltime/sweep.h"
#include "spalltime/timeline.h"
#include "spalltime/uncertainty.h"
#include "spalltime/version.h"
#include "spalltime/viscosity.h"
#include "spalltime/water.h"
#include "spalltime/weibull.h"

#endif
