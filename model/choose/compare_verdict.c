/* What a choice comes to, and how it stands against the plan: differences future by future. */
#include <stdlib.h>

#include "vh_compare.h"
#include "vh_math.h"
#include "vh_quantile.h"
#include "vh_random.h"

static double part_of(const struct vh_parts *p, size_t member, size_t planting, enum vh_part part)
{
    double sum = 0.0;

    for (size_t k = 0; k < p->plantings; k++)
        if (planting == VH_ALL_PLANTINGS || planting == k)
            sum += p->part[(member * p->plantings + k) * VH_PARTS + (size_t)part];
    return sum;
}

static double plants_of(const struct vh_parts *p, size_t planting)
{
    double sum = 0.0;

    for (size_t k = 0; k < p->plantings; k++)
        if (planting == VH_ALL_PLANTINGS || planting == k)
            sum += p->plants[k];
    return sum;
}

static bool has_costs(const struct vh_stock *stock)
{
    bool any = !isnan(stock->cost_plant);

    for (int i = 0; i < VH_SUPPLIES; i++)
        any = any || !isnan(stock->cost_each[i]);
    return any;
}

static double or_zero(double amount)
{
    return isnan(amount) ? 0.0 : amount;
}

void vh_choice_values(const struct vh_scenario *s, const struct vh_parts *p, size_t member,
                      size_t planting, double out[VH_CHOICE_VALUES])
{
    const double g_per_kg = 1000.0, kg = part_of(p, member, planting, VH_PART_KG),
                 fruits = part_of(p, member, planting, VH_PART_FRUITS);

    out[VH_VALUE_FRUIT_G] = fruits > 0.0 ? kg * g_per_kg / fruits : VH_UNKNOWN;
    out[VH_VALUE_KG_PER_PLANT] = kg / plants_of(p, planting);
    out[VH_VALUE_MARKET_KG] = part_of(p, member, planting, VH_PART_MARKET_KG);
    out[VH_VALUE_INCOME] = part_of(p, member, planting, VH_PART_INCOME);
    out[VH_VALUE_HOURS] = part_of(p, member, planting, VH_PART_HOURS);
    out[VH_VALUE_SUPPLIES_COST] =
        has_costs(&s->house.stock) ? part_of(p, member, planting, VH_PART_SUPPLIES) : VH_UNKNOWN;
    out[VH_VALUE_HEATING_COST] =
        part_of(p, member, planting, VH_PART_HEATING_KWH) * s->house.fuel_per_kwh;
    out[VH_VALUE_MARGIN] =
        out[VH_VALUE_INCOME] - or_zero(out[VH_VALUE_HOURS] * s->house.labour.per_h) -
        or_zero(out[VH_VALUE_SUPPLIES_COST]) - or_zero(out[VH_VALUE_HEATING_COST]);
}

bool vh_margin_is_known(const struct vh_parts *p, size_t planting)
{
    return !isnan(part_of(p, 0, planting, VH_PART_INCOME));
}

/* ---- against the plan ---- */

/* What a random number is for, and how many levers a planting's numbers have room for; never
 * renumbered: later levers lie in a day of their own. */
enum { CHOICE = 300, LEVERS_A_DAY = 11 };

/* Share by which a planting's mass may differ from the model's under a choice. */
static double beyond_model(const struct vh_compare_request *q, const struct vh_choice *c,
                           size_t member, size_t planting)
{
    const double cv = q->scenario->parameters->futures.choice_cv;
    double sum = 0.0;

    for (size_t l = 0; l < VH_LEVERS; l++)
        if (c->has[l] || (l == VH_LEVER_FRUITS_KEPT && c->ranges > 0))
            sum += cv * vh_normal(q->draw, (uint32_t)member, (uint32_t)(l / LEVERS_A_DAY), CHOICE,
                                  (uint32_t)(planting * LEVERS_A_DAY + l % LEVERS_A_DAY));
    return sum;
}

/* The same in each value, of the plantings that the choice changes at all. */
static void add_beyond(const struct vh_compare_request *q, const struct vh_choice *c,
                       const struct vh_parts *plan, const struct vh_parts *choice, size_t member,
                       size_t planting, double more[VH_CHOICE_VALUES])
{
    for (int v = 0; v < VH_CHOICE_VALUES; v++)
        more[v] = 0.0;
    for (size_t k = 0; c && k < plan->plantings; k++) {
        const double *was = plan->part + (member * plan->plantings + k) * VH_PARTS,
                     *is = choice->part + (member * plan->plantings + k) * VH_PARTS;
        if ((planting != VH_ALL_PLANTINGS && planting != k) || was[VH_PART_KG] == is[VH_PART_KG])
            continue;
        const double share = beyond_model(q, c, member, k);
        more[VH_VALUE_KG_PER_PLANT] += share * was[VH_PART_KG] / plants_of(plan, planting);
        more[VH_VALUE_MARKET_KG] += share * was[VH_PART_MARKET_KG];
        more[VH_VALUE_INCOME] += share * was[VH_PART_INCOME];
    }
    more[VH_VALUE_MARGIN] = more[VH_VALUE_INCOME];
}

/* One value of all members: of the choice, against the plan, and that with what the model leaves
 * out. */
struct column {
    double *known, *differ, *scatter;
    size_t knowns, differs;
};

static void take(struct column *c, double value, double plan, double more)
{
    if (isnan(value))
        return;
    c->known[c->knowns++] = value;
    if (isnan(plan))
        return;
    c->differ[c->differs] = value - plan;
    c->scatter[c->differs++] = value - plan + more;
}

/* Of what at least half of the members know. */
static void reduce(struct column *c, size_t members, double *mean, struct vh_difference *diff)
{
    double q[VH_QUANTILES];

    *mean = 2 * c->knowns >= members ? vh_mean(c->known, c->knowns) : VH_UNKNOWN;
    *diff = (struct vh_difference){VH_UNKNOWN, VH_UNKNOWN, VH_UNKNOWN};
    if (2 * c->differs < members || c->differs == 0)
        return;
    diff->mean = vh_mean(c->differ, c->differs);
    if (members < 2)
        return;
    vh_quantiles(c->scatter, c->differs, q);
    diff->p10 = q[VH_P10];
    diff->p90 = q[VH_P90];
}

static double better_chance(const struct column *c, size_t members)
{
    size_t better = 0;

    for (size_t i = 0; i < c->differs; i++)
        better += c->scatter[i] > 0.0;
    return members > 1 && c->differs > 0 ? (double)better / (double)c->differs : VH_UNKNOWN;
}

static bool is_all_zero(const struct column *c)
{
    for (size_t i = 0; i < c->differs; i++)
        if (c->differ[i] != 0.0)
            return false;
    return true;
}

static void take_member(const struct vh_compare_request *q, const struct vh_choice *c,
                        const struct vh_parts *plan, const struct vh_parts *choice, size_t member,
                        size_t planting, struct column *column)
{
    double own[VH_CHOICE_VALUES], planned[VH_CHOICE_VALUES], more[VH_CHOICE_VALUES];

    vh_choice_values(q->scenario, choice, member, planting, own);
    vh_choice_values(q->scenario, plan, member, planting, planned);
    add_beyond(q, c, plan, choice, member, planting, more);
    for (int v = 0; v < VH_CHOICE_VALUES; v++)
        take(&column[v], own[v], planned[v], more[v]);
}

enum vh_status vh_verdict_of(const struct vh_compare_request *q, const struct vh_choice *c,
                             const struct vh_parts *plan, const struct vh_parts *choice,
                             size_t planting, struct vh_verdict *out)
{
    enum { LISTS = 3 };
    const size_t n = plan->members;
    double *room = malloc(LISTS * n * VH_CHOICE_VALUES * sizeof *room);
    struct column column[VH_CHOICE_VALUES];

    if (!room)
        return VH_NO_MEMORY;
    for (size_t v = 0; v < VH_CHOICE_VALUES; v++) {
        double *own = room + LISTS * n * v;
        column[v] = (struct column){.known = own, .differ = own + n, .scatter = own + 2 * n};
    }
    for (size_t m = 0; m < n; m++)
        take_member(q, c, plan, choice, m, planting, column);
    const struct column *decides =
        &column[vh_margin_is_known(plan, planting) ? VH_VALUE_MARGIN : VH_VALUE_MARKET_KG];
    out->better_chance = better_chance(decides, n);
    out->is_plan = true;
    for (int v = 0; v < VH_CHOICE_VALUES; v++) {
        out->is_plan = out->is_plan && is_all_zero(&column[v]);
        reduce(&column[v], n, &out->mean[v], &out->diff[v]);
    }
    free(room);
    return VH_OK;
}
