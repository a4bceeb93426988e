/* vh_scenario.h - the inside of a scenario handle: the house it describes and what `check` shows.
 */
#ifndef VH_SCENARIO_H
#define VH_SCENARIO_H

#include "vh_house.h"
#include "vh_parameters.h"
#include "vh_request.h"

struct vh_posterior;
struct vh_toml;

struct vh_scenario {
    struct vh_house house;
    const struct vh_parameters *parameters;
    struct vh_run_options options;
    struct vh_choices choices;
    /* crops with single rows replaced by this scenario; own_rows and own_of run along own_crop */
    struct vh_crop *own_crop;
    size_t own_crops;
    struct vh_param_set *own_rows;
    const struct vh_crop_file **own_of; /* the file each is a copy of */
    /* defaults.csv with this scenario's rows: to be used instead of parameters->house */
    struct vh_house_params house_params;
    struct vh_param_set house_rows;
    struct vh_toml *toml;                  /* the file's lines: places point into it */
    struct vh_posterior *posterior; /* learnt from the records (vh_ensemble.h); NULL: nothing */
    struct vh_table *learned;       /* how: learned.csv; NULL: nothing */
    struct vh_table *defaults, *plantings; /* the log's table is house.climate.log_report */
    char digest[65];
};

#endif
