/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "scenario/build/build.h"

#define STEPS_MAX 1000000
/* tolerance on the last value, which must equal `to`, as a fraction of a step */
#define END_TOLERANCE 1e-9

static double find_grade(const char *text)
{
    char *end = NULL;
    bool spelled = !strncmp(text, "VG ", 3) && text[3] >= '0' && text[3] <= '9';
    long number = spelled ? strtol(text + 3, &end, 10) : 0;
    for (int i = 0; spelled && !*end && i < SPT_VISCOSITY_GRADE_COUNT; i++)
        if (spt_viscosity_grade(i)->number == number)
            return (double)number;
    return (double)NAN;
}

static double find_class(enum spt_lubrication kind, const char *text)
{
    int first = (int)spt_cleanliness_first(kind), count = spt_cleanliness_count(kind);
    for (int i = first; i < first + count; i++)
        if (!strcmp(spt_cleanliness_name((enum spt_cleanliness)i), text))
            return i;
    return (double)NAN;
}

static void list_classes(enum spt_lubrication kind, const char *text, char *problem)
{
    const char *names[SPT_CLEANLINESS_COUNT];
    int first = (int)spt_cleanliness_first(kind), count = spt_cleanliness_count(kind);
    int used = snprintf(problem, SPT_SWEEP_PROBLEM, "`%.30s` is no class of %s; ", text,
                        kind == SPT_LUBRICATION_GREASE ? "grease" : "oil");
    for (int i = 0; i < count; i++)
        names[i] = spt_cleanliness_name((enum spt_cleanliness)(first + i));
    const char *near = spt_nearest(text, names, count);
    if (near) {
        snprintf(problem + used, SPT_SWEEP_PROBLEM - (size_t)used, "did you mean `%s`?", near);
        return;
    }
    used += snprintf(problem + used, SPT_SWEEP_PROBLEM - (size_t)used, "write one of:");
    for (int i = 0; i < count && used < SPT_SWEEP_PROBLEM; i++)
        used += snprintf(problem + used, SPT_SWEEP_PROBLEM - (size_t)used, " %s%s", names[i],
                         i + 1 < count ? "," : "");
}

static double read_number(const struct spt_field *field, const char *text, char *problem)
{
    double value;
    enum spt_quantity_problem wrong = spt_quantity_read(text, field->dimension, &value);
    const char *unit = field->dimension == SPT_NO_DIMENSION ? "" : " ";
    const char *name =
        field->dimension == SPT_NO_DIMENSION ? "" : spt_dimension_unit(field->dimension);
    char thousands[SPT_READING_LENGTH], decimals[SPT_READING_LENGTH];
    if (wrong == SPT_QUANTITY_AMBIGUOUS) {
        spt_quantity_readings(text, thousands, decimals);
        snprintf(problem, SPT_SWEEP_PROBLEM, "`%.30s` can be read in two ways; write %s or %s",
                 text, thousands, decimals);
    } else if (wrong != SPT_QUANTITY_FINE)
        snprintf(problem, SPT_SWEEP_PROBLEM, "`%.30s` should be %s such as `%s`", text,
                 spt_dimension_name(field->dimension), field->example);
    else if (value < field->min || value > field->max)
        snprintf(problem, SPT_SWEEP_PROBLEM, "`%.30s` is out of range: from %.6g%s%s to %.6g%s%s",
                 text, field->min, unit, name, field->max, unit, name);
    else
        return value;
    return (double)NAN;
}

double spt_sweep_word(enum spt_sweep_field field, enum spt_lubrication kind, const char *text,
                      char *problem)
{
    double value;
    if (spt_sweep_number(field))
        return read_number(spt_sweep_number(field), text, problem);
    value = field == SPT_SWEEP_GRADE ? find_grade(text) : find_class(kind, text);
    if (isnan(value) && field == SPT_SWEEP_GRADE)
        snprintf(problem, SPT_SWEEP_PROBLEM,
                 "`%.30s` is no ISO 3448 grade; write one such as VG 150", text);
    else if (isnan(value))
        list_classes(kind, text, problem);
    return value;
}

/* Conflicts of axes with the way in which the scenario states its loads. */
static const char *find_load_conflict(const struct spt_case *question, const bool *swept)
{
    if (question->vehicle)
        return "the loads of the wheels follow from the trailer; sweep `road_speed`, `payload` or "
               "`load_factor`, and `setting` where the rows state their inside geometry";
    if (swept[SPT_SWEEP_PAYLOAD])
        return "`payload` belongs to a machine with a `trailer`; leave it out";
    if (swept[SPT_SWEEP_POWER] && swept[SPT_SWEEP_TORQUE])
        return "`power` and `torque` say the same thing twice; keep one";
    if (!question->machine && (swept[SPT_SWEEP_POWER] || swept[SPT_SWEEP_TORQUE]))
        return "`power` and `torque` belong to a scenario with a `machine`; here sweep loads";
    if (question->machine && !swept[SPT_SWEEP_SETTING] && !swept[SPT_SWEEP_ROAD_SPEED])
        return "the loads of the bearings follow from the machine; sweep `power`, `torque`, `speed` "
               "or `load_factor`";
    if (question->hub && swept[SPT_SWEEP_SIDE_FORCE] && swept[SPT_SWEEP_SIDE_SHARE])
        return "`side_force` and `side_share` say the same thing twice; keep one";
    if (question->hub && swept[SPT_SWEEP_SPEED] && swept[SPT_SWEEP_ROAD_SPEED])
        return "`speed` and `road_speed` say the same thing twice; keep one";
    if (question->hub)
        return "the loads of the rows follow from the wheel; sweep `wheel_load`, `side_force` or "
               "`side_share`, or `load_factor`";
    if (swept[SPT_SWEEP_SETTING])
        return "`setting` belongs to a scenario with a `hub`; leave it out";
    if (swept[SPT_SWEEP_WHEEL_LOAD] || swept[SPT_SWEEP_SIDE_FORCE] || swept[SPT_SWEEP_SIDE_SHARE] ||
        swept[SPT_SWEEP_ROAD_SPEED])
        return "`wheel_load`, `side_force`, `side_share` and `road_speed` belong to a scenario "
               "with a `hub`; here sweep `radial_load`, `axial_load` and `speed`";
    return "a phase states `equivalent_load`, which an axis of one of its parts cannot change; "
           "sweep `equivalent_load`, or both `radial_load` and `axial_load`";
}

/* The same rules as in spt_sweep_plan_make. */
const char *spt_sweep_conflict(const struct spt_case *question, const bool *swept)
{
    bool parts = swept[SPT_SWEEP_RADIAL_LOAD] || swept[SPT_SWEEP_AXIAL_LOAD];
    struct spt_sweep_plan plan;
    if (!spt_sweep_plan_make(question, swept, NULL, &plan))
        return NULL;
    if (swept[SPT_SWEEP_VISCOSITY_40] && swept[SPT_SWEEP_GRADE])
        return "`viscosity_40` and `grade` say the same thing twice; keep one";
    if (swept[SPT_SWEEP_CLEANLINESS] && swept[SPT_SWEEP_CONTAMINATION])
        return "`cleanliness` and `contamination_factor` say the same thing twice; keep one";
    if (swept[SPT_SWEEP_EQUIVALENT_LOAD] && parts)
        return "`equivalent_load` stands beside `radial_load` or `axial_load`; keep one of the two "
               "ways";
    if (swept[SPT_SWEEP_GREASE_AGE] && question->lubricant.kind != SPT_LUBRICATION_GREASE)
        return "`grease_age` is swept, but the lubricant is oil; leave it out";
    for (int i = 0; i < question->bearing_count; i++)
        for (int j = 0; j < question->bearings[i].phase_count; j++)
            if (spt_condition_is_unknown(&question->bearings[i].phases[j].condition) &&
                !swept[SPT_SWEEP_CLEANLINESS] && !swept[SPT_SWEEP_CONTAMINATION])
                return "a sweep needs the `cleanliness` of the condition, or an axis of it";
    return find_load_conflict(question, swept);
}

static void allocate_values(struct spt_build *build, size_t count, struct spt_sweep_axis *axis,
                            double **values)
{
    *values = spt_arena_allocate(build->arena, count * sizeof **values);
    axis->values = *values;
    axis->count = *values ? count : 0;
    if (!*values)
        build->diags->out_of_memory = true;
}

static void read_values(struct spt_build *build, const struct raw_axis *raw,
                        enum spt_lubrication kind, struct spt_sweep_axis *axis)
{
    double *values;
    allocate_values(build, (size_t)raw->values->count, axis, &values);
    for (int i = 0; values && i < raw->values->count; i++) {
        char problem[SPT_SWEEP_PROBLEM];
        values[i] = spt_sweep_word(axis->field, kind, raw->values->items[i]->text, problem);
        if (isnan(values[i]))
            spt_diagnostics_add(build->diags, raw->values->items[i]->mark, "%s", problem);
    }
}

/* Number of values given by from, to and step; 0 with a diagnostic. */
static size_t count_steps(struct spt_build *build, const struct raw_axis *raw)
{
    if (raw->steps >= 0)
        return (size_t)raw->steps;
    double steps = (raw->to - raw->from) / raw->step;
    if (steps < 0)
        spt_diagnostics_add(build->diags, spt_node_mark(raw->at, "to"),
                            "`to` lies below `from`; turn them round");
    else if (steps >= STEPS_MAX)
        spt_diagnostics_add(build->diags, spt_node_mark(raw->at, "step"),
                            "%.6g values are too many for one axis; the limit is %d", steps + 1,
                            STEPS_MAX);
    else
        return (size_t)(steps + END_TOLERANCE) + 1;
    return 0;
}

static void fill_span(struct spt_build *build, const struct raw_axis *raw,
                      struct spt_sweep_axis *axis)
{
    double *values;
    size_t count = count_steps(build, raw);
    bool logarithmic = raw->spacing == 1;
    if (!count)
        return;
    allocate_values(build, count, axis, &values);
    for (size_t i = 0; values && i < count; i++) {
        double part = count > 1 ? (double)i / (double)(count - 1) : 0;
        if (raw->steps < 0)
            values[i] = raw->from + (double)i * raw->step;
        else if (logarithmic)
            values[i] = raw->from * pow(raw->to / raw->from, part);
        else
            values[i] = raw->from + (raw->to - raw->from) * part;
    }
    /* the last value is exactly `to` where it differs only by round-off */
    if (values && (raw->steps > 1 || fabs(values[count - 1] - raw->to) < END_TOLERANCE * raw->step))
        values[count - 1] = raw->to;
}

static void fill_all(struct spt_build *build, const struct spt_case *question,
                     struct spt_sweep_axis *axis)
{
    double *values;
    bool grades = axis->field == SPT_SWEEP_GRADE;
    int first = grades ? 0 : (int)spt_cleanliness_first(question->lubricant.kind);
    int most = grades ? SPT_VISCOSITY_GRADE_COUNT : spt_cleanliness_count(question->lubricant.kind);
    allocate_values(build, (size_t)most, axis, &values);
    axis->count = 0;
    for (int i = first; values && i < first + most; i++) {
        double nu100, value = grades ? spt_viscosity_grade(i)->number : i;
        bool made =
            !grades || !spt_viscosity_100_from_index(spt_viscosity_grade(i)->nu40_mm2_s,
                                                     question->lubricant.viscosity_index, &nu100);
        if (made)
            values[axis->count++] = value;
    }
}

static bool spans_are_whole(struct spt_build *build, const struct raw_axis *raw)
{
    const char *problem = NULL;
    if ((isnan(raw->from) && spt_node_find(raw->at, "from")) ||
        (isnan(raw->to) && spt_node_find(raw->at, "to")) ||
        (isnan(raw->step) && spt_node_find(raw->at, "step")) ||
        (raw->steps < 0 && spt_node_find(raw->at, "steps")))
        return false; /* reported already */
    bool ends = !isnan(raw->from) && !isnan(raw->to);
    int ways = (raw->steps >= 0) + !isnan(raw->step);
    if (!ends || ways != 1)
        problem = "state `from`, `to` and one of `steps` and `step`, or `values`";
    else if (raw->spacing == 1 && raw->steps < 0)
        problem = "`spacing: log` needs `steps` instead of `step`";
    else if (raw->spacing == 1 && !(raw->from > 0 && raw->to > 0))
        problem = "`spacing: log` needs ends above 0";
    else if (raw->steps == 1 && raw->from != raw->to)
        problem = "one step cannot have two ends; write `steps: 2` or more";
    if (problem)
        spt_diagnostics_add(build->diags, raw->at->mark, "%s", problem);
    return !problem;
}

static void read_axis(struct spt_build *build, const struct raw_axis *raw,
                      const struct spt_case *question, struct spt_sweep_axis *axis)
{
    bool words = !spt_sweep_number(axis->field);
    /* an axis of words has no ends, so these members are not set */
    bool span =
        !words && (!isnan(raw->from) || !isnan(raw->to) || !isnan(raw->step) || raw->steps >= 0);
    if (raw->values && (span || (words && raw->all == 1)))
        spt_diagnostics_add(build->diags, spt_node_mark(raw->at, "values"),
                            "`values` stands beside `%s`; keep one of the two ways",
                            words ? "all" : "from");
    else if (raw->values)
        read_values(build, raw, question->lubricant.kind, axis);
    else if (words && raw->all != 1)
        spt_diagnostics_add(build->diags, raw->at->mark, "state `all: yes`, or `values`");
    else if (words)
        fill_all(build, question, axis);
    else if (spans_are_whole(build, raw))
        fill_span(build, raw, axis);
}

static enum spt_sweep_field find_field(const char *key)
{
    int i = 0;
    while (i < SPT_SWEEP_FIELD_COUNT && strcmp(spt_sweep_key((enum spt_sweep_field)i), key) != 0)
        i++;
    return (enum spt_sweep_field)i;
}

static void check_rows(struct spt_build *build, const struct raw_sweep *raw,
                       const struct spt_sweep *sweep)
{
    double product = 1;
    for (int a = 0; a < sweep->count; a++)
        product *= (double)sweep->axes[a].count;
    for (int a = 1; sweep->zip && a < sweep->count; a++)
        if (sweep->axes[a].count != sweep->axes[0].count)
            spt_diagnostics_add(build->diags, raw->at->mark,
                                "`combine: zip` needs axes of the same length; `%s` has %zu "
                                "values and `%s` %zu",
                                spt_sweep_key(sweep->axes[0].field), sweep->axes[0].count,
                                spt_sweep_key(sweep->axes[a].field), sweep->axes[a].count);
    if (!spt_sweep_rows(sweep))
        spt_diagnostics_add(build->diags, raw->at->mark,
                            "the axes multiply to %.3g rows, more than the %.3g that can be "
                            "counted here; take fewer values",
                            product, (double)SPT_SWEEP_ROWS_MAX);
}

void spt_build_sweep(struct spt_build *build, const struct raw_sweep *raw,
                     const struct spt_case *question, struct spt_sweep *sweep)
{
    bool swept[SPT_SWEEP_FIELD_COUNT] = {false};
    int before = build->diags->raised;
    *sweep = (struct spt_sweep){.zip = raw->combine == 1};
    for (int i = 0; i < raw->at->count; i++) {
        enum spt_sweep_field field = find_field(raw->at->keys[i]->text);
        if (field == SPT_SWEEP_FIELD_COUNT || !raw->axes[field].at)
            continue;
        struct spt_sweep_axis *axis = &sweep->axes[sweep->count++];
        axis->field = field;
        swept[field] = true;
        read_axis(build, &raw->axes[field], question, axis);
    }
    const char *conflict = sweep->count ? spt_sweep_conflict(question, swept)
                                        : "`sweep` has no axis; add one, such as `radial_load: "
                                          "{from: 5 kN, to: 30 kN, steps: 26}`";
    if (conflict)
        spt_diagnostics_add(build->diags, raw->at->mark, "%s", conflict);
    if (build->diags->raised == before)
        check_rows(build, raw, sweep);
}
