/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef TESTS_MARKUP_H
#define TESTS_MARKUP_H

#include <stdbool.h>
#include <stddef.h>

/* A strict parser for the HTML and SVG that the program writes: every element except void ones
 * closed in order, every attribute in double quotes, no unescaped "<" or "&" in texts or
 * attributes. */

/* Called for each attribute of each element. */
typedef void markup_attribute(void *context, const char *element, const char *name,
                              const char *value);

/* True where the text is well-formed; else `problem` tells what is wrong and where. */
bool markup_read(const char *text, markup_attribute *attribute, void *context, char *problem,
                 size_t size);

/* Number of occurrences of `part` in `text`. */
int markup_count(const char *text, const char *part);

/* The output of a shell command, from malloc; its exit status in `*status`. */
char *markup_run(const char *command, int *status);

#endif
