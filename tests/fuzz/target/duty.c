/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Well-formed scenarios with numbers from all over their ranges: past the reader, into the models.
 */
#include "fuzz/fuzz.h"

static const char *const types[] = {
    "deep groove ball", "angular contact ball", "self-aligning ball", "cylindrical roller",
    "tapered roller",   "spherical roller",     "needle roller",      "thrust ball"};
static const char *const classes[] = {"high", "normal", "slight", "severe", "very severe"};
static const char *const kinds[] = {"grease", "oil bath", "circulating oil"};
static const char *const codes[] = {"-/13/10", "-/15/12", "-/17/14", "-/19/16", "-/21/18"};

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct fuzz_bytes *b = &(struct fuzz_bytes){data, size};
    char text[2048], temperature[64] = "estimate, ambient: 5 degC";
    unsigned oil = fuzz_byte(b) % 3;
    double bore = fuzz_between(b, 0.5, 4000), rating = fuzz_between(b, 1, 1e8);
    if (fuzz_byte(b) % 2)
        snprintf(temperature, sizeof temperature, "%.9g degC", fuzz_between(b, -60, 300));
    int length = snprintf(
        text, sizeof text,
        "title: t\nbearing: {type: %s, bore: %.9g mm, outside_diameter: %.9g mm, width: 9 mm, "
        "dynamic_load_rating: %.8e N, static_load_rating: %.8e N, contact_angle: %u deg, "
        "axial_factors: {e: 0.4, X: 0.4, Y: %.9g, Y0: 0.8}}\n"
        "lubricant: {kind: %s, viscosity_40: %.9g mm2/s, viscosity_index: %.9g}\n"
        "condition: {cleanliness: %s, water: %.8e ppm, grease_age: %.8e h}\n"
        "duty: [{phase: a, time: 100 %%, speed: %.8e rpm, radial_load: %.8e N, "
        "axial_load: %.8e N, temperature: %s}]\nreliability: %.9g %%\n"
        "service: {regrease: %.8e h, drifts: [{drift: d, to: %.8e h, "
        "temperature_rise: {start: 0 K, end: %.9g K}}]}\n",
        types[fuzz_byte(b) % 8], bore, bore * fuzz_between(b, 1.01, 9), rating,
        rating * fuzz_between(b, 0.1, 5), fuzz_byte(b) % 91, fuzz_between(b, 0.1, 9), kinds[oil],
        fuzz_between(b, 2.5, 5000), fuzz_between(b, -50, 400),
        (oil ? codes : classes)[fuzz_byte(b) % 5], fuzz_between(b, 0, 1e4), fuzz_between(b, 0, 1e5),
        fuzz_between(b, 1e-6, 1e6), rating * fuzz_between(b, 0, 4), rating * fuzz_between(b, 0, 1),
        temperature, fuzz_between(b, 90, 99.95), fuzz_between(b, 1, 1e6), fuzz_between(b, 1, 1e6),
        fuzz_between(b, -200, 200));
    return fuzz_scenario(text, (size_t)length), 0;
}
