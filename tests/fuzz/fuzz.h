/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef TESTS_FUZZ_H
#define TESTS_FUZZ_H

#include <stddef.h>
#include <stdint.h>
#include <stdio.h>

#include "scenario/scenario.h"
#include "spalltime/assess.h"

/* What a target gives: one input, which it may judge with `fuzz_require`. Always returns 0. */
int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

/* Prints what does not hold and aborts, so that the fuzzer keeps the input. */
#define fuzz_require(holds) ((holds) ? (void)0 : fuzz_judge(#holds, __FILE__, __LINE__))
void fuzz_judge(const char *what, const char *file, int line);
extern const char *fuzz_shown; /* the scenario under way, printed with a failure */
extern size_t fuzz_shown_length;

/* A stream whose text is kept in memory; fuzz_text_end closes it and gives the text, to be freed.
 */
struct fuzz_text {
    FILE *stream;
    char *text;
    size_t length;
};
void fuzz_text_begin(struct fuzz_text *gathered);
char *fuzz_text_end(struct fuzz_text *gathered);

/* The catalogs of the source tree, read once. */
const struct spt_catalog *fuzz_catalog(void);

/* The question of the shipped sweep, read once. */
const struct spt_case *fuzz_question(void);

/* Loads a scenario; where it is accepted, works out every question on it, and requires that each
 * number is finite, or none with a reason beside it, and that each JSON answer is well formed. */
void fuzz_scenario(const char *text, size_t length);

/* A stream of choices and numbers out of the input; zeros behind its end. */
struct fuzz_bytes {
    const uint8_t *data;
    size_t size;
};
unsigned fuzz_byte(struct fuzz_bytes *bytes);
double fuzz_number(struct fuzz_bytes *bytes);                           /* any double at all */
double fuzz_between(struct fuzz_bytes *bytes, double low, double high); /* or one of the ends */

#endif
