/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "format/number/number_cells.h"

#include <stdbool.h>

#include "base/variants.h"
#include "format/number/number_tens.h"

#define STRETCH 64 /* numbers processed at a time */
#define FEW 12     /* fewer numbers are faster one by one */
#define LENGTH_BYTE (SPT_NUMBER_CELL - 1)

/* One number by the general method. */
static void write_cell(double value, struct spt_number_cell *cell)
{
    char text[SPT_NUMBER_SIZE];
    char *end = spt_number_write(text, value);
    text[LENGTH_BYTE] = (char)(end - text);
    memcpy(cell->words, text, SPT_NUMBER_CELL);
}

#if defined(__BYTE_ORDER__) && __BYTE_ORDER__ == __ORDER_LITTLE_ENDIAN__

#define LENGTH_SHIFT 56
#define ZEROS 0x3030303030303030ULL
#define HEAD_OF_SMALL 0x30303030302e30ULL /* "0.00000" */

static inline uint64_t get_bits(double value)
{
    uint64_t bits;
    memcpy(&bits, &value, sizeof bits);
    return bits;
}

/* The six digits of a number below 10^6 with leading zeros, as bytes 0 to 9, the first in the
 * lowest byte. Division is by a product and a shift, which is exact for such small numbers. */
static inline uint64_t spread_digits(uint64_t number)
{
    uint64_t first = number * 429497 >> 32; /* by 10000 */
    uint64_t rest = number - 10000 * first;
    uint64_t second = rest * 5243 >> 19; /* by 100 */
    uint64_t couples = first | second << 16 | (rest - 100 * second) << 32;
    uint64_t tens = (couples * 103 >> 10) & 0x000f000f000fULL; /* by 10, for each pair of digits */
    return tens | (couples - 10 * tens) << 8;
}

/* Number of the six digits without trailing zeros. */
static inline uint64_t count_digits(uint64_t digits)
{
    uint64_t below = digits | digits >> 8;
    below |= below >> 16;
    below |= below >> 32; /* no byte is 0 up to the last non-zero digit */
    uint64_t ones = ((below + 0x7f7f7f7f7f7fULL) >> 7) & 0x010101010101ULL;
    ones += ones >> 8;
    return (ones + (ones >> 16) + (ones >> 32)) & 7;
}

/* "e+06" and the like, for exponents of two digits */
static inline uint64_t spell_exponent(int64_t exponent)
{
    uint64_t sign = exponent < 0 ? '-' : '+';
    uint64_t size = (uint64_t)(exponent < 0 ? -exponent : exponent);
    uint64_t tens = size * 205 >> 11;
    uint64_t text = 'e' | sign << 8 | '0' << 16 | (uint64_t)'0' << 24;
    return text + (tens << 16) + ((size - 10 * tens) << 24);
}

/* The cell of digits * 10^(exponent - 5) as head and rest. All variants are computed and the right
 * ones selected, so that a compiler can vectorise a loop over this. */
static inline void lay_out(uint64_t number, int64_t exponent, uint64_t keep,
                           struct spt_number_cell *cell)
{
    uint64_t digits = spread_digits(number);
    uint64_t count = count_digits(digits);
    uint64_t text = digits | ZEROS;
    bool plain = (exponent >= 0) & (exponent < 6);
    bool small = (exponent < 0) & (exponent >= -4);
    uint64_t whole = plain ? (uint64_t)exponent + 1 : 1;
    uint64_t point = 8 * whole;
    uint64_t before = text << (64 - point) >> (64 - point);
    uint64_t pointed = before | (text >> point << 8 | '.') << point;
    uint64_t long_head = count > whole ? count + 1 : whole;
    uint64_t head = small ? HEAD_OF_SMALL : pointed;
    uint64_t head_length = small ? (uint64_t)(1 - exponent) : long_head;
    uint64_t spelled = plain ? 0 : spell_exponent(exponent);
    uint64_t tail = small ? text : spelled;
    uint64_t spelled_length = plain ? 0 : 4;
    uint64_t length = head_length + (small ? count : spelled_length);
    uint64_t seam = 8 * head_length;
    cell->words[0] = head << (64 - seam) >> (64 - seam) | tail << seam;
    cell->words[1] = tail >> (64 - seam) | (length & keep) << LENGTH_SHIFT;
}

/* Intermediate arrays between short loops, each of which is vectorised. */
struct stretch {
    double usual[STRETCH]; /* the usual values; 1 in place of others */
    uint64_t raised[STRETCH];
    double scaled[STRETCH];
    uint64_t keep[STRETCH]; /* mask: all bits for a usual value, none for others */
};

static inline void choose_usual(const double *restrict values, struct stretch *s)
{
    double *restrict usual = s->usual;
    uint64_t *restrict keep = s->keep;
    for (int i = 0; i < STRETCH; i++) {
        bool is_usual = (values[i] >= SPT_USUAL_LEAST) & (values[i] < SPT_USUAL_END);
        usual[i] = is_usual ? values[i] : 1.0;
        keep[i] = is_usual ? ~0ULL : 0;
    }
}

static inline void scale_usual(struct stretch *s)
{
    const double *restrict usual = s->usual;
    uint64_t *restrict raised = s->raised;
    double *restrict scaled = s->scaled;
#pragma omp simd
    for (int i = 0; i < STRETCH; i++) {
        /* log10 2 (times 4096), of the binary exponent: the decimal one or one less, plus 1000 */
        uint64_t up = ((get_bits(usual[i]) >> 52) * 1233 + 4096 * 1000 - 1023 * 1233) >> 12;
        raised[i] = up;
        scaled[i] = usual[i] * spt_tens[(int64_t)(5 - SPT_TENS_LEAST + 1000 - up)];
    }
}

/* Writes one block of cells; those of unusual numbers get the length 0 and have to be written
 * separately. */
SPT_VARIANTS
static void write_usual(const double *restrict values, struct spt_number_cell *restrict cells)
{
    struct stretch s;
    choose_usual(values, &s);
    scale_usual(&s);
#pragma omp simd
    for (int i = 0; i < STRETCH; i++) {
        double scaled = s.scaled[i];
        bool above = scaled >= 1e6;
        scaled = above ? scaled * 0.1 : scaled;
        int64_t exponent = (int64_t)s.raised[i] - (above ? 999 : 1000);
        double shifted = scaled + 0x1p52; /* rounds to an integer */
        double whole = shifted - 0x1p52;
        double part = scaled - whole;
        double size = part < 0.0 ? -part : part;
        uint64_t number = get_bits(shifted) & 0xfffffffffffffULL;
        uint64_t keep = size < 0.5 - SPT_DOUBTFUL ? s.keep[i] : 0;
        bool full = number == 1000000;
        lay_out(full ? 100000 : number, exponent + (full ? 1 : 0), keep, &cells[i]);
    }
}

#else

static void write_usual(const double *values, struct spt_number_cell *cells)
{
    (void)values;
    memset(cells, 0, STRETCH * sizeof *cells);
}

#endif

static void write_stretch(const double *values, int count, struct spt_number_cell *cells)
{
    double held[STRETCH] = {0};
    struct spt_number_cell made[STRETCH];
    if (count == STRETCH) {
        write_usual(values, cells);
    } else if (count <= FEW) {
        memset(cells, 0, (size_t)count * sizeof *cells);
    } else {
        memcpy(held, values, (size_t)count * sizeof *values);
        write_usual(held, made);
        memcpy(cells, made, (size_t)count * sizeof *cells);
    }
    for (int i = 0; i < count; i++)
        if (((const unsigned char *)cells[i].words)[LENGTH_BYTE] == 0)
            write_cell(values[i], &cells[i]);
}

void spt_number_cells(const double *values, int count, struct spt_number_cell *cells)
{
    for (int at = 0; at < count; at += STRETCH)
        write_stretch(values + at, count - at < STRETCH ? count - at : STRETCH, cells + at);
}
