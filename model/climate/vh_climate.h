/* vh_climate.h - one hourly climate of the house over the season, from logs and outlook, with where
 * each hour came from.
 *
 * Per quantity each hour comes from the first that covers it: house log, then outlook (outside
 * file, normals, roughly), with the grower's spells laid over the outlook (model.md section 1).
 * Hours and days are of the house's standard time.
 */
#ifndef VH_CLIMATE_H
#define VH_CLIMATE_H

#include "vh_date.h"
#include "vh_error.h"
#include "vh_param.h"
#include "vh_table.h"

#define VH_HOURS_PER_DAY 24

/* Rows of params/defaults.csv that belong to house and climate; struct and field list live together
 * in climate/. */
struct vh_house_params {
    double gain_k_m2_w;              /* inside warming per W m-2 of outside radiation */
    double lift_k;                   /* above outdoors with vents wide open */
    double heat_c, vent_c;           /* defaults of set points, degC */
    double co2_ppm;                  /* outdoor air */
    double krs_per_sqrt_k;           /* FAO-56 eq. 50 */
    double angstrom_a, angstrom_b;   /* FAO-56 eq. 35 */
    double solar_constant_mj_m2_min; /* 0.0820, FAO-56 eq. 21 */
    double t_max_solar_h;            /* hour of the day's highest outside temperature */
    double par_share;                /* PAR of global radiation, J J-1 */
    double par_umol_per_j;           /* photons per J of PAR */
    double cover_glass, cover_film_single, cover_film_double, cover_polycarbonate;
    double doubt_clock_h;  /* a clock further from the sun is doubted */
    double doubt_dull_share;  /* of the light of the two weeks before, below it a week is dull */
    double doubt_small_share; /* of a fruit's mass by its pollen, below it is said to stay small */
    double doubt_hunger_d; /* days of unpaid upkeep before it is said */
    double doubt_use_low_g_mj, doubt_use_high_g_mj, doubt_use_rich_g_mj,
        doubt_rich_ppm; /* growth per light taken outside these is doubted; rich: above so much CO2
                         */
    double doubt_reach_peak_weeks; /* weeks more that a season or a part of it may claim for its
                                      best weeks */
    double light_factor_log, light_factor_outlook; /* prior of light_factor: recorded light; light
                                                      computed from outside */
    double gap_fill_h;                             /* longest gap that is interpolated */
    double gap_told_d; /* a gap that ended longer ago is told by check alone */
    double stuck_h;    /* hours on end of the same reading: a stuck sensor */
    double recent_d, recent_half_d, lit_share; /* see vh_outlook */
    double spike_low_c, spike_high_c;
    double degree_day_base_c;              /* of climate_days.csv */
    double hot_c;                          /* of hours_above_30_c */
    double sky_clear, sky_mixed, sky_dull; /* Rs/Ra of the three sky words */
    double default_season_d;               /* set_out to pull_out where absent */
    double market_promise;                 /* chance with which a promise must hold */
    double market_sold_after_d;            /* of a planting, after its pull-out; whole */
    double market_share_beyond;            /* of the price, for what is above what sells */
    double gap_filled, gap_plants_beyond, gap_plants_most, gap_members; /* of market days */
    double gap_felt, gap_valley, gap_near_d;                            /* see vh_gap_rules */
    double doubt_told_d;              /* a doubtful entry is told on the screen */
    double said_ahead_d, said_near_d; /* of promises: said so near; judged so near a week */
    double small_share;               /* of the mass fruit is picked from: lighter means are told */
};
const struct vh_param_field *vh_house_param_fields(size_t *count);

struct vh_file_name {
    char *path, *shown;
}; /* path to open; the name as the person wrote it */
struct vh_column_map {
    char *ours, *theirs;
    bool used;
    struct vh_place place;
};

struct vh_spell {
    int64_t from, until;
    double day_c, night_c;
    int sky;
}; /* sky -1: not given; 0 clear 1 mixed 2 dull */

/* What the scenario asks of the climate; filled by house/, owned there. NaN: not given. */
struct vh_climate_request {
    int64_t first_day, last_day, today; /* inclusive */
    double latitude_deg, longitude_deg;
    int utc_offset_min;
    enum vh_clock_rule log_clock;
    double cover_transmission;
    double heat_loss_w_k;
    double shade_share;
    int64_t shade_from, shade_until; /* days inclusive; share NaN: no shade */
    /* solar hours, off may pass midnight; NaN: no lamp hours (then a log's lamps_pct alone lights
     * them, and a daily light sum is never shared out over lamp hours) */
    double lamps_umol_m2_s, lamps_on_h, lamps_off_h;
    double co2_ppm;
    double log_offset_c;
    double heat_day_c, heat_night_c, vent_c;
    struct vh_file_name *log;
    size_t logs;
    struct vh_file_name outside, normals; /* path NULL: none */
    bool unforeseen; /* rows of the outside file after today are left out: they are measured, not
                        foreseen */
    bool has_roughly;
    double warmest_high_c, warmest_low_c, coldest_high_c, coldest_low_c;
    int roughly_sky;
    struct vh_spell *spell;
    size_t spells;
    struct vh_column_map *log_column;
    size_t log_columns;
    struct vh_column_map *outside_column;
    size_t outside_columns;
    char *time_pattern;      /* NULL: ISO 8601 */
    char separator, decimal; /* 0: not given */
};

/* What the air inside is reckoned from where no log tells it, kept so that another weather can be
 * laid over it (vh_weather.h).
 *
 * The house as the latest log has it: on each of its last recent_d days the outlook is also made as
 * if there were no log, and what was logged lies above it by d(h) in the mean, hour of the day by
 * hour. The hours after the log are moved by d(h) n / (n + recent_half_d), n the days with that
 * hour: a log of a few days moves little, one of weeks nearly all the way. So a warmer house and a
 * darker roof than the scenario says are carried on. Where lamps burn (more than lit_share of the
 * light in hours without sun), light is moved by as much towards its own mean at that hour instead:
 * lamps make up for the sun. CO2 goes on as it was at that hour, the book worth one day. [assumed]
 */
struct vh_outlook {
    /* [hours] */
    double *sun_w_m2;                     /* outside radiation; NaN where unknown */
    double *heat_c;                       /* heating set point */
    double *lamps_umol_m2_s;              /* light of the lamps */
    double *warmer_c, *lighter_umol_m2_s; /* than the rule has it, as the latest log was; else 0 */
    unsigned char *light_logged;
    /* [days] */
    double *par_per_w;                   /* inside PAR, umol m-2 s-1, per W m-2 of sun outside */
    double *clearer_most;                /* light of a clear day over the day's own, at least 1 */
    bool *known;                         /* measured, inside or out, and not after today */
    bool *t_out_measured, *sun_measured; /* the same of the outside alone */
    double gain_k_m2_w, lift_k, vent_c, heat_loss_w_k, degree_day_base_c, hot_c;
};

struct vh_climate {
    int64_t first_day;
    size_t days;
    /* [days * 24], hour h of day d at d * 24 + h */
    double *t_c;           /* air, inside */
    double *par_umol_m2_s; /* inside, above the crop, lamps included; before light_factor */
    double *co2_ppm;
    double *t_out_c; /* NaN where unknown */
    unsigned char
        *logged; /* 1: temperature from the log (or a gap of it filled by interpolation) */
    /* [days]; heating_kwh: heat loss x hours x K above what sun and outside air give, while these
     * stay below the heating set point; NaN without a heat loss or an outside temperature.
     * co2_day_ppm: of the hours with light, which leaves feel; of all where none has */
    double *tmean_c, *tmin_c, *tmax_c, *dli_mol_m2_d, *co2_day_ppm, *degree_days_c_d,
        *hours_above_hot, *heating_kwh;
    double *hours_logged;
    int64_t last_logged_day; /* INT64_MIN: no log */
    bool light_from_log;     /* most of the season's past light is recorded */
    struct vh_outlook outlook;
    struct vh_table *log_report; /* "log": file, what, count, first_line, last_line, why, told */
};

/* Reads the files and fills every hour of first_day..last_day. VH_BAD_INPUT with messages when a
 * file is wrong or some hour has no source. Memory does not grow with the number of rows. The
 * caller clears `out`. */
enum vh_status vh_climate_read(const struct vh_climate_request *request,
                               const struct vh_house_params *params, struct vh_digest *digest,
                               struct vh_climate *out, struct vh_messages *m);
void vh_climate_clear(struct vh_climate *c);

#endif
