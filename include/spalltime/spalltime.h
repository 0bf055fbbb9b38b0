/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_SPALLTIME_H
#define SPT_SPALLTIME_H

/* The whole library. A call may switch GSL's error handler off, which is one for the process; the
 * last of the calls that run at a time puts the caller's back. Do not set another meanwhile. */

#include "spalltime/assess.h"
#include "spalltime/bearing.h"
#include "spalltime/fit.h"
#include "spalltime/history.h"
#include "spalltime/hub.h"
#include "spalltime/life.h"
#include "spalltime/lubricant.h"
#include "spalltime/reach.h"
#include "spalltime/service.h"
#include "spalltime/setting.h"
#include "spalltime/statistics.h"
#include "spalltime/status.h"
#include "spalltime/sweep.h"
#include "spalltime/uncertainty.h"
#include "spalltime/version.h"

#endif
