/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/catalog/example.h"

#include <stddef.h>

#define TABLE "examples"

void spt_examples_page(struct spt_page *page, const struct spt_example *examples, int count)
{
    static const struct spt_column columns[] = {
        {.head = "name",
         .key = "name",
         .kind = SPT_WORDS,
         .width = 26,
         .at = offsetof(struct spt_example, name)},
        {.head = "what it is",
         .key = "title",
         .kind = SPT_WORDS,
         .gap = 2,
         .at = offsetof(struct spt_example, title)},
    };
    spt_page_table(page, TABLE,
                   &(struct spt_table){SPT_TABLE_OF(columns, examples, count), .is_data = true});
    spt_page_say(page, SPT_BODY, "", "`spalltime example NAME -o FILE` writes one to start from.");
}

void spt_examples_json(struct spt_json *json, const struct spt_page *page)
{
    spt_table_json(spt_page_find(page, TABLE), TABLE, json);
}
