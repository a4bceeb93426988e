#include "vh_to_come.h"

#include <math.h>
#include <string.h>

/* Rows of other plantings are by far the most: they are passed over by one comparison. */
static bool is_of(const struct vh_table *t, size_t row, int whose, const char *planting)
{
    return whose >= 0 && strcmp(vh_table_text(t, row, (size_t)whose), planting) == 0;
}

static const double days_per_week = 7.0;

int vh_best_week_row(const struct vh_table *weeks, const char *planting, bool by_fruits,
                     int64_t today)
{
    double most = 0.0;
    const int whose = weeks ? vh_table_find(weeks, "planting") : -1;
    int best = -1;

    for (size_t i = 0; weeks && i < vh_table_rows(weeks); i++) {
        if (!is_of(weeks, i, whose, planting))
            continue;
        const double much = vh_cell_number(weeks, i, by_fruits ? "fruits" : "kg");
        if (vh_cell_number(weeks, i, "monday") + days_per_week <= (double)today || !(much > most))
            continue;
        most = much;
        best = (int)i;
    }
    return best;
}

int vh_hungriest_week_row(const struct vh_table *weeks, const char *planting, int64_t today,
                          int *now)
{
    const int whose = weeks ? vh_table_find(weeks, "planting") : -1;
    double most = -(double)INFINITY, before = (double)INFINITY;
    bool is_young = true; /* while it falls from set-out on */
    int worst = -1;

    *now = -1;
    for (size_t i = 0; weeks && i < vh_table_rows(weeks); i++) {
        if (!is_of(weeks, i, whose, planting))
            continue;
        const double load = vh_cell_number(weeks, i, "load"),
                     monday = vh_cell_number(weeks, i, "monday");
        is_young = is_young && (!isfinite(load) || load < before);
        before = isfinite(load) ? load : before;
        if (!isfinite(load) || is_young || monday + days_per_week <= (double)today)
            continue;
        if (monday <= (double)today)
            *now = (int)i;
        if (load > most) {
            most = load;
            worst = (int)i;
        }
    }
    return worst;
}

struct vh_fruit_to_come vh_fruit_to_come(const struct vh_table *trusses, const char *planting)
{
    struct vh_fruit_to_come out = {(double)NAN, (double)NAN, (double)NAN, false};
    const int whose = trusses ? vh_table_find(trusses, "planting") : -1;
    double sum = 0.0, fruits = 0.0, cut_g = (double)INFINITY;

    for (size_t i = 0; trusses && i < vh_table_rows(trusses); i++) {
        if (!is_of(trusses, i, whose, planting))
            continue;
        const double g = vh_cell_number(trusses, i, "fruit_g"),
                     kept = vh_cell_number(trusses, i, "kept");
        if (strcmp(vh_cell_text(trusses, i, "status"), "picked") == 0 || !isfinite(g) ||
            !(kept > 0.0))
            continue;
        if (!isfinite(vh_cell_number(trusses, i, "last_ripe"))) {
            cut_g = fmin(cut_g, g);
            continue;
        }
        sum += g * kept;
        fruits += kept;
        if (!(g >= out.low_g)) {
            out.low_g = g;
            out.low_truss = vh_cell_number(trusses, i, "truss");
        }
    }
    if (fruits > 0.0)
        out.mean_g = sum / fruits;
    out.cut_is_smaller = cut_g < out.low_g;
    return out;
}
