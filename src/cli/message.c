/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/message.h"

static FILE *stream_of_caller;

FILE *spt_messages(void)
{
    return stream_of_caller ? stream_of_caller : stderr;
}

void spt_messages_to(FILE *stream)
{
    stream_of_caller = stream;
}
