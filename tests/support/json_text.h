/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef TESTS_JSON_TEXT_H
#define TESTS_JSON_TEXT_H

/* A strict JSON parser (RFC 8259) that works on the text itself, for tests. */

/* The position after the value at `text`; NULL where it is not well-formed. */
const char *json_skip(const char *text);

/* The value under a key of the object at `object`, member `index` of the array at `array`; NULL
 * where there is none or the text is NULL or of another kind. Keys are compared as written. */
const char *json_find(const char *object, const char *key);
const char *json_item(const char *array, int index);

#endif
