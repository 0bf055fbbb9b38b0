/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <stdlib.h>
#include <string.h>

#include "cli/live/controls.h"
#include "file/call.h"
#include "format/gather.h"
#include "scenario/text/edit.h"
#include "spalltime/run.h"

#define CATALOGS "catalogs"

char *spt_run_edit(const char *text, size_t length, const char *path, const char *value)
{
    struct spt_arena arena = {0};
    struct spt_diagnostics diags = {0};
    if (!text || !path || !value)
        return NULL;
    const struct spt_source source = {"the text", text, length};
    const char *made = spt_edit_value(&source, path, value, &arena, &diags);
    char *kept = made ? malloc(strlen(made) + 1) : NULL;
    if (kept)
        strcpy(kept, made);
    spt_arena_free(&arena);
    return kept;
}

static void write_controls(FILE *out, const struct spt_file_text *files, int count,
                           struct spt_arena *arena)
{
    struct spt_diagnostics diags = {0};
    struct spt_call call = {.messages = out, .texts = files, .text_count = count, .captured = true};
    struct spt_catalog catalog = {.call = &call};
    const struct spt_source source = {files->name, files->text, files->length};
    const struct spt_node *root = spt_document_read(&source, arena, &diags);
    struct spt_json json = spt_json_begin(out);
    for (int i = 1; i < count; i++)
        if (!strncmp(files[i].name, CATALOGS "/", sizeof CATALOGS)) {
            spt_catalog_add_folder(&catalog, CATALOGS, &diags);
            break;
        }
    spt_controls_json(&json, root, &catalog);
    spt_catalog_free(&catalog);
}

char *spt_run_controls(const struct spt_run_file *files, int count)
{
    struct spt_gather gathered;
    struct spt_arena arena = {0};
    if (!files || count < 1)
        return NULL;
    struct spt_file_text *texts = calloc((size_t)count, sizeof *texts);
    if (!texts || !spt_gather_open(&gathered)) {
        free(texts);
        return NULL;
    }
    for (int i = 0; i < count; i++)
        texts[i] = (struct spt_file_text){files[i].name, files[i].text, files[i].length};
    write_controls(gathered.stream, texts, count, &arena);
    spt_arena_free(&arena);
    free(texts);
    return spt_gather_close(&gathered);
}
