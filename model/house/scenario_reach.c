/* What records and orders claim, held against what such houses reach. */
#include "scenario_parts.h"
#include "vh_reach.h"

#include "vh_math.h"

#define DAYS_PER_WEEK 7.0
#define G_PER_KG 1000.0

/* The most heads that a plant of it ever has. */
static double heads_most(const struct vh_planting *p)
{
    double most = p->heads_per_plant;

    for (size_t i = 0; i < p->policy.head_changes; i++)
        most = vh_max(most, p->policy.heads[i].heads_per_plant);
    return most;
}

/* kg that the plants can have given in so many weeks, the best of the season among them. */
static double reach_kg(const struct vh_reading *r, const struct vh_planting *p, double weeks)
{
    struct vh_reach reach = {0};

    vh_reach_bounds(&reach, &p->crop->habit, weeks,
                    r->scenario->house_params.doubt_reach_peak_weeks, p->plants_per_m2,
                    heads_most(p));
    return reach.high_kg_plant * p->plants;
}

static void doubt_records(struct vh_reading *r, size_t planting)
{
    const struct vh_house *h = &r->scenario->house;
    const struct vh_planting *p = &h->planting[planting];
    int64_t first = INT64_MAX, last = INT64_MIN;
    double kg = 0.0;

    for (size_t i = 0; i < h->records.rows; i++) {
        const struct vh_record *row = &h->records.row[i];
        if (row->planting != planting || row->item != VH_RECORD_PICKED_KG || !(row->value > 0.0) ||
            row->doubt) /* that was told already */
            continue;
        first = row->day < first ? row->day : first;
        last = row->day > last ? row->day : last;
        kg += row->value;
    }
    const double weeks = kg > 0.0 ? (double)(last - first) / DAYS_PER_WEEK + 1.0 : 0.0;
    if (!(kg > 0.0) || kg <= reach_kg(r, p, weeks))
        return;
    vh_warn(r->messages, h->records.place,
            "by the records %s gave %.10g kg a plant in %.0f week%s: such houses reach %.10g; check"
            " the unit of the picks, `plants` and `plants_per_m2`",
            p->name, vh_round_digits(kg / p->plants, 3), weeks, weeks < 1.5 ? "" : "s",
            vh_round_digits(reach_kg(r, p, weeks) / p->plants, 2));
}

void vh_scenario_doubt_records(struct vh_reading *r)
{
    const struct vh_house *h = &r->scenario->house;

    for (size_t i = 0; r->status >= 0 && i < h->plantings; i++)
        doubt_records(r, i);
}

void vh_market_doubt_order(struct vh_reading *r, const struct vh_toml_value *table,
                           const struct vh_order *order)
{
    const struct vh_house *h = &r->scenario->house;
    const struct vh_market *m = &h->market;
    int64_t first = INT64_MAX, last = INT64_MIN;
    double days = 0.0, most = 0.0, fruit_g = 0.0;

    for (size_t i = 0; i < m->days; i++) {
        if (m->day[i] < order->from || m->day[i] > order->until)
            continue;
        first = m->day[i] < first ? m->day[i] : first;
        last = m->day[i];
        days += 1.0;
    }
    if (r->status < 0 || first > last)
        return;
    const double weeks = (double)(last - first) / DAYS_PER_WEEK + 1.0;
    for (size_t i = 0; i < h->plantings; i++) {
        if (m->good_of[i] != order->good)
            continue;
        most += reach_kg(r, &h->planting[i], weeks);
        fruit_g = vh_max(fruit_g, h->planting[i].usual_fruit_g);
    }
    const double kg = days * (order->kg + order->fruits * fruit_g / G_PER_KG);
    if (kg > most)
        vh_warn(
            r->messages, vh_at_table(r, table),
            "%s orders %.10g kg in %.0f weeks, but such houses reach %.10g kg on the plants of %s;"
            " check the order, or how many plants there are",
            order->who, vh_round_digits(kg, 3), weeks, vh_round_digits(most, 3),
            m->good[order->good].name);
}
