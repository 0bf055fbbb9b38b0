/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/diagnosis_case.h"

#include <criterion/criterion.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

int diagnosis_cause(const struct spt_causes *causes, const char *name)
{
    const int cause = spt_causes_cause(causes, name);
    cr_assert_geq(cause, 0, "no cause %s", name);
    return cause;
}

/* The next part of a text divided by ";", without blanks around it; false at the end. */
static bool next_part(const char **at, char *part, size_t size)
{
    while (**at == ' ' || **at == ';')
        ++*at;
    size_t length = strcspn(*at, ";");
    cr_assert_lt(length, size);
    memcpy(part, *at, length);
    *at += length;
    while (length > 0 && part[length - 1] == ' ')
        length--;
    part[length] = 0;
    return length > 0;
}

void diagnosis_case_make(struct diagnosis_case *made, const struct spt_causes *causes,
                         enum spt_machine_group machine, const char *findings, double hours,
                         const char *lives)
{
    char part[120];
    *made = (struct diagnosis_case){
        .one = {.table = &causes->table,
                .machine = machine,
                .hours = hours,
                .last_sound_h = (double)NAN,
                .doubt = (double)NAN},
    };
    while (next_part(&findings, part, sizeof part)) {
        const bool absent = part[0] == '!';
        const int finding = spt_causes_finding(causes, part + absent);
        cr_assert_geq(finding, 0, "no finding %s", part);
        made->answers[made->one.answer_count++] =
            (struct spt_diagnosis_answer){finding, !absent, 1};
    }
    made->one.answers = made->answers;
    made->one.ruled_out = made->ruled_out;
    for (int c = 0; c < causes->table.cause_count; c++)
        made->life_h[c] = (double)NAN;
    while (lives && next_part(&lives, part, sizeof part)) {
        char *number = strrchr(part, ' ');
        *number++ = 0;
        made->life_h[diagnosis_cause(causes, part)] = strtod(number, NULL);
    }
    made->one.life_h = lives ? made->life_h : NULL;
}
