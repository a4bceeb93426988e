/* What the parts of the summary of `compare` share. */
#include <math.h>
#include <string.h>

#include "vh_compare_view.h"

double vh_compare_number(const struct vh_compare_view *v, size_t row, const char *column,
                         const char *ending)
{
    char name[80];

    snprintf(name, sizeof name, "%s%s", column, ending);
    return vh_cell_number(v->t, row, name);
}

double vh_compare_decided(const struct vh_compare_view *v, size_t row, const char *ending)
{
    const double value = vh_compare_number(v, row, v->decides, ending);

    return !v->by_margin && v->f->units == VH_SAY_US ? vh_say_lb(value) : value;
}

void vh_say_signed(double value, char said[VH_SAY_ROOM])
{
    char amount[VH_SAY_ROOM];

    said[0] = 0;
    if (!isfinite(value))
        return;
    vh_say_pieces(fabs(value), amount);
    snprintf(said, VH_SAY_ROOM, "%s%.40s",
             strcmp(amount, "0") == 0 ? ""
             : value < 0.0            ? "-"
                                      : "+",
             amount);
}

int vh_compare_sure_side(const struct vh_compare_view *v, size_t row, const char *column)
{
    const double low = vh_compare_number(v, row, column, "_diff_p10"),
                 high = vh_compare_number(v, row, column, "_diff_p90");

    return low > 0.0 ? 1 : high < 0.0 ? -1 : 0;
}

void vh_say_chance(double chance, char said[VH_SAY_ROOM])
{
    const double tenths = round(10.0 * chance);

    said[0] = 0;
    if (!isfinite(chance))
        return;
    if (chance < 0.025)
        snprintf(said, VH_SAY_ROOM, "hardly ever");
    else if (chance > 0.975)
        snprintf(said, VH_SAY_ROOM, "nearly always");
    else if (chance < 0.075 || chance > 0.925)
        snprintf(said, VH_SAY_ROOM, chance < 0.5 ? "1 in 20" : "19 in 20");
    else
        snprintf(said, VH_SAY_ROOM, "%.0f in 10", tenths);
}
