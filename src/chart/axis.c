/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "chart/axis.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define MINUS "\xE2\x88\x92"
#define NO_BREAK "\xC2\xA0"
#define TIMES "\xC3\x97"
#define UNSIGNED_LENGTH (SPT_TICK_LABEL_LENGTH - 4)
#define LARGEST 1e300
/* range over magnitude: below it neighbouring ticks would have equal labels */
#define NARROWEST 1e-9
#define HAIR 1e-9 /* tolerance of tick positions as a fraction of a step */

/* Exact for the powers that a double holds exactly, unlike pow on some machines. */
static double scale_by_ten(double number, int exponent)
{
    for (; exponent > 300; exponent -= 300)
        number *= 1e300;
    for (; exponent < -300; exponent += 300)
        number /= 1e300;
    double power = 1;
    for (int i = 0; i < (exponent < 0 ? -exponent : exponent); i++)
        power *= 10;
    return exponent < 0 ? number / power : number * power;
}

static void put_raised(char *label, int exponent)
{
    static const char *const digits[] = {
        "\xE2\x81\xB0", "\xC2\xB9",     "\xC2\xB2",     "\xC2\xB3",     "\xE2\x81\xB4",
        "\xE2\x81\xB5", "\xE2\x81\xB6", "\xE2\x81\xB7", "\xE2\x81\xB8", "\xE2\x81\xB9"};
    char plain[8];
    snprintf(plain, sizeof plain, "%d", exponent);
    for (const char *at = plain; *at; at++)
        strcat(label, *at == '-' ? "\xE2\x81\xBB" : digits[*at - '0']);
}

static int limit(int number, int low, int high)
{
    return number < low ? low : number > high ? high : number;
}

static const char *write_power(double value, int decimals, char *label)
{
    int exponent = (int)floor(log10(value) + 1e-12);
    double mantissa = scale_by_ten(value, -exponent);
    char digits[24];
    int places = limit(exponent + decimals, 0, 12);
    if (mantissa >= 10 - 0.5 * scale_by_ten(1, -places)) {
        mantissa = 1; /* it would round to 10 */
        exponent++;
    }
    snprintf(digits, sizeof digits, "%.*f", places, mantissa);
    snprintf(label, UNSIGNED_LENGTH, "%s%s10", strcmp(digits, "1") ? digits : "",
             strcmp(digits, "1") ? TIMES : "");
    put_raised(label, exponent);
    return label;
}

static const char *write_decimal(double value, int decimals, char *label)
{
    char digits[32];
    int length = snprintf(digits, sizeof digits, "%.*f", limit(decimals, 0, 15), value);
    int whole = (int)strcspn(digits, ".");
    size_t used = 0;
    for (int i = 0; i < length; i++) {
        if (i && i < whole && whole > 3 && (whole - i) % 3 == 0)
            used += (size_t)sprintf(label + used, "%s", NO_BREAK);
        label[used++] = digits[i];
    }
    label[used] = 0;
    return label;
}

const char *spt_axis_label(double value, int decimals, char *label)
{
    if (!isfinite(value))
        return strcpy(label, isnan(value) ? "none" : value > 0 ? "no limit" : MINUS "no limit");
    char unsigned_label[UNSIGNED_LENGTH] = "";
    double size = fabs(value);
    if (size >= 1e7 || (size > 0 && size < 1e-4))
        write_power(size, decimals, unsigned_label);
    else
        write_decimal(size, size > 0 || decimals <= 4 ? decimals : 0, unsigned_label);
    bool zero = strspn(unsigned_label, "0.") == strlen(unsigned_label);
    snprintf(label, SPT_TICK_LABEL_LENGTH, "%s%s", value < 0 && !zero ? MINUS : "", unsigned_label);
    return label;
}

static void add_tick(struct spt_axis *axis, double value, bool major, bool labelled, int decimals)
{
    if (axis->tick_count == SPT_TICKS_MAX)
        return;
    struct spt_tick *tick = &axis->ticks[axis->tick_count++];
    *tick = (struct spt_tick){.value = value, .major = major};
    if (labelled)
        spt_axis_label(value, decimals, tick->label);
}

static void sort_ends(double *low, double *high)
{
    if (*low > *high) {
        double swapped = *low;
        *low = *high;
        *high = swapped;
    }
}

static void widen(double *low, double *high)
{
    double size = fmax(fabs(*low), fabs(*high));
    if (size < 1e-300) {
        *low = 0;
        *high = 1;
    } else if (*high - *low < NARROWEST * size) {
        *low -= 0.1 * size;
        *high += 0.1 * size;
    }
}

/* The smallest step that is not below range/wanted: mantissa times ten to the exponent. */
static double pick_step(double rough, int *exponent)
{
    static const double mantissas[] = {1, 2, 2.5, 5};
    *exponent = (int)floor(log10(rough));
    for (int i = 0; i < 4; i++)
        if (scale_by_ten(mantissas[i], *exponent) >= rough * (1 - HAIR))
            return mantissas[i];
    ++*exponent;
    return 1;
}

static bool refuse(struct spt_axis *axis, bool log)
{
    *axis = (struct spt_axis){.log = log, .low = log, .high = log ? 10 : 1, .end = 1};
    add_tick(axis, axis->low, true, true, 0);
    add_tick(axis, axis->high, true, true, 0);
    return false;
}

bool spt_axis_linear(struct spt_axis *axis, double low, double high, int wanted)
{
    if (!(fabs(low) <= LARGEST) || !(fabs(high) <= LARGEST) || wanted < 2 || wanted > 20)
        return refuse(axis, false);
    sort_ends(&low, &high);
    widen(&low, &high);
    int exponent;
    double mantissa = pick_step((high - low) / wanted, &exponent);
    double first = floor(scale_by_ten(low / mantissa, -exponent) + HAIR);
    double last = ceil(scale_by_ten(high / mantissa, -exponent) - HAIR);
    int decimals = -exponent + (mantissa > 2 && mantissa < 3);
    *axis = (struct spt_axis){.end = 1};
    for (double i = first; i <= last; i++)
        add_tick(axis, scale_by_ten(i * mantissa, exponent), true, true, decimals);
    axis->low = axis->ticks[0].value;
    axis->high = axis->ticks[axis->tick_count - 1].value;
    return true;
}

/* The largest 1, 2 or 5 times a power of ten not above the value (or the smallest not below). */
static double round_down_log(double value, int *exponent, bool only_powers)
{
    *exponent = (int)floor(log10(value) + HAIR);
    double mantissa = scale_by_ten(value, -*exponent) * (1 + HAIR);
    return only_powers || mantissa < 2 ? 1 : mantissa < 5 ? 2 : 5;
}

static double round_up_log(double value, int *exponent, bool only_powers)
{
    *exponent = (int)floor(log10(value) + HAIR);
    double mantissa = scale_by_ten(value, -*exponent) * (1 - HAIR);
    if (mantissa <= 1)
        return 1;
    if (!only_powers && mantissa <= 5)
        return mantissa <= 2 ? 2 : 5;
    ++*exponent;
    return 1;
}

static void add_log_ticks(struct spt_axis *axis, int first, int last)
{
    int decades = last - first;
    int stride = 1 + decades / 8;
    for (int exponent = first; exponent <= last; exponent++) {
        bool labelled = (exponent - first) % stride == 0;
        for (int digit = 1; digit < 10; digit++) {
            double value = scale_by_ten(digit, exponent);
            if (!spt_axis_holds(axis, value) || (digit > 1 && decades > 8))
                continue;
            bool spelled = digit == 1 ? labelled : decades <= 2 && (digit == 2 || digit == 5);
            add_tick(axis, value, digit == 1, spelled, -exponent);
        }
    }
}

bool spt_axis_log(struct spt_axis *axis, double low, double high)
{
    sort_ends(&low, &high);
    if (!(low >= 1 / LARGEST) || !(high <= LARGEST))
        return refuse(axis, true);
    bool only_powers = high / low >= 0.999e4;
    int first, last;
    double first_digit = round_down_log(low, &first, only_powers);
    double last_digit = round_up_log(high, &last, only_powers);
    if (first == last && first_digit >= last_digit) {
        first_digit = first_digit > 2 ? 2 : 1; /* a single value: one step to each side */
        last_digit = last_digit < 2 ? 2 : 5;
        if (first_digit >= last_digit)
            last_digit = 5;
    }
    *axis = (struct spt_axis){.log = true, .end = 1};
    axis->low = scale_by_ten(first_digit, first);
    axis->high = scale_by_ten(last_digit, last);
    add_log_ticks(axis, first, last);
    return true;
}

static double transform(const struct spt_axis *axis, double value)
{
    return axis->log ? log10(value) : value;
}

double spt_axis_at(const struct spt_axis *axis, double value)
{
    if (isnan(value) || (axis->log && !(value > 0)))
        return (double)NAN;
    double low = transform(axis, axis->low), high = transform(axis, axis->high);
    return axis->start + (axis->end - axis->start) * (transform(axis, value) - low) / (high - low);
}

bool spt_axis_holds(const struct spt_axis *axis, double value)
{
    if (isnan(value) || (axis->log && !(value > 0)))
        return false;
    double low = transform(axis, axis->low), high = transform(axis, axis->high);
    double hair = HAIR * (high - low), at = transform(axis, value);
    return at >= low - hair && at <= high + hair;
}
