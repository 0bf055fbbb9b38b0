/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SCENARIO_BUILD_SECTION_FIELDS_H
#define SCENARIO_BUILD_SECTION_FIELDS_H

/* Macros for the tables of the sections. */

#include <stddef.h>

#include "scenario/text/fields.h"

/* One line for each key. `S` is the struct of the section while its table is written. */
#define MEMBER(member) .offset = offsetof(S, member)
#define NO_OTHER .other_dimension = SPT_NO_DIMENSION
#define QUANTITY(k, member, dim, lo, hi, ex, text)                                                 \
    {                                                                                              \
        .key = k, .kind = SPT_FIELD_QUANTITY, MEMBER(member), .dimension = dim, NO_OTHER,          \
        .min = lo, .max = hi, .example = ex, .help = text                                          \
    }
#define ABOVE(k, member, dim, lo, hi, ex, text)                                                    \
    {                                                                                              \
        .key = k, .kind = SPT_FIELD_QUANTITY, MEMBER(member), .dimension = dim, NO_OTHER,          \
        .min = lo, .max = hi, .above_min = true, .example = ex, .help = text                       \
    }
#define NEEDED(k, member, dim, lo, hi, ex, text)                                                   \
    {                                                                                              \
        .key = k, .kind = SPT_FIELD_QUANTITY, .required = true, MEMBER(member), .dimension = dim,  \
        NO_OTHER, .min = lo, .max = hi, .above_min = true, .example = ex, .help = text             \
    }
#define NEEDED_SPAN(k, member, dim, lo, hi, ex, text)                                              \
    {                                                                                              \
        .key = k, .kind = SPT_FIELD_QUANTITY, .required = true, MEMBER(member), .dimension = dim,  \
        NO_OTHER, .min = lo, .max = hi, .example = ex, .help = text                                \
    }
#define AMOUNT(k, member, dim, dim2, w, lo, hi, need, ex, text)                                    \
    {                                                                                              \
        .key = k, .kind = SPT_FIELD_AMOUNT, .required = need, MEMBER(member), .dimension = dim,    \
        .other_dimension = dim2, .words = w, .min = lo, .max = hi, .example = ex, .help = text     \
    }
#define INTEGER(k, member, lo, hi, ex, text)                                                       \
    {                                                                                              \
        .key = k, .kind = SPT_FIELD_INTEGER, MEMBER(member), .dimension = SPT_NO_DIMENSION,        \
        NO_OTHER, .min = lo, .max = hi, .example = ex, .help = text                                \
    }
#define TEXT(k, member, ex, text)                                                                  \
    {                                                                                              \
        .key = k, .kind = SPT_FIELD_TEXT, MEMBER(member), .example = ex, .help = text              \
    }
#define NEEDED_TEXT(k, member, ex, text)                                                           \
    {                                                                                              \
        .key = k, .kind = SPT_FIELD_TEXT, .required = true, MEMBER(member), .example = ex,         \
        .help = text                                                                               \
    }
#define CHOICE(k, member, choices, ex, text)                                                       \
    {                                                                                              \
        .key = k, .kind = SPT_FIELD_CHOICE, MEMBER(member), .words = choices, .example = ex,       \
        .help = text                                                                               \
    }
#define YES_NO(k, member, text)                                                                    \
    {                                                                                              \
        .key = k, .kind = SPT_FIELD_YES_NO, MEMBER(member), .example = "yes", .help = text         \
    }
#define SECTION(k, member, sub, text)                                                              \
    {                                                                                              \
        .key = k, .kind = SPT_FIELD_SECTION, MEMBER(member), .section = sub, .help = text          \
    }
#define NAMED(k, member, need, sub, ex, text)                                                      \
    {                                                                                              \
        .key = k, .kind = SPT_FIELD_NAMED, .required = need, MEMBER(member), .section = sub,       \
        .example = ex, .help = text                                                                \
    }
#define LINES(k, member, ex, text)                                                                 \
    {                                                                                              \
        .key = k, .kind = SPT_FIELD_LINES, MEMBER(member), .example = ex, .help = text             \
    }
#define LIST(k, member, need, sub, ex, text)                                                       \
    {                                                                                              \
        .key = k, .kind = SPT_FIELD_LIST, .required = need, MEMBER(member), .section = sub,        \
        .example = ex, .help = text                                                                \
    }
#define MAPPING(k, member, sub, ex, text)                                                          \
    {                                                                                              \
        .key = k, .kind = SPT_FIELD_MAPPING, MEMBER(member), .section = sub, .example = ex,        \
        .help = text                                                                               \
    }
/* the kind of a part is the key of its name */
#define PART_NAME(k, text)                                                                         \
    {                                                                                              \
        .key = #k, .kind = SPT_FIELD_TEXT, MEMBER(k), .example = "a name", .help = text            \
    }
#define PART_NAMES                                                                                 \
    PART_NAME(gear, "a spur or helical gear, by its name"), PART_NAME(bevel_gear, "a bevel gear"), \
        PART_NAME(worm, "a worm"), PART_NAME(worm_wheel, "a worm wheel"),                          \
        PART_NAME(belt, "a belt pulley"), PART_NAME(chain, "a chain sprocket"),                    \
        PART_NAME(drum, "a drum of a belt conveyor"), PART_NAME(coupling, "a coupling"),           \
        PART_NAME(impeller, "a fan or pump wheel"),                                                \
        PART_NAME(drive, "a gear motor that sits on the shaft, held by an arm"),                   \
        PART_NAME(crank, "a crank"), PART_NAME(weight, "a weight"),                                \
        PART_NAME(force, "any other known force")
#define COUNT(table) (int)(sizeof(table) / sizeof *(table))

#define FORCE_MAX_N 1e9
#define LENGTH_MAX_MM 1e4
#define LIFE_MAX_H 1e9
#define TILT_MAX_RAD 0.1

/* the member `hub` of a variant or an event */
#define CHANGED_HUB(text) MAPPING("hub", hub, &spt_section_hub, "a mapping", text)

#endif
