/* vh_late_cost.h - what it costs to be a week late with a task, for screen and report alike. */
#ifndef VH_LATE_COST_H
#define VH_LATE_COST_H

#include "vh_say_numbers.h"
#include "vinehand.h"

enum { VH_LATE_ROOM = 120 };

/* "a week late costs 15 USD" ("15 in money" where no currency is given); where nothing has a price
 * "a week late costs 0.8 kg". "": too little to be worth a word. cost: as in tasks.csv. */
void vh_late_cost(const struct vh_result *result, enum vh_say_units units, double cost,
                  char said[VH_LATE_ROOM]);

#endif
