/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef TESTS_JSON_TEXT_H
#define TESTS_JSON_TEXT_H

/* A strict reader of JSON (RFC 8259) that walks the text itself, for tests. */

/* What follows the value at `text`; NULL where that is not a well-formed value. */
const char *json_skip(const char *text);

/* The value under a key of the object at `object`, member `index` of the array at `array`; NULL
 * where there is none or the text is NULL or of another kind. Keys are compared as written. */
const char *json_find(const char *object, const char *key);
const char *json_item(const char *array, int index);

#endif
