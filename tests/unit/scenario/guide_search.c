/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <criterion/criterion.h>
#include <string.h>

#include "scenario/catalog/guide_search.h"
#include "support/guide_file.h"
#include "support/near.h"

static struct guide_file file;

static void load(void)
{
    guide_file_load(&file);
}

static void release(void)
{
    guide_file_free(&file);
}

TestSuite(guide_search, .init = load, .fini = release);

static int search(const char *asked, struct spt_guide_hit *hits)
{
    struct spt_guide_query query;
    spt_guide_query_read(asked, &query);
    return spt_guide_search(&file.guide, &query, hits);
}

/* What a mechanic would say, and the mode that should come first; wording and choice are ours. */
Test(guide_search, finds_the_mode_that_a_mechanic_describes)
{
    static const struct {
        const char *asked, *mode;
    } rows[] = {
        {"rust streaks at roller pitch", "moisture corrosion"},
        {"metal flakes in the grease", "subsurface fatigue"},
        {"lines across the race like a washboard", "current leakage erosion"},
        {"dents at roller spacing after hitting a kerb", "overload deformation"},
        {"rollers turned blue", "overheating"},
        {"the cup spins in the hub", "creep"},
        {"grease is black and burnt", "lubricant failure"},
        {"milky grease", "moisture corrosion"},
        {"red brown powder on the spindle", "fretting corrosion"},
        {"trailer was shipped by rail and now it rumbles", "false brinelling"},
        {"somebody welded on the trailer", "excessive current erosion"},
        {"bent cage", "cage damage"},
        {"I dropped it on the floor", "handling damage"},
        {"roller ends scored", "roller end scoring"},
        {"nut too tight", "excessive preload"},
        {"wheel wobbles", "excessive end play"},
        {"wear path runs crooked", "misalignment"},
        {"cracked inner race", "forced fracture"},
        {"beach marks on the break", "fatigue fracture"},
        {"cracks on the face from rubbing", "thermal cracking"},
        {"bits of rubber from the seal", "particle indentations"},
        {"gritty grease", "abrasive wear"},
        {"frosted raceway, peeling", "surface fatigue"},
        {"skid marks", "adhesive wear"},
        {"one band polished", "abrasive wear"},
        {"polished raceway", "abrasive wear"},
        {"brown stains", "lubricant failure"},
        {"it squeals", "lubricant failure"},
        {"hub is smoking", "overheating"},
        {"growls and grinds", "subsurface fatigue"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct spt_guide_hit hits[SPT_HITS_MAX];
        int count = search(rows[i].asked, hits);
        cr_assert_gt(count, 0, "%s: nothing", rows[i].asked);
        cr_expect_str_eq(hits[0].entry->name, rows[i].mode, "%s", rows[i].asked);
    }
}

Test(guide_search, finds_each_mode_by_its_name_and_by_each_of_its_words)
{
    for (int i = 0; i < file.guide.count; i++) {
        const struct spt_guide_entry *entry = &file.guide.entries[i];
        for (int j = -1; j < entry->parts[SPT_GUIDE_WORDS].count; j++) {
            struct spt_guide_hit hits[SPT_HITS_MAX];
            const char *asked = j < 0 ? entry->name : entry->parts[SPT_GUIDE_WORDS].lines[j];
            int count = search(asked, hits), at = 0;
            while (at < count && hits[at].entry != entry)
                at++;
            cr_expect_lt(at, j < 0 ? 1 : 3, "%s does not lead to %s", asked, entry->name);
        }
    }
}

Test(guide_search, says_which_words_were_found_and_where)
{
    struct spt_guide_hit hits[SPT_HITS_MAX];
    cr_assert_gt(search("rusty zebra, at the pitch", hits), 0);
    cr_expect_str_eq(hits[0].entry->name, "moisture corrosion");
    cr_expect_eq(hits[0].found_count, 2);
    cr_expect(hits[0].found[0] && !hits[0].found[1] && hits[0].found[2]);
    cr_expect_eq(hits[0].parts[0], SPT_GUIDE_WORDS);
    cr_expect_eq(hits[0].parts[2], SPT_GUIDE_LOOKS);
    cr_expect(strstr(hits[0].line, "pitch of the rollers"), "%s", hits[0].line);
}

Test(guide_search, keeps_the_order_of_the_guide_where_scores_are_equal)
{
    struct spt_guide_hit hits[SPT_HITS_MAX];
    cr_assert_eq(search("washboard", hits), 2);
    cr_expect(near(hits[0].score, hits[1].score, 1e-12, 0));
    cr_expect_str_eq(hits[0].entry->name, "false brinelling");
}

Test(guide_search, falls_with_words_that_fit_nothing)
{
    struct spt_guide_hit plain[SPT_HITS_MAX], mixed[SPT_HITS_MAX];
    cr_assert_gt(search("fluting", plain), 0);
    cr_assert_gt(search("fluting qqqq", mixed), 0);
    cr_expect(near(mixed[0].score, plain[0].score / 2, 1e-12, 0));
}

Test(guide_search, finds_nothing_for_small_or_unknown_words)
{
    static const char *const asked[] = {"", "the", "is it on", "?!", "qqqq wwww"};
    struct spt_guide_hit hits[SPT_HITS_MAX];
    for (size_t i = 0; i < sizeof asked / sizeof *asked; i++)
        cr_expect_eq(search(asked[i], hits), 0, "%s", asked[i]);
}

Test(guide_search, returns_the_best_first_and_few)
{
    struct spt_guide_hit hits[SPT_HITS_MAX];
    int count = search("bearing", hits);
    cr_expect_leq(count, SPT_HITS_MAX);
    cr_expect_gt(count, 1);
    for (int i = 1; i < count; i++)
        cr_expect_leq(hits[i].score, hits[i - 1].score);
}

Test(guide_search, matches_words_without_their_endings)
{
    static const struct {
        const char *a, *b;
        bool match;
    } rows[] = {
        {"rust", "rusty", true},    {"pits", "pitting", true},  {"pitted", "pit", true},
        {"score", "scoring", true}, {"blue", "blued", true},    {"race", "raceway", true},
        {"spall", "spalled", true}, {"cage", "cages", true},    {"brinelled", "brinelling", true},
        {"oil", "oily", true},      {"over", "overheat", true}, {"cup", "cage", false},
        {"pit", "pitch", false},    {"heat", "seat", false},    {"ring", "rib", false},
        {"rust", "dust", false},    {"", "rust", false},        {"in", "inner", false},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        cr_expect_eq(spt_guide_words_match(rows[i].a, rows[i].b), rows[i].match, "%s, %s",
                     rows[i].a, rows[i].b);
        cr_expect_eq(spt_guide_words_match(rows[i].b, rows[i].a), rows[i].match, "%s, %s",
                     rows[i].b, rows[i].a);
    }
}

Test(guide_search, reads_words_once_and_leaves_small_ones_out)
{
    struct spt_guide_query query;
    spt_guide_query_read("The Rust, on-the RUST; 2 ros\xC3\xA9", &query);
    cr_assert_eq(query.count, 3);
    cr_expect_str_eq(query.words[0], "rust");
    cr_expect_str_eq(query.words[1], "2");
    cr_expect_str_eq(query.words[2], "ros\xC3\xA9");
}

Test(guide_search, holds_long_questions_and_long_words)
{
    char text[4096] = "";
    struct spt_guide_query query;
    for (int i = 0; i < 400; i++)
        sprintf(text + strlen(text), "w%d ", i);
    spt_guide_query_read(text, &query);
    cr_expect_eq(query.count, SPT_QUERY_WORDS_MAX);
    memset(text, 'x', sizeof text - 1);
    text[sizeof text - 1] = 0;
    spt_guide_query_read(text, &query);
    cr_expect_eq(query.count, 1);
    cr_expect_eq(strlen(query.words[0]), SPT_QUERY_WORD_LENGTH - 1);
}
