/* Loops laid side by side in wide registers: the same bits as one turn after the other. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>
#include <string.h>

#include "vh_day.h"
#include "vh_leaf.h"
#include "vh_light.h"
#include "vh_math_parts.h"
#include "vh_parameters.h"
#include "vh_random.h"
#include "vinehand.h"

enum { DAYS = 400, LEAVES = 61 };

struct hours {
    double t_c[VH_LIGHT_HOURS], par[VH_LIGHT_HOURS], co2[VH_LIGHT_HOURS];
};

static double drawn(int day, int hour, uint32_t what, double low, double high)
{
    return low + (high - low) * vh_uniform(5, (uint32_t)hour, (uint32_t)day, what, 0);
}

/* From frost to scorching, lamps in the night, air without CO2: every branch of an hour. */
static struct hours weather(int day)
{
    struct hours w;

    for (int h = 0; h < VH_LIGHT_HOURS; h++) {
        w.t_c[h] = drawn(day, h, 0, -5.0, 50.0);
        w.par[h] = vh_max(0.0, drawn(day, h, 1, -500.0, 1500.0));
        w.co2[h] = drawn(day, h, 2, 20.0, 1600.0);
    }
    return w;
}

static const struct vh_crop *crop_of(struct vh_parameters **params)
{
    struct vh_messages *messages = vh_messages_create();

    cr_assert(vh_parameters_read(VINEHAND_PARAMS, params, messages) >= 0);
    vh_messages_free(messages);
    const struct vh_crop_file *file = vh_parameters_crop(*params, "tomato-large");
    cr_assert(file != NULL);
    return &file->crop;
}

Test(wide, an_hour_among_others_is_the_hour_alone)
{
    struct vh_parameters *params;
    const struct vh_light_params *p = &crop_of(&params)->light;
    int lit = 0;

    for (int d = 0; d < DAYS; d++) {
        const struct hours w = weather(d);
        const double passed = drawn(d, 0, 3, 0.05, 0.99), light = drawn(d, 0, 4, 0.5, 1.5);
        struct vh_leaf_hours row;
        double sum = 0.0;

        vh_light_leaf_hours(p, w.t_c, w.par, w.co2, false, &row);
        for (int h = 0; h < VH_LIGHT_HOURS; h++) {
            struct vh_leaf_hour one = vh_light_leaf_hour(p, w.t_c[h], w.par[h], w.co2[h]);
            cr_assert(one.alpha_k_i == row.alpha_k_i[h] && one.rest == row.rest[h] &&
                      one.pm_per_k == row.pm_per_k[h]);
            if (!(one.alpha_k_i > 0.0))
                continue;
            cr_assert(h >= row.from && h < row.until);
            one.alpha_k_i *= light;
            sum += vh_light_canopy_umol_m2_s(&one, passed);
            lit++;
        }
        sum = sum * p->g_ch2o_per_umol * 3600.0;
        cr_assert(sum == vh_light_day_g_m2(p, &row, light, passed, false), "day %d", d);
    }
    cr_assert(lit > DAYS && lit < DAYS * VH_LIGHT_HOURS);
    vh_parameters_free(params);
}

Test(wide, wide_registers_give_the_same_bits)
{
    struct vh_parameters *params;
    const struct vh_crop *crop = crop_of(&params);

    if (!vh_can_go_wide())
        cr_skip_test("this machine has no wide registers");
    for (int d = 0; d < DAYS; d++) {
        const struct hours w = weather(d);
        const double passed = drawn(d, 0, 3, 0.05, 0.99), light = drawn(d, 0, 4, 0.5, 1.5);
        const double clock = drawn(d, 0, 5, 0.0, 60.0);
        struct vh_leaf_hours plain, wide;
        double rows[2][LEAVES + VH_SIDE];

        memset(&plain, 0, sizeof plain);
        memset(&wide, 0, sizeof wide);
        vh_light_leaf_hours(&crop->light, w.t_c, w.par, w.co2, false, &plain);
        vh_light_leaf_hours(&crop->light, w.t_c, w.par, w.co2, true, &wide);
        cr_assert(memcmp(&plain, &wide, sizeof plain) == 0, "hours of day %d", d);
        cr_assert(vh_light_day_g_m2(&crop->light, &plain, light, passed, false) ==
                  vh_light_day_g_m2(&crop->light, &plain, light, passed, true));
        cr_assert(vh_upkeep_warmth(&crop->upkeep, w.t_c, false) ==
                  vh_upkeep_warmth(&crop->upkeep, w.t_c, true));
        vh_leaf_expanded_row(&crop->leaf, clock, 1, LEAVES, false, rows[0]);
        vh_leaf_expanded_row(&crop->leaf, clock, 1, LEAVES, true, rows[1]);
        cr_assert(memcmp(rows[0], rows[1], LEAVES * sizeof rows[0][0]) == 0, "leaves of day %d", d);
        for (int i = 0; i < LEAVES; i++)
            cr_assert(rows[0][i] ==
                      vh_leaf_expanded(&crop->leaf, clock - (1 + i) + crop->leaf.born_at));
    }
    vh_parameters_free(params);
}

Test(wide, a_day_sums_its_hours_in_their_order)
{
    struct vh_parameters *params;
    const struct vh_crop *crop = crop_of(&params);
    struct vh_fgp fgp;

    cr_assert(vh_fgp_init(crop, &fgp) == VH_OK);
    for (int d = 0; d < DAYS; d++) {
        const struct hours w = weather(d);
        double t = 0.0, growth = 0.0, young = 0.0, suckers = 0.0, par = 0.0, light_t = 0.0,
               dark_t = 0.0, lit = 0.0, bees = 0.0;
        struct vh_day day;

        vh_day_init(&day, crop, &fgp, w.t_c, w.par, w.co2);
        for (int h = 0; h < VH_LIGHT_HOURS; h++) {
            const bool light = w.par[h] > crop->stem.light_hour_umol_m2_s;
            t += w.t_c[h];
            par += w.par[h];
            growth += vh_max(0.0, w.t_c[h] - crop->fruit.growth_base_c);
            young += vh_max(0.0, w.t_c[h] - crop->flower.abort_base_c);
            suckers += vh_max(0.0, w.t_c[h] - crop->sucker.base_c);
            if (!light)
                dark_t += w.t_c[h];
            else
                light_t += w.t_c[h];
            lit += light;
            bees += light && w.t_c[h] >= crop->flower.bees_low_c &&
                    w.t_c[h] <= crop->flower.bees_high_c;
        }
        const bool both = lit > 0.0 && lit < VH_LIGHT_HOURS;
        cr_assert(day.mean_c == t / VH_LIGHT_HOURS && day.young_cd == young / VH_LIGHT_HOURS);
        cr_assert(day.growth_cd == growth / VH_LIGHT_HOURS);
        cr_assert(day.sucker_cd == suckers / VH_LIGHT_HOURS);
        cr_assert(day.dli_mol_m2_d == par * 3600.0 / 1e6);
        cr_assert(day.dif_k == (both ? light_t / lit - dark_t / (VH_LIGHT_HOURS - lit) : 0.0));
        cr_assert(day.bees_share == (lit > 0.0 ? bees / lit : 0.0));
    }
    vh_parameters_free(params);
}

Test(wide, functions_without_branches_have_the_bits_of_those_with)
{
    for (int i = -20000; i <= 20000; i++) {
        const double x = i * 0.0573;
        const double sine = vh_sin(x), straight = vh_sin_straight(x);
        cr_assert(memcmp(&sine, &straight, sizeof sine) == 0, "sine of %a", x);
        const double e = vh_exp(x), e_straight = vh_exp_straight(x);
        cr_assert(memcmp(&e, &e_straight, sizeof e) == 0, "exp of %a", x);
    }
    cr_assert(isnan(vh_exp_straight(VH_UNKNOWN)));
}
