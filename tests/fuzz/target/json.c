/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Any sequence of calls of the JSON writer gives well-formed JSON in valid UTF-8. */
#include <stdlib.h>

#include "base/utf8.h"
#include "format/json.h"
#include "fuzz/fuzz.h"
#include "support/json_text.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct fuzz_bytes in = {data, size};
    struct fuzz_text gathered;
    fuzz_text_begin(&gathered);
    struct spt_json json = spt_json_begin(gathered.stream);
    int depth = 0;
    spt_json_open(&json, NULL, '[');
    while (in.size) {
        unsigned choice = fuzz_byte(&in) % 5;
        char text[8] = {0};
        for (size_t i = 0; choice == 0 && i < 7; i++)
            text[i] = (char)fuzz_byte(&in);
        if (choice == 0)
            spt_json_text(&json, NULL, text);
        else if (choice == 1)
            spt_json_number(&json, NULL, fuzz_number(&in));
        else if (choice == 2 && depth < SPT_JSON_DEPTH_MAX - 2)
            depth += (spt_json_open(&json, NULL, '['), 1);
        else if (choice == 3 && depth)
            depth -= (spt_json_close(&json, ']'), 1);
    }
    for (; depth >= 0; depth--)
        spt_json_close(&json, ']');
    char *text = fuzz_text_end(&gathered);
    fuzz_require(json_skip(text) != NULL);
    for (size_t i = 0; text[i]; i += spt_utf8_size(text + i, gathered.length - i))
        fuzz_require(spt_utf8_size(text + i, gathered.length - i) > 0);
    return free(text), 0;
}
