/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "study/life/reach_work.h"

#include <math.h>

#define GRADE_UPPER 1.1

int spt_reach_grade(const struct spt_case *question)
{
    int best = 0;
    double nearest = (double)INFINITY;
    for (int i = 0; i < SPT_VISCOSITY_GRADE_COUNT; i++) {
        double distance =
            fabs(log(spt_viscosity_grade(i)->nu40_mm2_s / question->lubricant.viscosity_40_mm2_s));
        if (distance < nearest) {
            nearest = distance;
            best = i;
        }
    }
    return best;
}

int spt_reach_thicker(const struct spt_case *question)
{
    int grade = 0;
    while (grade < SPT_VISCOSITY_GRADE_COUNT &&
           SPT_REACH_GRADE_LIMIT * spt_viscosity_grade(grade)->nu40_mm2_s <=
               question->lubricant.viscosity_40_mm2_s)
        grade++;
    return grade;
}

int spt_reach_thinner(const struct spt_case *question)
{
    int grade = SPT_VISCOSITY_GRADE_COUNT - 1;
    while (grade >= 0 && GRADE_UPPER * spt_viscosity_grade(grade)->nu40_mm2_s >=
                             question->lubricant.viscosity_40_mm2_s)
        grade--;
    return grade;
}

int spt_reach_not_thinner(const struct spt_case *question)
{
    for (int grade = 0; grade < SPT_VISCOSITY_GRADE_COUNT; grade++)
        if (spt_viscosity_grade(grade)->nu40_mm2_s >=
            question->lubricant.viscosity_40_mm2_s * (1 - 1e-9))
            return grade;
    return -1;
}
