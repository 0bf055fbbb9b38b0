/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef TESTS_MARKUP_H
#define TESTS_MARKUP_H

#include <stdbool.h>
#include <stddef.h>

/* A strict reader of the HTML and SVG that we write ourselves: every element closed in order but
 * the void ones, every attribute in double quotes, no bare "<" or "&" in texts or attributes. */

/* Called for each attribute of each element. */
typedef void markup_attribute(void *context, const char *element, const char *name,
                              const char *value);

/* True where the text is well formed; else `problem` says what is wrong and where. */
bool markup_read(const char *text, markup_attribute *attribute, void *context, char *problem,
                 size_t size);

/* How often `part` stands in `text`. */
int markup_count(const char *text, const char *part);

/* What a shell command prints, from malloc; its exit status in `*status`. */
char *markup_run(const char *command, int *status);

#endif
