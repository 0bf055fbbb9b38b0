/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef FORMAT_JSON_H
#define FORMAT_JSON_H

#include <stdbool.h>
#include <stdio.h>

#define SPT_JSON_DEPTH_MAX 24

/* A JSON text (RFC 8259) under way: keeps the commas and the indentation. */
struct spt_json {
    FILE *out;
    int depth;
    bool first[SPT_JSON_DEPTH_MAX];
};

struct spt_json spt_json_begin(FILE *out);

/* `key` is NULL inside an array and for the outermost value. */
void spt_json_open(struct spt_json *json, const char *key, char bracket); /* '{' or '[' */
void spt_json_close(struct spt_json *json, char bracket);                 /* '}' or ']' */

/* A number to the fewest digits that read back as the same double; null where it is not finite. */
void spt_json_number(struct spt_json *json, const char *key, double value);
void spt_json_text(struct spt_json *json, const char *key, const char *text); /* NULL gives null */
/* A text of `length` bytes with its quotes into memory: 6 length + 3 bytes at most.
 * Result: the place after it. */
char *spt_json_put(char *to, const char *text, size_t length);
void spt_json_bool(struct spt_json *json, const char *key, bool value);

#endif
