/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <string.h>

#include "base/table.h"
#include "format/escape.h"
#include "format/page/blocks.h"
#include "format/page/inline.h"
#include "format/page/outline.h"
#include "format/page/style.h"

#define PROSE_LENGTH 24 /* cells of longer words get a column of a least width */
#define CARD_COLUMNS 3  /* the most columns that a narrow screen shows beside each other */

/* A page being written. */
struct writer {
    FILE *out;
    const struct spt_page *page;
    bool quiet;
    bool fronted;                                       /* see spt_page_has_front */
    int depth;                                          /* of sections */
    enum spt_section_form sections[SPT_PAGE_DEPTH_MAX]; /* those that are open */
    int choices;                                        /* that were opened */
    const char *heading;                                /* the last one */
    const char *open; /* element that holds blocks of one kind in a row; NULL: none */
};

static void close_element(struct writer *writer)
{
    if (writer->open)
        fprintf(writer->out, "</%s>\n", writer->open);
    writer->open = NULL;
}

static bool is_list_mark(const char *mark)
{
    return !strcmp(mark, "- ") || !strcmp(mark, "! ");
}

static void write_item(struct writer *writer, const struct spt_block *block)
{
    if (!writer->open || strcmp(writer->open, "ul") != 0) {
        close_element(writer);
        fputs("<ul>\n", writer->out);
        writer->open = "ul";
    }
    fputs(*block->mark == '!' ? "<li class=\"warning\">" : "<li>", writer->out);
    spt_page_inline(writer->out, block->words);
    fputs("</li>\n", writer->out);
}

/* How a verdict looks: CSS class and sign. */
static const struct {
    const char *class, *sign;
} verdicts[] = {
    [SPT_UNJUDGED] = {NULL, NULL},
    [SPT_MET] = {"met", "\xE2\x9C\x93"},
    [SPT_MISSED] = {"missed", "\xE2\x9C\x97"},
    [SPT_DOUBTFUL] = {"doubtful", "!"},
};
SPT_ONE_EACH(verdicts, SPT_VERDICT_COUNT);

static const char *const role_classes[] = {
    [SPT_BODY] = NULL,
    [SPT_CHANGES_NUMBER] = "changes",
    [SPT_NOTE] = "note",
    [SPT_CAUTION] = "note",
};
SPT_ONE_EACH(role_classes, SPT_ROLE_COUNT);

/* A mark without the blanks around it, which place it in text. */
static void write_label(FILE *out, const char *mark)
{
    const char *label = mark + strspn(mark, " ");
    size_t length = strlen(label);
    while (length && label[length - 1] == ' ')
        length--;
    if (!length)
        return;
    if (length == 3 && !strncmp(label, "[ ]", length)) {
        fputs("<span class=\"box\" role=\"img\" aria-label=\"to tick\"></span> ", out);
        return;
    }
    fputs("<strong>", out);
    spt_escape_part(out, label, length);
    fputs("</strong> ", out);
}

static void write_paragraph(struct writer *writer, const struct spt_block *block)
{
    const char *class = block->verdict ? verdicts[block->verdict].class : role_classes[block->role];
    if (class)
        fprintf(writer->out, "<p class=\"%s\">", class);
    else
        fputs("<p>", writer->out);
    if (block->verdict)
        fprintf(writer->out, "<span aria-hidden=\"true\">%s</span> ",
                verdicts[block->verdict].sign);
    write_label(writer->out, block->mark);
    spt_page_inline(writer->out, block->words);
    fputs("</p>\n", writer->out);
}

static void write_sentence(struct writer *writer, const struct spt_block *block)
{
    if (is_list_mark(block->mark)) {
        write_item(writer, block);
        return;
    }
    close_element(writer);
    write_paragraph(writer, block);
}

/* Marks of a column belong to the cell before it. */
static bool is_cell(const struct spt_column *column)
{
    return column->head && column->kind != SPT_MARK;
}

static void write_head_cell(FILE *out, const struct spt_column *column, bool second)
{
    const char *words = second ? column->under : column->head;
    if (!words || !*words) { /* a head without words heads nothing */
        fputs("<td></td>", out);
        return;
    }
    fprintf(out, "<th scope=\"%s\"%s%s>", !second && column->group ? "colgroup" : "col",
            !second && column->group ? " colspan=\"2\"" : "",
            spt_column_is_right(column) ? " class=\"n\"" : "");
    spt_page_inline(out, words);
    fputs("</th>", out);
}

/* Heads of which some stand over two columns; the second line, if any, is a row of its own. */
static void write_heads(FILE *out, const struct spt_table *table)
{
    const int lines = spt_table_has_second_head(table) ? 2 : 1;
    for (int line = 0; line < lines; line++) {
        fputs("<tr>", out);
        for (int i = 0; i < table->column_count; i++) {
            const struct spt_column *c = &table->columns[i];
            if (!is_cell(c))
                continue;
            write_head_cell(out, c, line);
            i += !line && c->group;
        }
        fputs("</tr>\n", out);
    }
}

/* Head and second line in one cell where no head stands over two columns. */
static void write_plain_heads(FILE *out, const struct spt_table *table)
{
    fputs("<tr>", out);
    for (int i = 0; i < table->column_count; i++) {
        const struct spt_column *c = &table->columns[i];
        if (!is_cell(c))
            continue;
        if (!*c->head && !(c->under && *c->under)) { /* a bar, which needs no name */
            fputs("<td></td>", out);
            continue;
        }
        fprintf(out, "<th scope=\"col\"%s>", spt_column_is_right(c) ? " class=\"n\"" : "");
        spt_page_inline(out, c->head);
        if (c->under && *c->under) {
            fputs(" <small>", out);
            spt_page_inline(out, c->under);
            fputs("</small>", out);
        }
        fputs("</th>", out);
    }
    fputs("</tr>\n", out);
}

static bool has_groups(const struct spt_table *table)
{
    for (int i = 0; i < table->column_count; i++)
        if (table->columns[i].head && table->columns[i].group)
            return true;
    return false;
}

static void write_bar(FILE *out, double share)
{
    if (share > 0)
        fprintf(out,
                "<td class=\"bar\"><svg aria-hidden=\"true\"><rect width=\"%.1f%%\" "
                "height=\"100%%\"/></svg></td>",
                100 * fmin(share, 1));
    else
        fputs("<td class=\"bar\"></td>", out);
}

/* The column that names a row: the first one of words, else the first one. */
static int find_row_head(const struct spt_table *table)
{
    int first = -1;
    for (int i = 0; i < table->column_count; i++) {
        if (!is_cell(&table->columns[i]))
            continue;
        first = first < 0 ? i : first;
        if (table->columns[i].kind == SPT_WORDS)
            return i;
    }
    return first;
}

static int count_cells(const struct spt_table *table)
{
    int count = 0;
    for (int i = 0; i < table->column_count; i++)
        count += is_cell(&table->columns[i]);
    return count;
}

/* Wider tables become cards on a narrow screen: each row below the other, each cell with the head
 * of its column beside it. */
static bool has_cards(const struct spt_table *table)
{
    return count_cells(table) > CARD_COLUMNS;
}

static void write_head_beside(FILE *out, const struct spt_table *table, int column)
{
    const struct spt_column *c = &table->columns[column];
    const char *group = column && !*c->head && c[-1].group ? c[-1].head : c->head;
    if (!has_cards(table))
        return;
    fputs(" data-h=\"", out);
    spt_page_inline_plain(out, group);
    if (c->under && *c->under) {
        fputc(' ', out);
        spt_page_inline_plain(out, c->under);
    }
    fputc('"', out);
}

static void write_cell(FILE *out, const struct spt_table *table, int row, int column, bool heads)
{
    char buffer[SPT_CELL_LENGTH];
    const struct spt_column *c = &table->columns[column];
    const char *words = spt_cell_words(table, row, column, buffer);
    heads = heads && *words; /* blank where it is that of the row above */
    const bool has_mark = column + 1 < table->column_count && c[1].head && c[1].kind == SPT_MARK;
    const char *mark = has_mark ? spt_cell_text(table, row, column + 1) : "";
    const char *class = spt_column_is_right(c)         ? " class=\"n\""
                        : strlen(words) > PROSE_LENGTH ? " class=\"p\""
                                                       : "";
    heads = heads && *words; /* a name that is that of the row above heads nothing */
    fprintf(out, heads ? "<th scope=\"row\"%s" : "<td%s", class);
    if (!heads)
        write_head_beside(out, table, column);
    fputc('>', out);
    if (c->kind == SPT_WORDS) /* may be a name of the user: log_infeed has no subscript */
        spt_escape(out, words);
    else
        spt_page_inline(out, words);
    if (*mark && *mark != ' ') {
        fputs(SPT_BREAKLESS, out);
        spt_escape(out, mark);
    }
    fputs(heads ? "</th>" : "</td>", out);
}

static void write_table(struct writer *writer, const struct spt_table *table)
{
    FILE *out = writer->out;
    const char *caption = table->caption ? table->caption : writer->heading;
    close_element(writer);
    if (!spt_table_is_shown(table))
        return;
    fputs("<div class=\"wide\" role=\"group\" tabindex=\"0\" aria-label=\"", out);
    spt_page_inline_plain(out, caption);
    fputs(has_cards(table) ? "\">\n<table class=\"cards\">\n" : "\">\n<table>\n", out);
    fputs(table->caption ? "<caption>" : "<caption class=\"unseen\">", out);
    spt_page_inline(out, caption);
    fputs("</caption>\n<thead>", out);
    if (has_groups(table))
        write_heads(out, table);
    else
        write_plain_heads(out, table);
    const int name = find_row_head(table);
    fputs("</thead>\n<tbody>\n", out);
    for (int row = 0; row < spt_table_rows_shown(table); row++) {
        fputs("<tr>", out);
        for (int i = 0; i < table->column_count; i++)
            if (is_cell(&table->columns[i]) && table->columns[i].kind == SPT_BAR)
                write_bar(out, spt_cell_number(table, row, i));
            else if (is_cell(&table->columns[i]))
                write_cell(out, table, row, i, i == name);
        fputs("</tr>\n", out);
    }
    fputs("</tbody>\n</table>\n</div>\n", out);
}

static void write_step(struct writer *writer, const struct spt_step *step)
{
    FILE *out = writer->out;
    if (!writer->open || strcmp(writer->open, "tbody></table></div") != 0) {
        close_element(writer);
        fputs("<div class=\"wide\" role=\"group\" tabindex=\"0\" aria-label=\"", out);
        spt_page_inline_plain(out, writer->heading);
        fputs("\">\n<table class=\"cards steps\">\n<caption class=\"unseen\">", out);
        spt_page_inline(out, writer->heading);
        fputs("</caption>\n<thead><tr><th scope=\"col\">quantity</th>"
              "<th scope=\"col\">formula</th><th scope=\"col\">numbers</th>"
              "<th scope=\"col\" class=\"n\">value</th><th scope=\"col\">source</th></tr></thead>"
              "<tbody>\n",
              out);
        writer->open = "tbody></table></div";
    }
    fputs("<tr><th scope=\"row\">", out);
    spt_page_inline(out, step->symbol);
    fputs("</th><td>", out);
    spt_page_inline(out, step->formula);
    fputs("</td><td>", out);
    spt_page_inline(out, step->numbers);
    fputs("</td><td class=\"n\">", out);
    if (isnan(step->value))
        fputs("none", out);
    else if (isinf(step->value))
        fputs("no limit", out);
    else
        fprintf(out, "%.5g ", step->value);
    if (isfinite(step->value))
        spt_page_inline(out, step->unit);
    fputs("</td><td>", out);
    spt_page_inline(out, step->source);
    fputs("</td></tr>\n", out);
}

static void write_verbatim(struct writer *writer, const char *lines)
{
    close_element(writer);
    fputs("<pre class=\"wide\" tabindex=\"0\"><code>", writer->out);
    spt_escape(writer->out, lines);
    fputs("</code></pre>\n", writer->out);
}

static bool is_choice(const struct spt_block *block)
{
    return block && block->kind == SPT_BLOCK_OPEN && block->section == SPT_SECTION_CHOICE;
}

/* True where no other choice follows at the depth of this one. */
static bool is_last_choice(const struct spt_block *block)
{
    while (block && block->kind != SPT_BLOCK_OPEN)
        block = block->next;
    return !is_choice(block);
}

static bool write_picture(struct writer *writer, const struct spt_picture *picture)
{
    FILE *out = writer->out;
    if (!picture->svg)
        return true;
    if (!writer->open || strcmp(writer->open, "div") != 0) {
        close_element(writer);
        fputs("<div class=\"charts\">\n", out);
        writer->open = "div";
    }
    fputs("<figure>\n<figcaption>", out);
    spt_page_inline(out, picture->title);
    fputs("</figcaption>\n", out);
    const bool drawn = picture->svg(out, picture->subject);
    if (picture->tables) {
        fputs("<details>\n<summary>Its numbers as tables</summary>\n", out);
        spt_page_fragment(picture->tables, out, writer->quiet);
        fputs("</details>\n", out);
    }
    fputs("</figure>\n", out);
    return drawn;
}

/* Writes links to the choices of the page, which follow in a row, and opens what holds them. */
static void open_choices(struct writer *writer, const struct spt_block *block)
{
    char address[SPT_ADDRESS_LENGTH];
    if (is_last_choice(spt_block_end(block)))
        return;
    fputs("<nav class=\"cases\" aria-label=\"The cases of this page\">\n<ul>\n", writer->out);
    for (; block; block = block->next) {
        if (block->kind != SPT_BLOCK_OPEN || block->section != SPT_SECTION_CHOICE)
            continue;
        fprintf(writer->out, "<li><a href=\"#%s\">",
                spt_page_address(writer->page, block, address));
        spt_page_inline(writer->out, block->words);
        fputs("</a></li>\n", writer->out);
    }
    fputs("<li><a href=\"#cases\">all, one after the other</a></li>\n</ul>\n</nav>\n"
          "<div id=\"cases\">\n",
          writer->out);
}

static void write_heading(struct writer *writer, const char *heading)
{
    const int level = writer->depth + 1 > 6 ? 6 : writer->depth + 1;
    if (!*heading)
        return;
    writer->heading = heading;
    fprintf(writer->out, "<h%d>", level);
    spt_page_inline(writer->out, heading);
    fprintf(writer->out, "</h%d>\n", level);
}

static bool is_fold(enum spt_section_form section)
{
    return section == SPT_SECTION_FOLDED || section == SPT_SECTION_ANSWER;
}

/* True for a section of a page with a front that is a fold: one of the page itself or of a choice.
 */
static bool is_part(const struct writer *writer, const struct spt_block *block)
{
    const int depth = writer->depth;
    return writer->fronted && block->section == SPT_SECTION_PLAIN && *block->words &&
           (!depth || (depth == 1 && writer->sections[0] == SPT_SECTION_CHOICE));
}

static void open_fold(struct writer *writer, const struct spt_block *block)
{
    fprintf(writer->out, "<details class=\"%s\">\n<summary>",
            block->section == SPT_SECTION_ANSWER ? "answer" : "working");
    spt_page_inline(writer->out, block->words);
    fputs("</summary>\n", writer->out);
}

static void open_part(struct writer *writer, const struct spt_block *block)
{
    char address[SPT_ADDRESS_LENGTH];
    fprintf(writer->out, "<details class=\"part\" id=\"%s\">\n<summary>",
            spt_page_address(writer->page, block, address));
    write_heading(writer, block->words);
    fputs("</summary>\n", writer->out);
}

static void open_plain(struct writer *writer, const struct spt_block *block)
{
    char address[SPT_ADDRESS_LENGTH];
    writer->choices += is_choice(block);
    if (is_choice(block))
        fprintf(writer->out, "<section class=\"case\" id=\"%s\">\n",
                spt_page_address(writer->page, block, address));
    else
        fputs(block->section == SPT_SECTION_FRONT ? "<section class=\"front\" id=\"front\">\n"
                                                  : "<section>\n",
              writer->out);
    write_heading(writer, block->words);
}

static void open_section(struct writer *writer, const struct spt_block *block)
{
    const bool part = is_part(writer, block);
    close_element(writer);
    if (is_choice(block) && !writer->choices)
        open_choices(writer, block);
    if (writer->depth < SPT_PAGE_DEPTH_MAX)
        writer->sections[writer->depth] = part ? SPT_SECTION_FOLDED : block->section;
    writer->depth++;
    if (part)
        open_part(writer, block);
    else if (is_fold(block->section))
        open_fold(writer, block);
    else
        open_plain(writer, block);
}

static void close_section(struct writer *writer, const struct spt_block *after)
{
    close_element(writer);
    writer->depth--;
    const enum spt_section_form section =
        writer->depth < SPT_PAGE_DEPTH_MAX ? writer->sections[writer->depth] : SPT_SECTION_PLAIN;
    fputs(is_fold(section) ? "</details>\n" : "</section>\n", writer->out);
    if (section == SPT_SECTION_CHOICE && writer->choices > 1 && is_last_choice(after))
        fputs("</div>\n", writer->out);
    if (section == SPT_SECTION_FRONT)
        spt_page_contents(writer->page, writer->page->first, writer->out, writer->quiet);
}

static bool write_block(struct writer *writer, const struct spt_block *block)
{
    switch (block->kind) {
    case SPT_BLOCK_OPEN:
        open_section(writer, block);
        break;
    case SPT_BLOCK_CLOSE:
        close_section(writer, block->next);
        break;
    case SPT_BLOCK_SENTENCE:
        if (!writer->quiet || !spt_block_is_quiet(block))
            write_sentence(writer, block);
        break;
    case SPT_BLOCK_TABLE:
        write_table(writer, &block->table);
        break;
    case SPT_BLOCK_PICTURE:
        return write_picture(writer, &block->picture);
    case SPT_BLOCK_STEP:
        write_step(writer, &block->step);
        break;
    case SPT_BLOCK_VERBATIM:
        write_verbatim(writer, block->words);
        break;
    case SPT_BLOCK_COUNT:
        break;
    }
    return true;
}

static bool write_blocks(struct writer *writer, const struct spt_block *block)
{
    bool written = true;
    while (block && written) {
        if (spt_block_skip(&block, writer->quiet))
            continue;
        written = write_block(writer, block);
        block = block->next;
    }
    close_element(writer);
    return written;
}

bool spt_page_fragment(const struct spt_page *page, FILE *out, bool quiet)
{
    struct writer writer = {.out = out,
                            .page = page,
                            .quiet = quiet,
                            .fronted = spt_page_has_front(page),
                            .heading = page->title ? page->title : ""};
    return write_blocks(&writer, page->first);
}

bool spt_page_html(const struct spt_page *page, FILE *out, bool quiet)
{
    const char *title = page->title ? page->title : "spalltime";
    fputs("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
          "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
          "<meta name=\"color-scheme\" content=\"light dark\">\n"
          "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src "
          "'unsafe-inline'; script-src 'unsafe-inline'; base-uri 'none'; form-action 'none'\">\n"
          "<title>",
          out);
    spt_escape(out, title);
    fputs("</title>\n", out);
    spt_page_style(out);
    fputs("</head>\n<body>\n<header>\n<h1>", out);
    spt_escape(out, title);
    fputs("</h1>\n</header>\n<main>\n", out);
    const bool written = spt_page_fragment(page, out, quiet);
    fputs("</main>\n", out);
    spt_page_script(out);
    fputs("</body>\n</html>\n", out);
    return written;
}
