/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SENTENCE_LIFE_STATUS_H
#define SENTENCE_LIFE_STATUS_H

/* Status of a life; JSON has null for both unlimited and missing lives. */
enum spt_life_status { SPT_LIFE_RATED, SPT_LIFE_UNLIMITED, SPT_LIFE_NONE, SPT_LIFE_STATUS_COUNT };
enum spt_life_status spt_life_status(double life_h);
const char *spt_life_status_name(enum spt_life_status status);

#endif
