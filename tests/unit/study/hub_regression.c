/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <criterion/criterion.h>

#include "spalltime/hub.h"
#include "support/hub_example.h"
#include "support/near.h"

/* Our own figures, from an independent program of the same equations: no published data, no
 * evidence that the model is right, only that it stays what it was. */
struct row {
    double side, setting_mm;
    double y_um, z_um, tilt_mrad;
    double highest_n[2];
    double life_mrev[2];
};
static const struct row rows[] = {
    {0, -.100, -7.8151, -5.6757, -.01529, {5209.29, 4875.17}, {835.954, 403.953}},
    {0, 0, -22.3788, -33.5914, -.19142, {5903.16, 3638.86}, {946.288, 1412.789}},
    {0, .127, -45.3828, -93.7766, -.49757, {7485.43, 3622.28}, {502.767, 1423.167}},
    {.3, -.100, -7.9141, -9.3794, .36846, {5199.15, 14648.52}, {854.750, 9.6665}},
    {.3, 0, -15.4977, 21.0730, .62892, {5042.62, 16428.70}, {1066.670, 7.2614}},
    {.3, .127, -19.6644, 47.1036, .96908, {5761.89, 18211.93}, {723.908, 5.0571}},
};

Test(hub_regression, example_stays_what_it_was)
{
    struct spt_hub hub = example_hub();
    struct spt_hub_model model = example_model(&hub);
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const struct row *row = &rows[i];
        struct spt_hub_load load = example_load(row->side);
        struct spt_hub_result r;
        cr_assert_eq(spt_hub_assess(&model, row->setting_mm, &load, NULL, &r), SPT_OK);
        const struct spt_hub_position *p = &r.solution.position;
        cr_expect(near(p->y_mm * 1e3, row->y_um, 0, 1e-4), "y %.6g", p->y_mm * 1e3);
        cr_expect(near(p->z_mm * 1e3, row->z_um, 0, 1e-4), "z %.6g", p->z_mm * 1e3);
        cr_expect(near(p->tilt_x_rad * 1e3, row->tilt_mrad, 0, 1e-5));
        for (int k = 0; k < 2; k++) {
            cr_expect(near(r.contact[k].max_roller_load_n, row->highest_n[k], 0, 0.01));
            cr_expect(near(r.life[k].l10r_mrev, row->life_mrev[k], 1e-5, 0), "row %d: %.8g", k,
                      r.life[k].l10r_mrev);
        }
    }
}

/* Ours as well: pressures (MPa), zones and unloaded preload of the same hub, straight ahead. */
Test(hub_regression, pressures_and_preload_stay_what_they_were)
{
    static const double want[][4] = {{-.15, 1611, 1867, 26089}, {-.10, 1433, 1610, 14767},
                                     {-.05, 1411, 1453, 5305},  {0, 1511, 1434, 0},
                                     {.127, 1687, 1451, 0},     {.5, 2007, 1589, 0}};
    struct spt_hub hub = example_hub();
    struct spt_hub_model model = example_model(&hub);
    struct spt_hub_load load = example_load(0);
    for (size_t i = 0; i < sizeof want / sizeof *want; i++) {
        struct spt_hub_result r;
        cr_assert_eq(spt_hub_assess(&model, want[i][0], &load, NULL, &r), SPT_OK);
        cr_expect(near(r.contact[0].max_pressure_mpa, want[i][1], 0, 1.5), "E %g: %g", want[i][0],
                  r.contact[0].max_pressure_mpa);
        cr_expect(near(r.contact[1].max_pressure_mpa, want[i][2], 0, 1.5), "E %g: %g", want[i][0],
                  r.contact[1].max_pressure_mpa);
        cr_expect(near(r.preload_n, want[i][3], 0, 0.6), "E %g: %g", want[i][0], r.preload_n);
    }
}
