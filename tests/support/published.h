/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef TESTS_PUBLISHED_H
#define TESTS_PUBLISHED_H

#include <stdbool.h>

/* Checks against what others have printed. Each call is one row: it is judged here for the test,
 * and, where the environment variable SPT_VALIDATE names a file, added to it for `make validate`
 * (source, quantity, printed, ours, tolerance, verdict, separated by tabs). `source` is a document
 * with its clause or page; the words "from memory" in it mark a value that was not looked up. */

/* True where ours differs from the printed value by the tolerance at most: half a unit of the last
 * printed digit, or more with a reason. */
bool agrees(const char *source, const char *what, double printed, double ours, double tolerance);

/* For a tolerance that is a part of the printed value. */
bool agrees_within(const char *source, const char *what, double printed, double ours, double part);

/* For a range that is printed, ends included. */
bool lies_within(const char *source, const char *what, double low, double high, double ours);

/* For a value that the source itself misprints: true where ours stays away from it, so that a row
 * that is no misprint after all is noticed. */
bool is_misprinted(const char *source, const char *what, double printed, double ours,
                   double tolerance);

/* A name in the words of printf, good until the eighth call after it. */
const char *named(const char *format, ...) __attribute__((format(printf, 1, 2)));

#endif
