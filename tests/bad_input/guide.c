/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Mistakes in a damage guide: each case changes one place of a sound file, and the first
 * diagnostic should be this one to the letter. */
#include <criterion/criterion.h>
#include <stdlib.h>
#include <string.h>

#include "scenario/catalog/guide.h"

#define TEXT_LENGTH 4096

static const char sound[] = "damage:\n"
                            "  creaking:\n"
                            "    iso_name: Abrasive wear\n"
                            "    clause: 5.2.2\n"
                            "    group: wear\n"
                            "    kind: pattern\n"
                            "    words: [creak]\n"
                            "    looks: [It creaks.]\n"
                            "    places: [Everywhere.]\n"
                            "    causes: [Neglect.]\n"
                            "    checks: [Listen.]\n"
                            "    quantified: partly\n"
                            "    model_can: [Little.]\n"
                            "    model_cannot: [Much.]\n"
                            "    model_causes: [debris, thin film]\n"
                            "    flags: [light_load]\n"
                            "    goes_back: after inspection\n"
                            "    back:\n"
                            "      - No.\n"
                            "    source: made up for a test\n";

static const struct {
    const char *from, *to, *says;
} rows[] = {
    {"    looks: [It creaks.]\n", "",
     "3:5: the damage entry lacks `looks`; add it, such as `looks: [dull hollows]`"},
    {"    goes_back: after inspection\n", "",
     "3:5: the damage entry lacks `goes_back`; add it, such as `goes_back: no`"},
    {"    kind:", "    look: [a]\n    kind:",
     "6:5: `look` is not a key of the damage entry; did you mean `looks`?"},
    {"[It creaks.]", "It creaks.",
     "8:12: `looks` should be a list with one `- ` for each entry, and not empty"},
    {"[It creaks.]", "[]",
     "8:12: `looks` should be a list with one `- ` for each entry, and not empty"},
    {"[It creaks.]", "[It creaks., {a: b}]",
     "8:25: `looks` should be one value (such as [dull hollows]), not a list or mapping"},
    {"[It creaks.]", "[It creaks., '']",
     "8:25: `looks` is empty; write a value (such as [dull hollows])"},
    {"[It creaks.]", "[\"It\\ncreaks.\"]", "8:13: `looks` should stand on one line, without tabs"},
    {"group: wear", "group: ware",
     "5:12: `group: ware` is not known; did you mean `wear`? (one of: rolling contact fatigue, "
     "wear, corrosion, electrical erosion, plastic deformation, cracking and fracture)"},
    {"[debris, thin film]", "[debris, thick film]",
     "15:28: `model_causes: thick film` is not known; did you mean `thin film`? (one of: none, "
     "debris, water, worn grease, thin film, overload, setting)"},
    {"[debris, thin film]", "[debris, none]",
     "15:28: `none` stands alone; take it out of the list, or the others"},
    {"[light_load]", "[none, light_load]",
     "16:13: `none` stands alone; take it out of the list, or the others"},
    {"    source: made up for a test\n", "    source: [a]\n",
     "20:13: `source` should be one value (such as common practice, no source), not a list or "
     "mapping"},
    {sound, "damage: creaking\n",
     "1:9: `damage` should be a mapping from names of modes to entries"},
    {sound, "damage: {}\n", "1:9: `damage` should be a mapping from names of modes to entries"},
    {sound, "damage:\n  creaking: it creaks\n",
     "2:13: `creaking` should be a mapping of keys and values"},
    {"creaking:", "'':", "2:3: this mode has no name; write one"},
};

/* Writes the text with its first `from` changed. */
static void change(const char *from, const char *to, char *text)
{
    const char *at = strstr(sound, from);
    cr_assert(at, "%s", from);
    int kept = (int)(at - sound);
    snprintf(text, TEXT_LENGTH, "%.*s%s%s", kept, sound, to, at + strlen(from));
}

/* Loads a guide file; its first diagnostic, or its number of entries, into `says`. */
static void diagnose(const char *text, char *says, size_t size)
{
    struct spt_diagnostics diags = {0};
    struct spt_catalog catalog = {0};
    struct spt_guide guide;
    struct spt_source source = {"guide.yaml", text, strlen(text)};
    const struct spt_node *root = spt_document_read(&source, &catalog.arena, &diags);
    cr_assert(root, "%s: %s", text, diags.count ? diags.list[0].text : "out of memory");
    struct spt_catalog_guide one = {root->items[0], NULL};
    catalog.guides = &one;
    if (spt_guide_load(&catalog, &guide, &diags))
        snprintf(says, size, "accepted: %d", guide.count);
    else
        snprintf(says, size, "%d:%d: %s", diags.list[0].mark.line, diags.list[0].mark.column,
                 diags.list[0].text);
    spt_guide_free(&guide);
    spt_arena_free(&catalog.arena);
}

Test(bad_guide, every_mistake_is_named_at_its_place)
{
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        char text[TEXT_LENGTH], says[512];
        change(rows[i].from, rows[i].to, text);
        diagnose(text, says, sizeof says);
        cr_expect_str_eq(says, rows[i].says);
    }
}

Test(bad_guide, a_sound_file_is_accepted)
{
    char says[512];
    diagnose(sound, says, sizeof says);
    cr_expect_str_eq(says, "accepted: 1");
}

/* A name that is there already keeps its first entry, and an entry may be another's alias. */
Test(bad_guide, the_first_of_two_entries_of_a_name_wins)
{
    char text[TEXT_LENGTH], says[512];
    change("  creaking:\n", "  creaking: &one\n", text);
    strcat(text, "  groaning: *one\n  Creaking: *one\n");
    diagnose(text, says, sizeof says);
    cr_expect_str_eq(says, "accepted: 2");
}

/* The second reading of an unsound alias brings no diagnostic of its own and must still be left
 * out. */
Test(bad_guide, an_alias_of_an_unsound_entry_is_left_out)
{
    char text[TEXT_LENGTH], says[512];
    change("    looks: [It creaks.]\n", "", text);
    char *at = strstr(text, "creaking:");
    memmove(at + 14, at + 9, strlen(at + 9) + 1);
    memcpy(at + 9, " &one", 5);
    strcat(text, "  groaning: *one\n");
    diagnose(text, says, sizeof says);
    cr_expect(strstr(says, "lacks `looks`"), "%s", says);
}
