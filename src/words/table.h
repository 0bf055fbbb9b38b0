/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef WORDS_TABLE_H
#define WORDS_TABLE_H

#include "base/table.h"
#include "words/words.h"

/* Defines the words of an enumeration with `total` values; the other arguments are its rows,
 * [VALUE] = "word". */
#define SPT_DEFINE_WORDS(name, total, ...)                                                         \
    static const char *const name##_list[] = {__VA_ARGS__};                                        \
    SPT_ONE_EACH(name##_list, total);                                                              \
    const struct spt_words name = {name##_list, total}

/* The same for words that one file alone uses. */
#define SPT_LOCAL_WORDS(name, total, ...)                                                          \
    static const char *const name##_list[] = {__VA_ARGS__};                                        \
    SPT_ONE_EACH(name##_list, total);                                                              \
    static const struct spt_words name = {name##_list, total}

#endif
