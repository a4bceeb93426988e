/* Leaf and flowering clocks, what the flowers of a day come to, and the trusses that open. */
#include "vh_plant_state.h"

#include "vh_math_parts.h"

#define NEVER VH_UNKNOWN

/* What flowers of a moment come to, before anyone thins. */
struct flowers {
    double set;    /* share that sets */
    double seeded; /* potential mass of their fruit by their pollen, share */
};

static void open_truss(struct vh_today *y, size_t lane, int number, double fraction,
                       struct flowers flowers)
{
    /* flowers belong to the moment the truss opens: between yesterday's and today's, so that
     * results move smoothly */
    struct vh_plant *p = y->p;
    const struct vh_acts *acts = &y->acts[lane];
    const size_t i = vh_at(p, number, lane);
    const int k = number - acts->kept_first;
    const double on = vh_plant_opens_on(p, lane, number), old = vh_plant_heads_on(p, lane, number);
    const double rule = k >= 0 && k < VH_OPEN_MOST ? on * acts->kept[k] : 0.0;
    const bool per_node = y->crop->truss.clock_by == VH_CLOCK_BY_NODE;

    p->opened_d[i] = p->days[lane] + fraction;
    p->on_stems[i] = p->opened_on[i] = on * old;
    p->flowers[i] = on * p->setup.flowers;
    /* a rule of 1/2 on nodes: every second keeps one */
    p->thin_stage[i] = k >= 0 && k < VH_OPEN_MOST ? acts->thin_stage[k] : 0.0;
    const double ruled = vh_min(rule, p->flowers[i]);
    p->set[i] = (per_node && p->thin_stage[i] <= 0.0 ? ruled : p->flowers[i]) * flowers.set;
    p->kept[i] = old * vh_min(p->set[i], per_node ? ruled * flowers.set : rule);
    p->thinned_d[i] = NEVER;
    p->thin_share[i] = old;
    p->fruits[i] = old * p->set[i];
    if (p->thin_stage[i] <= 0.0 && p->kept[i] < p->fruits[i]) {
        p->fruits[i] = p->kept[i];
        p->thinned_d[i] = p->opened_d[i];
    }
    p->weights[i] = vh_plant_weights(p, i, p->fruits[i]);
    p->stage[i] = 0.0;
    p->grown_share[i] = vh_fruit_curve_at(&p->tables->curve, 0.0);
    p->seeded[i] = flowers.seeded;
    p->age_d[i] = -fraction; /* the step adds the whole day to every truss that is on */
    p->ripe_first_d[i] = NEVER;
    p->ripe_last_d[i] = NEVER;
    p->trusses[lane] = number;
}

/* Opens what the clock passes from `before` to `after`; flowers were `was` yesterday, are `now`. */
static void open_trusses(struct vh_today *y, size_t lane, double before, double after,
                         struct flowers was, struct flowers now)
{
    const struct vh_plant *p = y->p;
    const int next = vh_plant_next_truss(p, lane);

    if (after <= before)
        return;
    for (int n = next; n <= after && (size_t)n <= p->trusses_most; n++) {
        const double fraction = vh_clamp((n - before) / (after - before), 0.0, 1.0);
        open_truss(y, lane, n, fraction,
                   (struct flowers){was.set + fraction * (now.set - was.set),
                                    was.seeded + fraction * (now.seeded - was.seeded)});
    }
}

/* Weighted mean of the days up to today's; days before the first take that one. */
VH_KERNEL void pollen_means(const struct vh_today *y, const size_t lanes, double *restrict mean_c)
{
    const struct vh_plant *p = y->p;
    const struct vh_pollen *pollen = &p->tables->pollen;
    const int youngest = vh_lowest(p->days, lanes);

    VH_APART
    for (size_t l = 0; l < lanes; l++)
        mean_c[l] = 0.0;
    for (int k = (int)pollen->from; k < (int)pollen->until; k++) {
        const double w = pollen->weight[k];
        const double *row = p->mean_ring + (size_t)(p->turn - k) % VH_HISTORY * lanes;
        if (k > 0 && k <= youngest) {
            VH_APART
            for (size_t l = 0; l < lanes; l++)
                mean_c[l] += w * row[l];
        } else {
            VH_APART
            for (size_t l = 0; l < lanes; l++) {
                const int back = k < p->days[l] ? k : p->days[l];
                const size_t at = (size_t)(p->turn - back) % VH_HISTORY * lanes + l;
                mean_c[l] += w * (back == 0 ? y->mean_c[l] : p->mean_ring[at]);
            }
        }
    }
    VH_APART
    for (size_t l = 0; l < lanes; l++)
        mean_c[l] /= pollen->sum;
}

VH_KERNEL void flowers_today(const struct vh_today *y, const size_t lanes, double *restrict set,
                             double *restrict seeded)
{
    const struct vh_plant *p = y->p;
    const struct vh_flower_params *f = &y->crop->flower;
    double one[VH_LANES], r[VH_LANES], heat[VH_LANES], reached[VH_LANES], of_member[VH_LANES];

    VH_APART
    for (size_t l = 0; l < lanes; l++) {
        const struct vh_acts *acts = &y->acts[l];
        const double flying = acts->by_bees ? y->day[l]->bees_share : 1.0;
        reached[l] =
            f->unvisited_share + (1.0 - f->unvisited_share) * acts->flowers_reached * flying;
        of_member[l] = p->factors[l].set;
        one[l] = 1.0;
    }
    vh_ring_means(p, p->ratio_ring, lanes, (int)f->supply_from_d, (int)f->supply_to_d, one, r);
    if (f->heat_by == VH_SET_HEAT_BY_DAY) {
        VH_APART
        for (size_t l = 0; l < lanes; l++) {
            heat[l] = vh_flower_day_share(f, y->mean_c[l]);
            seeded[l] = 1.0;
        }
    } else {
        pollen_means(y, lanes, heat);
        VH_APART
        for (size_t l = 0; l < lanes; l++) {
            const double pollen_c = heat[l];
            heat[l] = vh_flower_temperature_share(f, pollen_c);
            seeded[l] = vh_flower_seeded_share(f, heat[l], pollen_c);
        }
    }
    if (f->set_by == VH_SET_BY_THRESHOLD) {
        VH_APART
        for (size_t l = 0; l < lanes; l++)
            r[l] = vh_flower_supply_step(f, r[l]);
    } else {
        VH_APART
        for (size_t l = 0; l < lanes; l++)
            r[l] = vh_flower_supply_line(f, r[l]);
    }
    VH_APART
    for (size_t l = 0; l < lanes; l++)
        set[l] = vh_min(1.0, f->set_max * of_member[l] * heat[l] * reached[l] * r[l]);
}

VH_KERNEL double flowering(const struct vh_truss_params *t, double plastochron, double most)
{
    const double ahead = plastochron - (t->leaves_below_first + t->leaves_ahead);

    return vh_min(1.0 + ahead / t->leaves_per_truss, most);
}

double vh_plant_flowering(const struct vh_plant *p, size_t lane)
{
    return flowering(&p->setup.crop->truss, p->plastochron[lane], p->flowering_most[lane]);
}

/* Leaf intervals of a day as the plants would pass them. */
VH_KERNEL void leaf_rates(const struct vh_today *y, const size_t lanes, const double *before,
                          double *restrict rate)
{
    const struct vh_crop *crop = y->crop;

    if (crop->truss.clock_by == VH_CLOCK_BY_NODE) {
        VH_APART
        for (size_t l = 0; l < lanes; l++)
            rate[l] = vh_node_rate_per_d(&crop->node, &crop->truss, y->mean_c[l],
                                         y->dli_mol_m2_d[l] * y->light_factor[l]);
    } else {
        VH_APART
        for (size_t l = 0; l < lanes; l++)
            rate[l] = crop->truss.leaves_per_truss *
                      vh_truss_rate_per_d(&crop->truss, y->mean_c[l], vh_max(1.0, before[l]));
    }
}

VH_KERNEL void run_clocks(struct vh_today *y, const size_t lanes)
{
    struct vh_plant *p = y->p;
    const struct vh_truss_params *t = &y->crop->truss;
    double before[VH_LANES], after[VH_LANES], rate[VH_LANES], share[VH_LANES], pace[VH_LANES],
        grows[VH_LANES], set[VH_LANES], seeded[VH_LANES];

    VH_APART
    for (size_t l = 0; l < lanes; l++) {
        share[l] = y->day[l]->clock_share;
        pace[l] = p->factors[l].truss_pace;
        grows[l] = p->topped[l] ? 0.0 : 1.0;
    }
    VH_APART
    for (size_t l = 0; l < lanes; l++)
        before[l] = flowering(t, p->plastochron[l], p->flowering_most[l]);
    leaf_rates(y, lanes, before, rate);
    VH_APART
    for (size_t l = 0; l < lanes; l++) {
        y->leaf_rate[l] = rate[l] * share[l] * pace[l];
        y->made[l] = vh_select(grows[l] > 0.0, y->leaf_rate[l], 0.0);
        p->plastochron[l] += y->leaf_rate[l];
        p->leaves_made[l] += y->made[l];
        after[l] = flowering(t, p->plastochron[l], p->flowering_most[l]);
    }
    flowers_today(y, lanes, set, seeded);
    VH_APART
    for (size_t l = 0; l < lanes; l++) {
        const struct flowers now = {set[l], seeded[l]};
        if (after[l] >= p->trusses[l] + 1)
            open_trusses(
                y, l, before[l], after[l],
                p->days[l] == 0 ? now : (struct flowers){p->last_set_share[l], p->last_seeded[l]},
                now);
        p->last_set_share[l] = set[l];
        p->last_seeded[l] = seeded[l];
    }
}
VH_LANED(vh_plant_run_clocks, run_clocks);
