/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <string.h>

#include "answer/page/html_parts.h"
#include "answer/service/schedule_words.h"
#include "format/escape.h"
#include "format/html_table.h"
#include "format/text.h"
#include "sentence/sentence.h"

static void write_task(FILE *out, const struct spt_case *question, const struct spt_schedule *plan,
                       const struct spt_schedule_task *task)
{
    char what[SPT_WHAT_LENGTH], cell[SPT_HOURS_LENGTH], span[SPT_SPAN_LENGTH];
    spt_schedule_what(plan, task, what);
    spt_table_row(out, what);
    spt_table_number(out, isnan(task->every_h) ? "-" : spt_text_hours(task->every_h, cell));
    if (question->road_speed_km_h > 0)
        spt_table_number(out,
                         isnan(task->every_h)
                             ? "-"
                             : spt_text_amount(task->every_h * question->road_speed_km_h, cell));
    if (question->yearly_use_h > 0)
        spt_table_number(out, spt_schedule_every(plan, task, span));
    spt_table_text(out, spt_governor_name(task->governor));
    spt_table_row_end(out);
}

static void write_tasks(FILE *out, const struct spt_schedule *plan)
{
    const struct spt_case *question = plan->question;
    const char *heads[6] = {"what", "#every h"};
    int count = 2;
    if (question->road_speed_km_h > 0)
        heads[count++] = "#km";
    if (question->yearly_use_h > 0)
        heads[count++] = "#every";
    heads[count] = "governed by";
    spt_table_open(out, "What to do and when", heads);
    for (int i = 0; i < plan->task_count; i++)
        write_task(out, question, plan, &plan->tasks[i]);
    spt_table_close(out);
}

static void say_note(void *context, const char *who, const char *sentence)
{
    FILE *out = context;
    (void)who;
    fputs("<li>", out);
    spt_escape(out, sentence);
    fputs("</li>\n", out);
}

/* A list of warnings, which is opened by the first one. */
struct warnings {
    FILE *out;
    int count;
};

static void say_warning(void *context, const char *who, const char *sentence)
{
    struct warnings *warnings = context;
    if (!warnings->count++)
        fputs("<ul class=\"care\">\n", warnings->out);
    say_note(warnings->out, who, sentence);
}

static void write_warnings(FILE *out, const struct spt_schedule *plan)
{
    struct warnings warnings = {out, 0};
    const struct spt_finding_sink sink = {say_warning, &warnings};
    spt_schedule_warnings(plan, &sink);
    if (warnings.count)
        fputs("</ul>\n", out);
}

void spt_html_plan(FILE *out, const struct spt_schedule *plan)
{
    const struct spt_finding_sink sink = {say_note, out};
    fputs("<h3>Service plan</h3>\n", out);
    write_warnings(out, plan);
    write_tasks(out, plan);
    fputs("<ul class=\"note\">\n", out);
    spt_schedule_notes(plan, &sink);
    fputs("</ul>\n<ul class=\"care\">\n", out);
    for (int i = SPT_CAUTION_OF_WORK; spt_caution(i); i++)
        say_note(out, NULL, spt_caution(i));
    fputs("</ul>\n", out);
}
