/* vh_weather.h - other weathers that may come: each future has on every day that is not known an
 * anomaly of the outside temperature and of the logarithm of the light, laid over the outlook.
 *
 *     a_d = phi a_(d-1) + sd sqrt(1 - phi^2) z_d,  a = 0 on known days        [assumed]
 *     T_out,h + a_d;   R_out,h min(exp(c_d - sd_c^2 / 2), clear day over the day's own)
 * so that the scatter grows from nothing at the last known day to sd. The air inside follows by the
 * house's own rule of heating and venting. Hours from a log stay as they are. A day is known if it
 * is not after today and was measured, inside or out; a past day that nobody measured is a guess
 * like those to come.
 */
#ifndef VH_WEATHER_H
#define VH_WEATHER_H

#include "vh_climate.h"
#include "vh_wide.h"

struct vh_weather_spread {
    double temperature_sd_c; /* of a day's mean outside */
    double persistence;      /* phi, 0..1 */
    double clearness_sd;     /* of log light */
};

/* Anomalies of a member: warmer_k[days], clearer[days] (factor on the light), by any registers that
 * the machine has. */
void vh_weather_draw(const struct vh_climate *c, const struct vh_weather_spread *spread,
                     uint64_t draw, uint32_t member, enum vh_registers registers,
                     double *warmer_k, double *clearer);

/* A climate for other weathers over `from`, which must live as long: what they change is its own.
 * VH_NO_MEMORY. Clear with vh_weather_clear. */
enum vh_status vh_weather_init(const struct vh_climate *from, struct vh_climate *out);
void vh_weather_clear(struct vh_climate *out);
/* Fills `out` with `from` under the anomalies, by any registers that the machine has. */
void vh_weather_fill(const struct vh_climate *from, const double *warmer_k, const double *clearer,
                     enum vh_registers registers, struct vh_climate *out);
/* The same log, its thermometer off by so much: every logged hour of `out`, which was filled from
 * `from`, is warmer by it. */
void vh_weather_shift_log(const struct vh_climate *from, double warmer_k, struct vh_climate *out);

/* The scatter of the measured outside of the season about its yearly course (a mean, a cosine and a
 * sine of the year), weighed against `spread`, which counts for as much as book_days of measuring.
 * With fewer than 30 measured days nothing changes. VH_NO_MEMORY. */
enum vh_status vh_weather_fit(const struct vh_climate *c, double book_days,
                              struct vh_weather_spread *spread);

#endif
