#include "vh_score.h"

#include <math.h>

#include "vh_math.h"

double vh_score_crps(const double *sorted, size_t n, double came)
{
    double off = 0.0, apart = 0.0;
    const double count = (double)n;

    for (size_t i = 0; i < n; i++) {
        off += fabs(sorted[i] - came);
        /* in a sorted list the sum over pairs of |x - x'| needs each value once */
        apart += (2.0 * (double)i + 1.0 - count) * sorted[i];
    }
    return off / count - apart / (count * count);
}

double vh_score_crps_normal(double mean, double sd, double came)
{
    if (sd <= 0.0)
        return fabs(came - mean);
    const double z = (came - mean) / sd, density = vh_exp(-z * z / 2.0) / sqrt(2.0 * VH_PI);

    return sd * (z * (2.0 * vh_normal_cdf(z) - 1.0) + 2.0 * density - 1.0 / sqrt(VH_PI));
}

double vh_score_pinball(double quantile, double level, double came)
{
    return came >= quantile ? level * (came - quantile) : (1.0 - level) * (quantile - came);
}
