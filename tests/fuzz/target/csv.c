/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Any text in a CSV cell is one cell to a reader of RFC 4180, and never a formula. */
#include <stdlib.h>
#include <string.h>

#include "format/csv.h"
#include "fuzz/fuzz.h"

static size_t cell_length(const char *text)
{
    size_t i = 1;
    if (*text != '"')
        return strcspn(text, ",\n\r");
    while (text[i] && (text[i] != '"' || text[i + 1] == '"'))
        i += text[i] == '"' ? 2 : 1;
    return i + (text[i] == '"');
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct fuzz_bytes in = {data, size};
    struct fuzz_text gathered;
    double number = fuzz_number(&in);
    char *cell = calloc(1, in.size + 1);
    fuzz_require(cell != NULL);
    memcpy(cell, in.data, in.size);
    fuzz_text_begin(&gathered);
    struct spt_csv csv = {gathered.stream, false};
    spt_csv_text(&csv, cell);
    spt_csv_number(&csv, number);
    spt_csv_end(&csv);
    char *text = fuzz_text_end(&gathered);
    size_t first = cell_length(text);
    fuzz_require(text[first] == ',');
    fuzz_require(!first || !strchr("=+-@\t\r", text[text[0] == '"' ? 1 : 0]));
    size_t second = cell_length(text + first + 1);
    fuzz_require(!strcmp(text + first + 1 + second, "\n"));
    free(text);
    return free(cell), 0;
}
