/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <stdarg.h>
#include <stdio.h>

#include "spalltime/ask.h"

enum spt_status spt_error_say(struct spt_error *error, enum spt_status status, bool of_case,
                              const char *place, const char *format, ...)
{
    va_list words;
    error->status = status;
    error->of_case = of_case;
    error->place = place;
    va_start(words, format);
    vsnprintf(error->text, sizeof error->text, format, words);
    va_end(words);
    return status;
}

enum spt_status spt_error_set(struct spt_error *error, enum spt_status status, const char *place)
{
    return spt_error_say(error, status, false, place, "%s", spt_status_text(status));
}
