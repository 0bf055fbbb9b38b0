/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef STUDY_LIFE_CHECK_H
#define STUDY_LIFE_CHECK_H

#include "spalltime/service.h"

/* Validation of structs filled by callers of the library; a scenario from the reader always
 * passes. */

/* Validates one bearing of a case.
 * Status: SPT_BAD_ARGUMENT for an index that is none of its bearings, or a number, a share or an
 *         enumeration outside what assess.h states; SPT_TOO_SMALL for too many phases. */
enum spt_status spt_check_bearing(const struct spt_case *question, int bearing_index);

/* Validates a case and its service, with the cases after its events.
 * Status: SPT_BAD_ARGUMENT for what is outside the ranges that assess.h and timeline.h state. */
enum spt_status spt_check_service(const struct spt_case *question,
                                  const struct spt_service *service);

/* Times in h: 0 or more, rising. */
enum spt_status spt_check_times(const double *times_h, int count);

#endif
