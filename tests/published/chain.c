/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One phase from loads to hours, worked by hand from the equations of the standards beside the
 * program's own chain. The lines below use no function of the library but spt_assess. */
#include <criterion/criterion.h>
#include <math.h>

#include "spalltime/assess.h"
#include "support/beet.h"
#include "support/published.h"

/* What the hand calculation is fed; every other number stands in its line. */
struct hand {
    double radial_n, axial_n; /* with e 0.40, X 0.4, Y 1.5 */
    double rating_n, limit_n; /* C, C_u */
    double speed_rpm, pitch_mm, temperature_c;
    double nu40, nu100, density;
    double c, b; /* contamination class */
    double water_ppm, reliability_percent;
};

/* Tapered roller, oil bath. Sources: P: ISO 281:2007 table 8 (X from memory); viscosity: ASTM D341,
 * engineering form; nu_1, kappa: ISO 281:2007 9.3.3.3, eq. (28), (29), density as in ISO/TR 1281-2
 * (from memory); e_C: ISO 281:2007 Annex A (constants from memory); a_ISO: ISO 281:2007 9.3.3.3,
 * roller bearings, 0.1 to 4 (constants from memory, continuous at the joints); a_1: form behind ISO
 * 281:2007 table 12 (from memory); a_w: Cantley 1977; L_10: ISO 281:2007. Gives hours. */
static double work_by_hand(const struct hand *h, double *kappa)
{
    double p_n =
        h->axial_n / h->radial_n <= 0.40 ? h->radial_n : 0.4 * h->radial_n + 1.5 * h->axial_n;
    double y40 = log10(log10(h->nu40 + 0.7)), y100 = log10(log10(h->nu100 + 0.7));
    double slope = (y40 - y100) / (log10(373.15) - log10(313.15));
    double y = y40 - slope * (log10(h->temperature_c + 273.15) - log10(313.15));
    double nu = pow(10, pow(10, y)) - 0.7;
    double nu1 = h->speed_rpm < 1000 ? 45000 * pow(h->speed_rpm, -0.83) / sqrt(h->pitch_mm)
                                     : 4500 / sqrt(h->speed_rpm * h->pitch_mm);
    *kappa = nu / nu1 * pow(h->density / 0.89, 0.83);
    double k = fmin(*kappa, 4);
    double a = fmin(1, h->c * pow(k, 0.68) * pow(h->pitch_mm, 0.55));
    double e_c = a * (1 - h->b / cbrt(h->pitch_mm));
    double factor = k < 0.4 ? 1.3993 * pow(k, -0.054381)
                    : k < 1 ? 1.2348 * pow(k, -0.19087)
                            : 1.2348 * pow(k, -0.071739);
    double x = e_c * h->limit_n / p_n;
    double a_iso = fmin(50, 0.1 * pow(1 - (1.5859 - factor) * pow(x, 0.4), -9.185));
    double a1 = 0.05 + 0.95 * pow(log(100 / h->reliability_percent) / log(100.0 / 90), 1 / 1.5);
    double a_w = h->water_ppm > 100 ? pow(100 / h->water_ppm, 0.6) : 1;
    double l10_h = pow(h->rating_n / p_n, 10.0 / 3) * 1e6 / (60 * h->speed_rpm);
    return a1 * a_iso * a_w * l10_h;
}

static void feed(const struct hand *h, enum spt_cleanliness cleanliness, struct beet *beet)
{
    beet_prepare(beet);
    beet->question.bearings[0].phase_count = 1;
    beet->question.bearings[0].bearing.dynamic_load_rating_n = h->rating_n;
    beet->question.bearings[0].bearing.fatigue_load_limit_n = h->limit_n;
    beet->question.bearings[0].bearing.pitch_diameter_mm = h->pitch_mm;
    beet->question.lubricant.kind = SPT_LUBRICATION_OIL_BATH;
    beet->question.lubricant.density_g_cm3 = h->density;
    beet->question.reliability_percent = h->reliability_percent;
    cr_assert_eq(spt_viscosity_line(40, h->nu40, 100, h->nu100, &beet->question.lubricant.line),
                 SPT_OK);
    struct spt_phase *phase = &beet->phases[0];
    phase->time_share = 1;
    phase->speed_rpm = h->speed_rpm;
    phase->radial_load_n = h->radial_n;
    phase->axial_load_n = h->axial_n;
    phase->temperature_c = h->temperature_c;
    phase->condition.cleanliness = cleanliness;
    phase->condition.water_ppm = h->water_ppm;
    phase->condition.grease_age_h = 0;
}

Test(chain, one_phase_is_worked_as_by_hand)
{
    static const char source[] =
        "by hand from the equations cited above (X, Annex A and a_ISO constants from memory)";
    static const struct {
        struct hand h;
        enum spt_cleanliness cleanliness;
    } rows[] = {
        /* radial, axial, C, C_u, n, D_pw, T, nu40, nu100, rho, c, b, water, S */
        {{21e3, 3e3, 126.5e3, 20.4e3, 420, 85, 70, 150, 14.5, 0.89, 0.0288, 1.141, 90, 90},
         SPT_CLEANLINESS_BATH_15_12},
        {{19e3, 11e3, 126.5e3, 20.4e3, 1340, 85, 83, 100, 11.2, 0.905, 0.0133, 1.670, 250, 95},
         SPT_CLEANLINESS_BATH_17_14},
        {{24e3, 9.7e3, 140e3, 17e3, 60, 92, 66, 220, 19, 0.88, 0.0864, 0.6796, 400, 98},
         SPT_CLEANLINESS_BATH_13_10},
        {{30e3, 2e3, 126.5e3, 20.4e3, 900, 85, 92, 68, 8.7, 0.87, 0.00864, 2.5164, 130, 99},
         SPT_CLEANLINESS_BATH_19_16},
    };
    int ranges[3] = {0};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct beet beet;
        struct spt_phase_result phase;
        struct spt_bearing_result result;
        double kappa, want_h = work_by_hand(&rows[i].h, &kappa);
        feed(&rows[i].h, rows[i].cleanliness, &beet);
        cr_assert_eq(spt_assess_bearing(&beet.question, 0, 0, &phase, &result), SPT_OK);
        cr_expect(agrees_within(source, named("viscosity_ratio, row %zu: kappa", i), kappa,
                                phase.viscosity_ratio, 1e-12));
        cr_expect(agrees_within(source, named("modified_rating_life_h, row %zu", i), want_h,
                                result.modified_rating_life_h, 1e-12));
        ranges[kappa < 0.4 ? 0 : kappa < 1 ? 1 : 2]++;
    }
    cr_expect(ranges[0] && ranges[1] && ranges[2], "every range of kappa is used: %d %d %d",
              ranges[0], ranges[1], ranges[2]);
}
