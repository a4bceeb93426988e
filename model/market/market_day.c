#include "vh_market_day.h"

#include "vh_math.h"

size_t vh_good_grades(const struct vh_good *g)
{
    return g->grades ? g->grades->grades : 1;
}

/* Adds one lot to its grades. */
static void add_lot(const struct vh_lot *lot, const struct vh_grades *grades,
                    struct vh_mass_shape shape, struct vh_amount *part)
{
    const double keeps = 1.0 - lot->lost_frac, g_per_kg = 1000.0;

    if (!grades) {
        part[0].fruits += keeps * lot->fruits;
        part[0].kg += keeps * lot->kg;
        return;
    }
    const struct vh_grade_fruit fruit = {.mass_g = lot->kg / lot->fruits * g_per_kg,
                                         .mass_cv = lot->mass_cv,
                                         .mass_a_g = shape.a_g,
                                         .mass_exponent = shape.exponent};
    struct vh_grade_share share[VH_GRADES_MOST + 2];
    vh_grade_shares(grades, &fruit, share);
    for (size_t i = 0; i < grades->grades + 2; i++) {
        struct vh_amount *to = &part[i < grades->grades ? i : grades->grades];
        to->fruits += keeps * lot->fruits * share[i].fruits;
        to->kg += keeps * lot->kg * share[i].mass;
    }
}

void vh_market_gather(const struct vh_lot *lot, size_t lots, int64_t after, int64_t until,
                      const struct vh_grades *grades, struct vh_mass_shape shape,
                      struct vh_amount *part, struct vh_amount *lost)
{
    const size_t parts = (grades ? grades->grades : 1) + 1;

    for (size_t i = 0; i < parts; i++)
        part[i] = (struct vh_amount){0.0, 0.0};
    *lost = (struct vh_amount){0.0, 0.0};
    for (size_t i = 0; i < lots; i++) {
        if (lot[i].on <= after || lot[i].on > until || !(lot[i].fruits > 0.0))
            continue;
        add_lot(&lot[i], grades, shape, part);
        lost->fruits += lot[i].lost_frac * lot[i].fruits;
        lost->kg += lot[i].lost_frac * lot[i].kg;
    }
}

struct vh_amount vh_market_orders(const struct vh_market *m, size_t good, int64_t day)
{
    struct vh_amount sum = {0.0, 0.0};

    for (size_t i = 0; i < m->orders; i++) {
        const struct vh_order *o = &m->order[i];
        if (o->good != good || day < o->from || day > o->until)
            continue;
        sum.kg += o->kg;
        sum.fruits += o->fruits;
    }
    return sum;
}

double vh_market_value(const struct vh_good *g, size_t i, struct vh_amount amount)
{
    if (i >= vh_good_grades(g))
        return 0.0;
    if (!isnan(g->per_kg[i]))
        return g->per_kg[i] * amount.kg;
    return isnan(g->per_fruit[i]) ? 0.0 : g->per_fruit[i] * amount.fruits;
}

/* Share of an amount that goes at full price. */
static double full_share(double there, double full)
{
    return there > full ? full / there : 1.0;
}

struct vh_takings vh_market_takings(const struct vh_good *g, const struct vh_amount *part,
                                    struct vh_amount orders)
{
    const size_t grades = vh_good_grades(g);
    struct vh_amount all = {0.0, 0.0};
    double value = 0.0;

    for (size_t i = 0; i < grades; i++) {
        all.fruits += part[i].fruits;
        all.kg += part[i].kg;
        value += vh_market_value(g, i, part[i]);
    }
    const double full = vh_min(full_share(all.kg, orders.kg + g->sells_kg),
                               full_share(all.fruits, orders.fruits + g->sells_fruits));
    return (struct vh_takings){
        .income = g->priced ? value * (full + (1.0 - full) * g->price_share_beyond) : VH_UNKNOWN,
        .beyond_kg = (1.0 - full) * all.kg};
}
