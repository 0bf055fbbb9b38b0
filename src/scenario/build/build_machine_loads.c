/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <gsl/gsl_math.h>
#include <stdio.h>
#include <string.h>

#include "scenario/build/build_machine.h"

#define NMM_PER_NM 1e3

static bool takes_torque(const struct spt_part *part)
{
    return part->kind != SPT_PART_WEIGHT && part->kind != SPT_PART_FORCE &&
           (part->role != SPT_PART_ROLE_IDLE || part->takes_rest);
}

/* The part whose circle runs at the belt speed. */
static const struct spt_part *find_circle(const struct spt_machine_shaft *shaft)
{
    const struct spt_part *found = NULL;
    for (int i = 0; i < shaft->part_count; i++) {
        const struct spt_part *part = &shaft->parts[i];
        if (part->kind == SPT_PART_DRUM || (!found && part->kind == SPT_PART_BELT))
            found = part;
    }
    return found;
}

static double find_speed(struct spt_build *build, const struct raw_phase *raw,
                         const struct spt_machine_shaft *shaft)
{
    if (isnan(raw->belt_speed_km_h))
        return raw->speed_rpm;
    const struct spt_part *circle = find_circle(shaft);
    if (circle)
        return raw->belt_speed_km_h * 1e6 / 60 / (M_PI * circle->diameter_mm);
    spt_diagnostics_add(build->diags, spt_node_mark(raw->at, "belt_speed"),
                        "the shaft that the duty is about carries no drum and no belt; write "
                        "`speed: 420 rpm`");
    return (double)NAN;
}

static void find_torque(struct spt_build *build, const struct raw_phase *raw,
                        const struct spt_machine_shaft *shaft, struct spt_machine_drive *drive)
{
    bool needed = false;
    for (int i = 0; i < shaft->part_count; i++)
        needed |= takes_torque(&shaft->parts[i]);
    bool power = spt_node_find(raw->at, "power") != NULL;
    drive->power_w = raw->power_w;
    if (!isnan(raw->torque_nm)) {
        drive->torque_nmm = raw->torque_nm * NMM_PER_NM;
    } else if (power && raw->power_w != 0 && drive->speed_rpm == 0) {
        spt_diagnostics_add(build->diags, spt_node_mark(raw->at, "power"),
                            "a shaft that stands still passes no power; write `power: 0 kW`, or "
                            "the `torque` that it holds");
    } else if (power) {
        /* P/(2 pi n/60); N m to N mm */
        drive->torque_nmm =
            raw->power_w == 0 ? 0 : raw->power_w * 30 / M_PI / drive->speed_rpm * NMM_PER_NM;
    } else if (needed && !spt_node_find(raw->at, "torque")) {
        spt_diagnostics_add(build->diags, raw->at->mark,
                            "the phase lacks what the shaft passes on; add `power: 11 kW` or "
                            "`torque: 340 N m` (0 for none)");
    }
}

/* Index of a part by its name among those of all shafts; -1 where there is none. */
static int find_part(const struct spt_machine *machine, int kind, const char *name)
{
    int index = 0;
    for (int s = 0; s < machine->shaft_count; s++)
        for (int i = 0; i < machine->shafts[s].part_count; i++, index++) {
            const struct spt_part *part = &machine->shafts[s].parts[i];
            if ((int)part->kind == kind && part->name && !strcmp(part->name, name))
                return index;
        }
    return -1;
}

/* Power shares of a phase of its own. */
static void read_shares(struct spt_build *build, const struct spt_node *list,
                        const struct spt_machine_case *machine, struct spt_machine_drive *drive)
{
    double *shares = spt_arena_allocate(build->arena, (size_t)machine->part_count * sizeof *shares);
    if (!shares) {
        build->diags->out_of_memory = true;
        return;
    }
    for (int i = 0; i < machine->part_count; i++)
        shares[i] = (double)NAN;
    for (int i = 0; i < list->count; i++) {
        struct raw_part raw = {.at = list->items[i]};
        const char *name = NULL;
        if (list->items[i]->kind != SPT_NODE_MAPPING) {
            spt_diagnostics_add(build->diags, list->items[i]->mark,
                                "each part should be a mapping such as `{belt: planer, "
                                "power_share: 0 %%}`");
            return;
        }
        spt_section_read(&spt_section_phase_part, list->items[i], &raw, build->diags);
        int kind = spt_build_part_kind(build, &raw, &name);
        int part = kind < 0 || !name ? -1 : find_part(&machine->machine, kind, name);
        if (part >= 0)
            shares[part] = raw.power_share;
        else if (kind >= 0)
            spt_diagnostics_add(build->diags, list->items[i]->mark,
                                "the machine has no %s called `%.60s`",
                                spt_word(&spt_part_kind_words, kind), name ? name : "");
    }
    drive->shares = shares;
}

void spt_build_drive(struct spt_build *build, const struct raw_phase *raw,
                     const struct spt_machine_case *machine, struct spt_machine_drive *drive)
{
    const struct spt_machine_shaft *shaft = &machine->machine.shafts[machine->machine.driven_at];
    *drive = (struct spt_machine_drive){.backwards = raw->turns == 1};
    if (!shaft->part_count)
        return; /* not read, which was reported */
    drive->speed_rpm = find_speed(build, raw, shaft);
    find_torque(build, raw, shaft, drive);
    if (raw->parts)
        read_shares(build, raw->parts, machine, drive);
}

/* What is wrong with the loads of a phase. */
struct complaint {
    struct spt_build *build;
    const struct spt_node *phase;
    const char *name;
    const struct spt_machine_case *machine;
    const struct spt_machine_loads *loads;
    const struct spt_machine_problem *problem;
};

/* "the gear `wheel` brings 339 N m, the belt `to the mixer` takes 290 N m" */
static void list_torques(const struct complaint *c, char *text, size_t size)
{
    const struct spt_machine *machine = &c->machine->machine;
    const struct spt_machine_shaft *shaft = &machine->shafts[c->problem->shaft];
    size_t used = 0;
    int first = 0;
    for (int s = 0; s < c->problem->shaft; s++)
        first += machine->shafts[s].part_count;
    *text = 0;
    for (int i = 0; i < shaft->part_count; i++) {
        double torque = c->loads->torques_nmm[first + i] * c->loads->spins[c->problem->shaft];
        char name[SPT_PART_NAME_LENGTH];
        if (torque == 0 || used >= size)
            continue;
        used += (size_t)snprintf(text + used, size - used, "%sthe %.50s %s %.4g N m",
                                 used ? ", " : "", spt_build_part_name(&shaft->parts[i], name),
                                 torque > 0 ? "brings" : "takes", fabs(torque) / NMM_PER_NM);
    }
}

static void complain_of_torque(const struct complaint *c)
{
    char list[200];
    list_torques(c, list, sizeof list);
    spt_diagnostics_add(c->build->diags, c->phase->mark,
                        "in the phase `%.40s` %s; state every part that takes or brings torque, "
                        "their `power_share`, or one `coupling` that takes the rest",
                        c->name, *list ? list : "no part takes the torque");
}

static void complain_of_part(const struct complaint *c)
{
    const struct spt_machine_shaft *shaft = &c->machine->machine.shafts[c->problem->shaft];
    const struct spt_part *part = &shaft->parts[c->problem->part];
    char name[SPT_PART_NAME_LENGTH];
    bool worm = part->kind == SPT_PART_WORM || part->kind == SPT_PART_WORM_WHEEL;
    bool belt = part->kind == SPT_PART_BELT || part->kind == SPT_PART_DRUM;
    spt_build_part_name(part, name);
    spt_diagnostics_add(
        c->build->diags, c->phase->mark,
        worm ? "in the phase `%.40s` the %s would have to let the wheel drive the worm, which "
               "its friction does not allow (self-locking); turn the power round"
        : belt
            ? "in the phase `%.40s` the %s slips: its stated pull is less than the torque needs; "
              "measure it again, or leave it out"
            : "in the phase `%.40s` the load of the %s cannot be worked out from these numbers",
        c->name, name);
}

static void complain_of_thrust(const struct complaint *c)
{
    const struct spt_machine_shaft *shaft = &c->machine->machine.shafts[c->problem->shaft];
    double thrust = c->problem->values[0];
    spt_diagnostics_add(c->build->diags, c->phase->mark,
                        "in the phase `%.40s` the shaft%s%.40s is pushed to the %s by %.5g N, and "
                        "no support stops it that way; write `takes_thrust: both ways` (or `to the "
                        "%s`) at one support",
                        c->name, shaft->name ? " " : "", shaft->name ? shaft->name : "",
                        thrust < 0 ? "left" : "right", fabs(thrust), thrust < 0 ? "left" : "right");
}

static void complain(const struct complaint *c)
{
    switch (c->problem->kind) {
    case SPT_MACHINE_UNBALANCED:
        complain_of_torque(c);
        break;
    case SPT_MACHINE_PART:
        complain_of_part(c);
        break;
    case SPT_MACHINE_THRUST:
        complain_of_thrust(c);
        break;
    case SPT_MACHINE_STATICS:
    case SPT_MACHINE_FINE:
        spt_diagnostics_add(c->build->diags, c->phase->mark,
                            "in the phase `%.40s` the supports cannot share the loads of the shaft",
                            c->name);
        break;
    }
}

static bool take_loads(struct spt_build *build, const struct spt_machine_case *machine,
                       struct spt_machine_loads *loads)
{
    size_t parts = (size_t)machine->part_count, shafts = (size_t)machine->machine.shaft_count;
    size_t supports = (size_t)machine->support_count;
    loads->parts = spt_arena_allocate(build->arena, parts * sizeof *loads->parts);
    loads->supports = spt_arena_allocate(build->arena, supports * sizeof *loads->supports);
    loads->balances = spt_arena_allocate(build->arena, shafts * sizeof *loads->balances);
    loads->torques_nmm = spt_arena_allocate(build->arena, parts * sizeof *loads->torques_nmm);
    loads->speeds_rpm = spt_arena_allocate(build->arena, shafts * sizeof *loads->speeds_rpm);
    loads->spins = spt_arena_allocate(build->arena, shafts * sizeof *loads->spins);
    return loads->parts && loads->supports && loads->balances && loads->torques_nmm &&
           loads->speeds_rpm && loads->spins;
}

/* Works out every phase; false with a diagnostic. */
static bool solve_phases(struct spt_build *build, const struct spt_duty_terms *terms,
                         struct spt_machine_case *machine, const struct spt_phase *phases)
{
    double most = 0;
    for (int i = 0; i < machine->phase_count; i++)
        most = fmax(most, fabs(machine->drives[i].torque_nmm));
    for (int i = 0; i < machine->phase_count; i++) {
        struct spt_machine_problem problem;
        if (!take_loads(build, machine, &machine->phases[i])) {
            build->diags->out_of_memory = true;
            return false;
        }
        if (!spt_machine_phase(&machine->machine, &machine->drives[i], most, &machine->phases[i],
                               &problem))
            continue;
        complain(&(struct complaint){build, terms->duty->items[i], phases[i].name, machine,
                                     &machine->phases[i], &problem});
        return false;
    }
    return true;
}

/* The phases of the duty in the condition of one support. */
static const struct spt_phase *own_phases(struct spt_build *build,
                                          const struct spt_duty_terms *terms, int bearing,
                                          const struct spt_phase *shared)
{
    const struct spt_node *own = build->support_conditions[bearing];
    struct spt_duty_terms changed = *terms;
    int count;
    if (!own || own->kind != SPT_NODE_MAPPING || !terms->condition)
        return shared;
    changed.condition = spt_node_merge(terms->condition, own, NULL, NULL, build->arena);
    if (!changed.condition) {
        build->diags->out_of_memory = true;
        return shared;
    }
    const struct spt_phase *phases = spt_build_duty(build, &changed, &count);
    return phases ? phases : shared;
}

static void warm(double warmer_k, struct spt_phase *phase)
{
    if (isnan(phase->temperature_c))
        phase->ambient_c += warmer_k;
    else
        phase->temperature_c += warmer_k;
}

/* The phases of one bearing: those of the duty with its own speed, loads and condition. */
static void load_bearing(struct spt_build *build, const struct spt_duty_terms *terms,
                         const struct spt_machine_case *machine, int bearing,
                         const struct spt_phase *shared, struct spt_case *question)
{
    size_t count = (size_t)machine->phase_count;
    struct spt_phase *own = spt_arena_allocate(build->arena, count * sizeof *own);
    const struct spt_phase *phases = own_phases(build, terms, bearing, shared);
    if (!own) {
        build->diags->out_of_memory = true;
        return;
    }
    for (size_t i = 0; i < count; i++) {
        const struct spt_machine_loads *loads = &machine->phases[i];
        const struct spt_support_load *load = &loads->supports[bearing];
        own[i] = phases[i];
        own[i].speed_rpm = loads->speeds_rpm[machine->support_shaft[bearing]];
        own[i].radial_load_n = load->radial_n;
        own[i].peak_radial_n = load->turning_n > 0 ? load->peak_n : 0;
        own[i].axial_load_n = load->axial_n;
        own[i].equivalent_load_n = (double)NAN;
        warm(build->support_warmer_k[bearing], &own[i]);
    }
    question->bearings[bearing].phases = own;
    question->bearings[bearing].phase_count = (int)count;
}

void spt_build_machine_loads(struct spt_build *build, const struct spt_duty_terms *terms,
                             struct spt_machine_case *machine, struct spt_case *question)
{
    const struct spt_phase *phases = question->bearings[0].phases;
    machine->phase_count = question->bearings[0].phase_count;
    machine->drives = terms->drives;
    machine->phases =
        spt_arena_allocate(build->arena, (size_t)machine->phase_count * sizeof *machine->phases);
    int *shafts = spt_arena_allocate(build->arena, (size_t)machine->support_count * sizeof *shafts);
    if (!machine->phases || !shafts) {
        build->diags->out_of_memory = true;
        return;
    }
    machine->support_shaft = shafts;
    if (!solve_phases(build, terms, machine, phases))
        return;
    int bearing = 0;
    for (int s = 0; s < machine->machine.shaft_count; s++)
        for (int i = 0; i < machine->machine.shafts[s].support_count; i++, bearing++) {
            shafts[bearing] = s;
            load_bearing(build, terms, machine, bearing, phases, question);
        }
}
