/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BASE_TABLE_H
#define BASE_TABLE_H

/* Checks that a table has one row for each value of an enumeration: after a value is added (at the
 * end) without a row, the table does not compile. */
#define SPT_ONE_EACH(table, count)                                                                 \
    _Static_assert(sizeof(table) / sizeof(table)[0] == (count), #table " lacks a row for a value")

#endif
