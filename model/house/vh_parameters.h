/* vh_parameters.h - everything read from params/ once, shared read-only by all runs. */
#ifndef VH_PARAMETERS_H
#define VH_PARAMETERS_H

#include "vh_climate.h"
#include "vh_crop.h"
#include "vh_futures.h"
#include "vh_minutes.h"
#include "vh_param.h"
#include "vh_record.h"
#include "vh_ripen.h"
#include "vh_start_params.h"

struct vh_crop_file {
    char *name;
    struct vh_crop crop;
    struct vh_param_set rows;
};

struct vh_parameters {
    char *folder; /* tables of grades are read from there when a scenario names one */
    struct vh_sources *sources;
    struct vh_house_params house;
    struct vh_param_set house_rows;
    struct vh_work_params work;
    struct vh_param_set work_rows;
    struct vh_colours colours;
    struct vh_param_set colour_rows;
    struct vh_record_params record;
    struct vh_param_set record_rows;
    struct vh_futures_params futures;
    struct vh_param_set futures_rows;
    struct vh_start_params start;
    struct vh_param_set start_rows;
    struct vh_ripen_table ripen; /* off-vine.csv: picked fruit colours on */
    struct vh_param_bases *bases; /* of the crops: their rows lie in it */
    struct vh_crop_file *crop;
    size_t crops; /* by name, sorted */
    char digest[65];
};

/* NULL if there is no such crop; `eggplant-` is read as `aubergine-`. */
const struct vh_crop_file *vh_parameters_crop(const struct vh_parameters *p, const char *name);

/* "eggplant", "eggplants" and "eggplant-..." with aubergine in its place, as in the names of crops;
 * any other word as it is. Cut to the room. */
void vh_parameters_crop_word(const char *word, char *ours, size_t room);

#endif
