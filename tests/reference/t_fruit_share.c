/* P1, P2: the share of dry matter that fruit takes. */
#include "plant_trial.h"

static double week_share(const struct trial_result *r, double *most_ratio)
{
    double fruit = 0.0, all = 0.0;

    *most_ratio = 0.0;
    for (int d = r->days - 7; d < r->days; d++) {
        fruit += r->day[d].fruit_dm_g_m2;
        all += r->day[d].fruit_dm_g_m2 + r->day[d].leaf_dm_g_m2 + r->day[d].stem_dm_g_m2;
        *most_ratio = vh_max(*most_ratio, r->day[d].ratio);
    }
    return fruit / all;
}

static enum vh_status take_share(void *context, const struct vh_csv_row *row, bool is_header)
{
    const double within = 0.03, most_fruits = 10.0;
    int *compared = context;

    if (is_header || trial_number(row, 0) > most_fruits)
        return VH_OK;
    for (double temp_c = 17.0; temp_c <= 23.0; temp_c += 1.0, ++*compared) {
        struct trial t = trial_usual("tomato-cluster");
        double ratio;

        t.crop.flower.flowers = 60.0; /* so many that the rule, not the set, decides */
        t.kept = trial_number(row, 0);
        t.days = 300;
        t.square = (struct trial_square){temp_c, temp_c, 12, 225.0, 420.0};
        struct trial_result *r = trial_run(&t);
        const double share = week_share(r, &ratio);
        const struct vh_truss_view last =
            vh_plant_truss(r->plant, 0, vh_plant_trusses(r->plant, 0));
        cr_expect(ratio < 1.0, "%g degC, %g fruits: more supply than demand (%.2f)", temp_c, t.kept,
                  ratio);
        cr_expect(fabs(last.kept - t.kept) <= 1e-9, "%g fruits kept", last.kept);
        cr_expect(fabs(share - trial_number(row, 1)) <= within,
                  "%g degC, %g fruits: %.4f of the week's growth, published %s", temp_c, t.kept,
                  share, row->cell[1].text);
        trial_free(r);
    }
    return VH_OK;
}

Test(fruit_share, a_late_week_has_the_published_share_for_1_to_10_fruits_at_17_to_23_degc)
{
    int compared = 0;

    trial_read_csv("fruit-share.csv", take_share, &compared);
    cr_assert(compared == 70, "%d compared", compared);
}

/* All dry matter, also what was there at set-out or has been taken off, up to 105 d after the
 * first flower. */
static double share_after(struct trial *t, int days)
{
    struct trial_result *r = trial_run(t);
    const int until = (int)vh_plant_truss(r->plant, 0, 1).opened_d + days;
    const double stems = vh_plant_stems_m2(r->plant, 0);
    double fruit = 0.0, rest = (r->leaf_dm[0] + r->stem_dm[0]) * stems - r->day[0].leaf_dm_g_m2 -
                               r->day[0].stem_dm_g_m2;

    cr_assert(until <= r->days);
    for (int d = 0; d < until; d++) {
        fruit += r->day[d].fruit_dm_g_m2;
        rest += r->day[d].leaf_dm_g_m2 + r->day[d].stem_dm_g_m2;
    }
    trial_free(r);
    return fruit / (fruit + rest);
}

/* The climate of the published crop is not in its abstract: 20 degC and 10.8 mol m-2 d-1 stand for
 * it, and the same bound is asked of every density.
 * Other climates: README.md. */
static enum vh_status take_105_days(void *context, const struct vh_csv_row *row, bool is_header)
{
    int *compared = context;
    struct trial t;

    if (is_header)
        return VH_OK;
    t = trial_usual("tomato-cluster");
    t.setup.plants_per_m2 = trial_number(row, 0);
    t.kept = trial_number(row, 1);
    t.square = (struct trial_square){20.0, 20.0, 12, 250.0, 420.0};
    const double share = share_after(&t, 105);
    cr_expect(share >= trial_number(row, 2) && share <= trial_number(row, 3),
              "%g plants: %.4f of all dry matter is fruit", t.setup.plants_per_m2, share);
    ++*compared;
    return VH_OK;
}

Test(fruit_share, after_105_days_57_to_59_percent_of_dry_matter_is_fruit_at_three_densities)
{
    int compared = 0;

    trial_read_csv("fruit-share-105-days.csv", take_105_days, &compared);
    cr_assert(compared == 3);
}

/* The published share held at three densities; over our climates it must stay near. The bound is
 * what comes out of this grid, rounded outwards, so that a change shows. */
Test(fruit_share, after_105_days_the_share_stays_near_over_climates_and_densities)
{
    static const double par[] = {250, 400, 600}, density[] = {1.6, 2.1, 3.1};
    double low = 1.0, high = 0.0;

    for (double temp_c = 18.0; temp_c <= 22.0; temp_c += 2.0)
        for (size_t i = 0; i < 3; i++)
            for (size_t k = 0; k < 3; k++) {
                struct trial t = trial_usual("tomato-cluster");
                t.kept = 7.0;
                t.setup.plants_per_m2 = density[k];
                t.square = (struct trial_square){temp_c, temp_c, 12, par[i], 420.0};
                const double share = share_after(&t, 105);
                low = vh_min(low, share);
                high = vh_max(high, share);
            }
    cr_expect(low >= 0.53 && high <= 0.60, "%.4f to %.4f", low, high);
}
