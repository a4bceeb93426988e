#include "vh_late_cost.h"

#include <math.h>
#include <stdbool.h>
#include <stdio.h>

/* Is any fruit of the result sold at a price? */
static bool is_priced(const struct vh_result *r)
{
    const struct vh_table *t = vh_result_table_named(r, "market_days");

    for (size_t i = 0; t && i < vh_table_rows(t); i++)
        if (isfinite(vh_cell_number(t, i, "income")))
            return true;
    return false;
}

static const char *currency_of(const struct vh_result *r)
{
    const struct vh_table *house = vh_result_table_named(r, "house");
    const char *currency = house && vh_table_rows(house) ? vh_cell_text(house, 0, "currency") : "";

    return currency[0] ? currency : "in money";
}

void vh_late_cost(const struct vh_result *result, enum vh_say_units units, double cost,
                  char said[VH_LATE_ROOM])
{
    const bool money = is_priced(result), us = units == VH_SAY_US;
    const double least = money ? 1.0 : 0.1;
    char much[VH_SAY_ROOM];

    said[0] = 0;
    if (!(cost >= least))
        return;
    if (money)
        vh_say_pieces(cost, much);
    else
        vh_say_amount(us ? vh_say_lb(cost) : cost, much);
    snprintf(said, VH_LATE_ROOM, "a week late costs %.30s %.60s", much,
             money ? currency_of(result)
             : us  ? "lb"
                   : "kg");
}
