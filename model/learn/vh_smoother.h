/* vh_smoother.h - ensemble smoother with multiple data assimilation: moves many guesses of the
 * unknowns towards what was observed, as far as the guesses' own spread allows [emerick2013].
 *
 *     m <- m + C_MD (C_DD + alpha C_D)^-1 (d + sqrt(alpha) e - g(m))
 *     sum over passes of 1/alpha = 1
 *
 * m unknowns of a member, g(m) what the model makes of them, d observed, e a draw of the
 * observation error, C_D its variances (independent errors), C_MD and C_DD covariances over the
 * members. For linear g and Gaussian m the answer is the exact one as members grow. A sample
 * covariance of n members is off by about 1/sqrt(n) of the spreads even where nothing hangs
 * together; correlations are shrunk by what that alone would show, so that what is not observed
 * does not move.
 */
#ifndef VH_SMOOTHER_H
#define VH_SMOOTHER_H

#include <stddef.h>
#include <stdint.h>

#include "vh_error.h"

struct vh_smoother {
    size_t members, unknowns, observations;
    double *unknown;         /* [member][unknown]: changed by the update */
    const double *predicted; /* [member][observation]: g(m) */
    const double *observed;  /* [observation] */
    const double *sd;        /* [observation], above 0 */
    double alpha;            /* at least 1 */
    double
        doubt; /* shrinks correlations: 0 not at all, 1 by what chance would show, 2 by twice that
                */
    uint64_t draw; /* of the observation errors */
    uint32_t pass;
};

/* One pass. VH_NO_MEMORY, VH_NO_NUMBER (the matrix cannot be solved: a sd is 0, or not finite):
 * unknowns untouched. */
enum vh_status vh_smoother_update(const struct vh_smoother *s);

/* Share of a sample correlation of so many members that is believed: its square less `doubt` times
 * what chance would show, over its square; 0 to 1. */
double vh_smoother_believed(double correlation, size_t members, double doubt);

#endif
