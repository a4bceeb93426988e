/* vh_scenario.h - the inside of a scenario handle: the house it describes and what `check` shows. */
#ifndef VH_SCENARIO_H
#define VH_SCENARIO_H

#include "vh_house.h"
#include "vh_parameters.h"

struct vh_scenario {
    struct vh_house house;
    const struct vh_parameters *parameters;
    struct vh_run_options options;
    struct vh_crop *own_crop; size_t own_crops;     /* crops with single rows replaced by this scenario */
    struct vh_table *defaults, *plantings;          /* the log's table is house.climate.log_report */
    char digest[65];
};

#endif
