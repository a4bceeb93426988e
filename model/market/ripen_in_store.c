#include "vh_ripen.h"

#include <math.h>

#include "vh_math.h"

/* Days from a whole stage, linear between the table's temperatures. */
static double days_from(const struct vh_ripen_table *t, size_t stage, double temp_c)
{
    size_t i = 1;

    if (t->temps < 2 || !(temp_c >= t->temp_c[0]) || !(temp_c <= t->temp_c[t->temps - 1]))
        return VH_UNKNOWN;
    while (t->temp_c[i] < temp_c)
        i++;
    const double share = (temp_c - t->temp_c[i - 1]) / (t->temp_c[i] - t->temp_c[i - 1]);
    return t->days[stage][i - 1] + share * (t->days[stage][i] - t->days[stage][i - 1]);
}

double vh_ripen_days_to_red(const struct vh_ripen_table *t, double stage, double temp_c)
{
    const double s = vh_clamp(stage, 0.0, VH_RIPEN_RED);
    const double whole = vh_min(floor(s), VH_RIPEN_LIGHT_RED);
    const double from = days_from(t, (size_t)whole, temp_c);

    return from + (s - whole) * (days_from(t, (size_t)whole + 1, temp_c) - from);
}

double vh_ripen_stage_after(const struct vh_ripen_table *t, double stage, double temp_c,
                            double days)
{
    const double left = vh_ripen_days_to_red(t, stage, temp_c) - days;

    if (isnan(left))
        return VH_UNKNOWN;
    if (left <= 0.0)
        return VH_RIPEN_RED;
    size_t whole = 0;
    while (days_from(t, whole + 1, temp_c) > left)
        whole++;
    const double from = days_from(t, whole, temp_c), to = days_from(t, whole + 1, temp_c);
    return (double)whole + vh_clamp((from - left) / (from - to), 0.0, 1.0);
}
