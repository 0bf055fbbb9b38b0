/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "study/machine/machine_notes.h"

#include <math.h>

#include "base/table.h"
#include "study/machine/torque.h"

#define MRAD 1e3
#define USUAL_PULL 1.5 /* pull of a V belt over its net force (common practice, no source) */

/* Slopes in rad that a type usually has and bears. Source: Shigley, Mechanical Engineering Design,
 * table 7-2 (from memory); angular contact balls and needles common practice, no source. */
static const struct {
    double usual, most;
} slopes[] = {
    [SPT_DEEP_GROOVE_BALL] = {1e-3, 3e-3},     [SPT_ANGULAR_CONTACT_BALL] = {6e-4, 6e-4},
    [SPT_SELF_ALIGNING_BALL] = {26e-3, 52e-3}, [SPT_CYLINDRICAL_ROLLER] = {8e-4, 12e-4},
    [SPT_TAPERED_ROLLER] = {5e-4, 12e-4},      [SPT_SPHERICAL_ROLLER] = {26e-3, 52e-3},
    [SPT_NEEDLE_ROLLER] = {3e-4, 3e-4},        [SPT_THRUST_BALL] = {3e-4, 3e-4},
    [SPT_THRUST_ROLLER] = {3e-4, 3e-4},
};
SPT_ONE_EACH(slopes, SPT_BEARING_TYPE_COUNT);

static void note_slope(const struct spt_machine_case *machine, int bearing,
                       enum spt_bearing_type type, struct spt_notes *notes)
{
    double worst = 0;
    for (int i = 0; i < machine->phase_count; i++)
        worst = fmax(worst, machine->phases[i].supports[bearing].slope_rad); /* NaN: not known */
    if (worst > slopes[type].most)
        spt_notes_add(notes, SPT_FLAG_SLOPE_FAR, worst * MRAD, slopes[type].most * MRAD);
    else if (worst > slopes[type].usual)
        spt_notes_add(notes, SPT_FLAG_SLOPE, worst * MRAD, slopes[type].usual * MRAD);
}

/* Pull over net force of a belt in its hardest phase, where friction alone sets it; else NaN. */
static double find_pull(const struct spt_machine_case *machine, const struct spt_part *part,
                        int index)
{
    double most = 0, pull = 0;
    if (part->kind != SPT_PART_BELT || !isnan(part->pretension_n) || !isnan(part->pull_factor))
        return (double)NAN;
    for (int i = 0; i < machine->phase_count; i++) {
        const struct spt_machine_loads *loads = &machine->phases[i];
        if (fabs(loads->torques_nmm[index]) <= most)
            continue;
        most = fabs(loads->torques_nmm[index]);
        pull = hypot(loads->parts[index].force_n[0], loads->parts[index].force_n[1]);
    }
    return most > 0 ? pull / (2 * most / part->diameter_mm) : (double)NAN;
}

static void note_belts(const struct spt_machine_case *machine, int s, struct spt_notes *notes)
{
    const struct spt_machine_shaft *shaft = &machine->machine.shafts[s];
    int first = spt_machine_first_part(&machine->machine, s);
    for (int i = 0; i < shaft->part_count; i++) {
        double pull = find_pull(machine, &shaft->parts[i], first + i);
        if (pull < USUAL_PULL)
            spt_notes_add(notes, SPT_FLAG_BELT_SLACK, pull, USUAL_PULL);
    }
}

void spt_machine_notes(const struct spt_machine_case *machine, int bearing,
                       enum spt_bearing_type type, struct spt_notes *notes)
{
    int s = machine->support_shaft[bearing];
    int at = bearing - spt_machine_first_support(&machine->machine, s);
    const struct spt_support *support = &machine->machine.shafts[s].supports[at];
    if (support->centre_estimated)
        spt_notes_add(notes, SPT_FLAG_LOAD_CENTRE_ASSUMED,
                      fabs(support->centre_mm - support->at_mm), (double)NAN);
    note_slope(machine, bearing, type, notes);
    note_belts(machine, s, notes);
}
