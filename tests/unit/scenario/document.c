/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "scenario/text/document.h"

#include <criterion/criterion.h>
#include <string.h>

static const struct spt_node *read(const char *text, struct spt_arena *arena)
{
    static struct spt_source source;
    struct spt_diagnostics diags = {0};
    source = (struct spt_source){"t", text, strlen(text)};
    const struct spt_node *root = spt_document_read(&source, arena, &diags);
    cr_assert(root, "%s: %s", text, diags.count ? diags.list[0].text : "out of memory");
    return root;
}

static const char *text_at(const struct spt_node *mapping, const char *key)
{
    const struct spt_node *node = spt_node_find(mapping, key);
    return node && node->kind == SPT_NODE_SCALAR ? node->text : "(none)";
}

Test(document, values_keep_their_place_and_their_quotes)
{
    struct spt_arena arena = {0};
    const struct spt_node *root = read("a: 1\nlist:\n  - x\n  - 'y'\nö: {k: v}\n", &arena);
    cr_expect_eq(root->kind, SPT_NODE_MAPPING);
    cr_expect_eq(root->count, 3);
    const struct spt_node *list = spt_node_find(root, "list");
    cr_expect_eq(list->count, 2);
    cr_expect(list->items[0]->mark.line == 3 && list->items[0]->mark.column == 5);
    cr_expect(!list->items[0]->quoted && list->items[1]->quoted);
    const struct spt_node *inner = spt_node_find(spt_node_find(root, "ö"), "k");
    cr_expect(inner->mark.line == 5 && inner->mark.column == 8, "columns count characters: %d",
              inner->mark.column);
    cr_expect_eq(root->weight, 11, "%d", root->weight);
    cr_expect_null(spt_node_find(root, "b"));
    cr_expect_null(spt_node_find(NULL, "b"));
    cr_expect_null(spt_node_find(list, "x"));
    cr_expect_eq(spt_node_mark(root, "list").line, 3);
    cr_expect_eq(spt_node_mark(root, "b").line, 1, "the mapping's place where the key is absent");
    spt_arena_free(&arena);
}

Test(document, an_alias_is_the_value_of_its_anchor)
{
    struct spt_arena arena = {0};
    const struct spt_node *root = read("a: &x {k: &y 1}\nb: *x\nc: *y\nd: &x two\ne: *x\n", &arena);
    cr_expect_eq(spt_node_find(root, "a"), spt_node_find(root, "b"));
    cr_expect_str_eq(text_at(root, "c"), "1");
    cr_expect_str_eq(text_at(root, "e"), "two", "the last anchor of a name counts");
    spt_arena_free(&arena);
}

Test(document, a_merge_lays_mappings_over_each_other_and_changes_neither)
{
    struct spt_arena arena = {0};
    const struct spt_node *base =
        read("title: t\ncondition: {cleanliness: normal, water: 100 ppm}\nlist: [a, b]\n", &arena);
    const struct spt_node *over =
        read("name: n\ncondition: {water: 400 ppm, dust: heavy}\nlist: [c]\n", &arena);
    static const char *const skip[] = {"name", NULL};
    const struct spt_node *merged = spt_node_merge(base, over, NULL, skip, &arena);
    const struct spt_node *condition = spt_node_find(merged, "condition");
    cr_expect_str_eq(text_at(merged, "title"), "t");
    cr_expect_str_eq(text_at(merged, "name"), "(none)");
    cr_expect_str_eq(text_at(condition, "cleanliness"), "normal");
    cr_expect_str_eq(text_at(condition, "water"), "400 ppm");
    cr_expect_str_eq(text_at(condition, "dust"), "heavy");
    cr_expect_eq(spt_node_find(merged, "list")->count, 1, "a plain list is replaced");
    cr_expect_str_eq(text_at(spt_node_find(base, "condition"), "water"), "100 ppm");
    cr_expect_eq(spt_node_find(over, "condition")->count, 2);
    spt_arena_free(&arena);
}

Test(document, a_merge_finds_list_members_by_their_identity)
{
    struct spt_arena arena = {0};
    const struct spt_node *base =
        read("duty:\n  - {phase: a, speed: 1}\n  - {phase: b, speed: 2}\n", &arena);
    const struct spt_node *some = read("duty:\n  - {phase: b, speed: 3, load: 4}\n", &arena);
    const struct spt_node *merged = spt_node_find(
        spt_node_merge(base, some, (const char *const[]){"phase", NULL}, NULL, &arena), "duty");
    cr_expect_eq(merged->count, 2);
    cr_expect_str_eq(text_at(merged->items[0], "speed"), "1");
    cr_expect_str_eq(text_at(merged->items[1], "speed"), "3");
    cr_expect_str_eq(text_at(merged->items[1], "load"), "4");
    const struct spt_node *other = read("duty:\n  - {phase: c, speed: 3}\n", &arena);
    merged = spt_node_find(
        spt_node_merge(base, other, (const char *const[]){"phase", NULL}, NULL, &arena), "duty");
    cr_expect_eq(merged->count, 1, "a name that is new means a whole new duty");
    spt_arena_free(&arena);
}

/* Stating one thing another way drops the old way; stating both is left for the checks. */
Test(document, a_merge_drops_the_other_way_of_saying_the_same)
{
    static const struct {
        const char *base, *over, *gone;
    } rows[] = {
        {"{viscosity_40: 1, viscosity_100: 2}", "{grade: 3}", "viscosity_100"},
        {"{viscosity_40: 1, viscosity_100: 2}", "{grade: 3}", "viscosity_40"},
        {"{viscosity_40: 1, viscosity_100: 2}", "{viscosity_index: 3}", "viscosity_100"},
        {"{viscosity_40: 1, viscosity_index: 2}", "{viscosity_100: 3}", "viscosity_index"},
        {"{grade: 1}", "{viscosity_40: 3}", "grade"},
        {"{cleanliness: a}", "{contamination_factor: 1}", "cleanliness"},
        {"{contamination_factor: 1}", "{cleanliness: a}", "contamination_factor"},
        {"{radial_load: 1, axial_load: 2}", "{equivalent_load: 3}", "radial_load"},
        {"{radial_load: 1, axial_load: 2}", "{equivalent_load: 3}", "axial_load"},
        {"{equivalent_load: 3}", "{radial_load: 1}", "equivalent_load"},
    };
    struct spt_arena arena = {0};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const struct spt_node *base = read(rows[i].base, &arena);
        const struct spt_node *merged =
            spt_node_merge(base, read(rows[i].over, &arena), NULL, NULL, &arena);
        cr_expect_null(spt_node_find(merged, rows[i].gone), "%s over %s keeps %s", rows[i].over,
                       rows[i].base, rows[i].gone);
        cr_expect(spt_node_find(base, rows[i].gone));
    }
    /* an axial load alone would leave the radial load unsaid: the checks refuse the pair */
    const struct spt_node *pair = spt_node_merge(
        read("{equivalent_load: 3}", &arena), read("{axial_load: 1}", &arena), NULL, NULL, &arena);
    cr_expect_eq(pair->count, 2);
    const struct spt_node *both = read("{cleanliness: a, contamination_factor: 1}", &arena);
    const struct spt_node *merged = spt_node_merge(both, both, NULL, NULL, &arena);
    cr_expect_eq(merged->count, 2);
    spt_arena_free(&arena);
}
