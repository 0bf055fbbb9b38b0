/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef TESTS_STORY_H
#define TESTS_STORY_H

#include "spalltime/service.h"
#include "support/case_example.h"

#define STORY_EVENTS 4

/* A case with up to four events; each event has a function that changes the case. */
struct story {
    struct example_case base;
    struct spt_service service;
    void (*changes[STORY_EVENTS])(struct example_case *made);
    struct example_case made[(STORY_EVENTS + 1) * STORY_EVENTS];
    struct spt_case cases[(STORY_EVENTS + 1) * STORY_EVENTS];
};

/* The story under test, a second one to compare with, the result, and the workspace. */
extern struct story story, other;
extern struct spt_timeline timeline;
extern const struct spt_timeline_workspace story_workspace;

void story_begin(struct story *told, enum spt_lubrication kind, int bearings);

/* An event at a time that changes the case. */
void story_add_event(struct story *told, double at_h, void (*change)(struct example_case *));

/* A drift that changes nothing until its members are set. */
struct spt_drift *story_add_drift(struct story *told, double from_h, double to_h);

/* Builds the cases of every row (see struct spt_service) and runs the timeline. */
enum spt_status story_run(struct story *told, struct spt_timeline *into);

/* Runs `story` into `timeline`; asserts success. */
void story_tell(void);

void story_scale_loads(struct example_case *made, double factor);

void story_load_more(struct example_case *made);

/* 1/L of one bearing of a case with a grease age, a lower bound of water and a factor on the
 * loads. */
double story_rate(const struct example_case *base, int bearing, double age_h, double water_ppm,
                  double load_factor);

#endif
