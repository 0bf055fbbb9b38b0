/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/catalog/check.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

#include "answer/life/inputs.h"
#include "base/table.h"
#include "sentence/findings.h"
#include "sentence/sentence.h"

#define MESSAGE_LENGTH 5000 /* of a path and what is said of it */

/* The inputs of a file as they were understood, in the section of its name. */
static void show_inputs(struct spt_page *page, const struct spt_checked *file)
{
    if (!file->understood)
        return;
    spt_page_inputs(page, file->understood);
    spt_page_open(page, "Assumed where nothing was stated");
    spt_page_flags_of(page, file->understood, SPT_EFFECTS_ASSUMED);
    spt_page_close(page);
}

static const char *tell_size(struct spt_page *page, const struct spt_checked *file)
{
    if (file->cases)
        return spt_page_words(page, "%s: fine, %d damage case%s", file->path, file->cases,
                              file->cases == 1 ? "" : "s");
    return spt_page_words(page, "%s: fine, %d phase%s, %d variant%s", file->path, file->phases,
                          file->phases == 1 ? "" : "s", file->variants,
                          file->variants == 1 ? "" : "s");
}

void spt_check_lines(struct spt_page *page, const struct spt_checked *files, int count)
{
    for (int i = 0; i < count; i++) {
        if (files[i].result == SPT_CHECK_FINE) /* as a mark, because a path is not wrapped */
            spt_page_say(page, SPT_NOTE, tell_size(page, &files[i]), "%s", "");
    }
    for (int i = 0; i < count; i++) {
        spt_page_open(page, "%s", spt_page_name(page, files[i].path));
        show_inputs(page, &files[i]);
        spt_page_close(page);
    }
}

/* The next message of a file; the line of the file and the caret below it, which begin with a
 * blank, are left out. Result: its length, 0 for none; `*at` is its beginning. */
static size_t find_message(const char **at)
{
    while (**at == ' ' || **at == '\n') {
        *at += strcspn(*at, "\n");
        *at += **at == '\n';
    }
    return strcspn(*at, "\n");
}

/* What the files are called is no word of the sentence. */
static void say_message(struct spt_page *page, const char *path, const char *message)
{
    const size_t named = strncmp(message, path, strlen(path)) ? strlen(message) : strlen(path);
    const char *name = spt_page_words(page, "%.*s", (int)named, message);
    spt_page_say(page, SPT_BODY, "- ", "%s%s", spt_page_name(page, name), message + named);
}

/* What was said of a file, and what was understood of it. */
static void show_file(struct spt_page *page, const struct spt_checked *file)
{
    const char *at = file->messages;
    spt_page_open(page, "%s", spt_page_name(page, file->path));
    for (size_t length; (length = find_message(&at)) > 0; at += length)
        say_message(page, file->path, spt_page_words(page, "%.*s", (int)length, at));
    show_inputs(page, file);
    spt_page_close(page);
}

struct file_row {
    const char *path, *result;
    double phases, variants, cases;
};

static struct file_row make_row(const struct spt_checked *file)
{
    static const char *const words[] = {
        [SPT_CHECK_FINE] = "fine",
        [SPT_CHECK_MISTAKES] = "mistakes",
        [SPT_CHECK_NOT_READ] = "not read",
    };
    SPT_ONE_EACH(words, SPT_CHECK_COUNT);
    const bool fine = file->result == SPT_CHECK_FINE, scenario = fine && !file->cases;
    return (struct file_row){file->path, words[file->result], scenario ? file->phases : (double)NAN,
                             scenario ? file->variants : (double)NAN,
                             fine && file->cases ? file->cases : (double)NAN};
}

static void show_files(struct spt_page *page, const struct spt_checked *files, int count)
{
    static const struct spt_column columns[] = {
        {.head = "file",
         .key = "file",
         .kind = SPT_WORDS,
         .width = 40,
         .at = offsetof(struct file_row, path)},
        {.head = "result",
         .key = "result",
         .kind = SPT_WORDS,
         .width = 8,
         .gap = 1,
         .at = offsetof(struct file_row, result)},
        {.head = "phases",
         .key = "phases",
         .kind = SPT_FIXED,
         .width = 7,
         .gap = 1,
         .at = offsetof(struct file_row, phases)},
        {.head = "variants",
         .key = "variants",
         .kind = SPT_FIXED,
         .width = 8,
         .gap = 1,
         .at = offsetof(struct file_row, variants)},
        {.head = "cases",
         .key = "cases",
         .kind = SPT_FIXED,
         .width = 6,
         .gap = 1,
         .at = offsetof(struct file_row, cases)},
    };
    struct file_row *rows = spt_page_allocate(page, (size_t)count * sizeof *rows);
    for (int i = 0; rows && i < count; i++)
        rows[i] = make_row(&files[i]);
    spt_page_table(page, "files",
                   &(struct spt_table){SPT_TABLE_OF(columns, rows, count), .is_data = true});
}

void spt_check_page(struct spt_page *page, const struct spt_checked *files, int count)
{
    int fine = 0;
    for (int i = 0; i < count; i++)
        fine += files[i].result == SPT_CHECK_FINE;
    spt_page_judge(page, fine == count ? SPT_MET : SPT_MISSED, "%d of %d file%s %s fine.", fine,
                   count, count == 1 ? "" : "s", fine == 1 ? "is" : "are");
    show_files(page, files, count);
    for (int i = 0; i < count; i++)
        show_file(page, &files[i]);
}

static void write_messages(struct spt_json *json, const char *messages)
{
    spt_json_open(json, "messages", '[');
    for (size_t length; (length = find_message(&messages)) > 0; messages += length) {
        char message[MESSAGE_LENGTH];
        snprintf(message, sizeof message, "%.*s", (int)length, messages);
        spt_json_text(json, NULL, message);
    }
    spt_json_close(json, ']');
}

void spt_check_json(struct spt_json *json, const struct spt_page *page,
                    const struct spt_checked *files)
{
    const struct spt_table *rows = spt_page_find(page, "files");
    spt_json_open(json, "files", '[');
    for (int i = 0; i < rows->row_count; i++) {
        spt_json_open(json, NULL, '{');
        spt_table_json_row(rows, i, json);
        write_messages(json, files[i].messages);
        spt_json_close(json, '}');
    }
    spt_json_close(json, ']');
}
