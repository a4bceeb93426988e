/* Rows of market_days: what lies on the table, by planting and grade, and what it brings. */
#include <stdio.h>
#include <stdlib.h>

#include "vh_math.h"
#include "vh_sales.h"

enum { NAME_ROOM = 200 };

/* Everything a row says beside its name. */
struct row {
    struct vh_amount there;
    struct vh_amount orders; /* unknown: not of this row */
    double beyond_kg, lost_kg, income;
};

static const struct vh_amount not_here = {VH_UNKNOWN, VH_UNKNOWN};
static const struct vh_amount everything = {VH_ENDLESS, VH_ENDLESS}; /* is ordered */

/* 1: this run cannot fill the orders. Unknown: none are there. */
static double falls_short(const struct row *w)
{
    if (!(w->orders.kg > 0.0 || w->orders.fruits > 0.0))
        return VH_UNKNOWN;
    return w->there.kg < w->orders.kg || w->there.fruits < w->orders.fruits ? 1.0 : 0.0;
}

/* planting: kept by the table, or lasting. */
static enum vh_status add_row(struct vh_table *t, const struct vh_run *run, int64_t date,
                              const char *planting, const char *grade, const struct row *w)
{
    if (vh_table_add_row(t) != VH_OK || vh_table_set_lasting(t, 1, planting) != VH_OK ||
        vh_table_set_lasting(t, 2, grade) != VH_OK)
        return VH_NO_MEMORY;
    vh_table_set_number(t, 0, (double)date);
    const double number[] = {w->there.kg,
                             w->there.fruits,
                             run->is_mean ? VH_UNKNOWN : w->there.kg,
                             run->is_mean ? VH_UNKNOWN : w->there.fruits,
                             w->orders.kg > 0.0 ? w->orders.kg : VH_UNKNOWN,
                             w->orders.fruits > 0.0 ? w->orders.fruits : VH_UNKNOWN,
                             run->is_mean ? VH_UNKNOWN : falls_short(w),
                             w->beyond_kg,
                             w->lost_kg,
                             w->income};
    for (size_t i = 0; i < sizeof number / sizeof number[0]; i++)
        vh_table_set_number(t, 3 + i, number[i]);
    return VH_OK;
}

/* Rows of the grades, where there are such, and the one of all. */
static enum vh_status add_sale(struct vh_table *t, const struct vh_run *run, int64_t date,
                               const char *planting, const struct vh_good *good,
                               const struct vh_sale *sale, struct vh_amount orders)
{
    const struct row all = {sale->all, orders, sale->beyond_kg, sale->lost.kg, sale->income};
    const double at_full = vh_market_takings(good, sale->part, everything).income;
    const double paid = at_full > 0.0 ? sale->income / at_full : 1.0; /* of the full price */
    enum vh_status status = VH_OK;

    for (size_t i = 0; good->grades && i <= good->grades->grades && status == VH_OK; i++) {
        const bool is_grade = i < good->grades->grades;
        const double income =
            good->priced ? paid * vh_market_value(good, i, sale->part[i]) : VH_UNKNOWN;
        const struct row part = {sale->part[i], not_here, VH_UNKNOWN, VH_UNKNOWN, income};
        status = add_row(t, run, date, planting,
                         is_grade ? good->grades->grade[i].name : "ungraded", &part);
    }
    return status == VH_OK ? add_row(t, run, date, planting, "all", &all) : status;
}

static enum vh_status add_good(struct vh_table *t, const struct vh_run *run, size_t g, size_t day,
                               struct vh_sale *sale)
{
    const struct vh_house *h = run->house;
    const struct vh_market *m = &h->market;
    const struct vh_good *good = &m->good[g];
    const struct vh_amount orders = vh_market_orders(m, g, m->day[day]);
    enum vh_status status = VH_OK;
    char text[NAME_ROOM];
    struct vh_sale together;

    vh_sale_together(h, g, day, sale, &together);
    for (size_t i = 0; i < good->plantings && status == VH_OK; i++) {
        const size_t k = good->planting[i];
        if (vh_sale_is_of(h, k, day))
            status = add_sale(t, run, m->day[day], h->planting[k].name, good, &sale[k],
                              good->plantings == 1 ? orders : not_here);
    }
    if (good->plantings == 1 || status != VH_OK)
        return status;
    snprintf(text, sizeof text, "all %.190s", good->name);
    const char *name = vh_table_keep_text(t, text);
    return !name ? VH_NO_MEMORY : add_sale(t, run, m->day[day], name, good, &together, orders);
}

static enum vh_status add_day(struct vh_table *t, const struct vh_run *run,
                              const struct vh_lots *lots, size_t day, struct vh_sale *sale)
{
    const struct vh_house *h = run->house;
    enum vh_status status = VH_OK;

    for (size_t k = 0; k < h->plantings; k++)
        vh_sale_of(run, &lots[k], k, day, &sale[k]);
    for (size_t g = 0; g < h->market.goods && status == VH_OK; g++)
        status = add_good(t, run, g, day, sale);
    return status;
}

enum vh_status vh_result_add_market_days(struct vh_table *t, const struct vh_run *run)
{
    const struct vh_house *h = run->house;
    struct vh_lots *lots = calloc(h->plantings + 1, sizeof *lots);
    struct vh_sale *sale = calloc(h->plantings + 1, sizeof *sale);
    enum vh_status status = lots && sale ? VH_OK : VH_NO_MEMORY;

    if (h->market.given && status == VH_OK)
        status = vh_house_lots_of(run, lots);
    for (size_t day = 0; day < h->market.days && status == VH_OK; day++)
        status = add_day(t, run, lots, day, sale);
    vh_house_lots_clear(lots, h->plantings);
    free(sale);
    free(lots);
    return status;
}
