/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/diagnosis/diagnosis.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

#include "answer/diagnosis/diagnosis_parts.h"
#include "answer/diagnosis/diagnosis_words.h"
#include "chart/cause_time.h"

#define BAR_WIDTH 24
#define HALF_WIDTH 8
#define LISTED_SHARE 0.8 /* causes are listed until they have this much together */
#define SHOWN 0.5
#define PLAIN 0.9
#define SMALL_ODDS 0.2 /* ln: what speaks against by less is not told */
#define LINE_LENGTH 800
#define USUAL_DOUBT 0.5 /* as spt_diagnose takes it */

/* Adds words to a line with a divider. */
static void add_words(char *line, const char *divider, const char *words)
{
    const size_t used = strlen(line);
    snprintf(line + used, LINE_LENGTH - used, "%s%s", used ? divider : "", words);
}

/* ---- verdict ---- */

/* What weighs in a sentence: "dents x 2.8". */
static void say_moved(struct spt_page *page, const struct spt_diagnosis_report *report)
{
    const struct spt_diagnosis *result = &report->result;
    if (result->moved_most < 0)
        return;
    const struct spt_diagnosis_evidence *most = &result->evidence[result->moved_most];
    spt_page_say(page, SPT_BODY, "",
                 "What moved it most: %s (the odds of %s fall %.1f times "
                 "without it).",
                 spt_diagnosis_piece(page, report, result->moved_most),
                 spt_diagnosis_cause(report, result->order[0]), most->factor);
}

static void say_against(struct spt_page *page, const struct spt_diagnosis_report *report)
{
    char line[LINE_LENGTH] = "";
    const struct spt_diagnosis *result = &report->result;
    for (int i = 0; i < result->evidence_count; i++)
        if (result->evidence[i].log_odds < -SMALL_ODDS)
            add_words(line, "; ", spt_diagnosis_piece(page, report, i));
    if (*line)
        spt_page_say(page, SPT_BODY, "", "Against it, for %s: %s.",
                     spt_diagnosis_cause(report, result->order[1]), line);
    else
        spt_page_say(page, SPT_BODY, "",
                     "No finding speaks for %s, the second, rather than for it.",
                     spt_diagnosis_cause(report, result->order[1]));
}

static void say_destroyed(struct spt_page *page, const struct spt_diagnosis_report *report)
{
    if (report->stated->destroyed)
        spt_page_say(page, SPT_CHANGES_NUMBER, "",
                     "Run to destruction: the end hides what began it, so colours, smears, cage, "
                     "grease, seats, turning and breaks count hardly. What was done before and the "
                     "other row tell most.");
}

static void show_verdict(struct spt_page *page, const struct spt_diagnosis_report *report)
{
    const struct spt_diagnosis *result = &report->result;
    spt_page_open(page, "Verdict");
    spt_page_say(page, SPT_BODY, "", "%s.", spt_diagnosis_first_line(page, report));
    if (result->verdict == SPT_DIAGNOSIS_UNTOLD)
        spt_page_say(page, SPT_BODY, "", "%s", spt_diagnosis_untold(result->untold));
    say_moved(page, report);
    say_against(page, report);
    say_destroyed(page, report);
    spt_page_close(page);
}

/* ---- causes ---- */

struct cause_row {
    const char *name, *judged, *used, *now;
    double bar;
};
#define AT(member) .at = offsetof(struct cause_row, member)
enum { NAME, JUDGED, USED, NOW, BAR, CAUSE_COLUMNS };
static const struct spt_column cause_columns[CAUSE_COLUMNS] = {
    [NAME] = {.head = "cause", .kind = SPT_WORDS, .width = 28, AT(name)},
    [JUDGED] = {.head = "before", .kind = SPT_DAY, .width = 10, .gap = 1, AT(judged)},
    [USED] = {.head = "with shop", .kind = SPT_DAY, .width = 10, .gap = 1, AT(used)},
    [NOW] = {.head = "now", .kind = SPT_DAY, .width = 10, .gap = 1, AT(now)},
    [BAR] = {.head = "", .kind = SPT_BAR, .width = BAR_WIDTH, .gap = 1, AT(bar)},
};

static int find_other(const struct spt_diagnosis_table *table)
{
    int c = 0;
    while (table->causes[c].time != SPT_CAUSE_TIME_OTHER)
        c++;
    return c;
}

static struct cause_row make_cause(struct spt_page *page, const struct spt_diagnosis_report *report,
                                   int cause)
{
    const struct spt_diagnosis *result = &report->result;
    return (struct cause_row){
        .name = spt_diagnosis_cause(report, cause),
        .judged = spt_diagnosis_percent(page, result->judged[cause]),
        .used = spt_diagnosis_percent(page, result->prior[cause]),
        .now = spt_diagnosis_percent(page, result->posterior[cause]),
        .bar = result->posterior[cause],
    };
}

static void say_rulings(struct spt_page *page, const struct spt_diagnosis_report *report)
{
    for (int c = 0; c < report->causes->table.cause_count; c++)
        if (report->stated->because && report->stated->because[c])
            spt_page_say(page, SPT_BODY, "- ", "Ruled out: %s, because: %s.",
                         spt_diagnosis_cause(report, c),
                         spt_page_name(page, report->stated->because[c]));
}

static void show_causes(struct spt_page *page, const struct spt_diagnosis_report *report)
{
    const struct spt_diagnosis_table *table = &report->causes->table;
    const struct spt_diagnosis *result = &report->result;
    const int other = find_other(table);
    struct cause_row *rows =
        spt_page_allocate(page, (size_t)(table->cause_count + 1) * sizeof *rows);
    struct spt_column *columns = spt_page_columns(page, cause_columns, CAUSE_COLUMNS);
    double sum = 0;
    int count = 0;
    bool has_other = false;
    for (int i = 0; rows && i < table->cause_count && (sum < LISTED_SHARE || i < 2); i++) {
        rows[count++] = make_cause(page, report, result->order[i]);
        sum += result->posterior[result->order[i]];
        has_other = has_other || result->order[i] == other;
    }
    if (rows && !has_other)
        rows[count++] = make_cause(page, report, other);
    if (columns && !report->past)
        columns[USED].head = NULL;
    spt_page_open(page, "Causes");
    if (columns)
        spt_page_table(page, "causes",
                       &(struct spt_table){.columns = columns,
                                           .column_count = CAUSE_COLUMNS,
                                           .rows = rows,
                                           .row_size = sizeof *rows,
                                           .row_count = count});
    say_rulings(page, report);
    spt_page_close(page);
}

/* ---- evidence ---- */

struct evidence_row {
    const char *what, *sure;
    double odds, against, favour;
};
#undef AT
#define AT(member) .at = offsetof(struct evidence_row, member)

static void show_evidence(struct spt_page *page, const struct spt_diagnosis_report *report)
{
    const struct spt_diagnosis *result = &report->result;
    const int first = result->order[0], second = result->order[1];
    static const struct spt_column columns[] = {
        {.head = "finding", .kind = SPT_WORDS, .width = 36, AT(what)},
        {.head = "sure", .kind = SPT_WORDS, .width = 6, .gap = 1, AT(sure)},
        {.head = "odds x", .kind = SPT_RATIO, .width = 7, .gap = 1, AT(odds)},
        {.head = "for 2nd", .kind = SPT_BAR, .width = HALF_WIDTH, .gap = 2, AT(against)},
        {.head = "for 1st", .kind = SPT_BAR, .width = HALF_WIDTH, .gap = 2, AT(favour)},
    };
    const int most = result->evidence_count + 2;
    struct evidence_row *rows = spt_page_allocate(page, (size_t)most * sizeof *rows);
    double largest = 0;
    int count = 0;
    if (!rows)
        return;
    rows[count++] = (struct evidence_row){"how common they are", "",
                                          result->prior[first] / result->prior[second], 0, 0};
    if (result->timed)
        rows[count++] = (struct evidence_row){"the hours run", "",
                                              result->time[first] / result->time[second], 0, 0};
    for (int i = 0; i < result->evidence_count; i++)
        rows[count++] = (struct evidence_row){spt_diagnosis_piece(page, report, i),
                                              spt_sure_name(result->evidence[i].sure),
                                              exp(result->evidence[i].log_odds), 0, 0};
    for (int i = 0; i < count; i++)
        if (isfinite(log(rows[i].odds)))
            largest = fmax(largest, fabs(log(rows[i].odds)));
    for (int i = 0; i < count && largest > 0; i++) {
        rows[i].favour = fmin(fmax(log(rows[i].odds), 0) / largest, 1);
        rows[i].against = fmin(fmax(-log(rows[i].odds), 0) / largest, 1);
    }
    spt_page_open(page, "What speaks for %s rather than %s", spt_diagnosis_cause(report, first),
                  spt_diagnosis_cause(report, second));
    spt_page_table(page, "evidence", &(struct spt_table){SPT_TABLE_OF(columns, rows, count)});
    spt_page_say(page, SPT_NOTE, "",
                 "The factors multiply to the odds of the two. Findings that repeat each other "
                 "count less than they would alone.");
    spt_page_close(page);
}

static void say_said(struct spt_page *page, const struct spt_diagnosis_report *report)
{
    const struct spt_damage_case *stated = report->stated;
    for (int i = 0; i < stated->finding_count; i++) {
        const struct spt_case_finding *finding = &stated->findings[i];
        if (finding->said)
            spt_page_say(page, SPT_BODY, "- ", "\"%s\" was taken for: %s%s.",
                         spt_page_name(page, finding->said), finding->seen ? "" : "not ",
                         report->causes->table.findings[finding->finding].name);
        const char *remark = report->causes->table.findings[finding->finding].remark;
        if (remark && finding->seen)
            spt_page_say(page, SPT_BODY, "- ", "%s: %s",
                         report->causes->table.findings[finding->finding].name, remark);
        if (finding->note)
            spt_page_say(page, SPT_BODY, "- ", "%s: %s.",
                         report->causes->table.findings[finding->finding].name,
                         spt_page_name(page, finding->note));
    }
}

/* ---- fatigue ---- */

static const char *tell_share(struct spt_page *page, double share)
{
    char amount[SPT_HOURS_LENGTH];
    if (!(share > 1e-9))
        return "practically none";
    return share < 0.1 ? spt_page_words(page, "1 in %s", spt_text_amount(1 / share, amount))
                       : spt_page_words(page, "%.0f %%", 100 * share);
}

/* The laws of the likeliest causes that have a life. */
static void show_times(struct spt_page *page, const struct spt_diagnosis_report *report)
{
    struct spt_cause_time_chart *chart = spt_page_allocate(page, sizeof *chart);
    if (!chart)
        return;
    for (int i = 0; i < report->causes->table.cause_count && chart->count < SPT_CAUSE_TIME_CURVES;
         i++) {
        const int cause = report->result.order[i];
        const double life_h = report->asked.life_h[cause];
        if (!(life_h > 0) || isinf(life_h))
            continue;
        chart->names[chart->count] = spt_diagnosis_cause(report, cause);
        chart->life_h[chart->count++] = life_h;
    }
    chart->doubt = isnan(report->asked.doubt) ? USUAL_DOUBT : report->asked.doubt;
    chart->hours = report->asked.hours;
    snprintf(chart->id, sizeof chart->id, "time-%d", report->index);
    if (chart->count)
        spt_page_picture(page, &(struct spt_picture){.title = "When it strikes",
                                                     .subject = chart,
                                                     .svg = spt_cause_time_svg});
}

/* Why hours that were stated do not count, or not by the life of a variant. */
static void say_untimed(struct spt_page *page, const struct spt_diagnosis_report *report)
{
    const struct spt_damage_case *stated = report->stated;
    if (!report->result.timed && !isnan(stated->ran))
        spt_page_say(page, SPT_CHANGES_NUMBER, "", "%s",
                     report->scenario ? "The hours do not count: the scenario has no finite life."
                                      : "The hours do not count: they need a `scenario`.");
    for (int i = 0; report->result.timed && i < stated->condition_count; i++) {
        const double life_h = report->asked.life_h[stated->conditions[i].cause];
        if (!(life_h > 0) || isinf(life_h))
            spt_page_say(page, SPT_CHANGES_NUMBER, "",
                         "The variant \"%s\" has no finite life: %s is taken to strike at any "
                         "time.",
                         spt_page_name(page, stated->conditions[i].variant),
                         spt_diagnosis_cause(report, stated->conditions[i].cause));
    }
}

static void show_fatigue(struct spt_page *page, const struct spt_diagnosis_report *report)
{
    const struct spt_diagnosis *result = &report->result;
    spt_page_open(page, "What fatigue alone explains");
    say_untimed(page, report);
    if (!result->timed) {
        spt_page_close(page);
        return;
    }
    spt_page_say(page, SPT_BODY, "",
                 "Of bearings with nothing wrong %s had spalled by %s h (%s with the doubt of the "
                 "rating). That is not the chance of \"%s\" above.",
                 tell_share(page, result->fatigue_share), spt_page_hours(page, report->asked.hours),
                 tell_share(page, result->fatigue_share_smeared),
                 spt_diagnosis_cause(report, spt_diagnosis_fatigue(report)));
    if (report->fleet > 0)
        spt_page_say(page, SPT_BODY, "", "Of a fleet of %d, %.2g would have by then.",
                     report->fleet, report->fleet * result->fatigue_share_smeared);
    if (!isnan(report->asked.last_sound_h))
        spt_page_say(page, SPT_BODY, "",
                     "It was last seen sound at %s h, which the times of the "
                     "causes count in.",
                     spt_page_hours(page, report->asked.last_sound_h));
    show_times(page, report);
    spt_page_close(page);
}

/* ---- two at once, modes, return ---- */

static void show_pair(struct spt_page *page, const struct spt_diagnosis_report *report)
{
    const struct spt_diagnosis *result = &report->result;
    spt_page_open(page, "Two at once");
    spt_page_say(page, SPT_BODY, "", "%s and %s together fit %.2g times %s as %s alone.",
                 spt_diagnosis_cause(report, result->pair[0]),
                 spt_diagnosis_cause(report, result->pair[1]), result->pair_factor,
                 result->pair_factor > 1 ? "as well" : "as well (below 1: worse)",
                 spt_diagnosis_cause(report, result->pair[0]));
    spt_page_close(page);
}

static void say_modes(struct spt_page *page, const struct spt_diagnosis_report *report)
{
    char line[LINE_LENGTH] = "";
    const struct spt_diagnosis *result = &report->result;
    for (int mode = 0; mode < report->causes->table.mode_count; mode++)
        if (result->modes[mode] >= SHOWN)
            add_words(line, "; ",
                      spt_page_words(page, "%s (%s)", report->causes->table.modes[mode],
                                     result->modes[mode] >= PLAIN ? "plain" : "shown"));
    spt_page_say(page, SPT_BODY, "", "Modes of damage: %s.",
                 *line ? line : "none is shown by these findings");
}

/* What is out of service whatever the cause, as the safety lines say of every wheel bearing. */
static void say_stops(struct spt_page *page, const struct spt_diagnosis_report *report)
{
    char line[LINE_LENGTH] = "";
    for (int i = 0; i < report->stated->finding_count; i++)
        if (spt_diagnosis_stops(report, i))
            add_words(line, "; ",
                      report->causes->table.findings[report->stated->findings[i].finding].name);
    if (*line)
        spt_page_say(page, SPT_BODY, "", "Out of service now: %s.", line);
}

static void show_back(struct spt_page *page, const struct spt_diagnosis_report *report)
{
    const struct spt_going_back going = spt_diagnosis_goes_back(report);
    spt_page_open(page, "Modes, and may it go back");
    say_modes(page, report);
    if (*going.because)
        spt_page_say(page, SPT_BODY, "", "May it go back: %s (%s).",
                     spt_diagnosis_back_name(going.answer),
                     spt_page_words(page, "%s", going.because));
    else
        spt_page_say(page, SPT_BODY, "",
                     "May it go back: not known: wash, look, feel; where in doubt, discard.");
    if (*going.unseen && !*going.because)
        spt_page_say(page, SPT_BODY, "", "Not looked at: %s.", going.unseen);
    say_stops(page, report);
    spt_page_close(page);
}

/* ---- next checks ---- */

static const char *tell_outcome(struct spt_page *page, const struct spt_diagnosis_report *report,
                                const struct spt_diagnosis_check *check, int at)
{
    const struct spt_diagnosis_outcome *outcome = &check->outcomes[at];
    const char *answer = outcome->finding >= 0 && check->finding < 0
                             ? report->causes->table.findings[outcome->finding].name
                         : check->finding < 0    ? "none of these"
                         : outcome->finding >= 0 ? "yes"
                                                 : "no";
    return spt_page_words(page, "%s: %s %s", answer, spt_diagnosis_cause(report, outcome->first),
                          spt_diagnosis_percent(page, outcome->posterior));
}

static void show_checks(struct spt_page *page, const struct spt_diagnosis_report *report)
{
    const struct spt_diagnosis *result = &report->result;
    spt_page_open(page, "Check next");
    for (int i = 0; i < result->check_count; i++) {
        char line[LINE_LENGTH] = "";
        const struct spt_diagnosis_check *check = &result->checks[i];
        for (int k = 0; k < check->outcome_count; k++)
            add_words(line, "; ", tell_outcome(page, report, check, k));
        spt_page_say(page, SPT_BODY, "[ ] ", "%s? (%s) %s.", spt_diagnosis_question(report, check),
                     spt_effort_name(check->effort), line);
    }
    if (!result->check_count)
        spt_page_say(page, SPT_BODY, "", "No check of the list would tell more.");
    else
        spt_page_say(page, SPT_BODY, "",
                     "What it did while running is asked of whoever ran it; a damaged bearing is "
                     "not run again to find out.");
    spt_page_close(page);
}

/* ---- prevention ---- */

static void show_prevention(struct spt_page *page, const struct spt_diagnosis_report *report)
{
    const struct spt_diagnosis *result = &report->result;
    const bool two = result->verdict == SPT_DIAGNOSIS_TWO;
    const bool told =
        two || result->verdict == SPT_DIAGNOSIS_CLEAR || result->verdict == SPT_DIAGNOSIS_LIKELY;
    spt_page_open(page, "Prevent the next one");
    for (int i = 0; told && i < (two ? 2 : 1); i++) {
        const int cause = two ? result->pair[i] : result->order[0];
        spt_page_say(page, SPT_BODY, "- ", "%s: %s", spt_diagnosis_cause(report, cause),
                     report->causes->table.causes[cause].prevent);
    }
    if (!told)
        spt_page_say(page, SPT_BODY, "",
                     "First find the cause: keep the parts, the grease and photographs, and do the "
                     "checks above.");
    if (report->scenario)
        spt_page_say(page, SPT_BODY, "",
                     "What a cure buys, and how often to grease and inspect: `spalltime reach` and "
                     "`spalltime schedule` of %s.",
                     spt_page_name(page, report->scenario));
    spt_page_close(page);
}

/* ---- stability and basis ---- */

static void show_stability(struct spt_page *page, const struct spt_diagnosis_report *report)
{
    const struct spt_diagnosis *result = &report->result;
    int tipping = 0;
    spt_page_open(page, "How firm it stands");
    for (int i = 0; i < result->evidence_count; i++)
        if (result->evidence[i].first_without != result->order[0]) {
            tipping++;
            spt_page_say(page, SPT_BODY, "- ", "Without \"%s\" the first cause would be %s.",
                         spt_diagnosis_piece(page, report, i),
                         spt_diagnosis_cause(report, result->evidence[i].first_without));
        }
    if (!tipping)
        spt_page_say(page, SPT_BODY, "", "%s is first without any single one of the findings.",
                     spt_diagnosis_cause(report, result->order[0]));
    spt_page_close(page);
}

static void show_basis(struct spt_page *page, const struct spt_diagnosis_report *report)
{
    spt_page_open(page, "Basis");
    spt_page_say(page, SPT_BODY, "",
                 "Judgement of practice, no source: how common causes are, how likely a finding is "
                 "with each, and from when on it is called clear. The table is "
                 "`catalogs/diagnosis.yaml`; a shop can replace it.");
    if (report->past)
        spt_page_say(page, SPT_BODY, "",
                     "%g confirmed cases of %s shift how common causes are; the judgement counts "
                     "as 20. Only cases that another check confirmed belong there, never answers "
                     "of this program, which would feed on themselves.",
                     report->past_total, spt_page_name(page, report->past));
    if (report->bearing)
        spt_page_say(page, SPT_BODY, "", "Times: %s of %s, by the law behind a1.",
                     spt_page_name(page, report->bearing), spt_page_name(page, report->scenario));
    spt_page_close(page);
}

/* Printed with every answer. Common practice, no source. */
static void show_safety(struct spt_page *page)
{
    static const char *const sentences[] = {
        "A rough, loose, hot, coloured, cracked or rust-pitted wheel bearing is out of service "
        "now, whatever the cause. Any damage to the cage, crack or heat colour: discard.",
        "Renew cup and inner assembly together, seal and locking part too; look at the other row "
        "and the other wheel, and after a blow, heat or creep for cracks in spindle and hub.",
        "Never heat a ring or hub with a flame, never spin a bearing with compressed air; eye "
        "protection where hard steel is driven. Hot hubs burn: do not quench them.",
        "Chock and support before a wheel is lifted, lock a machine off before it is opened. Shaft "
        "voltage is measured by an electrician, clear of turning parts.",
        "A seal of fluoro rubber that was burnt leaves acid: gloves, no bare skin.",
        "An opinion on stated findings, no proof for a claim or a court. Keep parts, grease and "
        "photographs until it is settled; sample the grease before washing.",
    };
    spt_page_open(page, "Safety");
    for (size_t i = 0; i < sizeof sentences / sizeof *sentences; i++)
        spt_page_say(page, SPT_BODY, "- ", "%s", sentences[i]);
    spt_page_close(page);
}

/* What the table says of a case; the rest is the same for several. */
static void show_case(struct spt_page *page, const struct spt_diagnosis_report *report)
{
    say_said(page, report);
    show_verdict(page, report);
    show_causes(page, report);
    show_evidence(page, report);
    show_fatigue(page, report);
    show_pair(page, report);
    show_back(page, report);
    show_checks(page, report);
    show_prevention(page, report);
    show_stability(page, report);
}

void spt_diagnosis_page(struct spt_page *page, const struct spt_diagnosis_report *reports,
                        int count)
{
    if (count > 1)
        spt_diagnosis_show_list(page, reports, count);
    for (int i = 0; count > 1 && i < count; i++) {
        spt_page_open_as(page, SPT_SECTION_FOLDED, "%s",
                         spt_page_name(page, reports[i].stated->title));
        show_case(page, &reports[i]);
        spt_page_close(page);
    }
    if (count == 1) {
        show_case(page, reports);
        spt_diagnosis_show_path(page, reports);
    }
    show_basis(page, reports);
    show_safety(page);
    spt_diagnosis_keep_rows(page, reports, count);
}
