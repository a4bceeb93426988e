#include "vh_work_series_of.h"

#include <stdlib.h>

#include "vh_math.h"

#define G_PER_KG 1000.0

/* Leaves that went today: those made more than those that came to hang on the stem. */
static double leaves_off(const struct vh_season *s, size_t d)
{
    if (d == 0)
        return 0.0;
    const struct vh_plant_day *before = &s->day[d - 1].plant, *now = &s->day[d].plant;
    return vh_max(0.0, (now->leaves_made - before->leaves_made) - (now->leaves - before->leaves));
}

static struct vh_work_day day_of(const struct vh_house *house, const struct vh_season *s, size_t d,
                                 double light_factor)
{
    const struct vh_climate *c = &house->climate;
    const struct vh_season_day *day = &s->day[d];
    const int64_t date = s->first_day + (int64_t)d;
    const size_t at = (size_t)(date - c->first_day);

    return (struct vh_work_day){
        .stems = day->stems,
        .stem_cm = day->plant.stem_cm,
        .leaves = day->plant.leaves,
        .leaves_off = leaves_off(s, d),
        .flowering_truss = day->plant.flowering_truss,
        .picking_truss = day->plant.picking_truss,
        .suckers_off = day->plant.suckers_off,
        .sucker_longest_cm = day->plant.sucker_longest_cm,
        .sucker_pulled_cm = day->plant.sucker_pulled_cm,
        .hanging_kg = day->hanging_kg,
        .picked_kg = day->picked.fresh_g * day->stems / G_PER_KG,
        .picked_fruits = day->picked.fruits * day->stems,
        .pick_day = day->pick_day,
        .dli_mol_m2_d = c->dli_mol_m2_d[at] * light_factor,
        .hottest_c = c->tmax_c[at],
        .foreseen = date > c->last_logged_day,
    };
}

enum vh_status vh_work_series_of(const struct vh_house *house, const struct vh_season *s,
                                 double light_factor, struct vh_work_series *out)
{
    const struct vh_planting *p = s->planting;
    struct vh_work_day *day = malloc(s->days * sizeof *day);

    if (!day)
        return VH_NO_MEMORY;
    for (size_t d = 0; d < s->days; d++)
        day[d] = day_of(house, s, d, light_factor);
    *out = (struct vh_work_series){
        .crop = p->crop,
        .by_piece = vh_house_counts(house, p),
        .policy = &p->policy,
        .done = p->policy.done,
        .planting = p->name,
        .plants = p->plants,
        .heads_per_plant = p->heads_per_plant,
        .plants_apart_cm = p->plants_apart_cm,
        .plants_per_m2 = p->plants_per_m2,
        .first_day = s->first_day,
        .today = house->today,
        .days = s->days,
        .own_days = day,
        .day = day,
        .truss = s->truss,
        .trusses = s->trusses,
        .standing = p->standing.given,
    };
    return VH_OK;
}

void vh_work_series_take(struct vh_work_series *series, const struct vh_harvest *harvest)
{
    for (size_t d = 0; d < harvest->days; d++) {
        series->own_days[d].picked_kg = harvest->day[d].picked.kg;
        series->own_days[d].picked_fruits = harvest->day[d].picked.fruits;
    }
}

void vh_work_series_clear(struct vh_work_series *series)
{
    free(series->own_days);
    *series = (struct vh_work_series){0};
}
