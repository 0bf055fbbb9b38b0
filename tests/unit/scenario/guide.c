/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <criterion/criterion.h>
#include <stdlib.h>
#include <string.h>

#include "answer/catalog/guide.h"
#include "support/guide_file.h"

/* Names and clauses of ISO 15243:2017, clause numbers from memory; 5.x.1 are introductions. */
static const struct {
    const char *clause, *iso_name, *group;
} iso_modes[] = {
    {"5.1.2", "Subsurface initiated fatigue", "rolling contact fatigue"},
    {"5.1.3", "Surface initiated fatigue", "rolling contact fatigue"},
    {"5.2.2", "Abrasive wear", "wear"},
    {"5.2.3", "Adhesive wear", "wear"},
    {"5.3.2", "Moisture corrosion", "corrosion"},
    {"5.3.3.2", "Fretting corrosion", "corrosion"},
    {"5.3.3.3", "False brinelling", "corrosion"},
    {"5.4.2", "Excessive current erosion", "electrical erosion"},
    {"5.4.3", "Current leakage erosion", "electrical erosion"},
    {"5.5.2", "Overload deformation", "plastic deformation"},
    {"5.5.3", "Indentations from particles", "plastic deformation"},
    {"5.6.2", "Forced fracture", "cracking and fracture"},
    {"5.6.3", "Fatigue fracture", "cracking and fracture"},
    {"5.6.4", "Thermal cracking", "cracking and fracture"},
};

static struct guide_file file;

static void load(void)
{
    guide_file_load(&file);
}

static void release(void)
{
    guide_file_free(&file);
}

TestSuite(guide, .init = load, .fini = release);

Test(guide, has_every_mode_of_the_standard_once)
{
    int modes = 0;
    for (int i = 0; i < file.guide.count; i++)
        modes += !file.guide.entries[i].pattern;
    cr_expect_eq(modes, (int)(sizeof iso_modes / sizeof *iso_modes));
    for (size_t i = 0; i < sizeof iso_modes / sizeof *iso_modes; i++) {
        const struct spt_guide_entry *entry = spt_guide_find(&file.guide, iso_modes[i].iso_name);
        cr_assert(entry, "%s", iso_modes[i].iso_name);
        cr_expect_str_eq(entry->iso_name, iso_modes[i].iso_name);
        cr_expect_str_eq(entry->clause, iso_modes[i].clause, "%s", entry->name);
        cr_expect_str_eq(entry->group, iso_modes[i].group, "%s", entry->name);
    }
}

/* The second figure of a clause is that of its group. */
Test(guide, files_every_entry_in_the_group_of_its_clause)
{
    static const char *const groups[] = {
        "rolling contact fatigue", "wear", "corrosion", "electrical erosion", "plastic deformation",
        "cracking and fracture"};
    for (int i = 0; i < file.guide.count; i++) {
        const struct spt_guide_entry *entry = &file.guide.entries[i];
        int group = strncmp(entry->clause, "5.", 2) ? 0 : entry->clause[2] - '0';
        cr_assert(group >= 1 && group <= 6, "%s: %s", entry->name, entry->clause);
        cr_expect_str_eq(entry->group, groups[group - 1], "%s", entry->name);
    }
}

Test(guide, says_something_under_every_heading)
{
    cr_expect_geq(file.guide.count, 20);
    for (int i = 0; i < file.guide.count; i++) {
        const struct spt_guide_entry *entry = &file.guide.entries[i];
        for (int part = 0; part < SPT_GUIDE_PART_COUNT; part++)
            cr_expect_gt(entry->parts[part].count, 0, "%s: %s", entry->name,
                         spt_guide_part_name((enum spt_guide_part)part));
        cr_expect_geq(entry->parts[SPT_GUIDE_LOOKS].count + entry->parts[SPT_GUIDE_CAUSES].count +
                          entry->parts[SPT_GUIDE_CHECKS].count,
                      5, "%s", entry->name);
        cr_expect(strstr(entry->source, "common practice, no source"), "%s", entry->name);
    }
}

Test(guide, writes_whole_sentences_that_no_two_entries_share)
{
    for (int i = 0; i < file.guide.count; i++)
        for (int part = SPT_GUIDE_LOOKS; part < SPT_GUIDE_PART_COUNT; part++) {
            const struct spt_lines *lines = &file.guide.entries[i].parts[part];
            for (int j = 0; j < lines->count; j++) {
                const char *line = lines->lines[j];
                cr_expect_eq(line[strlen(line) - 1], '.', "%s", line);
                cr_expect(line[0] >= 'A' && line[0] <= 'Z', "%s", line);
            }
        }
    for (int i = 0; i < file.guide.count; i++)
        for (int j = 0; j < i; j++)
            cr_expect_str_neq(file.guide.entries[i].parts[SPT_GUIDE_LOOKS].lines[0],
                              file.guide.entries[j].parts[SPT_GUIDE_LOOKS].lines[0]);
}

Test(guide, leads_to_every_cause_of_the_model)
{
    unsigned causes = 0;
    for (int i = 0; i < file.guide.count; i++)
        causes |= file.guide.entries[i].model_causes;
    for (int cause = 0; cause < SPT_CAUSE_COUNT; cause++)
        cr_expect(causes >> cause & 1u, "%s", spt_cause_name((enum spt_cause)cause));
}

/* A mode that the model rates has a cause in it; what it cannot rate says so in so many words. */
Test(guide, claims_no_more_than_the_model_gives)
{
    for (int i = 0; i < file.guide.count; i++) {
        const struct spt_guide_entry *entry = &file.guide.entries[i];
        if (entry->quantified == SPT_QUANTIFIED_YES)
            cr_expect(entry->model_causes, "%s", entry->name);
        if (entry->quantified == SPT_QUANTIFIED_NO && !entry->model_causes)
            cr_expect(strstr(entry->parts[SPT_GUIDE_MODEL_CAN].lines[0], "Nothing of this mode"),
                      "%s", entry->name);
    }
}

/* Common practice, no source. */
Test(guide, sends_no_bearing_back_that_practice_discards)
{
    static const char *const discarded[] = {"damaged cage", "overheating", "false brinelling",
                                            "subsurface fatigue", "current leakage erosion"};
    for (size_t i = 0; i < sizeof discarded / sizeof *discarded; i++) {
        const struct spt_guide_entry *entry = spt_guide_find(&file.guide, discarded[i]);
        cr_assert(entry, "%s", discarded[i]);
        cr_expect_eq(entry->goes_back, SPT_RETURN_NO, "%s", discarded[i]);
    }
    const struct spt_guide_entry *dropped = spt_guide_find_word(&file.guide, "dropped bearing");
    cr_assert(dropped);
    cr_expect_eq(dropped->goes_back, SPT_RETURN_INSPECTED);
}

/* The reader lets a line begin with the word that says the same as `goes_back`. */
Test(guide, says_the_same_in_a_word_and_in_a_sentence)
{
    for (int i = 0; i < file.guide.count; i++) {
        const struct spt_guide_entry *entry = &file.guide.entries[i];
        if (entry->goes_back == SPT_RETURN_NO)
            cr_expect(!strncmp(entry->parts[SPT_GUIDE_BACK].lines[0], "No", 2), "%s", entry->name);
    }
}

Test(guide, is_found_by_name_in_any_case_and_by_a_word_of_its_own)
{
    const struct spt_guide_entry *fluting = spt_guide_find_word(&file.guide, "Fluting");
    cr_assert(fluting);
    cr_expect_str_eq(fluting->name, "current leakage erosion");
    cr_expect_eq(spt_guide_find(&file.guide, "CURRENT leakage erosion"), fluting);
    cr_expect_null(spt_guide_find(&file.guide, "fluting"), "a word is no name");
    cr_expect_null(spt_guide_find_word(&file.guide, "spalling"), "two modes go by it");
    cr_expect_null(spt_guide_find_word(&file.guide, "flut"));
    cr_expect_str_eq(spt_guide_find(&file.guide, "Adhesive wear")->name, "adhesive wear",
                     "not a pattern filed under it");
}

Test(guide, names_the_nearest_mode)
{
    cr_expect_str_eq(spt_guide_nearest(&file.guide, "fals brineling"), "false brinelling");
    cr_expect_null(spt_guide_nearest(&file.guide, "xyzzy"));
}

static void expect_narrow(const char *text, const char *name)
{
    for (const char *at = text; *at;) {
        int width = 0;
        size_t length = strcspn(at, "\n");
        for (size_t i = 0; i < length; i++)
            width += ((unsigned char)at[i] & 0xC0) != 0x80;
        cr_expect_leq(width, SPT_TEXT_WIDTH, "%s: %.*s", name, (int)length, at);
        at += length + (at[length] == '\n');
    }
}

Test(guide, prints_every_entry_within_80_columns)
{
    for (int i = -1; i < file.guide.count; i++) {
        char *text = NULL;
        size_t length = 0;
        FILE *out = open_memstream(&text, &length);
        struct spt_arena arena = {0};
        struct spt_page *page = spt_page_new(&arena, i < 0 ? NULL : file.guide.entries[i].name);
        cr_assert(page);
        if (i < 0)
            spt_guide_list_page(page, &file.guide);
        else
            spt_guide_entry_page(page, &file.guide.entries[i]);
        spt_page_text(page, &(struct spt_text){out, false, 0}, false);
        fclose(out);
        spt_arena_free(&arena);
        cr_expect_gt(length, 800);
        expect_narrow(text, i < 0 ? "list" : file.guide.entries[i].name);
        cr_expect(strstr(text, i < 0 ? "thermal cracking" : file.guide.entries[i].name));
        free(text);
    }
}

Test(guide, names_sets_of_causes)
{
    char buffer[SPT_GUIDE_CAUSES_LENGTH];
    cr_expect_str_eq(spt_guide_causes(0, buffer), "none");
    cr_expect_str_eq(spt_guide_causes(1u << SPT_CAUSE_SETTING | 1u << SPT_CAUSE_WATER, buffer),
                     "water, setting");
    cr_expect_str_eq(spt_guide_causes((1u << SPT_CAUSE_COUNT) - 1, buffer),
                     "debris, water, worn grease, thin film, overload, setting");
}
