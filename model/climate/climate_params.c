#include "vh_climate.h"

#include <stddef.h>

#define NUMBER(field, row, unit_text, words)                                                       \
    {                                                                                              \
        row, unit_text, VH_PARAM_NUMBER, offsetof(struct vh_house_params, field), NULL, words      \
    }

static const struct vh_param_field fields[] = {
    NUMBER(gain_k_m2_w, "house.gain_k_m2_w", "K m2 W-1",
           "inside warming per outside radiation, vents shut"),
    NUMBER(lift_k, "house.lift_k", "K", "inside above outdoors with vents wide open"),
    NUMBER(heat_c, "house.heat_c", "degC", "heating set point where the scenario gives none"),
    NUMBER(vent_c, "house.vent_c", "degC", "venting set point where the scenario gives none"),
    NUMBER(co2_ppm, "house.co2_ppm", "umol mol-1", "CO2 of the air where nothing is given"),
    NUMBER(krs_per_sqrt_k, "sky.krs_per_sqrt_k", "K-0.5",
           "light share per root of the day's temperature range, FAO-56 eq. 50"),
    NUMBER(angstrom_a, "sky.angstrom_a", "1", "light share of a sunless day, FAO-56 eq. 35"),
    NUMBER(angstrom_b, "sky.angstrom_b", "1", "what full sunshine adds to it, FAO-56 eq. 35"),
    NUMBER(solar_constant_mj_m2_min, "sky.solar_constant_mj_m2_min", "MJ m-2 min-1",
           "radiation above the air, facing the sun"),
    NUMBER(t_max_solar_h, "sky.t_max_solar_h", "h", "solar hour of the day's highest temperature"),
    NUMBER(par_share, "light.par_share", "1", "photosynthetic part of global radiation, by energy"),
    NUMBER(par_umol_per_j, "light.par_umol_per_j", "umol J-1", "photons in a joule of that part"),
    NUMBER(cover_glass, "cover.glass", "1", "share of light a glass house lets in"),
    NUMBER(cover_film_single, "cover.film_single", "1", "share of light one film lets in"),
    NUMBER(cover_film_double, "cover.film_double", "1",
           "share of light an inflated double film lets in"),
    NUMBER(cover_polycarbonate, "cover.polycarbonate", "1",
           "share of light twin-wall sheets let in"),
    NUMBER(light_factor_log, "light.factor_log", "1",
           "crop's light over the recorded light, before learning"),
    NUMBER(light_factor_outlook, "light.factor_outlook", "1",
           "crop's light over light computed from outside, before learning"),
    NUMBER(doubt_clock_h, "doubt.clock_h", "h",
           "a clock further than this from the sun is doubted"),
    NUMBER(doubt_hunger_d, "doubt.hunger_d", "d", "hunger for so many days running is said"),
    NUMBER(doubt_use_low_g_mj, "doubt.light_use_low_g_mj", "g MJ-1",
           "dry matter per light taken below this is doubted"),
    NUMBER(doubt_use_high_g_mj, "doubt.light_use_high_g_mj", "g MJ-1",
           "dry matter per light taken above this is doubted"),
    NUMBER(doubt_use_rich_g_mj, "doubt.light_use_rich_g_mj", "g MJ-1", "the same with much CO2"),
    NUMBER(doubt_rich_ppm, "doubt.light_use_rich_ppm", "umol mol-1", "more CO2 than this is much"),
    NUMBER(doubt_reach_peak_weeks, "doubt.reach_peak_weeks", "week",
           "weeks more that a season or a part of it may claim for its best weeks"),
    NUMBER(gap_fill_h, "log.gap_fill_h", "h", "longest gap of a log that is interpolated"),
    NUMBER(gap_told_d, "log.gap_told_d", "d", "a gap that ended longer ago is told by check alone"),
    NUMBER(recent_d, "log.recent_d", "d", "latest days that the outlook is held against"),
    NUMBER(recent_half_d, "log.recent_half_d", "d",
           "logged days that move the outlook half as far as they were off"),
    NUMBER(lit_share, "log.lit_share", "1",
           "more of the logged light than this in hours without sun is of lamps"),
    NUMBER(spike_low_c, "log.spike_low_c", "degC", "colder readings inside are faults"),
    NUMBER(spike_high_c, "log.spike_high_c", "degC", "hotter readings inside are faults"),
    NUMBER(degree_day_base_c, "days.degree_day_base_c", "degC", "base of degree_days_c_d"),
    NUMBER(hot_c, "days.hot_c", "degC", "hours hotter than this are counted"),
    NUMBER(sky_clear, "sky.clear", "1", "share of Ra that reaches the ground under a clear sky"),
    NUMBER(sky_mixed, "sky.mixed", "1", "the same under a mixed sky"),
    NUMBER(sky_dull, "sky.dull", "1", "the same under a dull sky"),
    NUMBER(gap_filled, "market.gap_filled", "1",
           "share of a gap between market days that another batch should fill"),
    NUMBER(gap_plants_beyond, "market.gap_plants_beyond", "1",
           "plants over the least possible, for which a later sowing is still proposed"),
    NUMBER(gap_plants_most, "market.gap_plants_most", "1",
           "times the plants of the good: a larger batch is not proposed"),
    NUMBER(gap_members, "market.gap_members", "1", "futures that the plants are reckoned with"),
    NUMBER(doubt_told_d, "market.doubt_told_d", "d",
           "a doubtful entry older than this is no longer told on the screen"),
    NUMBER(said_near_d, "market.said_near_d", "d",
           "a promise made so far from a week before its day is judged"),
    NUMBER(said_ahead_d, "market.said_ahead_d", "d", "promises are kept for market days so near"),
    NUMBER(small_share, "market.small_share", "1",
           "of the mass fruit is picked from: lighter means are told"),
    NUMBER(default_season_d, "house.default_season_d", "d",
           "set-out to pull-out where none is given"),
    NUMBER(market_promise, "market.promise", "1",
           "chance with which a promise to a customer must hold"),
    NUMBER(market_sold_after_d, "market.sold_after_d", "d",
           "days after its pull-out on which a planting's fruit is still sold"),
    NUMBER(market_share_beyond, "market.price_share_beyond", "1",
           "share of the price for what is above what sells at full price"),
};

const struct vh_param_field *vh_house_param_fields(size_t *count)
{
    *count = sizeof fields / sizeof fields[0];
    return fields;
}
