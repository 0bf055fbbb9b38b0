/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "scenario/catalog/causes.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

#include "scenario/catalog/causes_load.h"
#include "words/table.h"

#define NAMES_MAX 160
#define WHOLE_TURN_RAD 6.283185307179587
#define LEAST_CAUSES 3 /* two, and the one that is none of the list */

SPT_LOCAL_WORDS(time_words, SPT_CAUSE_TIME_COUNT, "fatigue", "life", "early", "any", "other");
SPT_LOCAL_WORDS(effort_words, SPT_EFFORT_COUNT, "ask", "open", "measure");
SPT_LOCAL_WORDS(likelihood_words, SPT_LIKELIHOOD_COUNT, "never", "rarely", "sometimes", "often",
                "nearly always");
SPT_LOCAL_WORDS(answers_words, 2, "many", "one");
SPT_LOCAL_WORDS(back_words, 2, "after inspection", "no");
SPT_DEFINE_WORDS(spt_machine_words, SPT_MACHINE_COUNT, "hub", "plant");

/* Entries as written in the file. */
struct raw_cause {
    const struct spt_node *at;
    const char *means, *prevent;
    double hub, plant;
    int time;
};
struct raw_group {
    const struct spt_node *at;
    const char *question;
    int answers, hidden;
    const struct spt_node *words;
};
#define PLAIN .dimension = SPT_NO_DIMENSION, .other_dimension = SPT_NO_DIMENSION
#define TEXT(of, k, member, must, ex, text)                                                        \
    {                                                                                              \
        .key = k, .kind = SPT_FIELD_TEXT, .required = must, .offset = offsetof(struct of, member), \
        PLAIN, .example = ex, .help = text                                                         \
    }
#define SHARE(k, member)                                                                           \
    {                                                                                              \
        .key = k, .kind = SPT_FIELD_QUANTITY, .required = true,                                    \
        .offset = offsetof(struct raw_cause, member), PLAIN, .max = 100, .example = "8",           \
        .help = "of 100 damaged bearings, how many for this cause"                                 \
    }
#define CHOICE(of, k, member, choices, must, ex, text)                                             \
    {                                                                                              \
        .key = k, .kind = SPT_FIELD_CHOICE, .required = must,                                      \
        .offset = offsetof(struct of, member), PLAIN, .words = &choices, .example = ex,            \
        .help = text                                                                               \
    }
#define LINES(of, k, member, ex, text)                                                             \
    {                                                                                              \
        .key = k, .kind = SPT_FIELD_LINES, .offset = offsetof(struct of, member), PLAIN,           \
        .example = ex, .help = text                                                                \
    }

static const struct spt_field cause_fields[] = {
    TEXT(raw_cause, "means", means, false, "past the seal", "what its name leaves open"),
    SHARE("hub", hub),
    SHARE("plant", plant),
    CHOICE(raw_cause, "time", time, time_words, true, "any", "when it strikes"),
    TEXT(raw_cause, "prevent", prevent, true, "a new seal", "what keeps the next bearing from it"),
};
static const struct spt_field group_fields[] = {
    CHOICE(raw_group, "answers", answers, answers_words, true, "many",
           "whether its findings exclude each other"),
    TEXT(raw_group, "question", question, false, "when was it hot", "what they answer"),
    {.key = "hidden",
     .kind = SPT_FIELD_YES_NO,
     .offset = offsetof(struct raw_group, hidden),
     PLAIN,
     .example = "no",
     .help = "whether a bearing that was run to destruction hides them"},
    LINES(raw_group, "words", words, "[dents]", "words that name the question but no answer"),
};
#define LEVELS(of, ex)                                                                             \
    LINES(of, "nearly_always", levels[SPT_LIKELIHOOD_NEARLY_ALWAYS], ex, "0.9"),                   \
        LINES(of, "often", levels[SPT_LIKELIHOOD_OFTEN], ex, "0.6"),                               \
        LINES(of, "sometimes", levels[SPT_LIKELIHOOD_SOMETIMES], ex, "0.25"),                      \
        LINES(of, "rarely", levels[SPT_LIKELIHOOD_RARELY], ex, "0.05"),                            \
        LINES(of, "never", levels[SPT_LIKELIHOOD_NEVER], ex, "0.01")
static const struct spt_field mode_fields[] = {LEVELS(spt_raw_modes, "[creep]")};

#define ARC(k, member, text)                                                                       \
    {                                                                                              \
        .key = k, .kind = SPT_FIELD_QUANTITY, .offset = offsetof(struct spt_raw_finding, member),  \
        .dimension = SPT_ANGLE, .other_dimension = SPT_NO_DIMENSION, .max = WHOLE_TURN_RAD,        \
        .example = "90 deg", .help = text                                                          \
    }
#define SECTION(name, of, fields)                                                                  \
    {                                                                                              \
        name, "", fields, (int)(sizeof(fields) / sizeof *(fields)), sizeof(struct of)              \
    }
static const struct spt_section section_modes = SECTION("modes", spt_raw_modes, mode_fields);
static const struct spt_field finding_fields[] = {
    TEXT(spt_raw_finding, "group", group, true, "dirt", "the group that it belongs to"),
    CHOICE(spt_raw_finding, "look", look, effort_words, true, "open", "what it takes to look"),
    CHOICE(spt_raw_finding, "base", base, likelihood_words, true, "rarely",
           "how likely it is with a cause that is not named"),
    LEVELS(spt_raw_finding, "[overload]"),
    {.key = "modes",
     .kind = SPT_FIELD_SECTION,
     .offset = offsetof(struct spt_raw_finding, modes),
     PLAIN,
     .section = &section_modes,
     .example = "{often: [creep]}",
     .help = "how likely it is with a mode of damage"},
    CHOICE(spt_raw_finding, "goes_back", goes_back, back_words, false, "no",
           "what it says alone about further use"),
    {.key = "stops",
     .kind = SPT_FIELD_YES_NO,
     .offset = offsetof(struct spt_raw_finding, stops),
     PLAIN,
     .example = "yes",
     .help = "a wheel bearing is out of service as soon as it is seen"},
    TEXT(spt_raw_finding, "remark", remark, false, "the loaded row is loud",
         "what it tells beside the cause"),
    LINES(spt_raw_finding, "words", words, "[spun race]", "what people say, for the search"),
    LINES(spt_raw_finding, "excludes", excludes, "[greasing overdue]",
          "findings that cannot be there beside it"),
    LINES(spt_raw_finding, "implies", implies, "[gritty grease]",
          "findings that are there with it"),
    ARC("arc_from", arc_from_rad, "shortest worn path with it"),
    ARC("arc_to", arc_to_rad, "longest worn path with it"),
};
static const struct spt_section section_cause = SECTION("the cause", raw_cause, cause_fields);
static const struct spt_section section_group = SECTION("the group", raw_group, group_fields);
static const struct spt_section section_finding =
    SECTION("the finding", spt_raw_finding, finding_fields);

const char *spt_likelihood_name(enum spt_likelihood likelihood)
{
    return spt_word(&likelihood_words, (int)likelihood);
}

const char *spt_effort_name(enum spt_effort effort)
{
    return effort == SPT_EFFORT_OPEN ? "open and wash" : spt_word(&effort_words, (int)effort);
}

static int find_cause(const struct spt_causes_loading *loading, const char *name)
{
    return spt_causes_cause(loading->causes, name);
}

static int find_group(const struct spt_causes_loading *loading, const char *name)
{
    for (int i = 0; i < loading->causes->table.group_count; i++)
        if (!strcmp(loading->group_list[i].name, name))
            return i;
    return -1;
}

/* True where the name of an entry can stand in a list of a case file. */
static bool is_sound_name(const struct spt_node *key, const char *what,
                          struct spt_diagnostics *diags)
{
    if (!key->length)
        spt_diagnostics_add(diags, key->mark, "this %s has no name; write one", what);
    else if (strpbrk(key->text, ",:[]{}#"))
        spt_diagnostics_add(diags, key->mark,
                            "`%.60s` has a comma, colon or bracket; names go into lists, so write "
                            "it without",
                            key->text);
    return key->length && !strpbrk(key->text, ",:[]{}#");
}

static bool has_room(int count, int most, const struct spt_node *key, const char *what,
                     struct spt_diagnostics *diags)
{
    if (count == most)
        spt_diagnostics_add(diags, key->mark, "more than %d %s; take some out", most, what);
    return count < most;
}

static void read_cause(struct spt_causes_loading *loading, const struct spt_node *key,
                       const struct spt_node *node)
{
    struct raw_cause raw;
    struct spt_diagnosis_table *table = &loading->causes->table;
    if (find_cause(loading, key->text) >= 0 ||
        !has_room(table->cause_count, SPT_DIAGNOSIS_CAUSES_MAX, key, "causes", loading->diags))
        return;
    spt_section_read(&section_cause, node, &raw, loading->diags);
    loading->cause_keys[table->cause_count] = key;
    loading->cause_list[table->cause_count++] = (struct spt_diagnosis_cause){
        .name = key->text,
        .means = raw.means,
        .prevent = raw.prevent ? raw.prevent : "",
        .per_100 = {[SPT_MACHINE_HUB] = raw.hub, [SPT_MACHINE_PLANT] = raw.plant},
        .time = raw.time < 0 ? SPT_CAUSE_TIME_ANY : (enum spt_cause_time)raw.time,
    };
}

static void read_group(struct spt_causes_loading *loading, const struct spt_node *key,
                       const struct spt_node *node)
{
    struct raw_group raw;
    struct spt_diagnosis_table *table = &loading->causes->table;
    if (find_group(loading, key->text) >= 0 ||
        !has_room(table->group_count, SPT_DIAGNOSIS_GROUPS_MAX, key, "groups", loading->diags))
        return;
    spt_section_read(&section_group, node, &raw, loading->diags);
    if (raw.answers == 1 && !raw.question)
        spt_diagnostics_add(loading->diags, node->mark,
                            "the group lacks `question`; say what its findings answer, such as "
                            "`question: when was it hot`");
    loading->group_words[table->group_count] = raw.words;
    loading->group_list[table->group_count++] = (struct spt_diagnosis_group){
        .name = key->text,
        .question = raw.answers == 1 ? raw.question : NULL,
        .one = raw.answers == 1,
        .hidden = raw.hidden == 1,
    };
}

static void keep_finding(struct spt_causes_loading *loading, const struct spt_node *key,
                         const struct spt_node *node)
{
    struct spt_diagnosis_table *table = &loading->causes->table;
    if (spt_causes_finding(loading->causes, key->text) >= 0 ||
        !has_room(table->finding_count, SPT_DIAGNOSIS_FINDINGS_MAX, key, "findings",
                  loading->diags))
        return;
    loading->finding_keys[table->finding_count] = key;
    spt_section_read(&section_finding, node, &loading->raws[table->finding_count], loading->diags);
    loading->finding_list[table->finding_count++].name = key->text;
}

static void read_entries(struct spt_causes_loading *loading, const struct spt_node *group,
                         const char *what,
                         void (*read)(struct spt_causes_loading *, const struct spt_node *,
                                      const struct spt_node *))
{
    if (group->kind != SPT_NODE_MAPPING) {
        spt_diagnostics_add(loading->diags, group->mark,
                            "this should be a mapping from the name of each %s to its entry", what);
        return;
    }
    for (int i = 0; i < group->count; i++)
        if (group->items[i]->kind != SPT_NODE_MAPPING)
            spt_diagnostics_add(loading->diags, group->items[i]->mark,
                                "`%.60s` should be a mapping of keys and values",
                                group->keys[i]->text);
        else if (is_sound_name(group->keys[i], what, loading->diags))
            read(loading, group->keys[i], group->items[i]);
}

/* True for a list of texts, or of lists of texts. */
static bool are_words(const struct spt_node *list, bool of_lists, struct spt_diagnostics *diags)
{
    bool sound = list->kind == SPT_NODE_SEQUENCE;
    for (int i = 0; sound && i < list->count; i++)
        sound = of_lists ? are_words(list->items[i], false, diags)
                         : list->items[i]->kind == SPT_NODE_SCALAR;
    if (!sound)
        spt_diagnostics_add(diags, list->mark, "this should be a list of %s",
                            of_lists ? "lists of words" : "words");
    return sound;
}

static void keep_words(const struct spt_node **list, const struct spt_node *node, bool of_lists,
                       struct spt_diagnostics *diags)
{
    if (!*list && are_words(node, of_lists, diags))
        *list = node;
}

static void read_mapping(struct spt_causes_loading *loading, const struct spt_node *node)
{
    if (node->kind != SPT_NODE_MAPPING) {
        spt_diagnostics_add(loading->diags, node->mark,
                            "`diagnosis` should be a mapping with `causes`, `groups` and "
                            "`findings`");
        return;
    }
    for (int i = 0; i < node->count; i++) {
        const char *key = node->keys[i]->text;
        const struct spt_node *value = node->items[i];
        if (!strcmp(key, "causes"))
            read_entries(loading, value, "cause", read_cause);
        else if (!strcmp(key, "groups"))
            read_entries(loading, value, "group", read_group);
        else if (!strcmp(key, "findings"))
            read_entries(loading, value, "finding", keep_finding);
        else if (!strcmp(key, "stop_words"))
            keep_words(&loading->stops, value, false, loading->diags);
        else if (!strcmp(key, "synonyms"))
            keep_words(&loading->synonyms, value, true, loading->diags);
        else if (!strcmp(key, "everyday"))
            keep_words(&loading->everyday, value, false, loading->diags);
        else if (!strcmp(key, "outside"))
            keep_words(&loading->outside, value, false, loading->diags);
        else
            spt_diagnostics_add(loading->diags, node->keys[i]->mark,
                                "`%.60s` is not a key of `diagnosis`; its keys are: causes, "
                                "groups, findings, stop_words, synonyms, everyday, outside",
                                key);
    }
}

/* Sets the level of each cause that a list names. */
static void read_levels(struct spt_causes_loading *loading, const struct spt_node *list,
                        enum spt_likelihood level, enum spt_likelihood *of_cause, bool *named)
{
    for (int i = 0; list && i < list->count; i++) {
        const struct spt_node *name = list->items[i];
        const int cause = find_cause(loading, name->text);
        const char *near = spt_causes_nearest_cause(loading->causes, name->text);
        if (cause < 0)
            spt_diagnostics_add(loading->diags, name->mark,
                                near ? "`%.60s` is not a cause; did you mean `%s`?"
                                     : "`%.60s` is not a cause; add it under `causes`",
                                name->text, near);
        else if (named[cause])
            spt_diagnostics_add(loading->diags, name->mark,
                                "`%.60s` has a level in this finding already; keep one of the two",
                                name->text);
        else if (loading->cause_list[cause].time == SPT_CAUSE_TIME_OTHER)
            spt_diagnostics_add(loading->diags, name->mark,
                                "`%.60s` has the mean of the others; take it out of the list",
                                name->text);
        if (cause >= 0) {
            of_cause[cause] = level;
            named[cause] = true;
        }
    }
}

static int find_mode(const struct spt_causes *causes, const char *name)
{
    for (int i = 0; i < causes->table.mode_count; i++)
        if (!strcmp(causes->table.modes[i], name))
            return i;
    return -1;
}

static void read_signs(struct spt_causes_loading *loading, const struct spt_raw_modes *raw,
                       struct spt_diagnosis_finding *finding)
{
    struct spt_diagnosis_sign *signs =
        spt_arena_allocate(&loading->causes->arena, SPT_DIAGNOSIS_MODES_MAX * sizeof *signs);
    if (!signs) {
        loading->diags->out_of_memory = true;
        return;
    }
    for (int level = 0; level < SPT_LIKELIHOOD_COUNT; level++)
        for (int i = 0; raw->levels[level] && i < raw->levels[level]->count; i++) {
            const struct spt_node *name = raw->levels[level]->items[i];
            const int mode = find_mode(loading->causes, name->text);
            const char *near = spt_guide_nearest(loading->causes->guide, name->text);
            if (mode >= 0 && finding->sign_count < SPT_DIAGNOSIS_MODES_MAX)
                signs[finding->sign_count++] =
                    (struct spt_diagnosis_sign){mode, (enum spt_likelihood)level};
            else
                spt_diagnostics_add(loading->diags, name->mark,
                                    near ? "no mode is called `%.60s`; did you mean `%s`?"
                                         : "no mode of the damage guide is called `%.60s`",
                                    name->text, near);
        }
    finding->signs = signs;
}

/* The findings that a list names. Result: their count. */
static int read_tied(struct spt_causes_loading *loading, const struct spt_node *list,
                     const int **tied)
{
    int count = 0;
    int *found = spt_arena_allocate(&loading->causes->arena,
                                    (size_t)(list ? list->count + 1 : 1) * sizeof *found);
    if (!found)
        loading->diags->out_of_memory = true;
    for (int i = 0; found && list && i < list->count; i++) {
        const struct spt_node *name = list->items[i];
        const char *near = spt_causes_nearest_finding(loading->causes, name->text);
        const int finding = spt_causes_finding(loading->causes, name->text);
        if (finding >= 0)
            found[count++] = finding;
        else
            spt_diagnostics_add(loading->diags, name->mark,
                                near ? "no finding is called `%.60s`; did you mean `%s`?"
                                     : "no finding is called `%.60s`; add it under `findings`",
                                name->text, near);
    }
    *tied = found;
    return count;
}

static void read_ties(struct spt_causes_loading *loading, int at)
{
    const struct spt_raw_finding *raw = &loading->raws[at];
    struct spt_finding_ties *ties = &loading->ties[at];
    ties->excluded_count = read_tied(loading, raw->excludes, &ties->excluded);
    ties->implied_count = read_tied(loading, raw->implies, &ties->implied);
    ties->arc_from_rad = raw->arc_from_rad;
    ties->arc_to_rad = raw->arc_to_rad;
}

static void read_finding(struct spt_causes_loading *loading, int at)
{
    struct spt_causes *causes = loading->causes;
    const struct spt_raw_finding *raw = &loading->raws[at];
    struct spt_diagnosis_finding *finding = &loading->finding_list[at];
    bool named[SPT_DIAGNOSIS_CAUSES_MAX] = {false};
    enum spt_likelihood *of_cause =
        spt_arena_allocate(&causes->arena, SPT_DIAGNOSIS_CAUSES_MAX * sizeof *of_cause);
    if (!of_cause) {
        loading->diags->out_of_memory = true;
        return;
    }
    for (int c = 0; c < causes->table.cause_count; c++)
        of_cause[c] = raw->base < 0 ? SPT_LIKELIHOOD_RARELY : (enum spt_likelihood)raw->base;
    for (int level = 0; level < SPT_LIKELIHOOD_COUNT; level++)
        read_levels(loading, raw->levels[level], (enum spt_likelihood)level, of_cause, named);
    finding->of_cause = of_cause;
    finding->remark = raw->remark;
    finding->effort = raw->look < 0 ? SPT_EFFORT_ASK : (enum spt_effort)raw->look;
    finding->back = raw->goes_back < 0    ? SPT_FINDING_BACK_OPEN
                    : raw->goes_back == 0 ? SPT_FINDING_BACK_INSPECTED
                                          : SPT_FINDING_BACK_NO;
    finding->stops = raw->stops == 1;
    finding->group = raw->group ? find_group(loading, raw->group) : -1;
    if (raw->group && finding->group < 0)
        spt_diagnostics_add(loading->diags, spt_node_mark(raw->at, "group"),
                            "`%.60s` is not a group; add it under `groups`", raw->group);
    read_signs(loading, &raw->modes, finding);
    read_ties(loading, at);
}

/* ---- what has to hold of the whole table ---- */

static void check_shares(struct spt_causes_loading *loading, struct spt_mark mark)
{
    const struct spt_diagnosis_table *table = &loading->causes->table;
    for (int machine = 0; machine < SPT_MACHINE_COUNT; machine++) {
        double sum = 0;
        for (int c = 0; c < table->cause_count; c++)
            sum += table->causes[c].per_100[machine];
        if (!(fabs(sum - 100) < 1e-6))
            spt_diagnostics_add(loading->diags, mark,
                                "the shares `%s` of all causes sum to %.6g; they have to sum to "
                                "100",
                                spt_word(&spt_machine_words, machine), sum);
    }
}

static void check_only(struct spt_causes_loading *loading, enum spt_cause_time time,
                       struct spt_mark mark)
{
    int count = 0;
    for (int c = 0; c < loading->causes->table.cause_count; c++)
        count += loading->cause_list[c].time == time;
    if (count != 1)
        spt_diagnostics_add(loading->diags, mark, "%d causes have `time: %s`; exactly one has to",
                            count, spt_word(&time_words, (int)time));
}

static void check_groups(struct spt_causes_loading *loading)
{
    const struct spt_diagnosis_table *table = &loading->causes->table;
    int counts[SPT_DIAGNOSIS_GROUPS_MAX] = {0};
    for (int f = 0; f < table->finding_count; f++) {
        const int group = loading->finding_list[f].group;
        if (group >= 0 && loading->group_list[group].one &&
            ++counts[group] > SPT_DIAGNOSIS_ANSWERS_MAX)
            spt_diagnostics_add(loading->diags, loading->finding_keys[f]->mark,
                                "more than %d findings answer the question of the group `%s`; put "
                                "some into another group",
                                SPT_DIAGNOSIS_ANSWERS_MAX, loading->group_list[group].name);
    }
}

/* ---- loading ---- */

static bool allocate_lists(struct spt_causes_loading *loading)
{
    struct spt_causes *causes = loading->causes;
    struct spt_arena *arena = &causes->arena;
    const int modes = causes->guide ? causes->guide->count : 0;
    const char **names = spt_arena_allocate(arena, (size_t)(modes + 1) * sizeof *names);
    loading->cause_list =
        spt_arena_allocate(arena, SPT_DIAGNOSIS_CAUSES_MAX * sizeof *loading->cause_list);
    loading->group_list =
        spt_arena_allocate(arena, SPT_DIAGNOSIS_GROUPS_MAX * sizeof *loading->group_list);
    loading->finding_list =
        spt_arena_allocate(arena, SPT_DIAGNOSIS_FINDINGS_MAX * sizeof *loading->finding_list);
    loading->ties = spt_arena_allocate(arena, SPT_DIAGNOSIS_FINDINGS_MAX * sizeof *loading->ties);
    loading->raws = spt_arena_allocate(arena, SPT_DIAGNOSIS_FINDINGS_MAX * sizeof *loading->raws);
    if (!names || !loading->cause_list || !loading->group_list || !loading->finding_list ||
        !loading->ties || !loading->raws || !spt_vocabulary_begin(&causes->vocabulary, arena))
        return false;
    for (int m = 0; m < modes; m++)
        names[m] = causes->guide->entries[m].name;
    causes->ties = loading->ties;
    causes->table = (struct spt_diagnosis_table){
        .causes = loading->cause_list,
        .groups = loading->group_list,
        .findings = loading->finding_list,
        .modes = names,
        .mode_count = modes < SPT_DIAGNOSIS_MODES_MAX ? modes : SPT_DIAGNOSIS_MODES_MAX,
    };
    return true;
}

/* Checks what has to hold of all entries together. */
static void check_table(struct spt_causes_loading *loading, struct spt_mark mark)
{
    if (loading->causes->table.cause_count < LEAST_CAUSES)
        spt_diagnostics_add(loading->diags, mark, "fewer than %d causes; there is nothing to weigh",
                            LEAST_CAUSES);
    check_shares(loading, mark);
    check_only(loading, SPT_CAUSE_TIME_FATIGUE, mark);
    check_only(loading, SPT_CAUSE_TIME_OTHER, mark);
    check_groups(loading);
}

bool spt_causes_load(const struct spt_catalog *catalog, const struct spt_guide *guide,
                     struct spt_causes *causes, struct spt_diagnostics *diags)
{
    struct spt_causes_loading loading = {.causes = causes, .diags = diags};
    *causes = (struct spt_causes){.guide = guide};
    if (!allocate_lists(&loading)) {
        diags->out_of_memory = true;
        return false;
    }
    for (const struct spt_catalog_guide *at = catalog->causes; at; at = at->next)
        read_mapping(&loading, at->node);
    for (int f = 0; f < causes->table.finding_count; f++)
        read_finding(&loading, f);
    if (catalog->causes && !spt_diagnostics_any(diags))
        check_table(&loading, catalog->causes->node->mark);
    if (spt_diagnostics_any(diags) || diags->out_of_memory)
        return false;
    spt_causes_read_phrases(&loading);
    return !spt_diagnostics_any(diags) && !diags->out_of_memory;
}

int spt_causes_cause(const struct spt_causes *causes, const char *name)
{
    for (int i = 0; i < causes->table.cause_count; i++)
        if (!strcmp(causes->table.causes[i].name, name))
            return i;
    return -1;
}

int spt_causes_finding(const struct spt_causes *causes, const char *name)
{
    for (int i = 0; i < causes->table.finding_count; i++)
        if (!strcmp(causes->table.findings[i].name, name))
            return i;
    return -1;
}

const char *spt_causes_nearest_cause(const struct spt_causes *causes, const char *name)
{
    const char *names[NAMES_MAX];
    for (int i = 0; i < causes->table.cause_count; i++)
        names[i] = causes->table.causes[i].name;
    return spt_nearest(name, names, causes->table.cause_count);
}

const char *spt_causes_nearest_finding(const struct spt_causes *causes, const char *name)
{
    const char *names[NAMES_MAX];
    for (int i = 0; i < causes->table.finding_count; i++)
        names[i] = causes->table.findings[i].name;
    return spt_nearest(name, names, causes->table.finding_count);
}

void spt_causes_free(struct spt_causes *causes)
{
    spt_arena_free(&causes->arena);
    *causes = (struct spt_causes){0};
}
