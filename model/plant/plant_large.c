/* Which size-picked fruits have passed the mass or the age of the pick, and how they are taken. */
#include "vh_math_parts.h"
#include "vh_plant_state.h"

/* Of each node: z, how far the mass of the pick lies above the mean of its fruits as if none had
 * been picked, in its scatter (endless: nothing weighs). */
VH_KERNEL void weigh_row(const struct vh_fruit_params *f, double pick_from_g, const size_t n,
                         const double *fruits, const double *picked_mass_share, const double *dm_g,
                         const double *content_g_g, double *restrict z)
{
    VH_APART
    for (size_t i = 0; i < n; i++) {
        const double on = fruits[i] * (1.0 - picked_mass_share[i]);
        const double whole_g = vh_select(on > 0.0, dm_g[i] / (on * content_g_g[i]), 0.0);
        const double past = (pick_from_g / whole_g - 1.0) / f->pick_cv;
        const bool weighs = (whole_g > 0.0) & (past > -VH_ENDLESS) & (past < VH_ENDLESS);
        z[i] = vh_select(weighs, past, VH_ENDLESS);
    }
}

/* What the fruits beyond z weigh more than their share of the number. */
VH_KERNEL double heavier(const struct vh_fruit_params *f, double z)
{
    const double root_two_pi = 2.5066282746310002, cv = f->pick_cv;
    const double bell = cv * vh_exp(-0.5 * z * z) / root_two_pi;

    return vh_select(z < VH_ENDLESS, bell, 0.0);
}

/* Which part of a rest stays: none below the sliver, all above twice of it. Between it goes without
 * a jump, or a crumb left or taken would move the weeks by steps. */
VH_KERNEL double left_on(double rest, double sliver)
{
    return vh_select(rest > sliver, vh_min(1.0, 2.0 * (1.0 - sliver / rest)), 0.0);
}

/* Sums of what is picked, by lane. */
struct sums {
    double fruits[VH_LANES], dm_g[VH_LANES], fresh_g[VH_LANES];
};

/* Takes fruits of the nodes in a row until shares `number` of them and `mass` of theirs are off. */
VH_KERNEL void take_row(struct vh_plant *p, int t, const size_t lanes, const double *number,
                        const double *mass, const double *looks, struct sums *restrict sum)
{
    const double sliver =
        2e-5; /* of a node less than one fruit in 50 000 is left: picked with it */
    const size_t at = vh_row(t, lanes);
    const double *fruits = p->fruits + at, *content = p->dm_content + at;
    double *restrict dm_g = p->dm_g + at, *restrict share = p->picked_share + at,
                     *restrict mass_share = p->picked_mass_share + at,
                     *restrict picked_n = p->picked_n + at,
                     *restrict picked_dm_g = p->picked_dm_g + at,
                     *restrict picked_g = p->picked_g + at, *restrict first = p->ripe_first_d + at,
                     *restrict last = p->ripe_last_d + at;
    double day[VH_LANES];

    for (size_t l = 0; l < lanes; l++)
        day[l] = p->days[l];
    VH_APART
    for (size_t l = 0; l < lanes; l++) {
        /* a node is ripe when half of its fruits have reached the mass of the pick */
        const bool ripe = (looks[l] > 0.0) & (first[l] != first[l]) & (number[l] >= 0.5);
        const bool takes =
            (looks[l] > 0.0) & !(number[l] <= share[l]) & !(mass[l] <= mass_share[l]);
        const double left = left_on(1.0 - number[l], sliver);
        const double n = vh_select(left > 0.0, 1.0 - left * (1.0 - number[l]), 1.0);
        const double m = vh_select(left > 0.0, 1.0 - left * (1.0 - mass[l]), 1.0);
        /* a share of exactly 1 for the last pick: (dm x)/x could leave a rest below 0 */
        const double of_rest = (m - mass_share[l]) / (1.0 - mass_share[l]);
        const double dm = vh_select(takes, dm_g[l] * of_rest, 0.0);
        const double off = vh_select(takes, fruits[l] * (n - share[l]), 0.0);
        const double fresh = vh_select(takes, dm / content[l], 0.0);
        first[l] = vh_select(ripe, day[l], first[l]);
        last[l] = vh_select(ripe, day[l], last[l]);
        dm_g[l] -= dm;
        share[l] = vh_select(takes, n, share[l]);
        mass_share[l] = vh_select(takes, m, mass_share[l]);
        picked_n[l] += off;
        picked_dm_g[l] += dm;
        picked_g[l] += fresh;
        sum->fruits[l] += off;
        sum->dm_g[l] += dm;
        sum->fresh_g[l] += fresh;
    }
}

/* Looks at the nodes in row t: shares of number and mass of the fruits that have passed. False: of
 * none of them any. */
VH_KERNEL bool look_row(const struct vh_today *y, int t, const size_t lanes,
                        double *restrict number, double *restrict mass, double *restrict looks)
{
    const struct vh_plant *p = y->p;
    const struct vh_fruit_params *f = &y->crop->fruit;
    const struct vh_scatter *scatter = &p->tables->scatter;
    const size_t at = vh_row(t, lanes);
    const double *fruits = p->fruits + at, *share = p->picked_share + at, *age_cd = p->age_cd + at;
    const double old_from_cd = f->oldest_cd * (1.0 - VH_SCATTER_FAR * f->age_scatter), row = t;
    double z[VH_LANES], by_mass[VH_LANES], old[VH_LANES], from[VH_LANES], to[VH_LANES];
    uint64_t any = 0, aged = 0;

    for (size_t l = 0; l < lanes; l++) {
        from[l] = y->picks[l] ? p->first_on[l] : VH_ENDLESS;
        to[l] = p->trusses[l];
    }
    weigh_row(f, p->setup.pick_from_g, lanes, fruits, p->picked_mass_share + at, p->dm_g + at,
              p->dm_content + at, z);
#pragma omp simd reduction(| : any, aged)
    for (size_t l = 0; l < lanes; l++) {
        const bool is_in = (row >= from[l]) & (row <= to[l]) & (fruits[l] > 0.0) &
                           (share[l] < 1.0) & !(age_cd[l] < p->pick_from_cd[l]);
        const bool is_old = is_in & !(age_cd[l] < old_from_cd);
        const bool is_looked = is_old | (is_in & !(z[l] >= VH_SCATTER_FAR));
        looks[l] = vh_select(is_looked, 1.0, 0.0);
        old[l] = vh_select(is_old, (age_cd[l] / f->oldest_cd - 1.0) / f->age_scatter, -VH_ENDLESS);
        any |= (uint64_t)is_looked;
        aged |= (uint64_t)is_old;
    }
    if (!any)
        return false;
    for (size_t l = 0; l < lanes; l++)
        by_mass[l] = looks[l] > 0.0 ? vh_scatter_share(scatter, -z[l]) : 0.0;
    for (size_t l = 0; l < lanes; l++)
        old[l] = aged ? vh_scatter_share(scatter, old[l]) : 0.0;
    VH_APART
    for (size_t l = 0; l < lanes; l++) {
        number[l] = 1.0 - (1.0 - by_mass[l]) * (1.0 - old[l]);
        mass[l] = 1.0 - (1.0 - vh_min(by_mass[l] + heavier(f, z[l]), 1.0)) * (1.0 - old[l]);
    }
    return true;
}

/* Last node of a lane whose fruits may have reached the lightest mass that is picked. */
static int last_heavy(const struct vh_plant *p, size_t l)
{
    int last = p->trusses[l];

    while (last >= p->first_on[l] && p->age_cd[vh_at(p, last, l)] < p->pick_from_cd[l])
        last--;
    return last;
}

VH_KERNEL void pick_large(struct vh_today *y, const size_t lanes)
{
    struct vh_plant *p = y->p;
    const int first = vh_lowest(p->first_on, lanes);
    struct sums sum;
    double number[VH_LANES], mass[VH_LANES], looks[VH_LANES];
    int last = 0;

    for (size_t l = 0; l < lanes; l++) {
        const int heavy = y->picks[l] ? last_heavy(p, l) : 0;
        last = heavy > last ? heavy : last;
        sum.fruits[l] = sum.dm_g[l] = sum.fresh_g[l] = 0.0;
    }
    for (int t = first; t <= last; t++)
        if (look_row(y, t, lanes, number, mass, looks))
            take_row(p, t, lanes, number, mass, looks, &sum);
    for (size_t l = 0; l < lanes; l++)
        y->picked[l] = (struct vh_picked){sum.fruits[l], sum.dm_g[l], sum.fresh_g[l]};
}
VH_LANED(vh_plant_pick_large, pick_large);
