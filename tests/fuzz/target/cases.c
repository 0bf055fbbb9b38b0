/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Load cases, head first: refused with a place and words, or values in range for these fields. */
#include <stdlib.h>
#include <string.h>

#include "fuzz/fuzz.h"
#include "sweep/cases.h"

static void judge_row(const struct spt_cases_head *head, const char *line, size_t length)
{
    double rows[SPT_SWEEP_FIELD_COUNT], *values[SPT_SWEEP_FIELD_COUNT];
    char problem[SPT_CASES_PROBLEM] = "";
    for (int f = 0; f < SPT_SWEEP_FIELD_COUNT; f++)
        *(values[f] = &rows[f]) = -1e9;
    struct spt_cases_label label;
    int column = spt_cases_row(head, line, length, values, 0, &label, problem);
    fuzz_require(column >= 0 && column <= (int)length + 1 && !*problem == !column);
    fuzz_require(label.length <= SPT_SWEEP_LABEL_MAX && (head->label >= 0 || !label.length));
    for (size_t i = 0; !column && i < label.length; i++)
        fuzz_require((unsigned char)label.text[i] >= 0x20);
    for (int i = 0; !column && i < head->count; i++) {
        const struct spt_field *field = spt_sweep_number(head->fields[i]);
        fuzz_require(*values[head->fields[i]] >= (field ? field->min : 0));
        fuzz_require(*values[head->fields[i]] <= (field ? field->max : SPT_CLEANLINESS_COUNT));
        rows[head->fields[i]] = -1e9;
    }
    for (int f = 0; !column && f < SPT_SWEEP_FIELD_COUNT; f++)
        fuzz_require(rows[f] == -1e9);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    char *text = calloc(1, size + 1), *line = text; /* exact: a byte read past the end is seen */
    struct spt_cases_head head;
    struct spt_diagnostics diags = {0};
    fuzz_require(text != NULL);
    memcpy(text, data, size);
    const struct spt_source source = {"cases", text, strlen(text)};
    bool fine = spt_cases_head(&source, 1, fuzz_question(), &head, &diags);
    fuzz_require(fine == !spt_diagnostics_any(&diags));
    while (fine && (line = strchr(line, '\n')))
        judge_row(&head, line + 1, strcspn(line + 1, "\n")), line++;
    return free(text), 0;
}
