/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "scenario/case_file.h"

#include <math.h>
#include <string.h>

#include "scenario/build/section_fields.h"
#include "scenario/catalog/search.h"
#include "words/table.h"

#define CASES_MAX 1000
#define WHOLE_TURN_RAD 6.283185307179587
#define FOUND_LENGTH 260
#define TOO_CLOSE 0.9 /* of the best score: which of two findings was meant cannot be told */

static const double sures[] = {1, 0.8, 0.6};
SPT_LOCAL_WORDS(sure_words, 3, "yes", "fairly", "hardly");
SPT_DEFINE_WORDS(spt_ring_words, SPT_RING_COUNT, "inner", "outer");
SPT_LOCAL_WORDS(load_words, 2, "fixed", "turning");

struct raw_finding {
    const struct spt_node *at;
    const char *finding, *say, *note;
    int seen, sure;
};
struct raw_ruling {
    const struct spt_node *at;
    const char *cause, *because;
};
struct raw_arc {
    const struct spt_node *at;
    int ring;
    double length_rad;
};
struct raw_case {
    const struct spt_node *at;
    const char *title, *note, *question, *scenario, *row, *past;
    int machine, on_bench, destroyed, turning, load;
    struct spt_amount ran, last_sound;
    const struct spt_node *conditions, *findings, *ruled_out;
    struct raw_arc arc;
};

#define S struct raw_finding
static const struct spt_field finding_fields[] = {
    TEXT("finding", finding, "gritty grease", "a finding by its name"),
    TEXT("say", say, "rough by hand", "the same in words that the search takes for it"),
    TEXT("note", note, "grey streaks", "anything, which counts nothing"),
    YES_NO("seen", seen, "no: looked for and not there"),
    CHOICE("sure", sure, &sure_words, "fairly", "how sure it is"),
};
static const struct spt_section section_finding = {"the finding", "", finding_fields,
                                                   COUNT(finding_fields), sizeof(S)};
#undef S
#define S struct raw_ruling
static const struct spt_field ruling_fields[] = {
    NEEDED_TEXT("cause", cause, "electric current", "a cause that cannot be"),
    NEEDED_TEXT("because", because, "no electrics on it", "why"),
};
static const struct spt_section section_ruling = {"the cause that is ruled out", "", ruling_fields,
                                                  COUNT(ruling_fields), sizeof(S)};
#undef S
#define S struct raw_arc
static const struct spt_field arc_fields[] = {
    {.key = "ring",
     .kind = SPT_FIELD_CHOICE,
     .required = true,
     MEMBER(ring),
     .words = &spt_ring_words,
     .example = "inner",
     .help = "ring that was measured"},
    NEEDED("length", length_rad, SPT_ANGLE, 0, WHOLE_TURN_RAD, "75 deg", "length of its worn path"),
};
static const struct spt_section section_arc = {"`arc`", "", arc_fields, COUNT(arc_fields),
                                               sizeof(S)};
#undef S
static const struct spt_field condition_fields[] = {
    {.key = "the names of causes", .kind = SPT_FIELD_TEXT, .help = "the variant for this cause"}};
static const struct spt_section section_conditions = {"`conditions`", "", condition_fields, 1, 0};

#define S struct raw_case
static const struct spt_field case_fields[] = {
    NEEDED_TEXT("case", title, "Trailer 14, near side", "title"),
    TEXT("note", note, "came in on a low loader", "anything, which counts nothing"),
    TEXT("question", question, "What came first?", "what a class is asked before the answer"),
    {.key = "machine",
     .kind = SPT_FIELD_CHOICE,
     .required = true,
     MEMBER(machine),
     .words = &spt_machine_words,
     .example = "hub",
     .help = "whose shares of causes"},
    TEXT("scenario", scenario, "beet_trailer_hub.yaml", "scenario of the bearing, beside the case"),
    TEXT("row", row, "inboard", "which bearing of the scenario"),
    TEXT("past", past, "shop_counts.csv", "confirmed cases of the shop"),
    AMOUNT("hours", ran, SPT_DURATION, SPT_DISTANCE, NULL, 1e-3, LIFE_MAX_H, false, "3100 h",
           "running hours or distance at removal"),
    AMOUNT("last_sound", last_sound, SPT_DURATION, SPT_DISTANCE, NULL, 0, LIFE_MAX_H, false,
           "2400 h", "the same when it was last seen sound"),
    MAPPING("conditions", conditions, &section_conditions, "{overload: heavy loads}",
            "variant of the scenario for each cause that it stands for"),
    YES_NO("on_bench", on_bench, "it is open and washed, so looking costs little"),
    YES_NO("destroyed", destroyed, "seized, burnt or in pieces"),
    CHOICE("turning", turning, &spt_ring_words, "outer", "ring that turns"),
    CHOICE("load", load, &load_words, "fixed", "fixed in space, or turning with the ring"),
    {.key = "findings",
     .kind = SPT_FIELD_LIST,
     .required = true,
     .or_name = true,
     MEMBER(findings),
     .section = &section_finding,
     .example = "a list of findings",
     .help = "what was looked for"},
    SECTION("arc", arc, &section_arc, "worn path that was measured"),
    LIST("ruled_out", ruled_out, false, &section_ruling, "[{cause: overload, because: weighed}]",
         "causes that cannot be"),
};
const struct spt_section spt_section_damage_case = {"the case", "", case_fields, COUNT(case_fields),
                                                    sizeof(S)};
#undef S

const char *spt_sure_name(double sure)
{
    int at = 0;
    while (at < 2 && sure < sures[at])
        at++;
    return sure_words.list[at];
}

struct reading {
    const struct spt_causes *causes;
    struct spt_arena *arena;
    struct spt_diagnostics *diags;
};

static void *allocate(struct reading *reading, size_t size)
{
    void *memory = spt_arena_allocate(reading->arena, size);
    if (!memory)
        reading->diags->out_of_memory = true;
    return memory;
}

static int find_cause(struct reading *reading, const char *name, struct spt_mark mark)
{
    const int cause = spt_causes_cause(reading->causes, name);
    const char *near = spt_causes_nearest_cause(reading->causes, name);
    if (cause < 0 && near)
        spt_diagnostics_add(reading->diags, mark, "`%.60s` is not a cause; did you mean `%s`?",
                            name, near);
    else if (cause < 0)
        spt_diagnostics_add(reading->diags, mark,
                            "`%.60s` is not a cause; the table `diagnosis` of the catalog lists "
                            "them",
                            name);
    return cause;
}

static int find_named(struct reading *reading, const char *name, struct spt_mark mark)
{
    const int finding = spt_causes_finding(reading->causes, name);
    const char *near = spt_causes_nearest_finding(reading->causes, name);
    if (finding < 0 && near)
        spt_diagnostics_add(reading->diags, mark,
                            "no finding is called `%.60s`; did you mean `%s`?", name, near);
    else if (finding < 0)
        spt_diagnostics_add(reading->diags, mark,
                            "no finding is called `%.60s`; write `{say: ...}` to have it searched, "
                            "or look with `spalltime damage \"%.60s\"`",
                            name, name);
    return finding;
}

/* Lists findings of a search: "`a`, `b` and `c`". */
static const char *list_found(const struct reading *reading, const struct spt_search_result *found,
                              char *line, size_t size)
{
    *line = 0;
    for (int i = 0; i < found->finding_count; i++) {
        const size_t used = strlen(line);
        snprintf(line + used, size - used, "%s`%s`",
                 !i                              ? ""
                 : i == found->finding_count - 1 ? " and "
                                                 : ", ",
                 reading->causes->table.findings[found->findings[i].owner].name);
    }
    return line;
}

/* True where words say two things, which are findings of their own. */
static bool has_parts(const struct spt_search_result *found)
{
    for (int i = 0; i < found->finding_count; i++)
        if (found->findings[i].part > 0)
            return true;
    return false;
}

/* The finding that words stand for; -1 with a diagnostic. */
static int find_said(struct reading *reading, const char *say, struct spt_mark mark, bool *absent)
{
    struct spt_query query;
    struct spt_search_result found;
    char line[FOUND_LENGTH];
    struct spt_diagnostics *diags = reading->diags;
    spt_query_read(&reading->causes->vocabulary, say, &query);
    spt_search(reading->causes, &query, &found);
    list_found(reading, &found, line, sizeof line);
    const bool close =
        found.finding_count > 1 && found.findings[1].score > TOO_CLOSE * found.findings[0].score;
    if (found.outside)
        spt_diagnostics_add(diags, mark,
                            "`%.60s` is outside the table: a laboratory has to look; write it as "
                            "a `note`",
                            say);
    else if (!found.finding_count)
        spt_diagnostics_add(diags, mark,
                            "nothing in the table fits `say: %.60s`; say it in other words, or "
                            "write it as a `note`",
                            say);
    else if (has_parts(&found))
        spt_diagnostics_add(diags, mark,
                            "`say: %.60s` says more than one thing (%s); write a line for each",
                            say, line);
    else if (found.group >= 0)
        spt_diagnostics_add(diags, mark, "`say: %.60s` does not tell which; name one of: %s", say,
                            line);
    else if (close)
        spt_diagnostics_add(diags, mark, "`say: %.60s` fits %s; name the one that is meant", say,
                            line);
    else {
        *absent = found.findings[0].absent;
        return found.findings[0].owner;
    }
    return -1;
}

/* Reports the same finding twice, or two that exclude each other. */
static bool fits_others(struct reading *reading, const struct spt_damage_case *one,
                        const struct spt_case_finding *added)
{
    const struct spt_diagnosis_table *table = &reading->causes->table;
    const struct spt_diagnosis_finding *finding = &table->findings[added->finding];
    for (int i = 0; i < one->finding_count; i++) {
        const struct spt_case_finding *before = &one->findings[i];
        const struct spt_diagnosis_finding *other = &table->findings[before->finding];
        if (before->finding == added->finding) {
            spt_diagnostics_add(reading->diags, added->mark,
                                "`%s` is stated already in line %d; keep one of the two",
                                finding->name, before->mark.line);
            return false;
        }
        if (before->seen && added->seen && other->group == finding->group &&
            table->groups[finding->group].one) {
            spt_diagnostics_add(reading->diags, added->mark,
                                "`%s` and `%s` (line %d) answer the same question (%s?); keep one "
                                "of the two",
                                finding->name, other->name, before->mark.line,
                                table->groups[finding->group].question);
            return false;
        }
    }
    return true;
}

/* Reads one member of `findings`. Result: false with a diagnostic. */
static bool read_finding(struct reading *reading, const struct spt_node *node,
                         struct spt_case_finding *read)
{
    struct raw_finding raw;
    bool absent = false;
    *read = (struct spt_case_finding){.seen = true, .sure = 1, .mark = node->mark};
    if (node->kind == SPT_NODE_SCALAR) {
        read->finding = find_named(reading, node->text, node->mark);
        return read->finding >= 0;
    }
    if (node->kind != SPT_NODE_MAPPING) {
        spt_diagnostics_add(reading->diags, node->mark,
                            "a finding is its name, or a mapping such as `{finding: gritty grease, "
                            "seen: no}`");
        return false;
    }
    spt_section_read(&section_finding, node, &raw, reading->diags);
    if (!raw.finding == !raw.say) {
        spt_diagnostics_add(reading->diags, node->mark,
                            "a finding has either `finding` (its name) or `say` (words to search)");
        return false;
    }
    read->finding = raw.finding ? find_named(reading, raw.finding, spt_node_mark(node, "finding"))
                                : find_said(reading, raw.say, spt_node_mark(node, "say"), &absent);
    read->said = raw.say;
    read->note = raw.note;
    read->seen = raw.seen != 0 && !absent;
    read->sure = raw.sure < 0 ? 1 : sures[raw.sure];
    return read->finding >= 0;
}

static void read_findings(struct reading *reading, const struct spt_node *list,
                          struct spt_damage_case *one)
{
    if (!list)
        return;
    one->findings = allocate(reading, (size_t)list->count * sizeof *one->findings);
    for (int i = 0; one->findings && i < list->count; i++) {
        struct spt_case_finding *added = &one->findings[one->finding_count];
        if (read_finding(reading, list->items[i], added) && fits_others(reading, one, added))
            one->finding_count++;
    }
}

static void read_conditions(struct reading *reading, const struct spt_node *mapping,
                            struct spt_damage_case *one)
{
    if (!mapping)
        return;
    one->conditions = allocate(reading, (size_t)(mapping->count + 1) * sizeof *one->conditions);
    for (int i = 0; one->conditions && i < mapping->count; i++) {
        const struct spt_node *key = mapping->keys[i], *value = mapping->items[i];
        const int cause = find_cause(reading, key->text, key->mark);
        if (value->kind != SPT_NODE_SCALAR || !value->length)
            spt_diagnostics_add(reading->diags, value->mark,
                                "`%.60s` should be the name of a variant of the scenario",
                                key->text);
        else if (cause >= 0 && reading->causes->table.causes[cause].time != SPT_CAUSE_TIME_LIFE)
            spt_diagnostics_add(reading->diags, key->mark,
                                "no life law goes with the cause `%.60s`; take it out of "
                                "`conditions`",
                                key->text);
        else if (cause >= 0)
            one->conditions[one->condition_count++] =
                (struct spt_case_condition){cause, value->text, value->mark};
    }
}

static void read_rulings(struct reading *reading, const struct spt_node *list,
                         struct spt_damage_case *one)
{
    one->because =
        allocate(reading, (size_t)(reading->causes->table.cause_count + 1) * sizeof *one->because);
    for (int i = 0; list && one->because && i < list->count; i++) {
        struct raw_ruling raw;
        if (list->items[i]->kind != SPT_NODE_MAPPING) {
            spt_diagnostics_add(reading->diags, list->items[i]->mark,
                                "this should be a mapping such as `{cause: electric current, "
                                "because: no electrics on it}`");
            continue;
        }
        spt_section_read(&section_ruling, list->items[i], &raw, reading->diags);
        const struct spt_mark mark = spt_node_mark(list->items[i], "cause");
        const int cause = raw.cause ? find_cause(reading, raw.cause, mark) : -1;
        if (cause < 0)
            continue;
        if (reading->causes->table.causes[cause].time == SPT_CAUSE_TIME_OTHER)
            spt_diagnostics_add(reading->diags, mark,
                                "`%.60s` always stays possible; take it out of `ruled_out`",
                                raw.cause);
        one->because[cause] = raw.because ? raw.because : "";
    }
}

/* Reports times that do not go together. */
static void read_times(struct reading *reading, const struct spt_node *node,
                       const struct raw_case *raw, struct spt_damage_case *one)
{
    one->ran = raw->ran.value;
    one->last_sound = raw->last_sound.value;
    one->in_km = raw->ran.dimension == SPT_DISTANCE;
    const struct spt_mark mark = spt_node_mark(node, "last_sound");
    if (isnan(one->last_sound))
        return;
    if (isnan(one->ran))
        spt_diagnostics_add(reading->diags, mark, "`last_sound` needs `hours` at removal too");
    else if (raw->last_sound.dimension != raw->ran.dimension)
        spt_diagnostics_add(reading->diags, mark, "`last_sound` should be a %s, as `hours` is",
                            one->in_km ? "distance" : "time");
    else if (one->last_sound >= one->ran)
        spt_diagnostics_add(reading->diags, mark,
                            "it was last seen sound after its removal; `last_sound` has to be "
                            "below `hours`");
}

static struct spt_case_text text_of(const struct spt_node *node, const char *key, const char *text)
{
    return (struct spt_case_text){text, spt_node_mark(node, key)};
}

static void read_case(struct reading *reading, const struct spt_node *node,
                      struct spt_damage_case *one)
{
    struct raw_case raw;
    spt_section_read(&spt_section_damage_case, node, &raw, reading->diags);
    *one = (struct spt_damage_case){
        .top = node->mark,
        .title = raw.title ? raw.title : "",
        .note = raw.note,
        .question = raw.question,
        .machine = raw.machine < 0 ? SPT_MACHINE_HUB : (enum spt_machine_group)raw.machine,
        .scenario = text_of(node, "scenario", raw.scenario),
        .row = text_of(node, "row", raw.row),
        .past = text_of(node, "past", raw.past),
        .on_bench = raw.on_bench == 1,
        .destroyed = raw.destroyed == 1,
        .turning = raw.turning == SPT_RING_INNER ? SPT_RING_INNER : SPT_RING_OUTER,
        .turning_stated = raw.turning >= 0,
        .load_turns = raw.load == 1,
        .arc_ring = raw.arc.ring == SPT_RING_OUTER ? SPT_RING_OUTER : SPT_RING_INNER,
        .arc_rad = raw.arc.length_rad,
        .arc_mark = spt_node_mark(node, "arc"),
    };
    read_times(reading, node, &raw, one);
    read_findings(reading, raw.findings, one);
    read_conditions(reading, raw.conditions, one);
    read_rulings(reading, raw.ruled_out, one);
    if (one->condition_count && !raw.scenario)
        spt_diagnostics_add(reading->diags, spt_node_mark(node, "conditions"),
                            "`conditions` needs a `scenario` with these variants");
    if (raw.row && !raw.scenario)
        spt_diagnostics_add(reading->diags, one->row.mark, "`row` needs a `scenario`");
}

/* The cases of a file: the whole of it, or each of `cases` laid over the rest. */
static void read_cases(struct reading *reading, const struct spt_node *root,
                       struct spt_case_file *file)
{
    static const char *const skip[] = {"cases", NULL};
    const struct spt_node *list = spt_node_find(root, "cases");
    const int count = list && list->kind == SPT_NODE_SEQUENCE ? list->count : list ? 0 : 1;
    if (count < 1 || count > CASES_MAX) {
        spt_diagnostics_add(reading->diags, list->mark, "`cases` should be a list of 1 to %d cases",
                            CASES_MAX);
        return;
    }
    file->cases = allocate(reading, (size_t)count * sizeof *file->cases);
    for (int i = 0; file->cases && i < count; i++) {
        const struct spt_node *item = list ? list->items[i] : root;
        if (item->kind != SPT_NODE_MAPPING) {
            spt_diagnostics_add(reading->diags, item->mark,
                                "a case is a mapping with `case`, `machine` and `findings`");
            continue;
        }
        const struct spt_node *whole =
            list ? spt_node_merge(root, item, NULL, skip, reading->arena) : root;
        if (whole)
            read_case(reading, whole, &file->cases[file->count++]);
        else
            reading->diags->out_of_memory = true;
    }
}

bool spt_case_file_is(const struct spt_source *source)
{
    struct spt_arena arena = {0};
    struct spt_diagnostics diags = {0};
    const struct spt_node *root = spt_document_read(source, &arena, &diags);
    const bool is = root && root->kind == SPT_NODE_MAPPING && !spt_node_find(root, "title") &&
                    (spt_node_find(root, "case") || spt_node_find(root, "cases") ||
                     spt_node_find(root, "findings"));
    spt_arena_free(&arena);
    return is;
}

/* True where there is nothing but blanks and comments. */
static bool is_empty(const struct spt_source *source)
{
    for (size_t at = 0; at < source->length;) {
        const char *line = source->text + at;
        size_t length = 0, blanks = 0;
        while (at + length < source->length && line[length] != '\n')
            length++;
        while (blanks < length && (line[blanks] == ' ' || line[blanks] == '\r'))
            blanks++;
        if (blanks < length && line[blanks] != '#')
            return false;
        at += length + 1;
    }
    return true;
}

/* Reports a scenario that was given as a case file. Result: true where it is one. */
static bool is_scenario(struct reading *reading, const struct spt_source *source,
                        const struct spt_node *root)
{
    if (root->kind != SPT_NODE_MAPPING || !spt_node_find(root, "title") ||
        spt_node_find(root, "case") || spt_node_find(root, "cases") ||
        spt_node_find(root, "findings"))
        return false;
    spt_diagnostics_add(reading->diags, spt_node_mark(root, "title"),
                        "this is a scenario; `diagnose` reads a case file, which begins with "
                        "`case:` and names the scenario as `scenario: %.100s`",
                        source->name);
    return true;
}

bool spt_case_file_read(const struct spt_source *source, const struct spt_causes *causes,
                        struct spt_case_file *file, struct spt_diagnostics *diags)
{
    *file = (struct spt_case_file){0};
    struct reading reading = {causes, &file->arena, diags};
    if (is_empty(source)) {
        spt_diagnostics_add(diags, (struct spt_mark){source, 1, 1},
                            "the file is empty; start with `case:`");
        return false;
    }
    const struct spt_node *root = spt_document_read(source, &file->arena, diags);
    if (root && is_scenario(&reading, source, root))
        return false;
    if (root && root->kind != SPT_NODE_MAPPING)
        spt_diagnostics_add(diags, root->mark,
                            "a case file is a mapping with `case`, `machine` and `findings`");
    else if (root)
        read_cases(&reading, root, file);
    return root && !spt_diagnostics_any(diags) && !diags->out_of_memory;
}

void spt_case_file_free(struct spt_case_file *file)
{
    spt_arena_free(&file->arena);
    *file = (struct spt_case_file){0};
}
