/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stddef.h>

#include "answer/diagnosis/diagnosis_parts.h"
#include "answer/diagnosis/diagnosis_words.h"
#include "chart/ring_path.h"

#define SHORT_PATH 0.6 /* of the zone of the row as stated: our choice */
#define LONG_PATH 1.6
#define USUAL_DEG 150.0 /* middle of the arc as it should be, where the zone is not known */

struct path_row {
    const char *condition, *inner, *outer;
};

static void show_table(struct spt_page *page, const struct spt_diagnosis_report *report)
{
#define AT(member) .at = offsetof(struct path_row, member)
    static const struct spt_column columns[] = {
        {.head = "where it is", .kind = SPT_WORDS, .width = 27, AT(condition)},
        {.head = "path on the inner ring", .kind = SPT_WORDS, .width = 25, .gap = 1, AT(inner)},
        {.head = "path on the outer ring", .kind = SPT_WORDS, .gap = 1, AT(outer)},
    };
#undef AT
    struct path_row *rows = spt_page_allocate(page, SPT_PATH_CONDITION_COUNT * sizeof *rows);
    for (int i = 0; rows && i < SPT_PATH_CONDITION_COUNT; i++) {
        const enum spt_path_condition condition = (enum spt_path_condition)i;
        rows[i] = (struct path_row){
            spt_path_condition_name(condition),
            spt_path_name(spt_path_expected(condition, report->standing, SPT_RING_INNER)),
            spt_path_name(spt_path_expected(condition, report->standing, SPT_RING_OUTER))};
    }
    spt_page_table(page, "paths",
                   &(struct spt_table){SPT_TABLE_OF(columns, rows, SPT_PATH_CONDITION_COUNT)});
}

/* The measured arc against the zones of the row as stated: told where every phase says the same. */
static const char *compare_arc(const struct spt_diagnosis_report *report, double arc_deg)
{
    if (arc_deg < SHORT_PATH * report->zone_least_deg)
        return "is short, as of a bearing that ran looser";
    if (arc_deg > LONG_PATH * report->zone_most_deg)
        return "is longer, as of one that ran tighter";
    if (arc_deg >= SHORT_PATH * report->zone_most_deg &&
        arc_deg <= LONG_PATH * report->zone_least_deg)
        return "is as it should be";
    return "fits the zone of some phases and not of others: cannot tell whether it ran looser or "
           "tighter";
}

static const char *tell_zones(struct spt_page *page, const struct spt_diagnosis_report *report)
{
    return report->zone_most_deg - report->zone_least_deg < 1
               ? spt_page_words(page, "zone is %.0f deg", report->zone_deg)
               : spt_page_words(page,
                                "zone is %.0f to %.0f deg over the phases, %.0f deg in the "
                                "costliest",
                                report->zone_least_deg, report->zone_most_deg, report->zone_deg);
}

static void say_arc(struct spt_page *page, const struct spt_diagnosis_report *report)
{
    const double arc_deg = report->stated->arc_rad * 180 / acos(-1);
    if (isnan(arc_deg))
        return;
    if (report->stated->arc_ring != report->standing) {
        spt_page_say(page, SPT_BODY, "",
                     "The path of %.0f deg was measured on the %s ring, which is rolled all round: "
                     "its length tells nothing of the load zone.",
                     arc_deg, spt_word(&spt_ring_words, (int)report->stated->arc_ring));
        return;
    }
    spt_page_say(
        page, SPT_BODY, "",
        "The path of %.0f deg on the %s ring is that of a load zone of %.3f (0.5: half the "
        "ring), good to a factor of 2.",
        arc_deg, spt_word(&spt_ring_words, (int)report->stated->arc_ring),
        spt_path_zone(report->stated->arc_rad));
    if (!isnan(report->zone_deg))
        spt_page_say(page, SPT_BODY, "", "As the scenario states it the %s: the path %s.",
                     tell_zones(page, report), compare_arc(report, arc_deg));
    if (!isnan(report->path_setting_mm))
        spt_page_say(page, SPT_BODY, "",
                     "In the costliest phase the zone would be so long at %.2g mm %s as mounted "
                     "(good to a factor of 2).",
                     fabs(report->path_setting_mm),
                     report->path_setting_mm < 0 ? "preload" : "end play");
}

/* Only the ring of the case, with the path to be expected and the one that was measured. */
static void show_ring(struct spt_page *page, const struct spt_diagnosis_report *report)
{
    struct spt_ring_path *path = spt_page_allocate(page, sizeof *path);
    const bool measured = report->stated->arc_ring == report->standing;
    if (!path)
        return;
    *path = (struct spt_ring_path){
        .ring = spt_word(&spt_ring_words, (int)report->standing),
        .expected_deg = isnan(report->zone_deg) ? USUAL_DEG : report->zone_deg,
        .measured_deg = measured ? report->stated->arc_rad * 180 / acos(-1) : (double)NAN,
    };
    snprintf(path->id, sizeof path->id, "ring-%d", report->index);
    spt_page_picture(page, &(struct spt_picture){
                               .title = "Worn path", .subject = path, .svg = spt_ring_path_svg});
}

/* How both rings should look, and who said which one the load stands to. */
void spt_diagnosis_show_path(struct spt_page *page, const struct spt_diagnosis_report *report)
{
    const enum spt_ring standing = report->standing;
    spt_page_open(page, "Which path to expect");
    spt_page_say(page, SPT_BODY, "",
                 "The load stands still to the %s ring: that one shows a place (as it should be: "
                 "%s), the other is rolled all round.%s",
                 spt_word(&spt_ring_words, (int)standing),
                 spt_path_name(spt_path_expected(SPT_PATH_NORMAL, standing, standing)),
                 !report->turning_taken ? ""
                 : report->asked.machine == SPT_MACHINE_HUB
                     ? " (Taken: the outer ring turns, as of a hub on a spindle; `turning` says "
                       "otherwise.)"
                     : " (Taken: the inner ring turns under a fixed load; `turning` and `load` say "
                       "otherwise.)");
    say_arc(page, report);
    show_ring(page, report);
    spt_page_close(page);
}

/* One table for each ring that the load of a case stands to. */
void spt_diagnosis_show_paths(struct spt_page *page, const struct spt_diagnosis_report *reports,
                              int count)
{
    bool shown[SPT_RING_COUNT] = {false};
    for (int i = 0; i < count; i++) {
        const enum spt_ring standing = reports[i].standing;
        if (shown[standing])
            continue;
        shown[standing] = true;
        spt_page_open(page, "Paths where the load stands to the %s ring",
                      spt_word(&spt_ring_words, (int)standing));
        show_table(page, &reports[i]);
        spt_page_close(page);
    }
}
