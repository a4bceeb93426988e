/* vh_start_params.h - what a first scenario stands on where the grower does not know: rows of
 * params/start.csv. They make a first file, not the model: she reads them there, each called a
 * guess. */
#ifndef VH_START_PARAMS_H
#define VH_START_PARAMS_H

#include "vh_param.h"

/* Outside, in an ordinary year; how far places of that latitude lie apart are the bounds of the
 * row. */
struct vh_start_year {
    double warmest_high_c, warmest_low_c, coldest_high_c, coldest_low_c;
};
/* Latitudes that have one, each north and south. */
enum { VH_START_BANDS = 8 };

struct vh_start_params {
    double latitude_deg, wire_m, plants;
    double frost_c, vent_c;
    double still_goes_on_d; /* of a season begun so long ago she still speaks */
    double no_winter_deg;   /* nearer to the equator */
    double least_season_d, no_winter_season_d;
    double heated_from_month, heated_from_day, cold_from_month, cold_from_day;
    double heated_until_month, heated_until_day, cold_until_month, cold_until_day;
    struct vh_start_year north[VH_START_BANDS], south[VH_START_BANDS];
};
const struct vh_param_field *vh_start_param_fields(size_t *count);

#endif
