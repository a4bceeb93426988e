/* vh_labour.h - what the grower has for the work: hours, her own stopwatch, stock. NaN: not given.
 */
#ifndef VH_LABOUR_H
#define VH_LABOUR_H

#include <stddef.h>

#include "vh_task.h"

/* The rest of her week: counted, never forecast. */
struct vh_other_work {
    char *what;
    double hours_per_week;
};

struct vh_labour {
    double per_h, hours_per_week;
    double seconds[VH_TASKS]; /* her stopwatch; NaN: that of params/work.csv */
    struct vh_other_work *other;
    size_t others;
};

enum vh_supply {
    VH_SUPPLY_CLIPS,
    VH_SUPPLY_STRING,
    VH_SUPPLY_HOOKS,
    VH_SUPPLY_SUPPORTS,
    VH_SUPPLIES
};

struct vh_stock {
    double have[VH_SUPPLIES]; /* clips, string in m, hooks, truss supports */
    double delivery_d;
    double cost_each[VH_SUPPLIES]; /* string: per m */
    double cost_plant;
};

/* "clips", "string", "hooks", "truss supports" */
const char *vh_supply_name(enum vh_supply item);

#endif
