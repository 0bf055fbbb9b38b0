// SPDX-License-Identifier: GPL-3.0-or-later
// A program of a user in C++: links against what is installed.
#include <cmath>
#include <cstring>
#include <spalltime/run.h>
#include <spalltime/spalltime.h>

int main()
{
    double a1 = 0;
    // ISO 281:2007 table 12: a1 of 95 % is 0.64
    if (spt_life_reliability_factor(95, &a1) || std::fabs(a1 - 0.64) > 0.005)
        return 1;
    int status = 0;
    char *json = spt_run_text("life", "json", "", 0, nullptr, &status);
    bool told = json && std::strstr(json, "\"error\"") && status == 3;
    spt_free(json);
    return told ? 0 : 2;
}
