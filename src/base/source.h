/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BASE_SOURCE_H
#define BASE_SOURCE_H

#include <stddef.h>

/* A text that was read, with its name for messages. */
struct spt_source {
    const char *name;
    const char *text;
    size_t length;
};

#endif
