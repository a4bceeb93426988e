#include "vh_sales.h"

#include <stdlib.h>

#include "vh_math.h"
#include "vh_spoil.h"
#include "vh_storeroom.h"

/* ---- lots ---- */

static double sound_frac(const struct vh_house *house, const struct vh_season *s, size_t d)
{
    struct vh_spoil_shares spoil;

    vh_season_spoil(house, s, d, &spoil);
    return 1.0 - vh_spoil_total(&spoil);
}

double vh_marketable_frac(const struct vh_house *house, const struct vh_season *s, size_t d,
                          double of_sound)
{
    return vh_clamp(of_sound * sound_frac(house, s, d), 0.0, 1.0);
}

double vh_run_marketable_frac(const struct vh_run *run, size_t planting, size_t d)
{
    const double of_sound = run->marketable ? run->marketable[planting] : 1.0;
    const struct vh_season *s = &run->season[planting];

    if (!run->sound)
        return vh_marketable_frac(run->house, s, d, of_sound);
    double *known = &run->sound[planting][d];
    if (isnan(*known))
        *known = sound_frac(run->house, s, d);
    return vh_clamp(of_sound * *known, 0.0, 1.0);
}

/* Scatter of mass among the fruits of one pick: that of a truss with as many fruits as this season
 * keeps; of fruit picked by size, that of the size. At a last pick from a smaller mass on, two such
 * lots lie in one: its grades, and what is too large, come from their common mean with the scatter
 * of one, which is too small. */
static double lot_cv(const struct vh_season *s)
{
    const struct vh_fruit_params *f = &s->planting->crop->fruit;
    double kept = 0.0;
    size_t n = 0;

    if (f->pick_by == VH_PICK_BY_MASS)
        return f->pick_cv;
    for (size_t i = 0; i < s->trusses; i++) {
        if (!(s->truss[i].kept > 0.0))
            continue;
        kept += s->truss[i].kept;
        n++;
    }
    return vh_fruit_mass_cv(f, n ? kept / (double)n : s->planting->crop->habit.fruits_kept);
}

static void fill_lot(const struct vh_run *run, size_t planting, size_t d, struct vh_amount picked,
                     double cv, struct vh_waits *known, struct vh_lot *lot)
{
    const struct vh_season *s = &run->season[planting];
    const int64_t date = s->first_day + (int64_t)d;
    const double good = vh_run_marketable_frac(run, planting, d);
    struct vh_keep keep = {.lost = 0.0};

    /* until its market day, kept as `week` tells to: in the colour and the place that lose least */
    vh_storeroom_keep_known(run->house, s->planting, date, known, &keep);
    *lot = (struct vh_lot){
        .on = date,
        .fruits = good * picked.fruits,
        .kg = good * picked.kg,
        .mass_cv = cv,
        .lost_frac = vh_storeroom_lost(run->house, s->planting, date, s->day[d].early, &keep)};
}

static bool is_lot(const struct vh_season *s, const struct vh_harvest *h, size_t d)
{
    return s->day[d].pick_day || h->day[d].picked.kg > 0.0;
}

static enum vh_status fill_lots(const struct vh_run *run, size_t planting,
                                const struct vh_harvest *h, struct vh_lots *out)
{
    const struct vh_season *s = &run->season[planting];
    const double cv = lot_cv(s);
    struct vh_waits known = {.is_known = {false}};
    size_t picks = 0;

    for (size_t d = 0; d < s->days; d++)
        picks += is_lot(s, h, d);
    *out = (struct vh_lots){.lot = malloc((picks + 1) * sizeof *out->lot)};
    if (!out->lot)
        return VH_NO_MEMORY;
    for (size_t d = 0; d < s->days; d++)
        if (is_lot(s, h, d))
            fill_lot(run, planting, d, h->day[d].picked, cv, &known, &out->lot[out->lots++]);
    return VH_OK;
}

enum vh_status vh_lots_of(const struct vh_run *run, size_t planting, struct vh_lots *out)
{
    struct vh_harvest own;

    *out = (struct vh_lots){0};
    if (run->harvest)
        return fill_lots(run, planting, &run->harvest[planting], out);
    enum vh_status status = vh_harvest_of(run->house, planting, &run->season[planting], &own);
    if (status == VH_OK)
        status = fill_lots(run, planting, &own, out);
    vh_harvest_clear(&own);
    return status;
}

void vh_lots_clear(struct vh_lots *l)
{
    free(l->lot);
    *l = (struct vh_lots){0};
}

/* ---- one planting on one day ---- */

bool vh_sale_is_of(const struct vh_house *house, size_t planting, size_t day)
{
    const struct vh_planting *p = &house->planting[planting];
    const int64_t on = house->market.day[day];

    return on >= p->set_out && on <= p->pull_out + house->market.sold_after_d;
}

static void sum_parts(struct vh_sale *sale, size_t grades)
{
    sale->all = (struct vh_amount){0.0, 0.0};
    for (size_t i = 0; i < grades; i++) {
        sale->all.fruits += sale->part[i].fruits;
        sale->all.kg += sale->part[i].kg;
    }
}

void vh_sale_of(const struct vh_run *run, const struct vh_lots *lots, size_t planting, size_t day,
                struct vh_sale *out)
{
    const struct vh_market *m = &run->house->market;
    const struct vh_good *good = &m->good[m->good_of[planting]];
    const struct vh_fruit_params *f = &run->house->planting[planting].crop->fruit;
    const struct vh_mass_shape shape = {f->mass_a_g, f->mass_exponent};
    const int64_t after = day > 0 ? m->day[day - 1] : INT64_MIN;

    vh_market_gather(lots->lot, lots->lots, after, m->day[day], good->grades, shape, out->part,
                     &out->lost);
    out->income = VH_UNKNOWN;
    out->beyond_kg = 0.0;
    sum_parts(out, vh_good_grades(good));
}

/* ---- a good ---- */

void vh_sale_together(const struct vh_house *house, size_t good, size_t day, struct vh_sale *sale,
                      struct vh_sale *out)
{
    const struct vh_market *m = &house->market;
    const struct vh_good *g = &m->good[good];
    const size_t parts = vh_good_grades(g) + 1;
    const struct vh_amount free_sale = {VH_ENDLESS, VH_ENDLESS};
    double value = 0.0;

    *out = (struct vh_sale){.income = VH_UNKNOWN};
    for (size_t n = 0; n < g->plantings; n++) {
        const size_t k = g->planting[n];
        for (size_t i = 0; i < parts; i++) {
            out->part[i].fruits += sale[k].part[i].fruits;
            out->part[i].kg += sale[k].part[i].kg;
        }
        out->lost.fruits += sale[k].lost.fruits;
        out->lost.kg += sale[k].lost.kg;
        sale[k].income = vh_market_takings(g, sale[k].part, free_sale).income;
        value += sale[k].income;
    }
    sum_parts(out, parts - 1);
    const struct vh_takings t =
        vh_market_takings(g, out->part, vh_market_orders(m, good, m->day[day]));
    out->income = t.income;
    out->beyond_kg = t.beyond_kg;
    for (size_t n = 0; n < g->plantings; n++) {
        const size_t k = g->planting[n];
        sale[k].beyond_kg = out->all.kg > 0.0 ? t.beyond_kg * sale[k].all.kg / out->all.kg : 0.0;
        sale[k].income = value > 0.0 ? t.income * sale[k].income / value : t.income;
    }
}

/* ---- in all ---- */

enum vh_status vh_house_lots_of(const struct vh_run *run, struct vh_lots *out)
{
    enum vh_status status = VH_OK;

    for (size_t k = 0; k < run->house->plantings && status == VH_OK; k++)
        status = vh_lots_of(run, k, &out[k]);
    return status;
}

void vh_house_lots_clear(struct vh_lots *lots, size_t plantings)
{
    for (size_t k = 0; lots && k < plantings; k++)
        vh_lots_clear(&lots[k]);
}

static void add_day(const struct vh_run *run, const struct vh_lots *lots, size_t day, bool counts,
                    struct vh_sale *sale, struct vh_outcome *out, double *day_kg)
{
    const struct vh_house *h = run->house;
    const struct vh_market *m = &h->market;

    for (size_t k = 0; k < h->plantings; k++)
        vh_sale_of(run, &lots[k], k, day, &sale[k]);
    for (size_t g = 0; g < m->goods; g++) {
        struct vh_sale together;
        vh_sale_together(h, g, day, sale, &together);
        if (day_kg)
            day_kg[day * m->goods + g] = together.all.kg;
    }
    for (size_t k = 0; k < h->plantings && counts; k++) {
        out[k].market_kg += sale[k].all.kg;
        out[k].income += sale[k].income;
    }
}

enum vh_status vh_outcome_of_lots(const struct vh_run *run, const struct vh_lots *lots,
                                  int64_t from, struct vh_outcome *out, double *day_kg)
{
    const struct vh_house *h = run->house;
    struct vh_sale *sale = calloc(h->plantings + 1, sizeof *sale);

    if (!sale)
        return VH_NO_MEMORY;
    for (size_t k = 0; k < h->plantings; k++)
        out[k] = (struct vh_outcome){0.0, h->market.given ? 0.0 : VH_UNKNOWN};
    for (size_t day = 0; day < h->market.days; day++)
        add_day(run, lots, day, h->market.day[day] >= from, sale, out, day_kg);
    free(sale);
    return VH_OK;
}
