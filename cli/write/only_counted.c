#include "vh_only_counted.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static bool is_counted(const struct vh_table *picks, const char *planting)
{
    for (size_t i = 0; i < vh_table_rows(picks); i++)
        if (isfinite(vh_cell_number(picks, i, "picked_fruits")) &&
            strcmp(vh_cell_text(picks, i, "planting"), planting) == 0)
            return true;
    return false;
}

static bool is_scored(const struct vh_table *hindcast, const char *planting)
{
    for (size_t i = 0; hindcast && i < vh_table_rows(hindcast); i++)
        if (strcmp(vh_cell_text(hindcast, i, "planting"), planting) == 0)
            return true;
    return false;
}

void vh_only_counted(const struct vh_table *summary, const struct vh_table *picks,
                     const struct vh_table *hindcast, enum vh_say_units units, char *said,
                     size_t room)
{
    said[0] = '\0';
    for (size_t i = 0; summary && picks && i < vh_table_rows(summary); i++) {
        const char *planting = vh_cell_text(summary, i, "planting");
        const size_t used = strlen(said);
        if (is_counted(picks, planting) && !is_scored(hindcast, planting))
            snprintf(said + used, room - used, "%s%.60s", used ? ", " : "Left out: ", planting);
    }
    const size_t used = strlen(said);
    if (used > 0)
        snprintf(said + used, room - used,
                 ", for their picks were counted, not weighed; note %s and they come in.",
                 units == VH_SAY_US ? "picked_lb" : "picked_kg");
}
