#include "vh_hot_day.h"

#include <math.h>

/* What one future in ten goes beyond, else the number itself: care is taken of what may be. */
static double at_worst(double number, double one_in_ten)
{
    return isfinite(one_in_ten) ? one_in_ten : number;
}

double vh_hot_day_c(const struct vh_table *climate_days, size_t row)
{
    const double hours = at_worst(vh_cell_number(climate_days, row, "hours_above_30_c"),
                                  vh_cell_number(climate_days, row, "hours_above_30_c_p90"));
    const double most = at_worst(vh_cell_number(climate_days, row, "tmax_c"),
                                 vh_cell_number(climate_days, row, "tmax_c_p90"));

    return hours > 0.0 ? most : (double)NAN;
}
