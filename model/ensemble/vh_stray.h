/* vh_stray.h - how picks stray from the season that the model runs, though all its factors be
 * right.
 *
 *     log(picked) = log(model) + a(t) + e
 *     a(t + d) = f a(t) + s sqrt(1 - f^2) z,  f = exp(-d / stray_d)                    [assumed]
 *
 * a goes up and down over weeks (a pest, a tired crop, riper or greener picking, what the model
 * does not know): a first-order autoregressive process of standard deviation s = stray_sd. e is the
 * lot of one pick, a flush a day early or late: sd record.picked_kg.model_share for a week's pick,
 * sqrt(7/n) of that for n days. Both are laid on the picks to come alone, never on the plants.
 */
#ifndef VH_STRAY_H
#define VH_STRAY_H

#include "vh_futures.h"
#include "vh_season.h"

struct vh_stray {
    double sd, days; /* s; time over which a keeps 1/e of itself */
    double flush;    /* sd of e for a week's pick */
    uint64_t draw;
    uint32_t member, planting;
    bool is_mean; /* no draws: a fades, e is 0 */
};

/* Covariance of a at two times, days apart. */
double vh_stray_covariance(double sd, double days, double apart_d);
/* Lays it on the picks after `today`, a being `now` at its end. */
void vh_stray_apply(const struct vh_stray *p, double now, int64_t today, struct vh_season *s);
/* What the mean run's picks are multiplied by on each day of the season, 1 until today. */
void vh_stray_mean(double days, double now, int64_t today, const struct vh_season *s,
                   double *factor);

#endif
