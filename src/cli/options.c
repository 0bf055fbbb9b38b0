/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/options.h"

#include <stddef.h>
#include <stdio.h>
#include <string.h>

#include "answer/catalog/schema.h"
#include "scenario/text/fields.h"
#include "spalltime/uncertainty.h"
#include "sweep/sweep.h"

static const char *const format_words[] = {
    [SPT_FORMAT_TEXT] = "text", [SPT_FORMAT_JSON] = "json",   [SPT_FORMAT_CSV] = "csv",
    [SPT_FORMAT_HTML] = "html", [SPT_FORMAT_JSONL] = "jsonl", [SPT_FORMAT_NPY] = "npy",
    [SPT_FORMAT_ICAL] = "ical", [SPT_FORMAT_YAML] = "yaml"};
_Static_assert(sizeof format_words / sizeof *format_words == SPT_FORMAT_COUNT, "a word each");
static const char *const color_words[] = {
    [SPT_COLOR_AUTO] = "auto", [SPT_COLOR_ALWAYS] = "always", [SPT_COLOR_NEVER] = "never"};
_Static_assert(sizeof color_words / sizeof *color_words == SPT_COLOR_COUNT, "a word each");
static const char *const print_words[] = {[SPT_PRINT_HELP] = "help",
                                          [SPT_PRINT_MAN] = "man",
                                          [SPT_PRINT_BASH] = "bash",
                                          [SPT_PRINT_ZSH] = "zsh"};
_Static_assert(sizeof print_words / sizeof *print_words == SPT_PRINT_COUNT, "a word each");
static const char *const law_words[] = {
    [SPT_LAW_THREE_PARAMETER] = "three-parameter", [SPT_LAW_TWO_PARAMETER] = "two-parameter"};
_Static_assert(sizeof law_words / sizeof *law_words == SPT_LAW_COUNT, "a word each");
static const char *const schema_words[] = {
    [SPT_SCHEMA_SCENARIO] = "scenario", [SPT_SCHEMA_CASE] = "case"};
_Static_assert(sizeof schema_words / sizeof *schema_words == SPT_SCHEMA_COUNT, "a word each");
_Static_assert(sizeof(enum spt_format) == sizeof(int), "set_value writes words as int");

/* Type of the value of an option, and the member of the options that stores it, at offset `at`. */
#define FLAG(member)                                                                               \
    {                                                                                              \
        SPT_OPTION_FLAG, offsetof(struct spt_options, member), NULL, 0, 0                          \
    }
#define TEXT(member)                                                                               \
    {                                                                                              \
        SPT_OPTION_TEXT, offsetof(struct spt_options, member), NULL, 0, 0                          \
    }
#define FILE_NAME(member)                                                                          \
    {                                                                                              \
        SPT_OPTION_FILE, offsetof(struct spt_options, member), NULL, 0, 0                          \
    }
#define COUNT(member, least, most)                                                                 \
    {                                                                                              \
        SPT_OPTION_COUNT, offsetof(struct spt_options, member), NULL, least, most                  \
    }
#define WORD(member, words)                                                                        \
    {                                                                                              \
        SPT_OPTION_WORD, offsetof(struct spt_options, member), words, 0,                           \
            (int)(sizeof(words) / sizeof(words)[0]) - 1                                            \
    }
#define FOLDER                                                                                     \
    {                                                                                              \
        SPT_OPTION_FOLDER, 0, NULL, 0, 0                                                           \
    }

const struct spt_option spt_option_table[] = {
    {"--format", "-f", "text|json|csv|html", "format of the output", SPT_TAKES_FORMAT,
     WORD(format, format_words), SPT_OPTION_OUTPUT},
    {"--format", "-f", "text|json|csv|html|ical", "format of the output", SPT_TAKES_PLAN,
     WORD(format, format_words), SPT_OPTION_OUTPUT},
    {"--format", "-f", "text|html", "format of the output", SPT_TAKES_READABLE,
     WORD(format, format_words), SPT_OPTION_OUTPUT},
    {"--format", "-f", "text|json", "format of the output", SPT_TAKES_SCHEMA,
     WORD(format, format_words), SPT_OPTION_OUTPUT},
    {"--of", NULL, "scenario|case", "what is described; default scenario", SPT_TAKES_SCHEMA,
     WORD(schema_of, schema_words), SPT_OPTION_OWN},
    {"--explain", "-e", NULL,
     "write a sheet to file: inputs, assumptions, every step of the calculation (formula, numbers, "
     "result, source), lines to sign",
     SPT_TAKES_EXPLAIN, FLAG(explain), SPT_OPTION_OUTPUT},
    {"--explain", "-e", NULL,
     "show each quantity of sound files as it was understood, with what is assumed",
     SPT_TAKES_UNDERSTOOD, FLAG(explain), SPT_OPTION_OUTPUT},
    {"--output", "-o", "FILE", "write to FILE; after an error FILE is unchanged", SPT_TAKES_OUTPUT,
     TEXT(output), SPT_OPTION_OUTPUT},
    {"--chart", NULL, "NAME", "write this chart alone, as SVG", SPT_TAKES_CHART, TEXT(chart),
     SPT_OPTION_OWN},
    {"--front", NULL, NULL, "write the front of the page alone, which prints on one sheet",
     SPT_TAKES_CHART, FLAG(front), SPT_OPTION_OWN},
    {"--variant", NULL, "NAME", "draw the chart of this variant", SPT_TAKES_CHART, TEXT(variant),
     SPT_OPTION_OWN},
    {"--catalog", "-c", "FOLDER",
     "search the catalog in FOLDER first, or in a file: a bearing list .csv, a catalog .yaml (may "
     "be repeated)",
     SPT_TAKES_CATALOG, FOLDER, SPT_OPTION_INPUT},
    {"--from", NULL, "LIST.csv", "list of bearings to choose from; default the catalogs",
     SPT_TAKES_CHOICE, TEXT(from), SPT_OPTION_OWN},
    {"--margin", NULL, "NUMBER", "life over target that passes; default 1.3", SPT_TAKES_CHOICE,
     TEXT(margin), SPT_OPTION_OWN},
    {"--life", "-l", "TIME", "life to reach, such as 20000h", SPT_TAKES_TARGET, TEXT(life),
     SPT_OPTION_OWN},
    {"--lever", NULL, "NAME", "calculate this lever only", SPT_TAKES_TARGET, TEXT(lever),
     SPT_OPTION_OWN},
    {"--range", NULL, "LOW..HIGH", "range of settings to search, such as \"-0.15 mm..0.5 mm\"",
     SPT_TAKES_RANGE, TEXT(range), SPT_OPTION_OWN},
    {"--start", NULL, "DAY", "first day of the calendar, such as 2026-03-01", SPT_TAKES_PLAN,
     TEXT(start), SPT_OPTION_OWN},
    {"--costs", NULL, NULL, "only compare what the scenario and its variants cost in a year",
     SPT_TAKES_PLAN, FLAG(costs), SPT_OPTION_OWN},
    {"--crew", NULL, "N", "visits that can be made in a week; machines then start staggered",
     SPT_TAKES_PLAN, COUNT(crew, 1, 10000), SPT_OPTION_OWN},
    {"--previous", NULL, "FILE.ics",
     "earlier calendar of this plan; visits that are no longer due are cancelled", SPT_TAKES_PLAN,
     FILE_NAME(previous), SPT_OPTION_OWN},
    {"--law", NULL, "three-parameter|two-parameter",
     "distribution of fatigue lives; default three-parameter, as for a1 of ISO 281", SPT_TAKES_PLAN,
     WORD(law, law_words), SPT_OPTION_OWN},
    {"--samples", NULL, "NUMBER", "number of samples, 100 to 1000000; default 100000",
     SPT_TAKES_SAMPLES, COUNT(samples, SPT_UNCERTAIN_SAMPLES_MIN, SPT_UNCERTAIN_SAMPLES_MAX),
     SPT_OPTION_OWN},
    {"--shares", NULL, NULL,
     "also print shares of the variance, which include interactions of inputs", SPT_TAKES_SHARES,
     FLAG(shares), SPT_OPTION_OWN},
    {"--against", NULL, "FILE", "scenario whose rating is compared with the field data",
     SPT_TAKES_FIELD, TEXT(against), SPT_OPTION_OWN},
    {"--variants", NULL, "FILE",
     "scenario whose variants are ranked by the likelihood of the field data", SPT_TAKES_FIELD,
     TEXT(variants), SPT_OPTION_OWN},
    {"--confidence", NULL, "SHARE", "confidence of the bounds, such as 90%", SPT_TAKES_FIELD,
     TEXT(confidence), SPT_OPTION_OWN},
    {"--mode", NULL, "NAME", "count failures by this mode only; other failures count as running",
     SPT_TAKES_FIELD, TEXT(mode), SPT_OPTION_OWN},
    {"--slope", NULL, "NUMBER",
     "Weibull slope to assume if there are too few failures; default 1.5", SPT_TAKES_FIELD,
     TEXT(slope), SPT_OPTION_OWN},
    {"--past", NULL, "COUNTS.csv",
     "confirmed cases of a shop (date,cause,count,remark), which shift how common causes are",
     SPT_TAKES_PAST, TEXT(past), SPT_OPTION_OWN},
    {"--print", NULL, "man|bash|zsh", "print the manual page or a shell completion",
     SPT_TAKES_PRINT, WORD(print, print_words), SPT_OPTION_OWN},
    {"--quiet", "-q", NULL, "omit cautions and remarks; flags that change or doubt a number stay",
     SPT_TAKES_QUIET, FLAG(quiet), SPT_OPTION_OUTPUT},
    {"--format", "-f", "csv|jsonl|npy", "format of the rows; default csv", SPT_TAKES_SWEEP,
     WORD(format, format_words), SPT_OPTION_OUTPUT},
    {"--cases", NULL, "CASES.csv", "table of load cases; - for standard input", SPT_TAKES_SWEEP,
     TEXT(sweep.cases), SPT_OPTION_OWN},
    {"--columns", NULL, "NAME,...", "result columns to write after the swept inputs",
     SPT_TAKES_SWEEP, TEXT(sweep.columns), SPT_OPTION_OWN},
    {"--rejects", NULL, "FILE", "write rows that cannot be read to FILE, each with the reason",
     SPT_TAKES_SWEEP, FILE_NAME(sweep.rejects), SPT_OPTION_OWN},
    {"--threads", "-j", "N", "number of threads, 1 to 256; default one for each processor",
     SPT_TAKES_SWEEP, COUNT(sweep.threads, 1, SWEEP_THREADS_MAX), SPT_OPTION_OWN},
    {"--shard", NULL, "K/N", "calculate part K of N only; the parts in order make the whole output",
     SPT_TAKES_SWEEP, TEXT(sweep.shard), SPT_OPTION_OWN},
    {"--resume", NULL, NULL, "continue an interrupted run with the same -o FILE", SPT_TAKES_SWEEP,
     FLAG(sweep.resume), SPT_OPTION_OWN},
    {"--format", "-f", "text|yaml|json|csv|html",
     "format of the output; yaml gives a section of a scenario", SPT_TAKES_DUTY,
     WORD(format, format_words), SPT_OPTION_OUTPUT},
    {"--history", NULL, "HISTORY.csv",
     "measured loads, used instead of the duty; - for standard input", SPT_TAKES_HISTORY,
     TEXT(measured.path), SPT_OPTION_INPUT},
    {"--bins", NULL, "LxSxT",
     "number of bins of load, speed and temperature; default 8x3x2, for a hub 4x2x2, for two loads "
     "without a scenario 5x2x2 with 2 bins of the second load, which otherwise has as many as the "
     "first",
     SPT_TAKES_BINNING, TEXT(measured.bins), SPT_OPTION_INPUT},
    {"--gap", NULL, "TIME", "a longer time between two rows is a gap: it is left out and reported",
     SPT_TAKES_BINNING, TEXT(measured.gap), SPT_OPTION_INPUT},
    {"--standing", NULL, "SPEED", "speeds up to this one count as standstill; default 0",
     SPT_TAKES_BINNING, TEXT(measured.standing), SPT_OPTION_INPUT},
    {"--color", NULL, "auto|always|never", "colours in text output", SPT_TAKES_COLOR,
     WORD(color, color_words), SPT_OPTION_OUTPUT},
};
const int spt_option_count = (int)(sizeof spt_option_table / sizeof *spt_option_table);

/* A whole number from `least` to `most`. */
static bool read_count(const char *value, const struct spt_option_value *kind, int *count)
{
    *count = 0;
    for (; *value >= '0' && *value <= '9' && *count <= kind->most; value++)
        *count = 10 * *count + (*value - '0');
    return !*value && *count >= kind->least && *count <= kind->most;
}

/* True where a word is one of a list such as "text|json|csv". */
static bool is_listed(const char *word, const char *list)
{
    size_t length = strlen(word);
    while (*list) {
        size_t entry = strcspn(list, "|");
        if (entry == length && !strncmp(list, word, length))
            return true;
        list += entry + (list[entry] == '|');
    }
    return false;
}

/* Index of a word among those that the option accepts. */
static bool read_word(const char *value, const struct spt_option *option, int *number)
{
    for (int i = 0; i <= option->kind.most; i++)
        if (!strcmp(value, option->kind.words[i])) {
            *number = i;
            return is_listed(value, option->value);
        }
    return false;
}

static bool add_folder(struct spt_options *options, const char *value)
{
    if (options->catalog_count == SPT_CATALOG_FOLDERS_MAX)
        return false;
    options->catalogs[options->catalog_count++] = value;
    return true;
}

/* Parses a value and stores it in its member; false where it is not valid. */
static bool set_value(struct spt_options *options, const struct spt_option *option,
                      const char *value)
{
    void *member = (char *)options + option->kind.at;
    if (!value && option->kind.what != SPT_OPTION_FLAG)
        return false;
    switch (option->kind.what) {
    case SPT_OPTION_FLAG:
        return *(bool *)member = true;
    case SPT_OPTION_TEXT:
    case SPT_OPTION_FILE:
        *(const char **)member = value;
        return *value && (option->kind.what == SPT_OPTION_TEXT || strcmp(value, "-") != 0);
    case SPT_OPTION_COUNT:
        return read_count(value, &option->kind, member);
    case SPT_OPTION_WORD:
        return read_word(value, option, member);
    case SPT_OPTION_FOLDER:
        return add_folder(options, value);
    }
    return false;
}

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

static bool refuse_unknown(struct spt_call *call, const char *command, const char *word)
{
    const char *names[64];
    int count = spt_option_count < 64 ? spt_option_count : 64;
    for (int i = 0; i < count; i++)
        names[i] = spt_option_table[i].name;
    const char *near = spt_nearest(word, names, count);
    spt_say(call, "spalltime %s: there is no option %s", command, word);
    if (near)
        spt_say(call, "; did you mean %s?\n", near);
    else
        spt_say(call, "; see `spalltime help %s`\n", command);
    return false;
}

/* Stores the value of an option, or sets it where it takes none. */
static bool apply(struct spt_options *options, unsigned takes, const char *command,
                  const struct spt_option *option, const char *value)
{
    if (!(takes & option->bit)) {
        spt_say(options->call,
                "spalltime %s: %s does not belong to this command; see `spalltime help %s`\n",
                command, option->name, command);
        return false;
    }
    if (!option->value == !value && set_value(options, option, value))
        return true;
    if (!option->value)
        spt_say(options->call, "spalltime %s: write %s without a value\n", command, option->name);
    else if (value && *value)
        spt_say(options->call, "spalltime %s: %s cannot be `%s`; write %s %s: %s\n", command,
                option->name, value, option->name, option->value, option->help);
    else
        spt_say(options->call, "spalltime %s: %s has no value; write %s %s: %s\n", command,
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

/* Short options combined in one word (POSIX): first those without a value, then at most one with a
 * value, which is the rest of the word or the next word. */
static bool read_letters(struct spt_options *options, unsigned takes, const char *command,
                         int count, char *const *words, int *at)
{
    const char *word = words[*at];
    for (const char *letter = word + 1; *letter; letter++) {
        const char alias[] = {'-', *letter, 0};
        const char *value = NULL;
        const struct spt_option *option = find_option(alias, takes, &value);
        if (!option && (letter == word + 1 || (unsigned char)*letter > 0x7f))
            return refuse_unknown(options->call, command, word);
        if (!option) {
            spt_say(options->call,
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
        return refuse_unknown(options->call, command, word);
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
        } else {
            options->arguments[options->argument_count++] = words[i];
        }
    }
    return true;
}
