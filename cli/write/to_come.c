#include "vh_to_come.h"

#include <math.h>
#include <string.h>

int vh_best_week_row(const struct vh_table *weeks, const char *planting, bool by_fruits,
                     int64_t today)
{
    const double days_per_week = 7.0;
    double most = 0.0;
    int best = -1;

    for (size_t i = 0; weeks && i < vh_table_rows(weeks); i++) {
        const double much = vh_cell_number(weeks, i, by_fruits ? "fruits" : "kg");
        if (strcmp(vh_cell_text(weeks, i, "planting"), planting) != 0 ||
            vh_cell_number(weeks, i, "monday") + days_per_week <= (double)today || !(much > most))
            continue;
        most = much;
        best = (int)i;
    }
    return best;
}

struct vh_fruit_to_come vh_fruit_to_come(const struct vh_table *trusses, const char *planting)
{
    struct vh_fruit_to_come out = {(double)NAN, (double)NAN, (double)NAN};
    double sum = 0.0, fruits = 0.0;

    for (size_t i = 0; trusses && i < vh_table_rows(trusses); i++) {
        const double g = vh_cell_number(trusses, i, "fruit_g"),
                     kept = vh_cell_number(trusses, i, "kept");
        if (strcmp(vh_cell_text(trusses, i, "planting"), planting) != 0 ||
            strcmp(vh_cell_text(trusses, i, "status"), "picked") == 0 ||
            !isfinite(vh_cell_number(trusses, i, "last_ripe")) || !isfinite(g) || !(kept > 0.0))
            continue;
        sum += g * kept;
        fruits += kept;
        if (!(g >= out.low_g)) {
            out.low_g = g;
            out.low_truss = vh_cell_number(trusses, i, "truss");
        }
    }
    if (fruits > 0.0)
        out.mean_g = sum / fruits;
    return out;
}
