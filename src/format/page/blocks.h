/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef FORMAT_PAGE_BLOCKS_H
#define FORMAT_PAGE_BLOCKS_H

#include "format/page/page.h"

/* The blocks of a page, for those that render it. */

#define SPT_NAME_FROM '\001' /* around a name of the user in a sentence */
#define SPT_NAME_TO '\002'
#define SPT_PAGE_DEPTH_MAX 8

enum spt_block_kind {
    SPT_BLOCK_OPEN,
    SPT_BLOCK_CLOSE,
    SPT_BLOCK_SENTENCE,
    SPT_BLOCK_TABLE,
    SPT_BLOCK_PICTURE,
    SPT_BLOCK_STEP,
    SPT_BLOCK_VERBATIM,
    SPT_BLOCK_COUNT
};

struct spt_block {
    struct spt_block *next;
    enum spt_block_kind kind;
    enum spt_section_form section; /* of an opening */
    enum spt_role role;            /* of a sentence */
    enum spt_verdict verdict;      /* of a sentence */
    const char *mark;              /* of a sentence */
    const char *words;             /* heading, sentence, id of a table, or lines */
    union {
        struct spt_table table;
        struct spt_picture picture;
        struct spt_step step;
    };
};

struct spt_page {
    struct spt_arena *arena;
    const char *title;
    struct spt_block *first, *last;
    bool broken; /* memory was out once */
};

/* True where the block is left out under --quiet. */
bool spt_block_is_quiet(const struct spt_block *block);

/* The block after the section that `block` opens. */
const struct spt_block *spt_block_end(const struct spt_block *block);

/* Where nothing of the section that `*block` begins is shown, moves on to the block after it.
 * Result: true where it did. */
bool spt_block_skip(const struct spt_block **block, bool quiet);

/* Words without the marks of names, and without backticks where `plain`; in the arena. */
const char *spt_page_strip(struct spt_page *page, const char *words);

/* A heading in capitals, but for names and what stands between backticks; in the arena. */
const char *spt_page_capitals(struct spt_page *page, const char *heading);

/* Text of a cell: at least SPT_CELL_LENGTH bytes of buffer, which may not be used. */
#define SPT_CELL_LENGTH 48
const char *spt_cell_words(const struct spt_table *table, int row, int column, char *buffer);
/* True where a column stands at the right, as numbers do. */
bool spt_column_is_right(const struct spt_column *column);
/* The member of a row. */
const char *spt_cell_text(const struct spt_table *table, int row, int column);
double spt_cell_number(const struct spt_table *table, int row, int column);

/* Rows and columns that text and HTML show; a table without either is not shown. */
int spt_table_rows_shown(const struct spt_table *table);
bool spt_table_is_shown(const struct spt_table *table);
/* Writes a table as it fits the width of the text. */
void spt_table_lines(const struct spt_table *table, const struct spt_text *text);
bool spt_table_has_second_head(const struct spt_table *table);

#endif
