/* Rows of weeks, trusses, stem and plant_days for one planting. */
#include "vh_sales.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "vh_math.h"

#define G_PER_KG 1000.0
#define DAYS_PER_WEEK 7

static double per(double sum, double n)
{
    return n > 0.0 ? sum / n : VH_UNKNOWN;
}

static double fruit_mm(const struct vh_season *s, double fruit_g)
{
    return fruit_g > 0.0 ? vh_fruit_diameter_mm(&s->planting->crop->fruit, fruit_g) : VH_UNKNOWN;
}

struct week {
    double fruits, kg, market_kg, load, supply;
    double picked_kg, picked_fruits; /* recorded; NaN: nothing */
    int days;
};

static enum vh_status add_week(struct vh_table *t, const struct vh_run *run,
                               const struct vh_season *s, int64_t monday, const struct week *w,
                               double cumulative_kg)
{
    const struct vh_planting *p = s->planting;
    const double fruit_g = per(w->kg * G_PER_KG, w->fruits);
    const char *text = vh_result_week(t, run, monday);

    if (!text || vh_table_add_row(t) != VH_OK || vh_table_set_lasting(t, 0, text) != VH_OK ||
        vh_table_set_lasting(t, 2, p->name) != VH_OK)
        return VH_NO_MEMORY;
    const double number_of[] = {w->fruits,
                                w->kg,
                                w->market_kg,
                                fruit_g,
                                fruit_mm(s, fruit_g),
                                w->kg / p->plants,
                                w->kg * p->plants_per_m2 / p->plants,
                                cumulative_kg,
                                w->load / w->days,
                                w->supply / w->days,
                                w->picked_kg,
                                w->picked_fruits};
    vh_table_set_number(t, 1, (double)monday);
    for (size_t k = 0; k < sizeof number_of / sizeof number_of[0]; k++)
        vh_table_set_number(t, 3 + k, number_of[k]);
    return VH_OK;
}

enum vh_status vh_result_add_weeks(struct vh_table *t, const struct vh_run *run, size_t planting)
{
    const struct vh_season *s = &run->season[planting];
    const struct vh_harvest_day *harvest = run->harvest[planting].day;
    struct week w = {0};
    double cumulative_kg = 0.0;

    for (size_t d = 0; d < s->days; d++) {
        const struct vh_season_day *day = &s->day[d];
        const int64_t date = s->first_day + (int64_t)d;
        const double kg = harvest[d].picked.kg;
        w.fruits += harvest[d].picked.fruits;
        w.kg += kg;
        w.market_kg += kg > 0.0 ? kg * vh_run_marketable_frac(run, planting, d) : 0.0;
        cumulative_kg += kg;
        w.load += vh_season_load(s, d);
        w.supply += vh_min(day->plant.ratio, 1.0);
        w.days++;
        if (vh_date_weekday(date) + 1 != DAYS_PER_WEEK && d + 1 != s->days)
            continue;
        const int64_t monday = vh_date_monday(date);
        const struct vh_records *records = &run->house->records;
        w.picked_kg = vh_record_picked_kg(records, planting, monday, date);
        w.picked_fruits = vh_record_picked_fruits(records, planting, monday, date);
        if (add_week(t, run, s, monday, &w, cumulative_kg) != VH_OK)
            return VH_NO_MEMORY;
        w = (struct week){0};
    }
    return VH_OK;
}

static const char *status_of(const struct vh_truss_view *v, double today_d)
{
    if (v->opened_d >= today_d)
        return "to come";
    if (!isnan(v->ripe_last_d) && v->ripe_last_d < today_d)
        return "picked";
    if (!isnan(v->ripe_first_d) && v->ripe_first_d < today_d)
        return "picking";
    if (v->opened_d + v->flowers >= today_d)
        return "in flower"; /* positions open about a day apart */
    return "green";
}

static void set_day(struct vh_table *t, size_t column, const struct vh_season *s, double at_d)
{
    if (!isnan(at_d))
        vh_table_set_number(t, column, (double)(s->first_day + (int64_t)floor(at_d)));
}

enum vh_status vh_result_add_trusses(struct vh_table *t, const struct vh_season *s, int64_t today,
                                     const struct vh_work_series *series,
                                     const struct vh_work_params *book)
{
    for (size_t k = 0; k < s->trusses; k++) {
        const struct vh_truss_view *v = &s->truss[k];
        if (isnan(v->opened_d))
            continue; /* picked before a standing crop was seen */
        const double fruit_g = per(v->picked_g, v->picked_fruits);
        const char *status = status_of(v, (double)(today - s->first_day) + 1.0);
        if (vh_table_add_row(t) != VH_OK ||
            vh_table_set_lasting(t, 0, s->planting->name) != VH_OK ||
            vh_table_set_lasting(t, 2, status) != VH_OK)
            return VH_NO_MEMORY;
        vh_table_set_number(t, 1, (double)k + 1.0);
        set_day(t, 3, s, v->opened_d);
        set_day(t, 4, s, v->opened_d + v->flowers - 1.0);
        vh_table_set_number(t, 5, v->flowers);
        vh_table_set_number(t, 6, v->set);
        vh_table_set_number(t, 7, v->kept);
        vh_table_set_number(t, 8, v->set - v->kept);
        const int64_t thinned = vh_thinning_on(series, book, k);
        if (thinned != INT64_MAX)
            vh_table_set_number(t, 9, (double)thinned);
        vh_table_set_number(t, 10, v->aborted);
        set_day(t, 11, s, v->ripe_first_d);
        set_day(t, 12, s, v->ripe_last_d);
        vh_table_set_number(t, 13, v->ripe_first_d - v->opened_d);
        vh_table_set_number(t, 14, fruit_g);
        vh_table_set_number(t, 15, fruit_mm(s, fruit_g));
        vh_table_set_number(t, 16,
                            v->picked_g > 0.0 ? 100.0 * v->picked_dm_g / v->picked_g : VH_UNKNOWN);
        if (fruit_g > 0.0)
            vh_table_set_number(t, 17, vh_fruit_mass_cv(&s->planting->crop->fruit, v->kept));
        const int64_t support = vh_support_on(series, book, k);
        if (support != INT64_MAX)
            vh_table_set_number(t, 18, (double)support);
    }
    return VH_OK;
}

static enum vh_status start_day(struct vh_table *t, const struct vh_season *s, size_t d)
{
    if (vh_table_add_row(t) != VH_OK)
        return VH_NO_MEMORY;
    vh_table_set_number(t, 0, (double)(s->first_day + (int64_t)d));
    return vh_table_set_lasting(t, 1, s->planting->name);
}

enum vh_status vh_result_add_stem(struct vh_table *t, const struct vh_season *s,
                                  const struct vh_lower_plan *plan)
{
    for (size_t d = 0; d < s->days; d++) {
        const struct vh_plant_day *p = &s->day[d].plant;
        const struct vh_lower_policy *lower = &s->planting->policy.lower;
        const bool hung = plan->state != NULL;
        if (start_day(t, s, d) != VH_OK)
            return VH_NO_MEMORY;
        const double number_of[] = {p->stem_cm,
                                    p->leaves,
                                    p->lai,
                                    hung ? vh_lower_head_cm(lower, plan->state[d], p->stem_cm)
                                         : VH_UNKNOWN,
                                    hung ? vh_lower_lean_deg(plan->state[d]) : VH_UNKNOWN,
                                    hung ? plan->state[d].laid_cm : VH_UNKNOWN,
                                    hung ? plan->lowest_fruit_cm[d] : VH_UNKNOWN,
                                    p->flowering_truss,
                                    p->picking_truss};
        for (size_t k = 0; k < sizeof number_of / sizeof number_of[0]; k++)
            vh_table_set_number(t, 2 + k, number_of[k]);
    }
    return VH_OK;
}

enum vh_status vh_result_add_plant_days(struct vh_table *t, const struct vh_season *s)
{
    for (size_t d = 0; d < s->days; d++) {
        const struct vh_plant_day *p = &s->day[d].plant;
        if (start_day(t, s, d) != VH_OK)
            return VH_NO_MEMORY;
        const double number_of[] = {
            p->assimilate_g_m2, p->maintenance_g_m2,  p->maintenance_unpaid_g_m2,
            p->demand_g_m2,     vh_season_load(s, d), vh_min(p->ratio, 1.0),
            p->reserve_g_m2,    p->fruit_dm_g_m2,     p->leaf_dm_g_m2,
            p->stem_dm_g_m2,    p->balance_error};
        for (size_t k = 0; k < sizeof number_of / sizeof number_of[0]; k++)
            vh_table_set_number(t, 2 + k, number_of[k]);
    }
    return VH_OK;
}
