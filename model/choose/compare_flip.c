/* Which assumption would turn a choice. The margin is linear in each price, so from the members'
 * mean parts its break-even value follows at once: D + (f - 1) B = 0, D the mean gain of the
 * choice, B the part of it that is multiplied by the price, f the price over the one assumed. */
#include <stdio.h>

#include "vh_compare.h"
#include "vh_math.h"

#define FARTHEST 3.0 /* a price beyond three times or a third of the one assumed turns nothing */

static double mean_gain(const struct vh_scenario *s, const struct vh_parts *plan,
                        const struct vh_parts *choice, size_t planting)
{
    double sum = 0.0;

    for (size_t m = 0; m < plan->members; m++) {
        double own[VH_CHOICE_VALUES], planned[VH_CHOICE_VALUES];
        vh_choice_values(s, choice, m, planting, own);
        vh_choice_values(s, plan, m, planting, planned);
        sum += own[VH_VALUE_MARGIN] - planned[VH_VALUE_MARGIN];
    }
    return sum / (double)plan->members;
}

static double mean_part(const struct vh_parts *plan, const struct vh_parts *choice, size_t planting,
                        enum vh_part part)
{
    const size_t n = plan->plantings;
    double sum = 0.0;

    for (size_t i = 0; i < plan->members * n; i++)
        if (planting == VH_ALL_PLANTINGS || i % n == planting)
            sum +=
                choice->part[i * VH_PARTS + (size_t)part] - plan->part[i * VH_PARTS + (size_t)part];
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
    const double gain = mean_gain(s, plan, choice, planting);
    const double per_h = h->labour.per_h, fuel = h->fuel_per_kwh, as_given = 100.0;
    const struct {
        double part, price; /* of the gain, multiplied by that price */
        const char *what, *unit;
        int digits;
    } part[] = {
        {-per_h * mean_part(plan, choice, planting, VH_PART_HOURS), per_h, "labour", "an hour", 2},
        {mean_part(plan, choice, planting, VH_PART_SMALL), as_given, "the cheapest grade",
         "% of its price", 0},
        {mean_part(plan, choice, planting, VH_PART_SELLS), as_given, "sales", "% of what sells", 0},
        {mean_part(plan, choice, planting, VH_PART_INCOME), as_given, "all prices",
         "% of those given", 0},
        {-mean_part(plan, choice, planting, VH_PART_SUPPLIES), as_given, "supplies",
         "% of their cost", 0},
        {-fuel * mean_part(plan, choice, planting, VH_PART_HEATING_KWH), fuel, "heat", "a kWh", 3},
    };
    size_t best = 0;
    double factor = VH_UNKNOWN;

    text[0] = '\0';
    for (size_t i = 0; i < sizeof part / sizeof part[0]; i++) {
        const double f = break_even(gain, part[i].part);
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
