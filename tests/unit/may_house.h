/* may_house.h - a house whose climate tests and fuzzers read: its parameters, and a request for the
 * first ten days of May 2026 under a known outlook, without any file. At 44.5 N, 75 W the sun's
 * noon is near 12 of its clock. */
#ifndef MAY_HOUSE_H
#define MAY_HOUSE_H

#include <math.h>

#include "vh_climate.h"

#define FIRST_OF_MAY 20574 /* 2026-05-01, from 1970-01-01 on */

static const struct vh_house_params may_params = {
    .gain_k_m2_w = 0.02,
    .lift_k = 3,
    .heat_c = 17,
    .vent_c = 24,
    .co2_ppm = 420,
    .krs_per_sqrt_k = 0.16,
    .angstrom_a = 0.25,
    .angstrom_b = 0.5,
    .solar_constant_mj_m2_min = 0.0820,
    .t_max_solar_h = 14.5,
    .par_share = 0.5,
    .par_umol_per_j = 4.57,
    .cover_glass = 0.7,
    .cover_film_single = 0.65,
    .cover_film_double = 0.55,
    .cover_polycarbonate = 0.6,
    .light_factor_log = 1,
    .light_factor_outlook = 0.8,
    .gap_fill_h = 3,
    .gap_told_d = 14,
    .stuck_h = 1000, /* many logs of the tests stand still on purpose */
    .spike_low_c = -20,
    .spike_high_c = 60,
    .degree_day_base_c = 10,
    .hot_c = 30,
    .sky_clear = 0.7,
    .sky_mixed = 0.5,
    .sky_dull = 0.3,
    .default_season_d = 300,
};

static inline struct vh_climate_request may_request(void)
{
    return (struct vh_climate_request){
        .first_day = FIRST_OF_MAY,
        .last_day = FIRST_OF_MAY + 9,
        .today = FIRST_OF_MAY + 9,
        .latitude_deg = 44.5,
        .longitude_deg = -75,
        .utc_offset_min = -300,
        .log_clock = VH_CLOCK_STANDARD,
        .cover_transmission = 0.6,
        .heat_loss_w_k = NAN,
        .shade_share = NAN,
        .lamps_umol_m2_s = NAN,
        .lamps_on_h = NAN,
        .lamps_off_h = NAN,
        .co2_ppm = NAN,
        .log_offset_c = 0,
        .heat_day_c = NAN,
        .heat_night_c = NAN,
        .vent_c = NAN,
        .has_roughly = true,
        .warmest_high_c = 28,
        .warmest_low_c = 16,
        .coldest_high_c = -2,
        .coldest_low_c = -12,
        .roughly_sky = 1,
    };
}

#endif
