/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "words/words.h"

#include <criterion/criterion.h>
#include <string.h>

static const struct spt_words *const all[] = {
    &spt_bearing_type_words, &spt_running_words,     &spt_lubrication_words,
    &spt_solubility_words,   &spt_dust_words,        &spt_moisture_words,
    &spt_vibration_words,    &spt_shaft_words,       &spt_surrounding_words,
    &spt_hub_mounting_words, &spt_hub_turning_words, &spt_cause_words,
    &spt_setting_side_words, &spt_lever_words,       &spt_uncertain_words,
    &spt_sweep_status_words, &spt_flag_words,        &spt_air_words,
    &spt_estimate_words,
};

/* The compiler counts the rows; a row that was left out in the middle is a NULL. */
Test(words, every_value_has_a_word_of_its_own)
{
    for (size_t i = 0; i < sizeof all / sizeof *all; i++)
        for (int j = 0; j < all[i]->count; j++) {
            const char *word = all[i]->list[j];
            cr_assert(word && *word, "list %zu lacks the word of value %d", i, j);
            cr_expect_eq(spt_word_find(all[i], word), j, "%s stands twice", word);
            cr_expect_str_eq(spt_word(all[i], j), word);
        }
}

Test(words, a_value_outside_the_list_is_unknown_and_an_odd_word_has_no_value)
{
    cr_expect_str_eq(spt_word(&spt_dust_words, -1), "unknown");
    cr_expect_str_eq(spt_word(&spt_dust_words, spt_dust_words.count), "unknown");
    cr_expect_eq(spt_word_find(&spt_dust_words, "dusty"), -1);
    cr_expect_eq(spt_word_find(&spt_dust_words, ""), -1);
}
