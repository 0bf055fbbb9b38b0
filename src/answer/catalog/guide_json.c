/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/catalog/guide.h"
#include "answer/life/life.h"
#include "sentence/sentence.h"

#define COLUMNS_OF_CASE 4 /* the first columns of a cause: mode, quantified, variant, bearing */

static void write_causes(struct spt_json *json, const struct spt_guide_entry *entry)
{
    spt_json_open(json, "model_causes", '[');
    for (int cause = 0; cause < SPT_CAUSE_COUNT; cause++)
        if (entry->model_causes >> cause & 1u)
            spt_json_text(json, NULL, spt_cause_name((enum spt_cause)cause));
    spt_json_close(json, ']');
}

static void write_flags(struct spt_json *json, const struct spt_guide_entry *entry)
{
    spt_json_open(json, "flags", '[');
    for (int i = 0; i < entry->flag_count; i++)
        spt_json_text(json, NULL, spt_flag_code(entry->flags[i]));
    spt_json_close(json, ']');
}

static void write_entry(struct spt_json *json, const char *key, const struct spt_guide_entry *entry)
{
    spt_json_open(json, key, '{');
    spt_json_text(json, "name", entry->name);
    spt_json_text(json, "iso_name", entry->iso_name);
    spt_json_text(json, "clause", entry->clause);
    spt_json_text(json, "group", entry->group);
    spt_json_text(json, "kind", spt_guide_kind_name(entry));
    for (int part = SPT_GUIDE_WORDS; part < SPT_GUIDE_PART_COUNT; part++) {
        spt_json_open(json, spt_guide_part_name((enum spt_guide_part)part), '[');
        for (int i = 0; i < entry->parts[part].count; i++)
            spt_json_text(json, NULL, entry->parts[part].lines[i]);
        spt_json_close(json, ']');
    }
    spt_json_text(json, "quantified", spt_guide_quantified_name(entry->quantified));
    spt_json_text(json, "goes_back", spt_guide_return_name(entry->goes_back));
    write_causes(json, entry);
    if (entry->model_causes >> SPT_CAUSE_SETTING & 1u)
        spt_json_text(json, "setting_side", spt_guide_side_name(entry->setting_side));
    write_flags(json, entry);
    spt_json_text(json, "source", entry->source);
    spt_json_close(json, '}');
}

void spt_guide_list_json(struct spt_json *json, const struct spt_guide *guide)
{
    spt_json_open(json, "modes", '[');
    for (int i = 0; i < guide->count; i++)
        write_entry(json, NULL, &guide->entries[i]);
    spt_json_close(json, ']');
}

void spt_guide_entry_json(struct spt_json *json, const struct spt_guide_entry *entry)
{
    write_entry(json, "mode", entry);
}

static void write_mode(struct spt_json *json, const struct spt_guide_answer *answer, int at)
{
    const struct spt_search_hit *hit = &answer->result.modes[at];
    spt_json_open(json, NULL, '{');
    spt_json_text(json, "name", spt_guide_hit_name(answer, true, at));
    spt_json_number(json, "score", hit->score);
    spt_json_text(json, "line", hit->text);
    spt_json_open(json, "matched", '[');
    for (int i = 0; i < answer->query.count; i++)
        if (hit->found[i])
            spt_json_text(json, NULL, answer->query.written[i]);
    spt_json_close(json, ']');
    spt_json_close(json, '}');
}

static void write_finding(struct spt_json *json, const struct spt_guide_answer *answer, int at)
{
    const struct spt_search_hit *hit = &answer->result.findings[at];
    const struct spt_diagnosis *alone = &answer->alone[at];
    spt_json_open(json, NULL, '{');
    spt_json_text(json, "name", spt_guide_hit_name(answer, false, at));
    spt_json_number(json, "score", hit->score);
    spt_json_text(json, "line", hit->text);
    spt_json_bool(json, "absent", hit->absent);
    spt_json_open(json, "causes", '[');
    for (int i = 0; i < answer->causes->table.cause_count; i++) {
        spt_json_open(json, NULL, '{');
        spt_json_text(json, "name", answer->causes->table.causes[alone->order[i]].name);
        spt_json_number(json, "posterior", alone->posterior[alone->order[i]]);
        spt_json_close(json, '}');
    }
    spt_json_close(json, ']');
    spt_json_close(json, '}');
}

void spt_guide_answer_json(struct spt_json *json, const struct spt_guide_answer *answer)
{
    spt_json_text(json, "asked", answer->asked);
    spt_json_open(json, "found", '[');
    for (int i = 0; i < answer->result.mode_count; i++)
        write_mode(json, answer, i);
    spt_json_close(json, ']');
    spt_json_open(json, "findings", '[');
    for (int i = 0; i < answer->result.finding_count; i++)
        write_finding(json, answer, i);
    spt_json_close(json, ']');
    spt_json_text(json, "question",
                  answer->result.group < 0
                      ? NULL
                      : answer->causes->table.groups[answer->result.group].question);
    spt_json_text(json, "outside", answer->result.outside);
    spt_json_open(json, "left_over", '[');
    for (int i = 0; i < answer->query.count; i++)
        if (answer->result.left_over[i])
            spt_json_text(json, NULL, answer->query.written[i]);
    spt_json_close(json, ']');
}

static void write_warnings(struct spt_json *json, const struct spt_guide_entry *entry,
                           const struct spt_guide_case *one)
{
    const char *phase;
    const struct spt_note *note;
    spt_json_open(json, "warnings", '[');
    for (int at = 0; (note = spt_guide_next_note(entry, one, &at, &phase));) {
        char sentence[SPT_SENTENCE_LENGTH];
        spt_sentence(note, sentence, sizeof sentence);
        spt_json_open(json, NULL, '{');
        spt_json_text(json, "code", spt_flag_code(note->flag));
        spt_json_text(json, "phase", phase);
        spt_json_text(json, "text", sentence);
        spt_json_close(json, '}');
    }
    spt_json_close(json, ']');
}

/* Causes of a case: of their rows in the page the members that are not of the case. */
static void write_suspicions(struct spt_json *json, const struct spt_guide_inquiry *inquiry,
                             const struct spt_guide_case *one, const struct spt_table *rows,
                             int *row)
{
    spt_json_open(json, "causes", '[');
    for (int cause = 0; cause < SPT_CAUSE_COUNT; cause++) {
        if (!(inquiry->entry->model_causes >> cause & 1u))
            continue;
        spt_json_open(json, NULL, '{');
        spt_table_json_row(rows, (*row)++, json);
        spt_json_bool(json, "other_side", one->suspicions[cause].other_side);
        spt_json_close(json, '}');
    }
    spt_json_close(json, ']');
}

void spt_guide_inquiry_json(struct spt_json *json, const struct spt_page *page,
                            const struct spt_guide_inquiry *inquiry)
{
    struct spt_table rows = *spt_page_find(page, "causes");
    int row = 0;
    rows.columns += COLUMNS_OF_CASE;
    rows.column_count -= COLUMNS_OF_CASE;
    write_entry(json, "mode", inquiry->entry);
    spt_json_text(json, "title", inquiry->title);
    spt_json_open(json, "cases", '[');
    for (int i = 0; i < inquiry->count; i++) {
        const struct spt_guide_case *one = &inquiry->cases[i];
        spt_json_open(json, NULL, '{');
        spt_json_text(json, "variant", one->variant);
        spt_json_text(json, "bearing", one->bearing->bearing_case->bearing.name);
        spt_json_life(json, one->bearing->modified_rating_life_h);
        write_suspicions(json, inquiry, one, &rows, &row);
        write_warnings(json, inquiry->entry, one);
        spt_json_close(json, '}');
    }
    spt_json_close(json, ']');
}
