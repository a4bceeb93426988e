/* vh_house.h - a house and its plantings as the run needs them: plain structs, filled by
 * vh_scenario or by hand. */
#ifndef VH_HOUSE_H
#define VH_HOUSE_H

#include "vh_climate.h"
#include "vh_clock.h"
#include "vh_crop.h"
#include "vh_futures.h"
#include "vh_kept.h"
#include "vh_labour.h"
#include "vh_market.h"
#include "vh_policy.h"
#include "vh_record.h"
#include "vh_ripen.h"

/* A crop as it stands on a day. NaN, 0 fruits: not given. */
struct vh_standing {
    bool given;
    double flowering_truss, picking_truss;
    double stem_cm, leaves;
    double *fruits;
    size_t trusses; /* on the trusses from the picking one up */
};

struct vh_planting {
    char *name;
    const struct vh_crop *crop; /* with this planting's own rows replaced; owned by the scenario */
    const struct vh_crop_tables *tables; /* of the crop; NULL: each season makes its own */
    char *crop_name;
    double plants;
    double plants_per_m2;
    double plants_apart_cm; /* NaN: not given */
    double heads_per_plant;
    int64_t set_out, pull_out; /* inclusive */
    bool has_first_flower;
    int64_t first_flower;
    struct vh_place first_flower_place;
    struct vh_standing standing; /* then set_out is the day it stands so */
    double seedling_leaves;
    double usual_fruit_g;
    double flowers; /* of a truss of that variety; 0 in a house filled by hand: of the crop */
    double feed_ec_ms_cm;
    struct vh_policy policy;
    struct vh_kept kept[VH_KEPT_KINDS]; /* of another season; those of the house are there */
    const int64_t *look; /* days, rising, on which a season keeps what is seen (vh_look) */
    size_t looks;
    struct vh_done done;   /* policy.done, where records were read */
    struct vh_place place; /* of its [[planting]] header */
};

struct vh_house {
    char *name;
    bool us_units; /* answers are said in pounds and feet, where nothing else is asked */
    char *currency;                                                /* NULL: not given */
    double floor_area_m2, wire_height_m, row_length_m, row_gap_cm; /* NaN: not given */
    double light_factor;
    bool light_factor_given;
    double fuel_per_kwh; /* price of heat; NaN: not given */
    int64_t today;
    struct vh_climate_request climate_request;
    struct vh_climate climate;
    struct vh_planting *planting;
    size_t plantings;
    struct vh_records records;
    struct vh_kept kept[VH_KEPT_KINDS]; /* light and log_offset_c */
    struct vh_file_name kept_file;      /* path NULL: none */
    struct vh_futures futures;
    int64_t first_day, last_day; /* of the whole season */
    struct vh_labour labour;
    struct vh_stock stock;
    struct vh_market market;
    struct vh_colours colours;          /* all 0 in a house filled by hand: none are known */
    const struct vh_ripen_table *ripen; /* of the parameters; NULL: nothing colours on */
};

void vh_house_clear(struct vh_house *h);

/* Are the picks of a planting counted, not weighed: as she sells them, else as the crop usually is?
 */
bool vh_house_counts(const struct vh_house *house, const struct vh_planting *p);

/* Seedless fruit that bees visit turns misshapen, seeded and bitter (Hochmuth, UF/IFAS CV268); a
 * crop that sets its own pollen takes no harm from them. */
bool vh_bees_spoil(const struct vh_crop *crop);
/* Does a planting that bees pollinate stand in the house on that day? */
bool vh_house_has_bees(const struct vh_house *house, int64_t day);
/* On more than the day on which one makes room for the other. */
bool vh_stand_together(const struct vh_planting *a, const struct vh_planting *b);

#endif
