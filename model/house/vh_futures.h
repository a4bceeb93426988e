/* vh_futures.h - how far the futures of a house scatter: what params/futures.csv and [futures] say.
 */
#ifndef VH_FUTURES_H
#define VH_FUTURES_H

#include <stdbool.h>
#include <stddef.h>

#include "vh_param.h"

/* Rows of params/futures.csv. The coefficients of variation are those of log-normal factors with
 * mean 1, one a member, before anything is learnt from records (model.md section 11). */
struct vh_futures_params {
    double members; /* where neither the command line nor the scenario says */
    double temperature_sd_c, persistence, clearness_sd, visit_delay_d;
    double fit_days;                 /* of measured weather before its own scatter is used */
    double light_cv, light_given_cv; /* given: the scenario has a light_factor */
    double truss_pace_cv, fruit_pace_cv, fruit_mass_cv, set_cv, stem_pace_cv, sucker_pace_cv,
        marketable_cv, overlooked_cv;
    double stray_sd, stray_d; /* of picks from the model (model/ensemble/vh_stray.h) */
    double unsteady_cv;       /* between houses, of how far they do */
    /* the hindcast's (model/learn/vh_hindcast.h) */
    double hindcast_members; /* futures of a week, at most */
    double hindcast_within;  /* share of what came: so near counts as met */
    double naive_errors;     /* weeks seen before a naive forecast's own errors make its spread */
    double naive_range;      /* share of its value either way, before that: its 80 % interval */
    double choice_cv; /* of a season's mass under a choice, against the plan's */
    double log_offset_sd_c; /* of a log's thermometer */
};
const struct vh_param_field *vh_futures_param_fields(size_t *count);

/* Of one scenario, defaults filled in. */
struct vh_futures {
    double temperature_sd_c, persistence, clearness_sd; /* of the weather (vh_weather.h) */
    bool weather_given; /* any of the three: nothing is fitted then */
    double visit_delay_d;
};

#endif
