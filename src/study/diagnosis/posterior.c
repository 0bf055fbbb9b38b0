/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "study/diagnosis/weighing.h"

void spt_weighing_weights(const struct spt_diagnosis_evidence *evidence, int count, int without,
                          double *weights)
{
    double sums[SPT_DIAGNOSIS_GROUPS_MAX] = {0}, squares[SPT_DIAGNOSIS_GROUPS_MAX] = {0};
    for (int i = 0; i < count; i++)
        if (i != without) {
            sums[evidence[i].group] += evidence[i].spread;
            squares[evidence[i].group] += evidence[i].spread * evidence[i].spread;
        }
    for (int i = 0; i < count; i++) {
        const double sum = sums[evidence[i].group];
        weights[i] = i == without ? 0 : SPT_DIAGNOSIS_ALPHA;
        if (sum > 0)
            weights[i] *= sqrt(squares[evidence[i].group]) / sum;
    }
}

void spt_weighing_posterior(const struct spt_weighing *weighing,
                            const struct spt_diagnosis_evidence *evidence, int count, int without,
                            double *posterior)
{
    const int causes = weighing->table->cause_count;
    double weights[SPT_DIAGNOSIS_FINDINGS_MAX + 1], most = -INFINITY, sum = 0;
    spt_weighing_weights(evidence, count, without, weights);
    for (int c = 0; c < causes; c++) {
        posterior[c] = log(weighing->prior[c]) + weighing->log_time[c];
        for (int i = 0; i < count; i++)
            posterior[c] += weights[i] * evidence[i].log_likelihood[c];
        most = fmax(most, posterior[c]);
    }
    for (int c = 0; c < causes; c++) {
        posterior[c] = exp(posterior[c] - most);
        sum += posterior[c];
    }
    for (int c = 0; c < causes; c++)
        posterior[c] /= sum;
}

int spt_weighing_first(const struct spt_weighing *weighing, const double *posterior, int but)
{
    int first = but == 0 ? 1 : 0;
    for (int c = first + 1; c < weighing->table->cause_count; c++)
        if (c != but && posterior[c] > posterior[first])
            first = c;
    return first;
}

void spt_weighing_modes(const struct spt_weighing *weighing, double *modes)
{
    const struct spt_diagnosis_table *table = weighing->table;
    for (int mode = 0; mode < table->mode_count; mode++)
        modes[mode] = 1.0 / 9; /* one in ten before anything was seen: our choice */
    for (int i = 0; i < weighing->one->answer_count; i++) {
        const struct spt_diagnosis_answer *answer = &weighing->one->answers[i];
        const struct spt_diagnosis_finding *finding = &table->findings[answer->finding];
        const double sure = spt_weighing_sure(weighing, finding->group, answer->sure);
        const double seen = answer->seen ? sure : 1 - sure;
        const double without = spt_likelihood_value(SPT_LIKELIHOOD_RARELY);
        for (int s = 0; s < finding->sign_count; s++) {
            const double with = spt_likelihood_value(finding->signs[s].likelihood);
            modes[finding->signs[s].mode] *= (seen * with + (1 - seen) * (1 - with)) /
                                             (seen * without + (1 - seen) * (1 - without));
        }
    }
    for (int mode = 0; mode < table->mode_count; mode++)
        modes[mode] /= 1 + modes[mode];
}
