/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_SPALLTIME_H
#define SPT_SPALLTIME_H

/* The whole library. A call may switch off GSL's error handler, of which a process has only one;
 * the last of several concurrent calls restores the caller's handler. Do not set another handler
 * while a call runs. */

#include "spalltime/ask.h"
#include "spalltime/assess.h"
#include "spalltime/bearing.h"
#include "spalltime/choose.h"
#include "spalltime/cost.h"
#include "spalltime/diagnosis.h"
#include "spalltime/fit.h"
#include "spalltime/fleet.h"
#include "spalltime/history.h"
#include "spalltime/hub.h"
#include "spalltime/life.h"
#include "spalltime/lubricant.h"
#include "spalltime/machine.h"
#include "spalltime/reach.h"
#include "spalltime/seal.h"
#include "spalltime/service.h"
#include "spalltime/setting.h"
#include "spalltime/statistics.h"
#include "spalltime/status.h"
#include "spalltime/sweep.h"
#include "spalltime/uncertainty.h"
#include "spalltime/vehicle.h"
#include "spalltime/verdict.h"
#include "spalltime/version.h"

#endif
