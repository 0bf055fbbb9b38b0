/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "words/table.h"

SPT_DEFINE_WORDS(spt_month_words, 12, "January", "February", "March", "April", "May", "June",
                 "July", "August", "September", "October", "November", "December");
