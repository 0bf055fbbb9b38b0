/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/catalog/guide.h"
#include "format/csv.h"

static void write_heads(struct spt_csv *csv, const char *const *heads)
{
    for (; *heads; heads++)
        spt_csv_text(csv, *heads);
    spt_csv_end(csv);
}

void spt_guide_list_csv(FILE *out, const struct spt_guide *guide)
{
    static const char *const heads[] = {"mode",       "iso_name",  "clause",       "group", "kind",
                                        "quantified", "goes_back", "model_causes", NULL};
    struct spt_csv csv = {out, false};
    write_heads(&csv, heads);
    for (int i = 0; i < guide->count; i++) {
        char causes[SPT_GUIDE_CAUSES_LENGTH];
        const struct spt_guide_entry *entry = &guide->entries[i];
        spt_csv_text(&csv, entry->name);
        spt_csv_text(&csv, entry->iso_name);
        spt_csv_text(&csv, entry->clause);
        spt_csv_text(&csv, entry->group);
        spt_csv_text(&csv, entry->pattern ? "pattern" : "mode");
        spt_csv_text(&csv, spt_guide_quantified_name(entry->quantified));
        spt_csv_text(&csv, spt_guide_return_name(entry->goes_back));
        spt_csv_text(&csv, spt_guide_causes(entry->model_causes, causes));
        spt_csv_end(&csv);
    }
}

static void write_line(struct spt_csv *csv, const char *mode, const char *part, const char *line)
{
    spt_csv_text(csv, mode);
    spt_csv_text(csv, part);
    spt_csv_text(csv, line);
    spt_csv_end(csv);
}

void spt_guide_entry_csv(FILE *out, const struct spt_guide_entry *entry)
{
    static const char *const heads[] = {"mode", "part", "line", NULL};
    struct spt_csv csv = {out, false};
    char causes[SPT_GUIDE_CAUSES_LENGTH];
    write_heads(&csv, heads);
    write_line(&csv, entry->name, "iso_name", entry->iso_name);
    write_line(&csv, entry->name, "clause", entry->clause);
    write_line(&csv, entry->name, "group", entry->group);
    write_line(&csv, entry->name, "kind", entry->pattern ? "pattern" : "mode");
    for (int part = SPT_GUIDE_WORDS; part < SPT_GUIDE_PART_COUNT; part++)
        for (int i = 0; i < entry->parts[part].count; i++)
            write_line(&csv, entry->name, spt_guide_part_name((enum spt_guide_part)part),
                       entry->parts[part].lines[i]);
    write_line(&csv, entry->name, "quantified", spt_guide_quantified_name(entry->quantified));
    write_line(&csv, entry->name, "goes_back", spt_guide_return_name(entry->goes_back));
    write_line(&csv, entry->name, "model_causes", spt_guide_causes(entry->model_causes, causes));
    if (entry->model_causes >> SPT_CAUSE_SETTING & 1u)
        write_line(&csv, entry->name, "setting_side", spt_guide_side_name(entry->setting_side));
    for (int i = 0; i < entry->flag_count; i++)
        write_line(&csv, entry->name, "flag", spt_flag_code(entry->flags[i]));
    write_line(&csv, entry->name, "source", entry->source);
}

void spt_guide_answer_csv(FILE *out, const struct spt_guide_answer *answer)
{
    static const char *const heads[] = {"rank", "mode", "score", "word", "part", NULL};
    struct spt_csv csv = {out, false};
    write_heads(&csv, heads);
    for (int i = 0; i < answer->count; i++) {
        const struct spt_guide_hit *hit = &answer->hits[i];
        for (int j = 0; j < answer->query.count; j++) {
            if (!hit->found[j])
                continue;
            spt_csv_number(&csv, i + 1);
            spt_csv_text(&csv, hit->entry->name);
            spt_csv_number(&csv, hit->score);
            spt_csv_text(&csv, answer->query.words[j]);
            spt_csv_text(&csv, spt_guide_part_name(hit->parts[j]));
            spt_csv_end(&csv);
        }
    }
}

static void write_suspicion(struct spt_csv *csv, const struct spt_guide_inquiry *inquiry,
                            const struct spt_guide_case *one, int cause)
{
    const struct spt_suspicion *suspicion = &one->suspicions[cause];
    spt_csv_text(csv, inquiry->entry->name);
    spt_csv_text(csv, spt_guide_quantified_name(inquiry->entry->quantified));
    spt_csv_text(csv, one->variant ? one->variant : "");
    spt_csv_text(csv, one->bearing->bearing_case->bearing.name);
    spt_csv_text(csv, spt_cause_name((enum spt_cause)cause));
    spt_csv_text(csv, suspicion->weighed ? "yes" : "no");
    spt_csv_text(csv, suspicion->applies ? "yes" : "no");
    spt_csv_number(csv, suspicion->life_h);
    spt_csv_number(csv, suspicion->life_if_cured_h);
    spt_csv_number(csv, suspicion->life_ratio);
    spt_csv_number(csv, suspicion->loss_share);
    spt_csv_end(csv);
}

/* For a mode without a cause in the model writes one row per case, with the life and no cause. */
static void write_bare_case(struct spt_csv *csv, const struct spt_guide_inquiry *inquiry,
                            const struct spt_guide_case *one)
{
    spt_csv_text(csv, inquiry->entry->name);
    spt_csv_text(csv, spt_guide_quantified_name(inquiry->entry->quantified));
    spt_csv_text(csv, one->variant ? one->variant : "");
    spt_csv_text(csv, one->bearing->bearing_case->bearing.name);
    spt_csv_text(csv, "none");
    spt_csv_text(csv, "no");
    spt_csv_text(csv, "no");
    spt_csv_number(csv, one->bearing->modified_rating_life_h);
    for (int i = 0; i < 3; i++)
        spt_csv_text(csv, "");
    spt_csv_end(csv);
}

void spt_guide_inquiry_csv(FILE *out, const struct spt_guide_inquiry *inquiry)
{
    static const char *const heads[] = {
        "mode",    "quantified", "variant",         "bearing",    "cause",      "weighed",
        "applies", "life_h",     "life_if_cured_h", "life_ratio", "loss_share", NULL};
    struct spt_csv csv = {out, false};
    write_heads(&csv, heads);
    for (int i = 0; i < inquiry->count; i++) {
        const struct spt_guide_case *one = &inquiry->cases[i];
        if (!inquiry->entry->model_causes)
            write_bare_case(&csv, inquiry, one);
        for (int cause = 0; cause < SPT_CAUSE_COUNT; cause++)
            if (inquiry->entry->model_causes >> cause & 1u)
                write_suspicion(&csv, inquiry, one, cause);
    }
}
