/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/answer.h"

#include "answer/life/life.h"
#include "answer/life/sheet.h"
#include "answer/service/verdict.h"
#include "cli/output.h"
#include "sentence/notes.h"

/* What is written, and how. */
struct writing {
    const struct spt_options *options;
    const struct spt_answer_forms *forms;
    const struct spt_judgement *judgement; /* NULL: none */
    const void *answer;
};

static void write_json(FILE *out, const struct writing *writing, const struct spt_page *page)
{
    struct spt_json json = spt_json_begin(out);
    spt_json_open(&json, NULL, '{');
    spt_json_tool(&json);
    if (writing->judgement)
        spt_verdict_json(&json, writing->judgement);
    writing->forms->json(&json, writing->options, page, writing->answer);
    spt_json_close(&json, '}');
}

/* Result: false when memory is out. */
static bool write_form(struct spt_output *output, const struct writing *writing,
                       struct spt_page *page)
{
    const struct spt_options *options = writing->options;
    const struct spt_text text = spt_output_text(output, options);
    if (options->format == SPT_FORMAT_HTML)
        return options->call->fragment ? spt_page_fragment(page, output->stream, options->quiet)
                                       : spt_page_html(page, output->stream, options->quiet);
    if (options->format == SPT_FORMAT_JSON)
        write_json(output->stream, writing, page);
    else if (options->format == SPT_FORMAT_CSV)
        spt_page_csv(page, output->stream);
    else if (options->format == SPT_FORMAT_ICAL)
        writing->forms->ical(output->stream, writing->answer);
    else
        spt_page_text(page, &text, options->quiet);
    return true;
}

static int answer(const struct writing *writing, struct spt_page *page, int done)
{
    const struct spt_options *options = writing->options;
    struct spt_output output;
    if (!spt_output_open(options->call, &output))
        return SPT_EXIT_SYSTEM;
    if (spt_page_is_whole(page) && write_form(&output, writing, page) && spt_page_is_whole(page))
        return spt_output_close(&output, options, done);
    spt_say(options->call, "spalltime: out of memory\n");
    spt_output_drop(&output);
    return SPT_EXIT_SYSTEM;
}

static void head(struct spt_page *page, const struct writing *writing)
{
    if (writing->options->explain)
        spt_page_sheet_head(page);
    if (!writing->judgement)
        return;
    spt_verdict_page(page, writing->judgement);
    if (writing->forms->stairs)
        spt_stairs_page(page, writing->judgement);
}

int spt_cli_judged(const struct spt_options *options, const struct spt_answer_forms *forms,
                   struct spt_arena *arena, const char *title,
                   const struct spt_judgement *judgement, const void *what, int done)
{
    const struct writing writing = {options, forms, judgement, what};
    struct spt_page *page = spt_page_new(arena, title);
    if (page) {
        head(page, &writing);
        forms->page(page, options, what);
        spt_page_cautions(page);
        if (options->explain)
            spt_page_sheet_foot(page);
    }
    return answer(&writing, page, done);
}

int spt_cli_answer(const struct spt_options *options, const struct spt_answer_forms *forms,
                   struct spt_arena *arena, const char *title, const void *what, int done)
{
    return spt_cli_judged(options, forms, arena, title, NULL, what, done);
}

int spt_cli_show(const struct spt_options *options, const struct spt_answer_forms *forms,
                 struct spt_arena *arena, const char *title, const void *what, int done)
{
    const struct writing writing = {options, forms, NULL, what};
    struct spt_page *page = spt_page_new(arena, title);
    if (page)
        forms->page(page, options, what);
    return answer(&writing, page, done);
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
