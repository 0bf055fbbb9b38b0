/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A program of a user: sees only what is installed. */
#include <math.h>
#include <spalltime/run.h>
#include <spalltime/spalltime.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

int main(int argc, char **argv)
{
    double l10_mrev = 0;
    static char yaml[20000];
    /* Shigley 10e 11-1: 3 kN, 525 million revolutions, 24.3 kN; (24.2/3)^3 = 524.9 */
    if (spt_life_basic(SPT_DEEP_GROOVE_BALL, 24.2, 3, &l10_mrev) || fabs(l10_mrev - 525) > 1)
        return 1;
    /* an error inside a solver is a status, whatever GSL's own handler would do */
    const struct spt_life_law endless = spt_survival_iso_law(1e101);
    const struct spt_survival_system system = {1, &endless, 0, NULL};
    if (spt_survival_life(&system, 0.9, &l10_mrev) != SPT_NOT_CONVERGED)
        return 4;
    FILE *file = argc > 1 ? fopen(argv[1], "rb") : NULL;
    size_t length = file ? fread(yaml, 1, sizeof yaml, file) : 0;
    if (!file || fclose(file))
        return 2;
    int status = -1;
    char *json = spt_run_text("life", "json", yaml, length, NULL, NULL);
    char *page = spt_run_text("life", "html", yaml, length, NULL, &status);
    int fine = json && strstr(json, "\"modified_rating_life_h\"") && !strstr(json, "\"error\"") &&
               page && strstr(page, "<!DOCTYPE html>") && (status == 0 || status == 1);
    spt_free(json);
    spt_free(page);
    spt_life_basic(SPT_DEEP_GROOVE_BALL, 24.2, 3, &l10_mrev);
    printf("C: L10 %.1f million revolutions, spalltime %s\n", l10_mrev, SPT_VERSION);
    return fine ? 0 : 3;
}
