/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef TESTS_PUBLISHED_H
#define TESTS_PUBLISHED_H

#include <stdbool.h>

/* Checks against published values. Each call is one row: its result is returned to the test and,
 * where the environment variable SPT_VALIDATE names a file, appended to it for `make validate`
 * (source, quantity, printed, ours, tolerance, verdict, separated by tabs). `source` is a document
 * with its clause or page; the words "from memory" in it mark a value that was not looked up
 * again. */

/* True where our value differs from the printed one by at most the tolerance: half a unit of the
 * last printed digit, or more with a reason. */
bool agrees(const char *source, const char *what, double printed, double ours, double tolerance);

/* The same with a tolerance relative to the printed value. */
bool agrees_within(const char *source, const char *what, double printed, double ours, double part);

/* True where our value is within a printed range, ends included. */
bool lies_within(const char *source, const char *what, double low, double high, double ours);

/* For a value that is misprinted in the source: true where our value differs from it, so that a row
 * that is not a misprint after all is noticed. */
bool is_misprinted(const char *source, const char *what, double printed, double ours,
                   double tolerance);

/* A name formatted as by printf, valid until the eighth call after it. */
const char *named(const char *format, ...) __attribute__((format(printf, 1, 2)));

#endif
