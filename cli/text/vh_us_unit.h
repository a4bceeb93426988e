/* vh_us_unit.h - numbers of the model's tables in the units of a reader in the United States. */
#ifndef VH_US_UNIT_H
#define VH_US_UNIT_H

#include "vh_say_numbers.h"

struct vh_us_unit {
    const char *metric, *us;          /* the unit: "m-2", "ft-2" */
    const char *in_name, *in_name_us; /* at the end of a column's name: "m2", "ft2" */
    double (*of)(double metric);
};

/* Hers for a unit of ours; NULL: the number is said as it stands. */
const struct vh_us_unit *vh_us_unit_of(const char *unit, enum vh_say_units units);

#endif
