/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/diagnosis/diagnosis_words.h"

#include <math.h>
#include <string.h>

#include "words/table.h"

#define MOST_SHOWN 0.95 /* above, the table is not good enough to say how sure */
#define LINE_LENGTH 600
#define USUAL_DOUBT 0.5 /* as spt_diagnose takes it */

SPT_LOCAL_WORDS(verdict_words, SPT_DIAGNOSIS_VERDICT_COUNT, "cannot be told", "two at once",
                "clear", "likely", "open");
SPT_LOCAL_WORDS(back_words, SPT_GOES_BACK_COUNT, "no", "after inspection", "not known");
SPT_LOCAL_WORDS(condition_words, SPT_PATH_CONDITION_COUNT, "as it should be", "too loose",
                "too tight", "thrust rules", "shaft or axle bends", "inner ring or spindle askew",
                "outer ring or housing askew", "inner seat oval", "outer seat oval or pinched");
SPT_LOCAL_WORDS(path_words, SPT_PATH_COUNT, "arc of 90 to 200 deg", "arc under 90 deg, deep",
                "all round, even", "all round, wide at load", "arc heavy at one edge",
                "all round at one edge", "slants, edge to edge", "broad arc, both edges",
                "arc, too long", "two opposite patches");
SPT_LOCAL_WORDS(untold_words, SPT_UNTOLD_COUNT, "",
                "The findings contradict every cause of the list: another cause leads.",
                "No cause reaches 40 %.", "Fewer than two findings tell the causes apart.",
                "It leads as it is common, not by the findings: they raise its odds less than 3 "
                "times.",
                "You ruled out all causes of the list: take one back, or ask a laboratory.");

const char *spt_diagnosis_percent(struct spt_page *page, double share)
{
    if (share > MOST_SHOWN)
        return "over 95 %";
    if (share < 0.005)
        return "under 1 %";
    return spt_page_words(page, "%.0f %%", 100 * share);
}

const char *spt_diagnosis_verdict_name(enum spt_diagnosis_verdict verdict)
{
    return spt_word(&verdict_words, (int)verdict);
}

const char *spt_diagnosis_cause(const struct spt_diagnosis_report *report, int cause)
{
    return report->causes->table.causes[cause].name;
}

double spt_diagnosis_doubt(const struct spt_diagnosis_report *report)
{
    return isnan(report->asked.doubt) ? USUAL_DOUBT : report->asked.doubt;
}

const char *spt_diagnosis_doubt_from(const struct spt_diagnosis_report *report)
{
    return report->doubt_stated ? "uncertainty of the scenario, without cleanliness and water"
                                : "judgement of practice";
}

const char *spt_diagnosis_untold(enum spt_untold untold)
{
    return spt_word(&untold_words, (int)untold);
}

const char *spt_diagnosis_back_name(enum spt_goes_back back)
{
    return spt_word(&back_words, (int)back);
}

const char *spt_path_condition_name(enum spt_path_condition condition)
{
    return spt_word(&condition_words, (int)condition);
}

const char *spt_path_name(enum spt_path path)
{
    return spt_word(&path_words, (int)path);
}

const char *spt_diagnosis_first_line(struct spt_page *page,
                                     const struct spt_diagnosis_report *report)
{
    const struct spt_diagnosis *result = &report->result;
    const char *word = spt_diagnosis_verdict_name(result->verdict);
    const int first = result->order[0];
    if (result->verdict == SPT_DIAGNOSIS_TWO)
        return spt_page_words(page, "%s: %s (%s) and %s (%s) together fit best", word,
                              spt_diagnosis_cause(report, result->pair[0]),
                              spt_diagnosis_percent(page, result->posterior[result->pair[0]]),
                              spt_diagnosis_cause(report, result->pair[1]),
                              spt_diagnosis_percent(page, result->posterior[result->pair[1]]));
    return spt_page_words(page, "%s: %s%s, %s", word,
                          result->verdict == SPT_DIAGNOSIS_UNTOLD ? "first of the list is " : "",
                          spt_diagnosis_cause(report, first),
                          spt_diagnosis_percent(page, result->posterior[first]));
}

const char *spt_diagnosis_piece(struct spt_page *page, const struct spt_diagnosis_report *report,
                                int piece)
{
    char line[LINE_LENGTH] = "";
    const struct spt_diagnosis_evidence *evidence = &report->result.evidence[piece];
    for (int i = 0; i < evidence->finding_count; i++) {
        const size_t used = strlen(line);
        snprintf(line + used, sizeof line - used, "%s%s%s", used ? "; " : "",
                 evidence->seen ? "" : "not ",
                 report->causes->table.findings[evidence->findings[i]].name);
    }
    return spt_page_words(page, "%s", line);
}

const char *spt_diagnosis_question(const struct spt_diagnosis_report *report,
                                   const struct spt_diagnosis_check *check)
{
    return check->finding < 0 ? report->causes->table.groups[check->group].question
                              : report->causes->table.findings[check->finding].name;
}
