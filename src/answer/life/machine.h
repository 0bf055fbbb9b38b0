/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_LIFE_MACHINE_H
#define ANSWER_LIFE_MACHINE_H

#include "answer/life/explain.h"
#include "spalltime/machine.h"

/* The bearings of a machine, who limits it, and what each carries in every phase, as a section with
 * the tables "machine" and "supports". */
void spt_page_machine(struct spt_page *page, const struct spt_assessment *assessment);

/* Members of a bearing, of one of its phases, and of the system in JSON. */
void spt_machine_bearing_json(struct spt_json *json, const struct spt_machine_case *machine,
                              int bearing);
void spt_machine_phase_json(struct spt_json *json, const struct spt_page *page,
                            const struct spt_assessment *assessment, int bearing, int phase);
void spt_machine_system_json(struct spt_json *json, const struct spt_page *page,
                             const struct spt_assessment *assessment);

/* Each force with its formula, then the balances of forces and moments. */
void spt_explain_machine(const struct spt_assessment *assessment, const struct spt_step_sink *sink);

/* A direction phi in rad as degrees clockwise from straight up, 0 to 360; NaN stays. */
double spt_machine_clock_deg(double phi_rad);

#endif
