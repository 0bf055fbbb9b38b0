/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef FORMAT_JSON_H
#define FORMAT_JSON_H

#include <stdbool.h>
#include <stdio.h>

#define SPT_JSON_DEPTH_MAX 24

/* State of a JSON text (RFC 8259) being written: commas and indentation. */
struct spt_json {
    FILE *out;
    int depth;
    bool first[SPT_JSON_DEPTH_MAX];
};

struct spt_json spt_json_begin(FILE *out);

/* `key` is NULL inside an array and for the outermost value. */
void spt_json_open(struct spt_json *json, const char *key, char bracket); /* '{' or '[' */
void spt_json_close(struct spt_json *json, char bracket);                 /* '}' or ']' */

/* Writes a number with the fewest digits that parse to the same double; null where it is not
 * finite. */
void spt_json_number(struct spt_json *json, const char *key, double value);
void spt_json_text(struct spt_json *json, const char *key, const char *text); /* NULL gives null */
/* Writes a string of `length` bytes with its quotes to a buffer: at most 6 length + 3 bytes.
 * Result: the position after it. */
char *spt_json_put(char *to, const char *text, size_t length);
void spt_json_bool(struct spt_json *json, const char *key, bool value);

#endif
