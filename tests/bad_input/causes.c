/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Mistakes in a table of causes: each case changes one place of a sound file, and the first
 * diagnostic should be this one to the letter. */
#include <criterion/criterion.h>
#include <string.h>

#include "scenario/catalog/causes.h"

#define TEXT_LENGTH 4096

static const char sound[] = "diagnosis:\n"
                            "  causes:\n"
                            "    age: {hub: 50, plant: 60, time: fatigue, prevent: nothing}\n"
                            "    dirt: {hub: 40, plant: 30, time: life, prevent: a seal}\n"
                            "    else: {hub: 10, plant: 10, time: other, prevent: look}\n"
                            "  groups:\n"
                            "    path: {answers: one, question: which path}\n"
                            "    grit: {answers: many}\n"
                            "  findings:\n"
                            "    even path:\n"
                            "      group: path\n"
                            "      look: open\n"
                            "      base: often\n"
                            "      rarely: [dirt]\n"
                            "      words: [worn as it should be]\n"
                            "    gritty grease:\n"
                            "      group: grit\n"
                            "      look: open\n"
                            "      base: rarely\n"
                            "      nearly_always: [dirt]\n"
                            "      words: [sand]\n"
                            "  stop_words: [the]\n"
                            "  synonyms:\n"
                            "    - [sand, grit]\n"
                            "  everyday: [new]\n"
                            "  outside: [white etching]\n";

static const struct {
    const char *from, *to, *says;
} rows[] = {
    {"hub: 50", "hub: 51",
     "2:3: the shares `hub` of all causes sum to 101; they have to sum to 100"},
    {"plant: 30", "plant: 30.5",
     "2:3: the shares `plant` of all causes sum to 100.5; they have to sum to 100"},
    {"time: fatigue", "time: any", "2:3: 0 causes have `time: fatigue`; exactly one has to"},
    {"time: life", "time: fatigue", "2:3: 2 causes have `time: fatigue`; exactly one has to"},
    {"time: life", "time: lief",
     "4:38: `time: lief` is not known; did you mean `life`? (one of: fatigue, life, early, any, "
     "other)"},
    {"dirt: {hub", "'dirt, or mud': {hub",
     "4:5: `dirt, or mud` has a comma, colon or bracket; names go into lists, so write it without"},
    {"    gritty grease:", "    'gritty: grease':",
     "16:5: `gritty: grease` has a comma, colon or bracket; names go into lists, so write it "
     "without"},
    {"rarely: [dirt]", "rarely: [dirtt]", "14:16: `dirtt` is not a cause; did you mean `dirt`?"},
    {"rarely: [dirt]", "rarely: [quicksilver]",
     "14:16: `quicksilver` is not a cause; add it under `causes`"},
    {"rarely: [dirt]", "rarely: [dirt]\n      often: [dirt]",
     "15:15: `dirt` has a level in this finding already; keep one of the two"},
    {"rarely: [dirt]", "rarely: [else]",
     "14:16: `else` has the mean of the others; take it out of the list"},
    {"base: often", "base: mostly",
     "13:13: `base: mostly` is not known; write one of: never, rarely, sometimes, often, nearly "
     "always"},
    {"group: grit\n", "group: gritt\n", "17:14: `gritt` is not a group; add it under `groups`"},
    {"answers: many", "answers: some",
     "8:21: `answers: some` is not known; did you mean `one`? (one of: many, one)"},
    {", question: which path", "",
     "7:11: the group lacks `question`; say what its findings answer, such as `question: when was "
     "it hot`"},
    {"base: rarely\n", "base: rarely\n      modes: {often: [creep]}\n",
     "20:23: no mode of the damage guide is called `creep`"},
    {"words: [sand]", "words: [sand]\n      excludes: [even pat]\n",
     "22:18: no finding is called `even pat`; did you mean `even path`?"},
    {"words: [sand]", "words: [sand]\n      implies: [quicksilver]\n",
     "22:17: no finding is called `quicksilver`; add it under `findings`"},
    {"words: [sand]", "words: [sand]\n      arc_to: 400 deg\n",
     "22:15: `arc_to: 400 deg` is out of range; it must be from 0 to 360 deg"},
    {"which path}", "which path, words: [sand]}",
     "7:56: `sand` has the same words as `sand` of the finding `gritty grease`; take one of them "
     "out"},
    {"words: [sand]", "words: [worn even as it should be, worn as it should be]",
     "21:42: `worn as it should be` has the same words as `worn as it should be` of the finding "
     "`even path`; take one of them out"},
    {"  everyday: [new]\n", "  everyday: new\n", "25:13: this should be a list of words"},
    {"    - [sand, grit]\n", "    - sand\n", "24:5: this should be a list of lists of words"},
    {"  findings:\n", "  finding:\n",
     "9:3: `finding` is not a key of `diagnosis`; its keys are: causes, groups, findings, "
     "stop_words, synonyms, everyday, outside"},
    {"  groups:\n    path: {answers: one, question: which path}\n    grit: {answers: many}\n",
     "  groups: none\n", "6:11: this should be a mapping from the name of each group to its entry"},
    {"grit: {answers: many}", "grit: many", "8:11: `grit` should be a mapping of keys and values"},
};

static void change(const char *from, const char *to, char *text)
{
    const char *at = strstr(sound, from);
    cr_assert(at, "%s", from);
    const int kept = (int)(at - sound);
    snprintf(text, TEXT_LENGTH, "%.*s%s%s", kept, sound, to, at + strlen(from));
}

/* Loads a table; its first diagnostic, or its number of findings, into `says`. */
static void load(const char *text, char *says, size_t size)
{
    struct spt_diagnostics diags = {0};
    struct spt_catalog catalog = {0};
    struct spt_causes causes;
    const struct spt_guide none = {0};
    struct spt_source source = {"causes.yaml", text, strlen(text)};
    const struct spt_node *root = spt_document_read(&source, &catalog.arena, &diags);
    cr_assert(root, "%s: %s", text, diags.count ? diags.list[0].text : "out of memory");
    struct spt_catalog_guide one = {root->items[0], NULL};
    catalog.causes = &one;
    if (spt_causes_load(&catalog, &none, &causes, &diags))
        snprintf(says, size, "accepted: %d", causes.table.finding_count);
    else
        snprintf(says, size, "%d:%d: %s", diags.list[0].mark.line, diags.list[0].mark.column,
                 diags.list[0].text);
    spt_causes_free(&causes);
    spt_arena_free(&catalog.arena);
}

Test(bad_causes, every_mistake_is_named_at_its_place)
{
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        char text[TEXT_LENGTH], says[512];
        change(rows[i].from, rows[i].to, text);
        load(text, says, sizeof says);
        cr_expect_str_eq(says, rows[i].says);
    }
}

Test(bad_causes, a_sound_table_is_accepted)
{
    char says[512];
    load(sound, says, sizeof says);
    cr_expect_str_eq(says, "accepted: 2");
}

/* A phrase that leads to other findings is a trap for whoever searches. */
Test(bad_causes, a_phrase_has_to_find_its_own_finding)
{
    char text[TEXT_LENGTH], says[512];
    change("words: [sand]", "words: [new]", text);
    load(text, says, sizeof says);
    cr_expect_str_eq(says, "accepted: 2");
    /* eight findings that share one word */
    char many[TEXT_LENGTH] = "";
    for (int i = 0; i < 8; i++)
        snprintf(many + strlen(many), sizeof many - strlen(many),
                 "    sand %c%c:\n      group: grit\n      look: ask\n      base: rarely\n",
                 'a' + i, 'q');
    strcat(many, "  stop_words: [the]\n");
    change("  stop_words: [the]\n", many, text);
    load(text, says, sizeof says);
    cr_expect_str_eq(says, "21:15: `sand` is one word that more than 6 findings have; add a word");
}

Test(bad_causes, too_few_causes_are_refused)
{
    char says[512];
    load("diagnosis:\n  causes:\n    age: {hub: 90, plant: 90, time: fatigue, prevent: x}\n"
         "    else: {hub: 10, plant: 10, time: other, prevent: x}\n",
         says, sizeof says);
    cr_expect_str_eq(says, "2:3: fewer than 3 causes; there is nothing to weigh");
}
