/* What a choice brings to market, and what it would bring with another price or more buyers. */
#include <stdlib.h>
#include <string.h>

#include "compare_parts.h"
#include "vh_math.h"
#include "vh_sales.h"

#define MORE 0.1 /* of a price, to see how income goes with it */

/* One member's run with room for what it sells. */
struct selling {
    struct vh_house house; /* the member's, whose goods may be other ones */
    struct vh_run run;
    struct vh_good *good;
    double *marketable, *light, *price; /* [planting], [planting], [goods * grades] */
    struct vh_outcome *outcome;
    struct vh_lots *lots; /* [planting] */
};

static size_t grades_in_all(const struct vh_market *m)
{
    size_t n = 0;

    for (size_t g = 0; g < m->goods; g++)
        n += vh_good_grades(&m->good[g]);
    return n;
}

static enum vh_status selling_init(struct selling *l, const struct vh_scenario *s,
                                   const struct vh_member_view *view)
{
    const size_t n = view->house->plantings;
    const struct vh_market *m = &view->house->market;

    *l = (struct selling){.house = *view->house,
                          .good = calloc(m->goods + 1, sizeof *l->good),
                          .marketable = calloc(n + 1, sizeof *l->marketable),
                          .light = calloc(n + 1, sizeof *l->light),
                          .price = calloc(grades_in_all(m) + 1, sizeof *l->price),
                          .outcome = calloc(n + 1, sizeof *l->outcome),
                          .lots = calloc(n + 1, sizeof *l->lots)};
    if (!l->good || !l->marketable || !l->light || !l->price || !l->outcome || !l->lots)
        return VH_NO_MEMORY;
    for (size_t k = 0; k < n; k++) {
        l->marketable[k] = view->factors[k].marketable;
        l->light[k] = view->light_factor * view->factors[k].plant.light;
    }
    if (m->goods > 0)
        memcpy(l->good, m->good, m->goods * sizeof *l->good);
    l->house.market.good = l->good;
    l->run = (struct vh_run){.scenario = s,
                             .house = &l->house,
                             .season = view->season,
                             .light_factor = l->light,
                             .marketable = l->marketable};
    return vh_house_lots_of(&l->run, l->lots);
}

static void selling_clear(struct selling *l)
{
    free(l->good);
    free(l->marketable);
    free(l->light);
    free(l->price);
    free(l->outcome);
    vh_house_lots_clear(l->lots, l->house.plantings);
    free(l->lots);
}

size_t vh_cheapest_grade(const struct vh_good *g)
{
    const size_t n = vh_good_grades(g);
    size_t best = n;

    for (size_t i = 0; n > 1 && i < n; i++)
        if (!isnan(g->per_kg[i]) && (best == n || g->per_kg[i] < g->per_kg[best]))
            best = i;
    return best;
}

/* The cheapest grade of every good at a better price. */
static void raise_cheapest(struct selling *l, const struct vh_market *m)
{
    double *price = l->price;

    for (size_t g = 0; g < m->goods; g++) {
        const size_t n = vh_good_grades(&m->good[g]), i = vh_cheapest_grade(&m->good[g]);
        if (i >= n)
            continue;
        memcpy(price, m->good[g].per_kg, n * sizeof *price);
        price[i] *= 1.0 + MORE;
        l->good[g].per_kg = price;
        price += n;
    }
}

static void sell_more(struct selling *l, const struct vh_market *m)
{
    for (size_t g = 0; g < m->goods; g++) {
        l->good[g] = m->good[g];
        l->good[g].sells_kg *= 1.0 + MORE;
        l->good[g].sells_fruits *= 1.0 + MORE;
    }
}

/* Income of each planting now, less what it was, for each 1 of the change. */
static enum vh_status keep_change(const struct selling *l, const bool *wanted, enum vh_part to,
                                  double *part)
{
    const enum vh_status status = vh_outcome_of_lots(&l->run, l->lots, INT64_MIN, l->outcome, NULL);

    for (size_t k = 0; status == VH_OK && k < l->house.plantings; k++)
        if (wanted[k])
            part[k * VH_PARTS + (size_t)to] =
                (l->outcome[k].income - part[k * VH_PARTS + VH_PART_INCOME]) / MORE;
    return status;
}

static enum vh_status sell(struct selling *l, const struct vh_market *m, const bool *wanted,
                           double *part)
{
    enum vh_status status = vh_outcome_of_lots(&l->run, l->lots, INT64_MIN, l->outcome, NULL);

    for (size_t k = 0; status == VH_OK && k < l->house.plantings; k++) {
        if (!wanted[k])
            continue;
        part[k * VH_PARTS + VH_PART_MARKET_KG] = l->outcome[k].market_kg;
        part[k * VH_PARTS + VH_PART_INCOME] = l->outcome[k].income;
    }
    raise_cheapest(l, m);
    if (status == VH_OK)
        status = keep_change(l, wanted, VH_PART_SMALL, part);
    sell_more(l, m);
    if (status == VH_OK)
        status = keep_change(l, wanted, VH_PART_SELLS, part);
    return status;
}

/* Without market days all that can be sold counts, and no money is known. */
static void no_market(const struct vh_member_view *view, const bool *wanted, double *part)
{
    for (size_t k = 0; k < view->house->plantings; k++) {
        if (!wanted[k])
            continue;
        part[k * VH_PARTS + VH_PART_MARKET_KG] =
            part[k * VH_PARTS + VH_PART_KG] * view->factors[k].marketable;
        part[k * VH_PARTS + VH_PART_INCOME] = VH_UNKNOWN;
    }
}

enum vh_status vh_sales_parts(const struct vh_scenario *s, const struct vh_member_view *view,
                              const bool *wanted, double *part)
{
    const struct vh_market *m = &view->house->market;
    struct selling l;

    if (!m->given) {
        no_market(view, wanted, part);
        return VH_OK;
    }
    enum vh_status status = selling_init(&l, s, view);
    if (status == VH_OK)
        status = sell(&l, m, wanted, part);
    selling_clear(&l);
    return status;
}
