/* What to measure, as people read it. */
#include "vh_result.h"
#include "vh_to_measure.h"

enum { PLANTING, ITEM, TRUSS, OF, EXPECT, MARKET_DAY, UNTIL, KG, KG_LOW, KG_HIGH, NARROWS };

static enum vh_status add_row(struct vh_table *t, const struct vh_scenario *s,
                              const struct vh_to_measure *a)
{
    if (vh_table_add_row(t) != VH_OK ||
        vh_table_set_text(t, PLANTING, s->house.planting[a->planting].name) != VH_OK ||
        vh_table_set_text(t, ITEM, vh_record_item_name(a->item)) != VH_OK)
        return VH_NO_MEMORY;
    if (a->truss > 0)
        vh_table_set_number(t, TRUSS, a->truss);
    if (a->of > 0)
        vh_table_set_number(t, OF, a->of);
    vh_table_set_number(t, EXPECT, a->expect);
    if (a->is_market)
        vh_table_set_number(t, MARKET_DAY, (double)a->day);
    vh_table_set_number(t, UNTIL, (double)a->day);
    vh_table_set_number(t, KG, a->kg);
    vh_table_set_number(t, KG_LOW, a->kg_low);
    vh_table_set_number(t, KG_HIGH, a->kg_high);
    vh_table_set_number(t, NARROWS, a->narrows);
    return VH_OK;
}

enum vh_status vh_forecast_measuring(const struct vh_scenario *s, vh_progress progress,
                                     void *context, struct vh_result **out, struct vh_messages *m)
{
    struct vh_measures all;
    struct vh_result *r = NULL;
    enum vh_status status = vh_measures_beside(s, progress, context, &r, &all, m);

    if (status != VH_OK)
        return status;
    for (size_t i = 0; i < all.items && status == VH_OK; i++)
        status = add_row(r->table[VH_TABLE_TO_MEASURE], s, &all.item[i]);
    vh_measures_clear(&all);
    if (status == VH_OK)
        *out = r;
    else
        vh_result_free(r);
    return status;
}
