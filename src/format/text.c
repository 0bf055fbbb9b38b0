/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "format/text.h"
#include "spalltime/life.h"

#include <math.h>
#include <stdarg.h>
#include <string.h>

#define WORDS_LENGTH 1200
#define HEAD_PARTS 3 /* HEAD_PARTS of PARTS of a shortened text are its beginning */
#define PARTS 5
#define LEAST_RATIO 0.0005
#define LEAST_HOURS 0.001 /* smaller values are printed with one digit */

static int count_characters(const char *words, size_t length)
{
    int count = 0;
    for (size_t i = 0; i < length; i++)
        count += ((unsigned char)words[i] & 0xC0) != 0x80;
    return count;
}

/* Number of bytes of the first `width` characters of a word. */
static size_t cut_characters(const char *word, size_t length, int width)
{
    size_t used = 0;
    for (int character = 0; used < length; used++) {
        character += ((unsigned char)word[used] & 0xC0) != 0x80;
        if (character > width)
            break;
    }
    return used;
}

int spt_text_width(const struct spt_text *text)
{
    return text->width ? text->width : SPT_TEXT_WIDTH;
}

int spt_text_length(const char *words)
{
    return count_characters(words, strlen(words));
}

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

/* True where the blank at `at` separates the thousands of a number. */
static bool is_in_number(const char *words, const char *at)
{
    return at > words && is_digit(at[-1]) && is_digit(at[1]) && is_digit(at[2]) &&
           is_digit(at[3]) && !is_digit(at[4]);
}

/* Number of bytes up to the next blank at which a line may be broken. */
static size_t measure_word(const char *words)
{
    size_t length = strcspn(words, " ");
    while (words[length] && is_in_number(words, words + length))
        length += 1 + strcspn(words + length + 1, " ");
    return length;
}

void spt_text_wrap_from(const struct spt_text *text, int indent, const char *words)
{
    const int line = spt_text_width(text);
    int column = indent;
    bool fresh = true;
    while (*words) {
        size_t length = measure_word(words);
        int width = count_characters(words, length);
        if (!fresh && column + 1 + width > line) {
            fprintf(text->out, "\n%*s", indent, "");
            column = indent;
            fresh = true;
        }
        if (!fresh) {
            fputc(' ', text->out);
            column++;
        }
        if (column + width > line) { /* a word wider than a line is broken */
            length = cut_characters(words, length, line - column);
            width = count_characters(words, length);
        }
        fwrite(words, 1, length, text->out);
        column += width;
        words += length;
        fresh = *words && *words != ' ';
        if (fresh) {
            fprintf(text->out, "\n%*s", indent, "");
            column = indent;
        }
        words += strspn(words, " ");
    }
}

static void wrap(const struct spt_text *text, const char *mark, const char *words)
{
    fputs(mark, text->out);
    spt_text_wrap_from(text, count_characters(mark, strlen(mark)), words);
}

void spt_text_heading(const struct spt_text *text, const char *heading)
{
    fputs(text->color ? "\n\033[1m" : "\n", text->out);
    if (count_characters(heading, strlen(heading)) <= spt_text_width(text))
        fputs(heading, text->out);
    else
        wrap(text, "", heading);
    fputs(text->color ? "\033[0m\n" : "\n", text->out);
}

void spt_text_wrap(const struct spt_text *text, const char *mark, const char *words)
{
    wrap(text, mark, words);
    fputc('\n', text->out);
}

void spt_text_wrapf(const struct spt_text *text, const char *mark, const char *format, ...)
{
    char words[WORDS_LENGTH];
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(words, sizeof words, format, arguments);
    va_end(arguments);
    spt_text_wrap(text, mark, words);
}

const char *spt_text_cut(const char *words, int width, char *buffer, size_t size)
{
    int all = count_characters(words, strlen(words));
    int head = all > width ? (width - 1) * HEAD_PARTS / PARTS : all;
    int tail_from = all - (width - 1 - head),
        character = 0; /* later characters are the end that is shown */
    size_t used = 0;
    for (const char *at = words; *at && used + 2 < size; at++) {
        const bool first = ((unsigned char)*at & 0xC0) != 0x80;
        character += first;
        if (first && all > width && character == head + 1)
            buffer[used++] = '~';
        if (character <= head || (all > width && character > tail_from))
            buffer[used++] = *at;
    }
    buffer[used] = 0;
    return buffer;
}

void spt_text_fit(const struct spt_text *text, const char *words, int width)
{
    char cut[SPT_CUT_LENGTH(SPT_TEXT_WIDTH)];
    fputs(spt_text_cut(words, width, cut, sizeof cut), text->out);
    const int all = spt_text_length(words);
    fprintf(text->out, "%*s", all > width ? 0 : width - all, "");
}

/* Rounds to `digits` significant digits, but not more coarsely than to whole numbers. */
static double round_to(double number, int digits)
{
    double unit = pow(10, floor(log10(number)) - (digits - 1));
    return unit > 1 ? round(number / unit) * unit : number;
}

/* Formats a whole number with a blank between thousands. */
static const char *group(double whole, char *buffer)
{
    char digits[SPT_HOURS_LENGTH];
    int length = snprintf(digits, sizeof digits, "%.0f", whole);
    int used = 0;
    for (int i = 0; i < length; i++) {
        if (i && (length - i) % 3 == 0)
            buffer[used++] = ' ';
        buffer[used++] = digits[i];
    }
    buffer[used] = 0;
    return buffer;
}

const char *spt_text_amount(double amount, char *buffer)
{
    if (isnan(amount))
        return strcpy(buffer, "none");
    if (isinf(amount))
        return strcpy(buffer, "no limit");
    if (amount >= 99.95 && amount < 1e10)
        return group(round_to(amount, 3), buffer);
    snprintf(buffer, SPT_HOURS_LENGTH, "%.3g", amount);
    return buffer;
}

const char *spt_text_hours(double hours, char *buffer)
{
    if (isnan(hours))
        return strcpy(buffer, "none");
    if (isinf(hours))
        return strcpy(buffer, "no limit");
    if (hours > 1e7)
        return strcpy(buffer, "over 1e7");
    if (hours >= 99.95)
        return group(round_to(hours, 3), buffer);
    snprintf(buffer, SPT_HOURS_LENGTH, hours > 0 && hours < LEAST_HOURS ? "%.0e" : "%.3g", hours);
    return buffer;
}

const char *spt_text_stated(double hours, char *buffer)
{
    if (hours >= 1000 && hours < 1e9 && hours == floor(hours))
        return group(hours, buffer);
    snprintf(buffer, SPT_HOURS_LENGTH, "%.6g", hours);
    return buffer;
}

const char *spt_text_span(double days, char *buffer)
{
    static const struct {
        double days;
        const char *unit;
    } units[] = {{SPT_DAYS_PER_YEAR, "years"}, {SPT_DAYS_PER_YEAR / 12, "months"}, {7, "weeks"}};
    strcpy(buffer, "-");
    for (int i = 0; i < 3 && !isnan(days); i++)
        if (days >= 2 * units[i].days) {
            snprintf(buffer, SPT_SPAN_LENGTH, "%.3g %s", days / units[i].days, units[i].unit);
            return buffer;
        }
    if (!isnan(days))
        snprintf(buffer, SPT_SPAN_LENGTH, "%.3g day%s", days, days == 1 ? "" : "s");
    return buffer;
}

const char *spt_text_ratio(double ratio, char *buffer)
{
    if (isnan(ratio))
        strcpy(buffer, "-");
    else if (isinf(ratio))
        strcpy(buffer, "no limit");
    else if (ratio > 0 && ratio < LEAST_RATIO)
        strcpy(buffer, "<0.001");
    else
        snprintf(buffer, SPT_HOURS_LENGTH,
                 ratio > 999.5   ? "over 1000"
                 : ratio < 0.005 ? "%.1g"
                 : ratio < 9.995 ? "%.2f"
                                 : "%.3g",
                 ratio);
    return buffer;
}

const char *spt_text_number(double number, char *buffer)
{
    if (isnan(number))
        strcpy(buffer, "-");
    else if (isinf(number))
        strcpy(buffer, "inf");
    else if (number >= 1000 && number < 1e5)
        snprintf(buffer, SPT_HOURS_LENGTH, "%.0f", number);
    else
        snprintf(buffer, SPT_HOURS_LENGTH, "%.3g", number);
    return buffer;
}

const char *spt_text_life(double hours, char *buffer)
{
    spt_text_hours(hours, buffer);
    if (isfinite(hours))
        strcat(buffer, " h");
    return buffer;
}

const char *spt_text_cell(double number, char *buffer)
{
    if (isnan(number))
        strcpy(buffer, "-");
    else if (isinf(number))
        strcpy(buffer, "inf");
    else if (number >= 99999.5)
        snprintf(buffer, SPT_HOURS_LENGTH, "%.0e", number);
    else if (number >= 99.95)
        snprintf(buffer, SPT_HOURS_LENGTH, "%.0f", number);
    else if (number == 0 || number >= 0.9995)
        snprintf(buffer, SPT_HOURS_LENGTH, "%.3g", number);
    else if (number < 0.001) /* in five characters */
        snprintf(buffer, SPT_HOURS_LENGTH, "%.0e", fmax(number, 1e-99));
    else
        snprintf(buffer, SPT_HOURS_LENGTH, "%.3f", number);
    return buffer;
}

void spt_text_bar(const struct spt_text *text, double length, double full, int width)
{
    int marks = full > 0 && length > 0 ? (int)round(length / full * width) : 0;
    if (length > 0 && marks < 1)
        marks = 1;
    for (int i = 0; i < width && i < marks; i++)
        fputc('#', text->out);
}
