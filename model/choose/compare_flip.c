/* Which assumption would turn a choice. The margin is linear in each price, so from the members'
 * mean parts its break-even value follows at once: D + (f - 1) B = 0, D the mean gain of the
 * choice, B the part of it that is multiplied by the price, f the price over the one assumed. */
#include <stdio.h>

#include "vh_compare.h"
#include "vh_math.h"

#define FARTHEST 3.0 /* a price beyond three times or a third of the one assumed turns nothing */

static double mean_gain(const struct vh_scenario *s, const struct vh_parts *plan,
                        const struct vh_parts *choice, size_t planting, enum vh_choice_value v)
{
    double sum = 0.0;

    for (size_t m = 0; m < plan->members; m++) {
        double own[VH_CHOICE_VALUES], planned[VH_CHOICE_VALUES];
        vh_choice_values(s, choice, m, planting, own);
        vh_choice_values(s, plan, m, planting, planned);
        sum += own[v] - planned[v];
    }
    return sum / (double)plan->members;
}

/* f of gain + (f - 1) part = 0 */
static double break_even(double gain, double part)
{
    const double f = part != 0.0 ? 1.0 - gain / part : VH_UNKNOWN;

    return f >= 1.0 / FARTHEST && f <= FARTHEST ? f : VH_UNKNOWN;
}

static double farness(double factor)
{
    return factor >= 1.0 ? factor : 1.0 / factor;
}

void vh_flips_if(const struct vh_scenario *s, const struct vh_parts *plan,
                 const struct vh_parts *choice, size_t planting, char text[VH_FLIPS_TEXT])
{
    const struct vh_house *h = &s->house;
    const double gain = mean_gain(s, plan, choice, planting, VH_VALUE_MARGIN);
    const double per_h = h->labour.per_h, fuel = h->fuel_per_kwh, as_given = 100.0;
    const struct {
        enum vh_choice_value value;
        double sign, price;
        const char *what, *unit;
        int digits;
    } part[] = {
        {VH_VALUE_HOURS, -per_h, per_h, "labour", "an hour", 2},
        {VH_VALUE_INCOME, 1.0, as_given, "prices", "% of those given", 0},
        {VH_VALUE_SUPPLIES_COST, -1.0, as_given, "supplies", "% of their cost", 0},
        {VH_VALUE_HEATING_COST, -1.0, fuel, "heat", "a kWh", 3},
    };
    size_t best = 0;
    double factor = VH_UNKNOWN;

    text[0] = '\0';
    for (size_t i = 0; i < sizeof part / sizeof part[0]; i++) {
        const double f =
            break_even(gain, part[i].sign * mean_gain(s, plan, choice, planting, part[i].value));
        if (isnan(f) || (!isnan(factor) && farness(f) >= farness(factor)))
            continue;
        factor = f;
        best = i;
    }
    if (isnan(factor) || gain == 0.0)
        return;
    snprintf(text, VH_FLIPS_TEXT, "%s %s %.*f %s", part[best].what,
             factor > 1.0 ? "above" : "below", part[best].digits, factor * part[best].price,
             part[best].unit);
}
