/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "file/call.h"

#include <stdarg.h>
#include <string.h>

#include "file/file.h"

FILE *spt_call_messages(const struct spt_call *call)
{
    return call && call->messages ? call->messages : stderr;
}

void spt_say(const struct spt_call *call, const char *format, ...)
{
    va_list words;
    va_start(words, format);
    vfprintf(spt_call_messages(call), format, words);
    va_end(words);
}

const struct spt_file_text *spt_call_text(const struct spt_call *call, const char *name)
{
    for (int i = 0; call && i < call->text_count; i++)
        if (!strcmp(call->texts[i].name, name))
            return &call->texts[i];
    return NULL;
}

void spt_call_end(struct spt_call *call)
{
    spt_file_forget(call);
}
