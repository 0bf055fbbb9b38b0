/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/answer.h"

#include "answer/life/life.h"
#include "answer/life/sheet.h"
#include "cli/output.h"
#include "sentence/notes.h"

static void write_json(FILE *out, const struct spt_options *options,
                       const struct spt_answer_forms *forms, const struct spt_page *page,
                       const void *answer)
{
    struct spt_json json = spt_json_begin(out);
    spt_json_open(&json, NULL, '{');
    spt_json_tool(&json);
    forms->json(&json, options, page, answer);
    spt_json_close(&json, '}');
}

/* Result: false when memory is out. */
static bool write_form(struct spt_output *output, const struct spt_options *options,
                       const struct spt_answer_forms *forms, struct spt_page *page,
                       const void *answer)
{
    const struct spt_text text = spt_output_text(output, options);
    if (options->format == SPT_FORMAT_HTML)
        return options->call->fragment ? spt_page_fragment(page, output->stream, options->quiet)
                                       : spt_page_html(page, output->stream, options->quiet);
    if (options->format == SPT_FORMAT_JSON)
        write_json(output->stream, options, forms, page, answer);
    else if (options->format == SPT_FORMAT_CSV)
        spt_page_csv(page, output->stream);
    else if (options->format == SPT_FORMAT_ICAL)
        forms->ical(output->stream, answer);
    else
        spt_page_text(page, &text, options->quiet);
    return true;
}

static int answer(const struct spt_options *options, const struct spt_answer_forms *forms,
                  struct spt_page *page, const void *what, int done)
{
    struct spt_output output;
    if (!spt_output_open(options->call, &output))
        return SPT_EXIT_SYSTEM;
    if (spt_page_is_whole(page) && write_form(&output, options, forms, page, what) &&
        spt_page_is_whole(page))
        return spt_output_close(&output, options, done);
    spt_say(options->call, "spalltime: out of memory\n");
    spt_output_drop(&output);
    return SPT_EXIT_SYSTEM;
}

int spt_cli_answer(const struct spt_options *options, const struct spt_answer_forms *forms,
                   struct spt_arena *arena, const char *title, const void *what, int done)
{
    struct spt_page *page = spt_page_new(arena, title);
    if (page) {
        if (options->explain)
            spt_page_sheet_head(page);
        forms->page(page, options, what);
        spt_page_cautions(page);
        if (options->explain)
            spt_page_sheet_foot(page);
    }
    return answer(options, forms, page, what, done);
}

int spt_cli_show(const struct spt_options *options, const struct spt_answer_forms *forms,
                 struct spt_arena *arena, const char *title, const void *what, int done)
{
    struct spt_page *page = spt_page_new(arena, title);
    if (page)
        forms->page(page, options, what);
    return answer(options, forms, page, what, done);
}

const char *spt_cli_title(const struct spt_options *options, const char *title, const char *name)
{
    return title || (options->format != SPT_FORMAT_HTML && !options->explain) ? title : name;
}

int spt_cli_work(const struct spt_options *options,
                 int (*work)(const struct spt_options *options, struct spt_input *input))
{
    struct spt_input input;
    int status = spt_input_read(options, options->arguments[0], &input);
    if (!status)
        status = work(options, &input);
    spt_input_free(&input);
    return status;
}

int spt_cli_fail(const struct spt_call *call, const char *command, const struct spt_error *error)
{
    if (error->place)
        spt_say(call, "spalltime: %s: %s\n", error->place, error->text);
    else
        spt_say(call, "spalltime %s: %s\n", command, error->text);
    return error->of_case ? SPT_EXIT_BAD_INPUT : SPT_EXIT_SYSTEM;
}
