#include <stddef.h>

#include "vh_start_params.h"

#define NUMBER(field, unit, meaning)                                                               \
    {                                                                                              \
        "start." #field, unit, VH_PARAM_NUMBER, offsetof(struct vh_start_params, field), NULL,     \
            meaning                                                                                \
    }
#define QUANTITY(side, i, deg, field, meaning)                                                     \
    {                                                                                              \
        "start." #side "_" deg "." #field, "degC", VH_PARAM_NUMBER,                                \
            offsetof(struct vh_start_params, side) + (i) * sizeof(struct vh_start_year) +          \
                offsetof(struct vh_start_year, field),                                             \
            NULL, meaning                                                                          \
    }
#define YEAR(side, i, deg)                                                                         \
    QUANTITY(side, i, deg, warmest_high_c, "usual afternoon of the warmest month, by latitude"),   \
        QUANTITY(side, i, deg, warmest_low_c, "usual night of the warmest month, by latitude"),    \
        QUANTITY(side, i, deg, coldest_high_c,                                                     \
                 "usual afternoon of the coldest month, by latitude"),                             \
        QUANTITY(side, i, deg, coldest_low_c, "usual night of the coldest month, by latitude")
#define BAND(i, deg) YEAR(north, i, deg), YEAR(south, i, deg)

// clang-format off
static const struct vh_param_field fields[] = {
    NUMBER(latitude_deg, "deg", "where the house lies, as long as it is not said"),
    NUMBER(wire_m, "m", "height of the wire, as long as it is not said"),
    NUMBER(plants, "1", "how many plants, as long as it is not said"),
    NUMBER(frost_c, "degC", "a house without a heater is kept at this"),
    NUMBER(vent_c, "degC", "vents are opened above this"),
    NUMBER(still_goes_on_d, "d", "a season that began so long ago is still the one she means"),
    NUMBER(no_winter_deg, "deg", "nearer to the equator there is no winter to wait for"),
    NUMBER(least_season_d, "d", "set-out to pull-out at least"),
    NUMBER(no_winter_season_d, "d", "set-out to pull-out where there is no winter"),
    NUMBER(heated_from_month, "1", "month of setting out in a heated house of the north"),
    NUMBER(heated_from_day, "1", "its day"),
    NUMBER(cold_from_month, "1", "month of setting out in an unheated house of the north"),
    NUMBER(cold_from_day, "1", "its day"),
    NUMBER(heated_until_month, "1", "month of pulling out in a heated house of the north"),
    NUMBER(heated_until_day, "1", "its day"),
    NUMBER(cold_until_month, "1", "month of pulling out in an unheated house of the north"),
    NUMBER(cold_until_day, "1", "its day"),
    BAND(0, "00"), BAND(1, "15"), BAND(2, "30"), BAND(3, "40"),
    BAND(4, "45"), BAND(5, "50"), BAND(6, "60"), BAND(7, "72"),
};
// clang-format on

const struct vh_param_field *vh_start_param_fields(size_t *count)
{
    *count = sizeof fields / sizeof fields[0];
    return fields;
}
