/* What the flowers of a day come to, by pollen, visits and supply. */
#include "vh_plant_state.h"

#include "vh_math.h"

static double pollen_mean_c(const struct vh_plant *p, size_t lane, const struct vh_day *day)
{
    const struct vh_pollen *pollen = &p->tables->pollen;
    const size_t done = (size_t)p->days[lane];
    double mean_c[VH_HISTORY];
    size_t n = 0;

    mean_c[n++] = day->mean_c;
    for (; n <= done && n < pollen->until; n++) /* nothing before is asked for */
        mean_c[n] = p->mean_ring[(done - n) % VH_HISTORY * p->lanes + lane];
    return vh_pollen_mean_c(pollen, mean_c, n);
}

struct vh_flowers_today vh_plant_flowers_today(const struct vh_plant *p, size_t lane,
                                               const struct vh_day *day, const struct vh_acts *acts)
{
    const struct vh_flower_params *f = &p->setup.crop->flower;
    const bool by_day = f->heat_by == VH_SET_HEAT_BY_DAY;
    const double r = vh_ring_mean(p, p->ratio_ring, lane, p->days[lane], (int)f->supply_from_d,
                                  (int)f->supply_to_d, 1.0);
    const double flying = acts->by_bees ? day->bees_share : 1.0;
    const double reached =
        f->unvisited_share + (1.0 - f->unvisited_share) * acts->flowers_reached * flying;
    const double heat = by_day ? vh_flower_day_share(f, day->mean_c)
                               : vh_flower_temperature_share(f, pollen_mean_c(p, lane, day));
    const double set =
        f->set_max * p->factors[lane].set * heat * reached * vh_flower_supply_share(f, r);

    return (struct vh_flowers_today){vh_min(1.0, set),
                                     by_day ? 1.0 : vh_flower_seeded_share(f, heat)};
}
