/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stddef.h>

#include "spalltime/lubricant.h"

#define LARGEST_NUMBER 28

/* Reads one number of at most two digits, or "-" as -1, at *at; false where there is neither. */
static bool read_number(const char **at, const char *end, int *number)
{
    const char *p = *at;
    if (p < end && *p == '-') {
        *number = -1;
        *at = p + 1;
        return true;
    }
    *number = 0;
    while (p < end && p < *at + 2 && *p >= '0' && *p <= '9')
        *number = 10 * *number + (*p++ - '0');
    bool found = p > *at;
    *at = p;
    return found && *number <= LARGEST_NUMBER;
}

static bool is_code(const struct spt_iso4406 *code)
{
    return code->over_14 >= 0 && code->over_6 >= code->over_14 && code->over_6 <= LARGEST_NUMBER &&
           code->over_4 <= LARGEST_NUMBER && (code->over_4 < 0 || code->over_4 >= code->over_6);
}

enum spt_status spt_iso4406_parse(const char *text, unsigned length, struct spt_iso4406 *code)
{
    code->over_4 = code->over_6 = code->over_14 = -1;
    if (text == NULL)
        return SPT_BAD_ARGUMENT;
    const char *at = text;
    const char *end = text + length;
    while (at < end && *at == ' ')
        at++;
    while (end > at && end[-1] == ' ')
        end--;
    int numbers[3];
    int count = 0;
    for (;;) {
        if (count == 3 || !read_number(&at, end, &numbers[count++]))
            return SPT_BAD_ARGUMENT;
        if (at == end)
            break;
        if (*at++ != '/')
            return SPT_BAD_ARGUMENT;
    }
    if (count < 2)
        return SPT_BAD_ARGUMENT;
    struct spt_iso4406 found = {count == 3 ? numbers[0] : -1, numbers[count - 2],
                                numbers[count - 1]};
    if (!is_code(&found))
        return SPT_BAD_ARGUMENT;
    *code = found;
    return SPT_OK;
}

/* ISO 4406:2017 table 1. */
static const double up_to[LARGEST_NUMBER + 1] = {
    0.01, 0.02, 0.04, 0.08, 0.16,  0.32,  0.64,  1.3,    2.5,    5.0,
    10.0, 20.0, 40.0, 80.0, 160.0, 320.0, 640.0, 1300.0, 2500.0, 5000.0,
    1e4,  2e4,  4e4,  8e4,  1.6e5, 3.2e5, 6.4e5, 1.3e6,  2.5e6};

double spt_iso4406_most(int number)
{
    return number >= 0 && number <= LARGEST_NUMBER ? up_to[number] : (double)NAN;
}

int spt_iso4406_number(double particles_per_ml)
{
    if (!(particles_per_ml >= 0.0))
        return -1;
    int number = 0;
    while (number <= LARGEST_NUMBER && particles_per_ml > up_to[number])
        number++;
    return number;
}

/* The codes that ISO 281:2007 Annex A lists for a condition, its own first (from memory). */
struct listed_codes {
    enum spt_cleanliness condition;
    int count;
    struct {
        int over_6, over_14;
    } code[4];
};
static const struct listed_codes listed[] = {
    {SPT_CLEANLINESS_CIRCULATING_13_10, 4, {{13, 10}, {12, 10}, {11, 9}, {12, 9}}},
    {SPT_CLEANLINESS_CIRCULATING_15_12, 4, {{15, 12}, {14, 12}, {16, 12}, {16, 13}}},
    {SPT_CLEANLINESS_CIRCULATING_17_14, 4, {{17, 14}, {18, 14}, {18, 15}, {19, 15}}},
    {SPT_CLEANLINESS_CIRCULATING_19_16, 4, {{19, 16}, {20, 17}, {21, 18}, {22, 18}}},
    {SPT_CLEANLINESS_BATH_13_10, 4, {{13, 10}, {12, 10}, {11, 9}, {12, 9}}},
    {SPT_CLEANLINESS_BATH_15_12, 4, {{15, 12}, {14, 12}, {16, 12}, {16, 13}}},
    {SPT_CLEANLINESS_BATH_17_14, 4, {{17, 14}, {18, 14}, {18, 15}, {19, 15}}},
    {SPT_CLEANLINESS_BATH_19_16, 4, {{19, 16}, {18, 16}, {20, 17}, {21, 17}}},
    {SPT_CLEANLINESS_BATH_21_18, 4, {{21, 18}, {21, 19}, {22, 19}, {23, 19}}},
};

/* True where a listed code of the row is equal to the code or dirtier in both numbers. */
static bool covers(const struct listed_codes *row, const struct spt_iso4406 *code, bool *rounded)
{
    bool covered = false;
    *rounded = true;
    for (int i = 0; i < row->count; i++) {
        if (code->over_6 <= row->code[i].over_6 && code->over_14 <= row->code[i].over_14)
            covered = true;
        if (code->over_6 == row->code[i].over_6 && code->over_14 == row->code[i].over_14)
            *rounded = false;
    }
    return covered;
}

enum spt_status spt_cleanliness_from_code(enum spt_lubrication kind, const struct spt_iso4406 *code,
                                          enum spt_cleanliness *condition, bool *rounded)
{
    *condition = SPT_CLEANLINESS_COUNT;
    *rounded = false;
    if (!is_code(code))
        return SPT_BAD_ARGUMENT;
    for (size_t i = 0; i < sizeof listed / sizeof listed[0]; i++) {
        bool inexact;
        if (spt_cleanliness_kind(listed[i].condition) != spt_lubrication_like(kind) ||
            !covers(&listed[i], code, &inexact))
            continue;
        *condition = listed[i].condition;
        *rounded = inexact;
        return SPT_OK;
    }
    return SPT_NOT_APPLICABLE;
}
