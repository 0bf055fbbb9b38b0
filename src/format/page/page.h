/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef FORMAT_PAGE_PAGE_H
#define FORMAT_PAGE_PAGE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>

#include "format/json.h"
#include "format/text.h"
#include "spalltime/arena.h"

/* An answer as a list of blocks: headings, sentences, tables, pictures, steps of a calculation. It
 * is built once and rendered as text, HTML or CSV; nothing here knows what it is about.
 *
 * Sentences may hold `code` between backticks and names of the user (spt_page_name). HTML sets
 * C_u with a subscript and keeps the thousands of a number together. */

/* A name of the user in a format string, where no page is at hand; see spt_page_name. */
#define SPT_NAMED "\001%s\002"

/* What a sentence is for: --quiet drops the last two, and a section of which nothing is left. */
enum spt_role { SPT_BODY, SPT_CHANGES_NUMBER, SPT_NOTE, SPT_CAUTION, SPT_ROLE_COUNT };

enum spt_verdict { SPT_UNJUDGED, SPT_MET, SPT_MISSED, SPT_DOUBTFUL, SPT_VERDICT_COUNT };

/* What a member of a row is and how it is printed; all but words, marks, yes and counts are
 * doubles. */
enum spt_kind {
    SPT_WORDS,   /* const char *, at the left */
    SPT_DAY,     /* const char *, at the right */
    SPT_MARK,    /* const char *, at most one character, belongs to the column before it */
    SPT_YES,     /* bool, "yes" or "no" */
    SPT_COUNT,   /* int */
    SPT_BAR,     /* a share of the width, 0 to 1 */
    SPT_HOURS,   /* "12 300" */
    SPT_LIFE,    /* "12 300 h" */
    SPT_STATED,  /* hours with all their digits */
    SPT_AMOUNT,  /* "1 430 000" */
    SPT_SPAN,    /* days: "4.6 years" */
    SPT_NUMBER,  /* three digits */
    SPT_CELL,    /* three digits in at most five characters */
    SPT_RATIO,   /* "1.02", "over 1000" */
    SPT_FIXED,   /* `digits` decimals */
    SPT_PERCENT, /* a share times 100 with `digits` decimals */
    SPT_GENERAL, /* `digits` significant digits */
    SPT_KIND_COUNT
};

/* The forms that a key is of. */
enum spt_only { SPT_ALL_FORMS, SPT_ONLY_CSV, SPT_ONLY_JSON };

struct spt_column {
    const char *head;  /* of text and HTML; NULL: the column is in neither */
    const char *under; /* second line of the head, such as the unit; NULL: none */
    const char *key;   /* of CSV and JSON; NULL: the column is in neither */
    enum spt_only only;
    enum spt_kind kind;
    int digits;          /* of FIXED, PERCENT and GENERAL */
    int width, gap;      /* characters in text, and blanks before them; words of width 0 take the
                            rest of the line and wrap below themselves */
    size_t at;           /* offset of the member in the row */
    size_t instead;      /* offset of words that text and HTML have in its place unless they are
                            NULL, CSV in place of NaN; 0: there are none */
    const char *none;    /* for NaN; NULL: what the kind has */
    const char *endless; /* for infinity; NULL: what the kind has */
    const char *unit;    /* follows a finite number in text and HTML; NULL: nothing */
    bool extra;          /* text has it only where the line has room */
    bool once;           /* blank where the member is that of the row above */
    bool group;          /* its `head` is that of the next column too, which has `under` alone */
};

/* Where the heads of a table stand in text; HTML has them in each table. */
enum spt_heads {
    SPT_HEADS_OWN,
    SPT_HEADS_ABOVE, /* left out: another table above has the same */
    SPT_HEADS_ALONE  /* without rows, for tables below */
};

struct spt_table {
    const char *caption; /* of HTML; NULL: the heading above it tells enough */
    const struct spt_column *columns;
    int column_count;
    const void *rows;
    size_t row_size;
    int row_count;
    int left_out; /* last rows that text and HTML leave out; CSV and JSON have them */
    bool is_data; /* the CSV of the page */
    bool apart;   /* text has an empty line before it */
    enum spt_heads heads;
};

/* The members of a table from an array of columns and rows. */
#define SPT_TABLE_OF(array_of_columns, array_of_rows, count)                                       \
    .columns = (array_of_columns),                                                                 \
    .column_count = (int)(sizeof(array_of_columns) / sizeof(array_of_columns)[0]),                 \
    .rows = (array_of_rows), .row_size = sizeof(array_of_rows)[0], .row_count = (count)

struct spt_picture {
    const char *title;
    const void *subject;
    void (*text)(const struct spt_text *text, const void *subject); /* NULL: not in text */
    bool (*svg)(FILE *out, const void *subject); /* false: out of memory; NULL: not in HTML */
    const struct spt_page *tables;               /* its numbers, in a fold of HTML; NULL: none */
};

/* A step of a calculation. */
struct spt_step {
    const char *symbol;  /* "kappa" */
    const char *formula; /* "nu / nu_1" */
    const char *numbers; /* "37.7 / 28.1" */
    double value;
    const char *unit;   /* "" for a bare number */
    const char *source; /* document and clause, or the kind of rule */
};

struct spt_page;

/* A page in the arena. The words of headings, sentences and steps are copied there; columns, rows,
 * the texts that rows point at, and the subjects of pictures have to live as long as the page.
 * Where memory is out the page stays usable and spt_page_is_whole is false. Result: NULL when
 * memory is out. */
struct spt_page *spt_page_new(struct spt_arena *arena, const char *title);
bool spt_page_is_whole(const struct spt_page *page);

/* How HTML shows a section; text shows all alike. Of several choices in a row the reader picks
 * one, without the script all are shown; a fold is closed at first, and in print stays as the
 * reader left it unless it is an answer, which print always opens. A front, which begins a page,
 * holds the whole answer in short and fits one sheet of paper; with it every other section of the
 * page, and of its choices, is a fold with an address, and a table of contents follows it. */
enum spt_section_form {
    SPT_SECTION_PLAIN,
    SPT_SECTION_CHOICE,
    SPT_SECTION_FOLDED,
    SPT_SECTION_ANSWER,
    SPT_SECTION_FRONT
};

/* Open and close a section; sections may hold sections. One without a heading ("") is set apart by
 * an empty line. */
void spt_page_open(struct spt_page *page, const char *heading, ...)
    __attribute__((format(printf, 2, 3)));
void spt_page_open_as(struct spt_page *page, enum spt_section_form section, const char *heading,
                      ...) __attribute__((format(printf, 3, 4)));
void spt_page_close(struct spt_page *page);

/* A sentence; `mark` is "", a list mark ("- ", "! ") or a label, which text puts before the first
 * line as it is. */
void spt_page_say(struct spt_page *page, enum spt_role role, const char *mark, const char *format,
                  ...) __attribute__((format(printf, 4, 5)));

/* The sentence that says whether what is wanted is met. */
void spt_page_judge(struct spt_page *page, enum spt_verdict verdict, const char *format, ...)
    __attribute__((format(printf, 3, 4)));

/* `id` is found again by spt_page_find, which gives NULL for a table that is not there. */
void spt_page_table(struct spt_page *page, const char *id, const struct spt_table *table);
const struct spt_table *spt_page_find(const struct spt_page *page, const char *id);

void spt_page_picture(struct spt_page *page, const struct spt_picture *picture);
void spt_page_step(struct spt_page *page, const struct spt_step *step);

/* Lines that are shown as they are, each ended by a line feed; they are not copied. */
void spt_page_verbatim(struct spt_page *page, const char *lines);

/* An empty page in the memory of another, such as for the tables of a picture. Result: NULL when
 * memory is out. */
struct spt_page *spt_page_part(struct spt_page *page);

/* Zeroed memory that lives as long as the page, such as for the rows of a table. Result: NULL when
 * memory is out; a table without rows is not shown. */
void *spt_page_allocate(struct spt_page *page, size_t size);
/* The columns of a table, to be changed. Result: NULL when memory is out. */
struct spt_column *spt_page_columns(struct spt_page *page, const struct spt_column *columns,
                                    int count);

/* Makes a row in which no number is known (NaN) and every text is NULL. */
void spt_row_clear(const struct spt_column *columns, int count, void *row, size_t size);

/* Words kept as long as the page; "" where memory is out. */
const char *spt_page_words(struct spt_page *page, const char *format, ...)
    __attribute__((format(printf, 2, 3)));
const char *spt_page_hours(struct spt_page *page, double hours); /* "12 300" */
const char *spt_page_life(struct spt_page *page, double hours);  /* "12 300 h" */
/* A name that the user gave, marked as such for the sentence that it goes into. */
const char *spt_page_name(struct spt_page *page, const char *name);

/* Rendering. */
void spt_page_text(struct spt_page *page, const struct spt_text *text, bool quiet);
/* A whole document, or its blocks alone. Result: false when memory is out. */
bool spt_page_html(const struct spt_page *page, FILE *out, bool quiet);
bool spt_page_fragment(const struct spt_page *page, FILE *out, bool quiet);
void spt_page_csv(const struct spt_page *page, FILE *out);
/* The blocks as a part of a man page; pictures are left out. */
void spt_page_roff(struct spt_page *page, FILE *out);
void spt_roff(FILE *out, const char *words); /* words escaped for it */
/* The members of one row into an object that the caller has opened. */
/* All rows as an array of objects; an empty array for NULL. */
void spt_table_json(const struct spt_table *table, const char *key, struct spt_json *json);
void spt_table_json_row(const struct spt_table *table, int row, struct spt_json *json);

#endif
