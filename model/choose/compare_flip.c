/* Which assumption would turn a choice. The margin is linear in each price, so from the members'
 * mean parts its break-even value follows at once: D + (f - 1) B = 0, D the mean gain of the
 * choice, B the part of it that is multiplied by the price, f the price over the one assumed. */
#include <stdio.h>

#include "compare_parts.h"
#include "vh_market_day.h"
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

/* An assumption: the part of the gain that it multiplies, what it is now, and its words. */
struct assumption {
    double part, now;
    const char *what, *unit;
    int digits;
    bool is_price; /* unit is what it is paid for */
};

enum { LABOUR, SMALL, SELLS, PRICES, SUPPLIES, HEAT, ASSUMPTIONS, WORDS = 80 };

/* Of one planting the price and the sales are those of its good. */
static void say_good(const struct vh_market *m, size_t planting, struct assumption *a,
                     char words[WORDS])
{
    if (planting == VH_ALL_PLANTINGS || !m->given || !m->good_of)
        return;
    const struct vh_good *g = &m->good[m->good_of[planting]];
    const size_t grade = vh_cheapest_grade(g);
    if (g->grades && grade < vh_good_grades(g)) {
        snprintf(words, WORDS, "grade %.60s", g->grades->grade[grade].name);
        a[SMALL] = (struct assumption){a[SMALL].part, g->per_kg[grade], words, "a kg", 2, true};
    }
    if (isfinite(g->sells_kg))
        a[SELLS] = (struct assumption){a[SELLS].part, g->sells_kg, "sales of a market day",
                                       "kg",          0,           false};
    else if (isfinite(g->sells_fruits))
        a[SELLS] = (struct assumption){
            a[SELLS].part, g->sells_fruits, "sales of a market day", "fruits", 0, false};
}

void vh_flips_if(const struct vh_scenario *s, const struct vh_parts *plan,
                 const struct vh_parts *choice, size_t planting, char text[VH_FLIPS_TEXT])
{
    const struct vh_house *h = &s->house;
    const double gain = mean_gain(s, plan, choice, planting), all = 100.0;
    const double per_h = h->labour.per_h, fuel = h->fuel_per_kwh;
    char words[WORDS];
    struct assumption a[ASSUMPTIONS] = {
        [LABOUR] = {-per_h * mean_part(plan, choice, planting, VH_PART_HOURS), per_h, "labour",
                    "an hour", 2, true},
        [SMALL] = {mean_part(plan, choice, planting, VH_PART_SMALL), all, "the cheapest grade",
                   "% of its price", 0, false},
        [SELLS] = {mean_part(plan, choice, planting, VH_PART_SELLS), all, "sales",
                   "% of what sells", 0, false},
        [PRICES] = {mean_part(plan, choice, planting, VH_PART_INCOME), all, "all prices",
                    "% of those given", 0, false},
        [SUPPLIES] = {-mean_part(plan, choice, planting, VH_PART_SUPPLIES), all, "supplies",
                      "% of their cost", 0, false},
        [HEAT] = {-fuel * mean_part(plan, choice, planting, VH_PART_HEATING_KWH), fuel, "heat",
                  "a kWh", 3, true},
    };
    size_t best = 0;
    double factor = VH_UNKNOWN;

    text[0] = '\0';
    say_good(&h->market, planting, a, words);
    for (size_t i = 0; i < ASSUMPTIONS; i++) {
        const double f = break_even(gain, a[i].part);
        if (isnan(f) || (!isnan(factor) && farness(f) >= farness(factor)))
            continue;
        factor = f;
        best = i;
    }
    if (isnan(factor) || gain == 0.0)
        return;
    const char *currency = a[best].is_price && h->currency ? h->currency : "";
    snprintf(text, VH_FLIPS_TEXT, "%s %s %.*f %s%s%s", a[best].what,
             factor > 1.0 ? "above" : "below", a[best].digits, factor * a[best].now, currency,
             currency[0] ? " " : "", a[best].unit);
}
