/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A program of a user who writes 1,5: the library must read and write 1.5 all the same, and leave
 * the user's setting alone. Gives 77 where the locale of the argument is not to be had. */
#include <locale.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "scenario/text/units.h"
#include "spalltime/life.h"
#if __has_include("spalltime/run.h")
#include "spalltime/run.h"
#define HAS_RUN 1
#endif

static int failures;

static void expect(int holds, const char *what)
{
    if (holds)
        return;
    printf("locale: %s\n", what);
    failures++;
}

static int writes_a_comma(void)
{
    char text[16];
    snprintf(text, sizeof text, "%.1f", 1.5);
    return !strcmp(text, "1,5");
}

static void check_reading(void)
{
    double value = 0;
    expect(spt_quantity_read("2.385 kN", SPT_FORCE, &value) == SPT_QUANTITY_FINE &&
               fabs(value - 2385) < 1e-9,
           "2.385 kN is not read");
    expect(spt_quantity_read("2,385 kN", SPT_FORCE, &value) != SPT_QUANTITY_FINE,
           "2,385 kN is taken");
}

#ifdef HAS_RUN
/* Hours are no whole numbers here, so a comma would show as `3,5` or break the JSON. */
static void check_run(void)
{
    static const char yaml[] =
        "title: t\nbearing: {type: deep groove ball, bore: 25 mm, outside_diameter: 52 mm, width: "
        "15 mm, dynamic_load_rating: 14 kN, static_load_rating: 7.85 kN}\n"
        "lubricant: {kind: oil bath, grade: VG 68}\ncondition: {cleanliness: -/15/12}\n"
        "duty: [{phase: p, time: 100 %, speed: 1450.5 rpm, radial_load: 900.5 N, "
        "temperature: 61.5 degC}]\n";
    char *json = spt_run_text("life", "json", yaml, strlen(yaml), NULL, NULL);
    expect(json && strstr(json, "\"speed_rpm\": 1450.5"), "the JSON of a run has no 1450.5");
    spt_free(json);
}
#endif

int main(int argc, char **argv)
{
    double l10 = 0;
    if (argc < 2 || !setlocale(LC_ALL, argv[1]) || !writes_a_comma())
        return 77;
    check_reading();
    expect(spt_life_basic(SPT_DEEP_GROOVE_BALL, 14e3, 2385, &l10) == SPT_OK && l10 > 200 &&
               l10 < 204,
           "the basic life of the library");
#ifdef HAS_RUN
    check_run();
#endif
    expect(writes_a_comma(), "the user's locale has been changed");
    if (!failures)
        printf("locale: points are read and written under %s\n", argv[1]);
    return failures != 0;
}
