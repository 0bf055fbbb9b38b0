/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A case file of any bytes, against the table that comes with the program; or, where it begins with
 * `diagnosis:`, a table of any bytes. Both are refused with a place and a reason, or weighed and
 * shown in every format. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "answer/diagnosis/diagnosis.h"
#include "fuzz/fuzz.h"
#include "support/json_text.h"

#define CASES_SHOWN 3

static struct spt_guide guide;
static struct spt_causes shipped;

static void print(const struct spt_diagnostics *diags)
{
    struct fuzz_text gathered;
    fuzz_text_begin(&gathered);
    spt_diagnostics_print(diags, gathered.stream);
    free(fuzz_text_end(&gathered));
}

static void read_shipped(void)
{
    struct spt_diagnostics diags = {0};
    if (shipped.table.cause_count)
        return;
    fuzz_require(spt_guide_load(fuzz_catalog(), &guide, &diags));
    fuzz_require(spt_causes_load(fuzz_catalog(), &guide, &shipped, &diags));
}

static void show(const struct spt_diagnosis_report *reports, int count, struct spt_arena *arena)
{
    struct fuzz_text gathered;
    struct spt_page *page = spt_page_new(arena, "Damaged bearings");
    fuzz_require(page != NULL);
    spt_diagnosis_page(page, reports, count);
    fuzz_text_begin(&gathered);
    struct spt_json json = spt_json_begin(gathered.stream);
    spt_json_open(&json, NULL, '{');
    spt_diagnosis_json(&json, reports, count);
    spt_json_close(&json, '}');
    char *text = fuzz_text_end(&gathered);
    fuzz_require(json_skip(text) != NULL);
    free(text);
    fuzz_text_begin(&gathered);
    spt_page_text(page, &(struct spt_text){.out = gathered.stream, .color = true}, false);
    spt_page_csv(page, gathered.stream);
    spt_page_html(page, gathered.stream, false);
    free(fuzz_text_end(&gathered));
}

/* Weighs a case without a scenario; its hours against a life of 10 000 h. */
static void weigh(const struct spt_causes *causes, const struct spt_damage_case *stated,
                  struct spt_arena *arena, struct spt_diagnosis_report *report)
{
    double sum = 0;
    const int findings = stated->finding_count, count = causes->table.cause_count;
    struct spt_diagnosis_answer *answers =
        spt_arena_allocate(arena, (size_t)(findings + 1) * sizeof *answers);
    double *life_h = spt_arena_allocate(arena, (size_t)count * sizeof *life_h);
    bool *ruled_out = spt_arena_allocate(arena, (size_t)count * sizeof *ruled_out);
    fuzz_require(answers && life_h && ruled_out);
    for (int i = 0; i < findings; i++)
        answers[i] = (struct spt_diagnosis_answer){
            stated->findings[i].finding, stated->findings[i].seen, stated->findings[i].sure};
    for (int c = 0; c < count; c++) {
        life_h[c] = 1e4;
        ruled_out[c] = stated->because && stated->because[c];
    }
    *report = (struct spt_diagnosis_report){.causes = causes,
                                            .stated = stated,
                                            .asked = {.table = &causes->table,
                                                      .machine = stated->machine,
                                                      .ruled_out = ruled_out,
                                                      .answer_count = findings,
                                                      .answers = answers,
                                                      .destroyed = stated->destroyed,
                                                      .on_bench = stated->on_bench,
                                                      .hours = stated->ran,
                                                      .last_sound_h = stated->last_sound,
                                                      .life_h = life_h,
                                                      .doubt = (double)NAN},
                                            .zone_deg = (double)NAN,
                                            .path_setting_mm = (double)NAN};
    const enum spt_status status = spt_diagnose(&report->asked, arena, &report->result);
    fuzz_require(status == SPT_OK);
    for (int c = 0; c < count; c++) {
        fuzz_require(report->result.posterior[c] >= 0);
        sum += report->result.posterior[c];
    }
    fuzz_require(fabs(sum - 1) < 1e-9);
}

static void try_case(const struct spt_source *source)
{
    struct spt_diagnostics diags = {0};
    struct spt_arena arena = {0};
    struct spt_case_file file;
    struct spt_diagnosis_report reports[CASES_SHOWN];
    read_shipped();
    const bool fine = spt_case_file_read(source, &shipped, &file, &diags);
    fuzz_require(fine == !spt_diagnostics_any(&diags));
    const int count = file.count < CASES_SHOWN ? file.count : CASES_SHOWN;
    for (int i = 0; fine && i < count; i++)
        weigh(&shipped, &file.cases[i], &arena, &reports[i]);
    if (fine)
        show(reports, count, &arena);
    print(&diags);
    spt_case_file_free(&file);
    spt_arena_free(&arena);
}

/* A case in which every other finding of a table was seen, or the first of each group. */
static void weigh_all(const struct spt_causes *causes, struct spt_arena *arena)
{
    struct spt_case_finding findings[SPT_DIAGNOSIS_FINDINGS_MAX];
    struct spt_damage_case stated = {.title = "all",
                                     .findings = findings,
                                     .ran = 3000,
                                     .last_sound = (double)NAN,
                                     .arc_rad = (double)NAN};
    bool seen[SPT_DIAGNOSIS_GROUPS_MAX] = {false};
    struct spt_diagnosis_report report;
    for (int f = 0; f < causes->table.finding_count; f++) {
        const int group = causes->table.findings[f].group;
        findings[stated.finding_count++] =
            (struct spt_case_finding){.finding = f, .seen = !seen[group] && f % 2 == 0, .sure = 1};
        seen[group] = seen[group] || f % 2 == 0;
    }
    weigh(causes, &stated, arena, &report);
    show(&report, 1, arena);
}

static void try_table(const struct spt_source *source)
{
    struct spt_diagnostics diags = {0};
    struct spt_catalog catalog = {0};
    struct spt_causes causes;
    read_shipped();
    const struct spt_node *root = spt_document_read(source, &catalog.arena, &diags);
    if (root && root->kind == SPT_NODE_MAPPING) {
        struct spt_catalog_guide one = {root->items[0], NULL};
        catalog.causes = &one;
        if (spt_causes_load(&catalog, &guide, &causes, &diags))
            weigh_all(&causes, &catalog.arena);
        spt_causes_free(&causes);
    }
    print(&diags);
    spt_arena_free(&catalog.arena);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static const char head[] = "diagnosis:";
    const struct spt_source source = {"input.yaml", (const char *)data, size};
    if (size >= strlen(head) && !memcmp(data, head, strlen(head)))
        try_table(&source);
    else
        try_case(&source);
    return 0;
}
