/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/options.h"

#include <stdio.h>
#include <string.h>

#include "cli/message.h"
#include "cli/sweep.h"
#include "scenario/fields.h"
#include "spalltime/uncertainty.h"

static bool pick(const char *value, const char *const *words, int count, int *picked)
{
    for (int i = 0; i < count; i++)
        if (!strcmp(value, words[i])) {
            *picked = i;
            return true;
        }
    return false;
}

static bool set_format(struct spt_options *options, const char *value)
{
    static const char *const words[] = {"text", "json", "csv"};
    int picked = 0;
    bool known = pick(value, words, 3, &picked);
    options->format = (enum spt_format)picked;
    return known;
}

static bool set_schema_format(struct spt_options *options, const char *value)
{
    return set_format(options, value) && options->format != SPT_FORMAT_CSV;
}

static bool set_plan_format(struct spt_options *options, const char *value)
{
    static const char *const words[] = {"text", "json", "csv", "ical"};
    int picked = 0;
    bool known = pick(value, words, 4, &picked);
    options->format = picked == 3 ? SPT_FORMAT_ICAL : (enum spt_format)picked;
    return known;
}

static bool set_start(struct spt_options *options, const char *value)
{
    options->start = value;
    return *value != 0;
}

/* A whole number from `least` to `most`. */
static bool set_count(int *count, const char *value, int least, int most)
{
    *count = 0;
    for (; *value >= '0' && *value <= '9' && *count <= most; value++)
        *count = 10 * *count + (*value - '0');
    return !*value && *count >= least && *count <= most;
}

static bool set_law(struct spt_options *options, const char *value)
{
    static const char *const words[] = {"three-parameter", "two-parameter"};
    int picked = 0;
    bool known = pick(value, words, 2, &picked);
    options->two_parameter = picked == 1;
    return known;
}

static bool set_samples(struct spt_options *options, const char *value)
{
    return set_count(&options->samples, value, SPT_UNCERTAIN_SAMPLES_MIN,
                     SPT_UNCERTAIN_SAMPLES_MAX);
}

static bool set_shares(struct spt_options *options, const char *value)
{
    (void)value;
    return options->shares = true;
}

static bool set_rows_format(struct spt_options *options, const char *value)
{
    static const char *const words[] = {"csv", "jsonl", "npy"};
    int picked = 0;
    bool known = pick(value, words, 3, &picked);
    options->format = (enum spt_format)(SPT_FORMAT_CSV + picked);
    return known;
}

static bool set_color(struct spt_options *options, const char *value)
{
    static const char *const words[] = {"auto", "always", "never"};
    int picked = 0;
    bool known = pick(value, words, 3, &picked);
    options->color = (enum spt_color)picked;
    return known;
}

static bool set_print(struct spt_options *options, const char *value)
{
    static const char *const words[] = {"man", "bash", "zsh"};
    int picked = 0;
    bool known = pick(value, words, 3, &picked);
    options->print = (enum spt_print)(SPT_PRINT_MAN + picked);
    return known;
}

static bool set_output(struct spt_options *options, const char *value)
{
    options->output = value;
    return *value != 0;
}

static bool set_life(struct spt_options *options, const char *value)
{
    options->life = value;
    return *value != 0;
}

static bool set_lever(struct spt_options *options, const char *value)
{
    options->lever = value;
    return *value != 0;
}

static bool set_cases(struct spt_options *options, const char *value)
{
    options->cases = value;
    return *value != 0;
}

static bool set_columns(struct spt_options *options, const char *value)
{
    options->columns = value;
    return *value != 0;
}

static bool set_rejects(struct spt_options *options, const char *value)
{
    options->rejects = value;
    return *value != 0 && strcmp(value, "-") != 0;
}

static bool set_shard(struct spt_options *options, const char *value)
{
    options->shard = value;
    return *value != 0;
}

static bool set_resume(struct spt_options *options, const char *value)
{
    (void)value;
    return options->resume = true;
}

static bool set_threads(struct spt_options *options, const char *value)
{
    return set_count(&options->threads, value, 1, SWEEP_THREADS_MAX);
}

static bool set_chart(struct spt_options *options, const char *value)
{
    options->chart = value;
    return *value != 0;
}

static bool set_variant(struct spt_options *options, const char *value)
{
    options->variant = value;
    return *value != 0;
}

static bool set_range(struct spt_options *options, const char *value)
{
    options->range = value;
    return *value != 0;
}

static bool set_against(struct spt_options *options, const char *value)
{
    options->against = value;
    return *value != 0;
}

static bool set_variants(struct spt_options *options, const char *value)
{
    options->variants = value;
    return *value != 0;
}

static bool set_confidence(struct spt_options *options, const char *value)
{
    options->confidence = value;
    return *value != 0;
}

static bool set_slope(struct spt_options *options, const char *value)
{
    options->slope = value;
    return *value != 0;
}

static bool set_duty_format(struct spt_options *options, const char *value)
{
    static const char *const words[] = {"text", "json", "csv", "yaml"};
    int picked = 0;
    bool known = pick(value, words, 4, &picked);
    options->format = picked == 3 ? SPT_FORMAT_YAML : (enum spt_format)picked;
    return known;
}

static bool set_history(struct spt_options *options, const char *value)
{
    options->history = value;
    return *value != 0;
}

static bool set_bins(struct spt_options *options, const char *value)
{
    options->bins = value;
    return *value != 0;
}

static bool set_gap(struct spt_options *options, const char *value)
{
    options->gap = value;
    return *value != 0;
}

static bool set_standing(struct spt_options *options, const char *value)
{
    options->standing = value;
    return *value != 0;
}

static bool add_catalog(struct spt_options *options, const char *value)
{
    if (options->catalog_count == SPT_CATALOG_FOLDERS_MAX)
        return false;
    options->catalogs[options->catalog_count++] = value;
    return true;
}

static bool set_explain(struct spt_options *options, const char *value)
{
    (void)value;
    return options->explain = true;
}

static bool set_quiet(struct spt_options *options, const char *value)
{
    (void)value;
    return options->quiet = true;
}

const struct spt_option spt_option_table[] = {
    {"--format", "-f", "text|json|csv", "form of the answer", SPT_TAKES_FORMAT, set_format},
    {"--format", "-f", "text|json|csv|ical", "form of the answer", SPT_TAKES_PLAN, set_plan_format},
    {"--format", "-f", "text|json", "form of the answer", SPT_TAKES_SCHEMA, set_schema_format},
    {"--explain", "-e", NULL, "show every step: formula, numbers, result, source",
     SPT_TAKES_EXPLAIN, set_explain},
    {"--output", "-o", "FILE", "write to FILE, whole or not at all", SPT_TAKES_OUTPUT, set_output},
    {"--chart", NULL, "NAME", "draw one chart alone, as SVG", SPT_TAKES_CHART, set_chart},
    {"--variant", NULL, "NAME", "the variant that --chart draws", SPT_TAKES_CHART, set_variant},
    {"--catalog", "-c", "FOLDER", "look names up in FOLDER first (repeatable)", SPT_TAKES_CATALOG,
     add_catalog},
    {"--life", "-l", "TIME", "wanted life, such as 20000h", SPT_TAKES_TARGET, set_life},
    {"--lever", NULL, "NAME", "only this lever", SPT_TAKES_TARGET, set_lever},
    {"--range", NULL, "LOW..HIGH", "settings to search, such as \"-0.15 mm..0.5 mm\"",
     SPT_TAKES_RANGE, set_range},
    {"--start", NULL, "DAY", "day the calendar starts, such as 2026-03-01", SPT_TAKES_PLAN,
     set_start},
    {"--law", NULL, "three-parameter|two-parameter",
     "of fatigue lives; three-parameter is behind a1", SPT_TAKES_PLAN, set_law},
    {"--samples", NULL, "NUMBER",
     "of the section `uncertainty`, 100 to 1000000; 100000 where absent", SPT_TAKES_SAMPLES,
     set_samples},
    {"--shares", NULL, NULL, "shares of the variance too, which see inputs that act together",
     SPT_TAKES_SHARES, set_shares},
    {"--against", NULL, "FILE", "scenario whose rating the field is held against", SPT_TAKES_FIELD,
     set_against},
    {"--variants", NULL, "FILE", "scenario whose variants are weighed by the field",
     SPT_TAKES_FIELD, set_variants},
    {"--confidence", NULL, "SHARE", "of the bounds, such as 90%", SPT_TAKES_FIELD, set_confidence},
    {"--slope", NULL, "NUMBER", "Weibull slope taken where failures are too few; 1.5 where absent",
     SPT_TAKES_FIELD, set_slope},
    {"--print", NULL, "man|bash|zsh", "print the manual page or a shell completion",
     SPT_TAKES_PRINT, set_print},
    {"--quiet", "-q", NULL, "leave flags and cautions out of a text answer", SPT_TAKES_QUIET,
     set_quiet},
    {"--format", "-f", "csv|jsonl|npy", "form of the rows; csv where absent", SPT_TAKES_SWEEP,
     set_rows_format},
    {"--cases", NULL, "CASES.csv", "rows to lay over the scenario; - for standard input",
     SPT_TAKES_SWEEP, set_cases},
    {"--columns", NULL, "NAME,...", "answers after the swept fields", SPT_TAKES_SWEEP, set_columns},
    {"--rejects", NULL, "FILE", "where rows go that cannot be read, with the reason",
     SPT_TAKES_SWEEP, set_rejects},
    {"--threads", "-j", "N", "threads, 1 to 256; one for each processor where absent",
     SPT_TAKES_SWEEP, set_threads},
    {"--shard", NULL, "K/N", "only part K of N; the parts one after the other are the whole",
     SPT_TAKES_SWEEP, set_shard},
    {"--resume", NULL, NULL, "go on where an interrupted run with the same -o FILE ended",
     SPT_TAKES_SWEEP, set_resume},
    {"--format", "-f", "text|yaml|json|csv", "form of the answer; yaml to keep it", SPT_TAKES_DUTY,
     set_duty_format},
    {"--history", NULL, "HISTORY.csv",
     "measured loads that take the place of the duty; - for standard input", SPT_TAKES_HISTORY,
     set_history},
    {"--bins", NULL, "LxSxT",
     "bins of load, speed and temperature of the history; where absent 8x3x2, of a hub 4x2x2, for "
     "two loads without a scenario 5x2x2 and 2 of the side load; else that has as many as the load",
     SPT_TAKES_BINNING, set_bins},
    {"--gap", NULL, "TIME", "a longer time between two rows is a gap, left out and told",
     SPT_TAKES_BINNING, set_gap},
    {"--standing", NULL, "SPEED", "at or below it the history stands still; 0 where absent",
     SPT_TAKES_BINNING, set_standing},
    {"--color", NULL, "auto|always|never", "colour in a text answer", SPT_TAKES_COLOR, set_color},
};
const int spt_option_count = (int)(sizeof spt_option_table / sizeof *spt_option_table);

/* The option that a word names, the command's own where two share a name; `*value` is what follows
 * "=" or NULL. */
static const struct spt_option *find_option(const char *word, unsigned takes, const char **value)
{
    const struct spt_option *found = NULL;
    const char *equals = strncmp(word, "--", 2) ? NULL : strchr(word, '=');
    size_t length = equals ? (size_t)(equals - word) : strlen(word);
    *value = equals ? equals + 1 : NULL;
    for (int i = 0; i < spt_option_count; i++) {
        const struct spt_option *option = &spt_option_table[i];
        bool named = strlen(option->name) == length && !strncmp(option->name, word, length);
        if (!named && !(option->alias && !strcmp(option->alias, word)))
            continue;
        if (takes & option->bit)
            return option;
        found = option;
    }
    return found;
}

static bool refuse_unknown(const char *command, const char *word)
{
    const char *names[64];
    int count = spt_option_count < 64 ? spt_option_count : 64;
    for (int i = 0; i < count; i++)
        names[i] = spt_option_table[i].name;
    const char *near = spt_nearest(word, names, count);
    fprintf(spt_messages(), "spalltime %s: there is no option %s", command, word);
    if (near)
        fprintf(spt_messages(), "; did you mean %s?\n", near);
    else
        fprintf(spt_messages(), "; see `spalltime help %s`\n", command);
    return false;
}

/* Gives the option its value, or none where it takes none. */
static bool apply(struct spt_options *options, unsigned takes, const char *command,
                  const struct spt_option *option, const char *value)
{
    if (!(takes & option->bit)) {
        fprintf(spt_messages(),
                "spalltime %s: %s does not belong to this command; see `spalltime help %s`\n",
                command, option->name, command);
        return false;
    }
    if (option->value ? value && option->set(options, value) : !value && option->set(options, NULL))
        return true;
    if (!option->value)
        fprintf(spt_messages(), "spalltime %s: write %s without a value\n", command, option->name);
    else if (value && *value)
        fprintf(spt_messages(), "spalltime %s: %s cannot be `%s`; write %s %s: %s\n", command,
                option->name, value, option->name, option->value, option->help);
    else
        fprintf(spt_messages(), "spalltime %s: %s has no value; write %s %s: %s\n", command,
                option->name, option->name, option->value, option->help);
    return false;
}

static const char *next_word(int count, char *const *words, int *at)
{
    return *at + 1 < count ? words[++*at] : NULL;
}

/* True for a long option with one dash: -output is not taken for -o with the file "utput". */
static bool lacks_dash(const char *word)
{
    size_t length = strcspn(word, "=");
    for (int i = 0; i < spt_option_count; i++) {
        const char *name = spt_option_table[i].name;
        if (strlen(name) == length + 1 && !strncmp(name + 1, word, length))
            return true;
    }
    return false;
}

/* Short options in one word, as POSIX has it: those without a value one after the other, then one
 * whose value is the rest of the word, or the next one. */
static bool read_letters(struct spt_options *options, unsigned takes, const char *command,
                         int count, char *const *words, int *at)
{
    const char *word = words[*at];
    for (const char *letter = word + 1; *letter; letter++) {
        const char alias[] = {'-', *letter, 0};
        const char *value = NULL;
        const struct spt_option *option = find_option(alias, takes, &value);
        if (!option && (letter == word + 1 || (unsigned char)*letter > 0x7f))
            return refuse_unknown(command, word);
        if (!option) {
            fprintf(spt_messages(),
                    "spalltime %s: there is no option %s (in %s); see `spalltime help %s`\n",
                    command, alias, word, command);
            return false;
        }
        bool valued = option->value && takes & option->bit;
        if (valued)
            value = letter[1] ? letter + 1 : next_word(count, words, at);
        if (!apply(options, takes, command, option, value))
            return false;
        if (valued)
            return true;
    }
    return true;
}

static bool read_option(struct spt_options *options, unsigned takes, const char *command, int count,
                        char *const *words, int *at)
{
    const char *value, *word = words[*at];
    if (word[1] != '-' && !lacks_dash(word))
        return read_letters(options, takes, command, count, words, at);
    const struct spt_option *option = find_option(word, takes, &value);
    if (!option)
        return refuse_unknown(command, word);
    if (option->value && !value && takes & option->bit)
        value = next_word(count, words, at);
    return apply(options, takes, command, option, value);
}

bool spt_options_read(struct spt_options *options, unsigned takes, const char *command, int count,
                      char *const *words)
{
    bool only_arguments = false;
    for (int i = 0; i < count; i++) {
        bool dashed = words[i][0] == '-' && words[i][1];
        if (!only_arguments && !strcmp(words[i], "--")) {
            only_arguments = true;
        } else if (!only_arguments && dashed) {
            if (!read_option(options, takes, command, count, words, &i))
                return false;
        } else if (options->argument_count == SPT_ARGUMENTS_MAX) {
            fprintf(spt_messages(), "spalltime %s: more than %d files\n", command,
                    SPT_ARGUMENTS_MAX);
            return false;
        } else {
            options->arguments[options->argument_count++] = words[i];
        }
    }
    return true;
}
