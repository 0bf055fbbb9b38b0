/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "format/number/number.h"

#include <float.h>
#include <math.h>
#include <stdbool.h>
#include <stdint.h>
#include <string.h>

#include "format/number/exact.h"
#include "format/number/number_tens.h"

#define EXACT_TENS SPT_TENS_MOST
static const double *const tens = spt_tens - SPT_TENS_LEAST; /* tens[0] is 1 */

static uint64_t get_bits(double value)
{
    uint64_t bits;
    memcpy(&bits, &value, sizeof bits);
    return bits;
}

static double from_bits(uint64_t bits)
{
    double value;
    memcpy(&value, &bits, sizeof value);
    return value;
}

/* Splits a finite value >= 0 into significand * 2^power. */
static uint64_t split(uint64_t bits, int *power)
{
    int exponent = (int)(bits >> 52);
    uint64_t fraction = bits & ((1ULL << 52) - 1);
    *power = (exponent ? exponent : 1) - 1075;
    return exponent ? fraction | 1ULL << 52 : fraction;
}

static double scale_far(double value, int exponent)
{
    for (; exponent > EXACT_TENS; exponent -= EXACT_TENS)
        value *= tens[EXACT_TENS];
    for (; exponent < -EXACT_TENS; exponent += EXACT_TENS)
        value /= tens[EXACT_TENS];
    return exponent >= 0 ? value * tens[exponent] : value / tens[-exponent];
}

/* value * 10^exponent with a relative error below 1e-14. */
static inline double scale(double value, int exponent)
{
    if (exponent >= 0 && exponent <= EXACT_TENS)
        return value * tens[exponent];
    if (exponent < 0 && exponent >= -EXACT_TENS)
        return value / tens[-exponent];
    return scale_far(value, exponent);
}

/* ---- writing ------------------------------------------------------------------------------ */

#define DIGITS 6
#define DIGITS_LEAST 100000
#define DIGITS_END 1000000

/* digits * 10^(exponent - 5), digits from 100000 to 999999 */
struct rounded {
    int digits;
    int exponent;
};

/* Compares the value exactly with the midpoint between `digits` and the next larger digits. */
static int compare_with_middle(double value, int digits, int exponent)
{
    char text[DIGITS + 2];
    int power;
    int rest = digits * 10 + 5;
    uint64_t significand = split(get_bits(value), &power);
    for (int i = DIGITS; i >= 0; i--, rest /= 10)
        text[i] = (char)('0' + rest % 10);
    struct spt_decimal middle = {text, DIGITS + 1, exponent - DIGITS};
    return -spt_exact_compare(&middle, significand, power);
}

/* Corrects digits that may be off by one from inexact arithmetic. */
static void correct_digits(double value, struct rounded *r)
{
    int above = compare_with_middle(value, r->digits, r->exponent);
    if (above > 0 || (above == 0 && r->digits % 2 == 1)) {
        r->digits++;
        return;
    }
    int below = compare_with_middle(value, r->digits - 1, r->exponent);
    if (below < 0 || (below == 0 && r->digits % 2 == 1))
        r->digits--;
}

/* Rounds value * 10^(5 - exponent), 100000 <= scaled < 1000000 and inexact, half to even. */
static inline struct rounded round_scaled(double value, double scaled, int exponent)
{
    struct rounded r = {(int)scaled, exponent};
    double fraction = scaled - r.digits;
    if (fabs(fraction - 0.5) < SPT_DOUBTFUL)
        correct_digits(value, &r);
    else
        r.digits += fraction > 0.5;
    if (r.digits == DIGITS_END) {
        r.digits = DIGITS_LEAST;
        r.exponent++;
    }
    return r;
}

static int find_binary_exponent(double value)
{
    return value < DBL_MIN ? ilogb(value) : (int)(get_bits(value) >> 52) - 1023;
}

/* Rounds a finite value > 0 to six digits, half to even. */
static struct rounded round_to_digits(double value)
{
    /* log10 2 (times 2^32) times the exponent, rounded down: the decimal exponent or one less */
    int exponent = (int)((find_binary_exponent(value) * 1292913986LL) >> 32);
    if (exponent >= 0 && exponent < EXACT_TENS)
        exponent += value >= tens[exponent + 1];
    double scaled = scale(value, DIGITS - 1 - exponent);
    if (scaled >= DIGITS_END) {
        exponent++;
        scaled = scale(value, DIGITS - 1 - exponent);
    }
    return round_scaled(value, scaled, exponent);
}

/* The same for SPT_USUAL_LEAST <= value < SPT_USUAL_END. Near a power of ten that is not a double
 * the exponent may be off by one; the digits are 100000 in both cases. */
static inline struct rounded round_usual(double value)
{
    int binary = (int)(get_bits(value) >> 52) - 1023;
    int exponent = (binary * 1233) >> 12; /* log10 2, rounded down: the exponent or one less */
    exponent += value >= tens[exponent + 1];
    double scaled = value * tens[DIGITS - 1 - exponent];
    return round_scaled(value, scaled, exponent);
}

/* The eight digits of a number below 10^8 as bytes 0 to 9, the first digit in the lowest byte:
 * halves, pairs and digits are split in parallel within one word. */
static inline uint64_t spread_digits(uint32_t number)
{
    uint64_t halves = number / 10000 | (uint64_t)(number % 10000) << 32;
    uint64_t hundreds = (halves * 10486 >> 20) & 0x0000007f0000007fULL;
    uint64_t couples = hundreds | (halves - 100 * hundreds) << 16;
    uint64_t ones = (couples * 103 >> 10) & 0x000f000f000f000fULL;
    return ones | (couples - 10 * ones) << 8;
}

/* Number of digits without trailing zeros; at least one digit is non-zero. */
static inline int count_digits(uint64_t digits)
{
#if defined(__GNUC__)
    return 8 - (__builtin_clzll(digits) >> 3);
#else
    int count = 0;
    for (; digits; digits >>= 8)
        count++;
    return count;
#endif
}

/* Writes eight characters, the first from the lowest byte. */
static inline void put_word(char *to, uint64_t word)
{
#if defined(__BYTE_ORDER__) && __BYTE_ORDER__ == __ORDER_LITTLE_ENDIAN__
    memcpy(to, &word, sizeof word);
#else
    for (int i = 0; i < 8; i++, word >>= 8)
        to[i] = (char)(word & 0xff);
#endif
}

/* Writes the digits with a decimal point after the first `whole` (1 to 6) of them. */
static inline char *put_with_point(char *to, uint64_t digits, int whole)
{
    int count = count_digits(digits);
    int bits = 8 * whole;
    uint64_t text = digits + 0x3030303030303030ULL;
    uint64_t before = text & ((1ULL << bits) - 1);
    uint64_t after = text >> bits << bits << 8;
    put_word(to, before | (uint64_t)'.' << bits | after);
    return to + (count > whole ? count + 1 : whole);
}

static char *put_exponent(char *to, int exponent)
{
    int size = exponent < 0 ? -exponent : exponent;
    *to++ = 'e';
    *to++ = exponent < 0 ? '-' : '+';
    if (size >= 100)
        *to++ = (char)('0' + size / 100);
    *to++ = (char)('0' + size / 10 % 10);
    *to++ = (char)('0' + size % 10);
    return to;
}

/* Formats the digits as %g does. Whole words are written, because that is faster: bytes after the
 * text, inside SPT_NUMBER_SIZE, are overwritten. */
static inline char *lay_out(char *to, struct rounded r)
{
    uint64_t digits = spread_digits((uint32_t)r.digits * 100);
    if (r.exponent >= 0 && r.exponent < DIGITS)
        return put_with_point(to, digits, r.exponent + 1);
    if (r.exponent < -4 || r.exponent >= DIGITS)
        return put_exponent(put_with_point(to, digits, 1), r.exponent);
    memcpy(to, "0.000000", 8);
    to += 1 - r.exponent;
    put_word(to, digits + 0x3030303030303030ULL);
    return to + count_digits(digits);
}

static char *write_special(char *to, double size)
{
    if (isnan(size)) {
        memcpy(to, "nan", 3);
        return to + 3;
    }
    if (size == 0.0) {
        *to++ = '0';
        return to;
    }
    memcpy(to, "inf", 3);
    return to + 3;
}

char *spt_number_write(char *to, double value)
{
    struct rounded r;
    *to = '-';
    to += signbit(value) != 0 && !isnan(value);
    value = fabs(value);
    if (!(value > 0.0 && value <= DBL_MAX))
        return write_special(to, value);
    if (value >= SPT_USUAL_LEAST && value < SPT_USUAL_END)
        r = round_usual(value);
    else
        r = round_to_digits(value);
    return lay_out(to, r);
}

/* ---- reading ------------------------------------------------------------------------------ */

#define SHORT_DIGITS 19 /* fit an unsigned 64-bit number */
#define EXPONENT_MOST 100000

/* The parsed number: its significant digits, without leading zeros, times 10^exponent. */
struct parsed {
    uint64_t leading; /* the first digits, at most SHORT_DIGITS */
    int count;        /* number of significant digits that are kept */
    long exponent;    /* of the last kept digit */
    bool negative;
    bool rest; /* a non-zero digit follows the kept ones */
    char digits[SPT_DECIMAL_DIGITS];
};

static bool is_digit(const char *at, const char *end)
{
    return at < end && *at >= '0' && *at <= '9';
}

static void keep_digit(struct parsed *p, char digit)
{
    if (p->count == 0 && digit == '0')
        return;
    if (p->count < SHORT_DIGITS)
        p->leading = p->leading * 10 + (uint64_t)(digit - '0');
    if (p->count < SPT_DECIMAL_DIGITS - 1) {
        p->digits[p->count++] = digit;
        return;
    }
    p->rest |= digit != '0';
    p->exponent++;
}

/* Parses digits, point, digits; NULL where there is no digit. */
static const char *parse_significand(const char *at, const char *end, struct parsed *p)
{
    const char *begin = at;
    for (; is_digit(at, end); at++)
        keep_digit(p, *at);
    bool some = at > begin;
    if (at < end && *at == '.') {
        const char *point = at++;
        for (; is_digit(at, end); at++) {
            keep_digit(p, *at);
            p->exponent--;
        }
        some |= at > point + 1;
    }
    return some ? at : NULL;
}

static const char *parse_exponent(const char *at, const char *end, struct parsed *p)
{
    const char *begin = at;
    if (at >= end || (*at != 'e' && *at != 'E'))
        return begin;
    at++;
    bool negative = at < end && *at == '-';
    if (at < end && (*at == '-' || *at == '+'))
        at++;
    if (!is_digit(at, end))
        return begin;
    long exponent = 0;
    for (; is_digit(at, end); at++)
        if (exponent < EXPONENT_MOST)
            exponent = exponent * 10 + (*at - '0');
    p->exponent += negative ? -exponent : exponent;
    return at;
}

/* Up to 2^53 and 10^22 both operands are exact and one operation rounds once (Clinger 1990). With
 * more digits: quotient or product as the sum of two doubles, accepted where both ends of its error
 * interval round to the same double. */
static bool convert_short(const struct parsed *p, double *value)
{
    if (p->count > SHORT_DIGITS || p->exponent < -EXACT_TENS || p->exponent > EXACT_TENS)
        return false;
    double ten = tens[p->exponent < 0 ? -p->exponent : p->exponent];
    double high = (double)p->leading;
    if (p->leading <= 1ULL << 53) {
        *value = p->exponent < 0 ? high / ten : high * ten;
        return true;
    }
    /* 2^64 could not be converted back, but 19 digits are below it */
    double low = (double)(int64_t)(p->leading - (uint64_t)high);
    double first;
    double second;
    if (p->exponent < 0) {
        first = high / ten;
        second = (fma(-first, ten, high) + low) / ten;
    } else {
        first = high * ten;
        second = fma(high, ten, -first) + low * ten;
    }
    double error = first * 0x1p-98;
    *value = first + (second - error);
    return *value == first + (second + error);
}

/* Compares the decimal with the midpoint between a double and the next larger one. */
static int compare_with_upper_middle(const struct spt_decimal *decimal, uint64_t bits)
{
    int power;
    uint64_t significand = split(bits, &power);
    return spt_exact_compare(decimal, 2 * significand + 1, power - 1);
}

/* Starts from an approximation and steps to the double nearest to the decimal. */
static double convert_exactly(struct parsed *p)
{
    long last = p->exponent + p->count; /* 10^(last - 1) <= value < 10^last */
    if (last > 310)
        return (double)INFINITY;
    if (last < -330)
        return 0.0;
    if (p->rest)
        p->digits[p->count++] = '1';
    struct spt_decimal decimal = {p->digits, p->count, (int)p->exponent - p->rest};
    int leading = p->count < SHORT_DIGITS ? p->count : SHORT_DIGITS;
    double near = scale((double)p->leading, (int)last - leading);
    uint64_t bits = get_bits(near <= DBL_MAX ? near : DBL_MAX);
    const uint64_t infinite = get_bits((double)INFINITY);
    for (;;) {
        int above = bits < infinite ? compare_with_upper_middle(&decimal, bits) : -1;
        if (above < 0 || (above == 0 && bits % 2 == 0))
            break;
        bits++;
    }
    while (bits > 0) {
        int below = compare_with_upper_middle(&decimal, bits - 1);
        if (below > 0 || (below == 0 && bits % 2 == 0))
            break;
        bits--;
    }
    return from_bits(bits);
}

const char *spt_number_read(const char *from, const char *end, double *value)
{
    struct parsed p;
    p.leading = 0;
    p.count = 0;
    p.exponent = 0;
    p.rest = false;
    *value = (double)NAN;
    p.negative = from < end && *from == '-';
    if (from < end && (*from == '-' || *from == '+'))
        from++;
    from = parse_significand(from, end, &p);
    if (!from)
        return NULL;
    from = parse_exponent(from, end, &p);
    double size = 0.0;
    if (p.count > 0 && !convert_short(&p, &size))
        size = convert_exactly(&p);
    *value = p.negative ? -size : size;
    return from;
}
