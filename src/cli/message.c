/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/message.h"

#include "cli/options.h"

static FILE *stream_of_caller;

FILE *spt_messages(void)
{
    return stream_of_caller ? stream_of_caller : stderr;
}

void spt_messages_to(FILE *stream)
{
    stream_of_caller = stream;
}

int spt_cli_fail(const char *command, const struct spt_error *error)
{
    if (error->place)
        fprintf(spt_messages(), "spalltime: %s: %s\n", error->place, error->text);
    else
        fprintf(spt_messages(), "spalltime %s: %s\n", command, error->text);
    return error->of_case ? SPT_EXIT_BAD_INPUT : SPT_EXIT_SYSTEM;
}

bool spt_message_ambiguous(const char *option, const char *value, enum spt_quantity_problem problem)
{
    char thousands[SPT_READING_LENGTH], decimals[SPT_READING_LENGTH];
    if (problem != SPT_QUANTITY_AMBIGUOUS)
        return false;
    spt_quantity_readings(value, thousands, decimals);
    fprintf(spt_messages(), "spalltime: %s `%.60s` can be read in two ways; write %s or %s\n",
            option, value, thousands, decimals);
    return true;
}
