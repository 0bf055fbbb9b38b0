/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <string.h>

#include "answer/diagnosis/diagnosis_parts.h"
#include "answer/diagnosis/diagnosis_words.h"

#define WARNING_LENGTH 600

static const char *cause_name(const struct spt_diagnosis_report *report, int cause)
{
    return report->causes->table.causes[cause].name;
}

static const char *finding_name(const struct spt_diagnosis_report *report, int finding)
{
    return finding < 0 ? NULL : report->causes->table.findings[finding].name;
}

/* What the case states, with the words that were taken for a finding. */
static void write_stated(struct spt_json *json, const struct spt_diagnosis_report *report)
{
    const struct spt_damage_case *stated = report->stated;
    spt_json_open(json, "stated", '[');
    for (int i = 0; i < stated->finding_count; i++) {
        const struct spt_case_finding *finding = &stated->findings[i];
        spt_json_open(json, NULL, '{');
        spt_json_text(json, "finding", finding_name(report, finding->finding));
        spt_json_bool(json, "seen", finding->seen);
        spt_json_text(json, "sure", spt_sure_name(finding->sure));
        spt_json_text(json, "said", finding->said);
        spt_json_text(json, "note", finding->note);
        spt_json_close(json, '}');
    }
    spt_json_close(json, ']');
}

static void write_causes(struct spt_json *json, const struct spt_diagnosis_report *report)
{
    const struct spt_diagnosis *result = &report->result;
    spt_json_open(json, "causes", '[');
    for (int i = 0; i < report->causes->table.cause_count; i++) {
        const int cause = result->order[i];
        const char *because = report->stated->because ? report->stated->because[cause] : NULL;
        spt_json_open(json, NULL, '{');
        spt_json_text(json, "name", cause_name(report, cause));
        spt_json_number(json, "judged", result->judged[cause]);
        spt_json_number(json, "prior", result->prior[cause]);
        spt_json_number(json, "posterior", result->posterior[cause]);
        spt_json_text(json, "ruled_out_because", because);
        spt_json_close(json, '}');
    }
    spt_json_close(json, ']');
}

static void write_contributions(struct spt_json *json, const struct spt_diagnosis_report *report)
{
    const struct spt_diagnosis *result = &report->result;
    spt_json_open(json, "contributions", '[');
    for (int i = 0; i < result->evidence_count; i++) {
        const struct spt_diagnosis_evidence *piece = &result->evidence[i];
        spt_json_open(json, NULL, '{');
        spt_json_open(json, "findings", '[');
        for (int k = 0; k < piece->finding_count; k++)
            spt_json_text(json, NULL, finding_name(report, piece->findings[k]));
        spt_json_close(json, ']');
        spt_json_bool(json, "seen", piece->seen);
        spt_json_text(json, "sure", spt_sure_name(piece->sure));
        spt_json_text(json, "group", report->causes->table.groups[piece->group].name);
        spt_json_number(json, "weight", piece->weight);
        spt_json_number(json, "log_odds_first_second", piece->log_odds);
        spt_json_text(json, "without_it_first", cause_name(report, piece->first_without));
        spt_json_number(json, "without_it_posterior", piece->posterior_without);
        spt_json_close(json, '}');
    }
    spt_json_close(json, ']');
}

static void write_time(struct spt_json *json, const struct spt_diagnosis_report *report)
{
    const struct spt_diagnosis *result = &report->result;
    spt_json_open(json, "time", '{');
    spt_json_number(json, "hours", report->asked.hours);
    spt_json_number(json, "last_sound_h", report->asked.last_sound_h);
    spt_json_number(json, "fatigue_share", result->fatigue_share);
    spt_json_number(json, "fatigue_share_smeared", result->fatigue_share_smeared);
    spt_json_number(json, "doubt", result->timed ? spt_diagnosis_doubt(report) : (double)NAN);
    spt_json_text(json, "doubt_from", result->timed ? spt_diagnosis_doubt_from(report) : NULL);
    spt_json_open(json, "terms", '[');
    for (int c = 0; result->timed && c < report->causes->table.cause_count; c++) {
        spt_json_open(json, NULL, '{');
        spt_json_text(json, "name", cause_name(report, c));
        spt_json_number(json, "life_h", report->asked.life_h[c]);
        spt_json_number(json, "chance", result->time[c]);
        spt_json_close(json, '}');
    }
    spt_json_close(json, ']');
    spt_json_close(json, '}');
}

static void write_pair(struct spt_json *json, const struct spt_diagnosis_report *report)
{
    spt_json_open(json, "pair", '{');
    spt_json_open(json, "causes", '[');
    for (int i = 0; i < 2 && report->result.pair[i] >= 0; i++)
        spt_json_text(json, NULL, cause_name(report, report->result.pair[i]));
    spt_json_close(json, ']');
    spt_json_number(json, "factor", report->result.pair_factor);
    spt_json_close(json, '}');
}

static void write_modes(struct spt_json *json, const struct spt_diagnosis_report *report)
{
    spt_json_open(json, "modes", '[');
    for (int mode = 0; mode < report->causes->table.mode_count; mode++) {
        const struct spt_guide_entry *entry = &report->causes->guide->entries[mode];
        spt_json_open(json, NULL, '{');
        spt_json_text(json, "name", entry->name);
        spt_json_number(json, "probability", report->result.modes[mode]);
        spt_json_text(json, "goes_back", spt_guide_return_name(entry->goes_back));
        spt_json_close(json, '}');
    }
    spt_json_close(json, ']');
}

static void write_checks(struct spt_json *json, const struct spt_diagnosis_report *report)
{
    spt_json_open(json, "next_checks", '[');
    for (int i = 0; i < report->result.check_count; i++) {
        const struct spt_diagnosis_check *check = &report->result.checks[i];
        spt_json_open(json, NULL, '{');
        spt_json_text(json, "question", spt_diagnosis_question(report, check));
        spt_json_number(json, "gain_bit", check->gain_bit);
        spt_json_text(json, "effort", spt_effort_name(check->effort));
        spt_json_open(json, "outcomes", '[');
        for (int k = 0; k < check->outcome_count; k++) {
            const struct spt_diagnosis_outcome *outcome = &check->outcomes[k];
            spt_json_open(json, NULL, '{');
            spt_json_text(json, "answer", finding_name(report, outcome->finding));
            spt_json_number(json, "probability", outcome->probability);
            spt_json_text(json, "first", cause_name(report, outcome->first));
            spt_json_number(json, "posterior", outcome->posterior);
            spt_json_close(json, '}');
        }
        spt_json_close(json, ']');
        spt_json_close(json, '}');
    }
    spt_json_close(json, ']');
}

static void write_path(struct spt_json *json, const struct spt_diagnosis_report *report)
{
    static const enum spt_path_condition normal = SPT_PATH_NORMAL;
    spt_json_open(json, "path", '{');
    spt_json_text(json, "load_stands_to", spt_word(&spt_ring_words, (int)report->standing));
    spt_json_open(json, "expected", '{');
    for (int ring = 0; ring < SPT_RING_COUNT; ring++)
        spt_json_text(
            json, spt_word(&spt_ring_words, ring),
            spt_path_name(spt_path_expected(normal, report->standing, (enum spt_ring)ring)));
    spt_json_close(json, '}');
    spt_json_number(json, "arc_rad", report->stated->arc_rad);
    spt_json_number(json, "zone_deg", report->zone_deg);
    spt_json_number(json, "zone_least_deg", report->zone_least_deg);
    spt_json_number(json, "zone_most_deg", report->zone_most_deg);
    spt_json_number(json, "path_setting_mm", report->path_setting_mm);
    spt_json_close(json, '}');
}

static void write_back(struct spt_json *json, const struct spt_diagnosis_report *report)
{
    const struct spt_going_back going = spt_diagnosis_goes_back(report);
    spt_json_text(json, "goes_back", spt_diagnosis_back_name(going.answer));
    spt_json_text(json, "goes_back_because", *going.because ? going.because : NULL);
    spt_json_text(json, "not_looked_at", *going.unseen ? going.unseen : NULL);
    spt_json_open(json, "out_of_service", '[');
    for (int i = 0; i < report->stated->finding_count; i++)
        if (spt_diagnosis_stops(report, i))
            spt_json_text(json, NULL, finding_name(report, report->stated->findings[i].finding));
    spt_json_close(json, ']');
}

static void write_prevention(struct spt_json *json, const struct spt_diagnosis_report *report)
{
    int causes[2];
    const int count = spt_diagnosis_to_prevent(report, causes);
    spt_json_open(json, "prevention", '[');
    for (int i = 0; i < count; i++) {
        spt_json_open(json, NULL, '{');
        spt_json_text(json, "cause", cause_name(report, causes[i]));
        spt_json_text(json, "prevent", report->causes->table.causes[causes[i]].prevent);
        spt_json_close(json, '}');
    }
    spt_json_close(json, ']');
}

/* Findings without which another cause would be first. */
static void write_stability(struct spt_json *json, const struct spt_diagnosis_report *report)
{
    const struct spt_diagnosis *result = &report->result;
    spt_json_open(json, "hangs_on", '[');
    for (int i = 0; i < result->evidence_count; i++) {
        const struct spt_diagnosis_evidence *piece = &result->evidence[i];
        if (piece->first_without == result->order[0])
            continue;
        spt_json_open(json, NULL, '{');
        spt_json_open(json, "findings", '[');
        for (int k = 0; k < piece->finding_count; k++)
            spt_json_text(json, NULL, finding_name(report, piece->findings[k]));
        spt_json_close(json, ']');
        spt_json_text(json, "without_it_first", cause_name(report, piece->first_without));
        spt_json_close(json, '}');
    }
    spt_json_close(json, ']');
}

static void write_past(struct spt_json *json, const struct spt_diagnosis_report *report)
{
    if (!report->past) {
        spt_json_text(json, "past", NULL);
        return;
    }
    spt_json_open(json, "past", '{');
    spt_json_text(json, "file", report->past);
    spt_json_number(json, "cases", report->past_total);
    spt_json_close(json, '}');
}

/* A warning without the marks of names. */
static void write_warning(void *to, const char *sentence)
{
    char plain[WARNING_LENGTH];
    size_t used = 0;
    for (; *sentence && used + 1 < sizeof plain; sentence++)
        if (*sentence != '\001' && *sentence != '\002')
            plain[used++] = *sentence;
    plain[used] = 0;
    spt_json_text(to, NULL, plain);
}

static void write_warnings(struct spt_json *json, const struct spt_diagnosis_report *report)
{
    spt_json_open(json, "warnings", '[');
    spt_diagnosis_warn(report, write_warning, json);
    spt_json_close(json, ']');
}

static void write_safety(struct spt_json *json)
{
    spt_json_open(json, "safety", '[');
    for (int i = 0; spt_diagnosis_safety[i]; i++)
        spt_json_text(json, NULL, spt_diagnosis_safety[i]);
    spt_json_close(json, ']');
}

static void write_case(struct spt_json *json, const struct spt_diagnosis_report *report)
{
    spt_json_text(json, "case", report->stated->title);
    spt_json_text(json, "note", report->stated->note);
    spt_json_text(json, "question", report->stated->question);
    spt_json_text(json, "machine", spt_word(&spt_machine_words, (int)report->asked.machine));
    spt_json_text(json, "verdict", spt_diagnosis_verdict_name(report->result.verdict));
    write_stated(json, report);
    write_causes(json, report);
    write_contributions(json, report);
    write_time(json, report);
    write_pair(json, report);
    write_modes(json, report);
    write_back(json, report);
    write_checks(json, report);
    write_prevention(json, report);
    write_stability(json, report);
    write_path(json, report);
    write_past(json, report);
    write_warnings(json, report);
    spt_json_text(json, "basis", "judgement of practice, no source");
}

void spt_diagnosis_json(struct spt_json *json, const struct spt_diagnosis_report *reports,
                        int count)
{
    if (count == 1) {
        write_case(json, reports);
        write_safety(json);
        return;
    }
    spt_json_open(json, "cases", '[');
    for (int i = 0; i < count; i++) {
        spt_json_open(json, NULL, '{');
        write_case(json, &reports[i]);
        spt_json_close(json, '}');
    }
    spt_json_close(json, ']');
    write_safety(json);
}
