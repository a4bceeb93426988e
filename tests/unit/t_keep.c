/* Which colour to pick on which day, and where to keep it: the tomatoes of params for a Saturday.
 */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>
#include <math.h>
#include <stdlib.h>

#include "vh_keep.h"
#include "vh_math.h"
#include "vh_parameters.h"
#include "vh_storeroom.h"

static struct vh_parameters *params(void)
{
    struct vh_messages *m = vh_messages_create();
    struct vh_parameters *p = NULL;

    cr_assert(vh_parameters_read(VINEHAND_PARAMS, &p, m) == VH_OK);
    vh_messages_free(m);
    return p;
}

static struct vh_keep tomatoes(const struct vh_parameters *p, double days, double hold_c)
{
    const struct vh_keep_request q = {
        .store = &vh_parameters_crop(p, "tomato-large")->crop.store,
        .ripen = &p->ripen,
        .days = days,
        .wanted = VH_RIPEN_RED,
        .own_stage = VH_RIPEN_LIGHT_RED,
        .hold_c = hold_c,
    };
    struct vh_keep k;

    vh_keep_best(&q, &k);
    return k;
}

Test(keep, mondays_pinks_lie_warm_and_fridays_reds_cool)
{
    struct vh_parameters *p = params();
    const struct vh_keep monday = tomatoes(p, 5, VH_UNKNOWN), friday = tomatoes(p, 1, VH_UNKNOWN);

    cr_assert(eq(str, (char *)vh_keep_colour_word(monday.stage), "pink"));
    cr_assert(eq(dbl, monday.low_c, 18.0));
    cr_assert(eq(dbl, monday.high_c, 20.0));
    cr_assert(monday.reaches && monday.lost < 0.02);
    cr_assert(eq(str, (char *)vh_keep_colour_word(friday.stage), "red"));
    cr_assert(eq(dbl, friday.low_c, 10.0));
    cr_assert(epsilon_eq(dbl, friday.high_c, 13.0, 0.5));
    cr_assert(friday.reaches && friday.lost < 0.02);
    vh_parameters_free(p);
}

/* Within VH_KEEP_EVEN both places are the same to a grower; then the one that loses less. */
Test(keep, for_a_day_reds_lie_where_they_lose_least)
{
    struct vh_parameters *p = params();
    const struct vh_keep cool = tomatoes(p, 1, VH_UNKNOWN), hot = tomatoes(p, 1, 24.0);

    cr_assert(eq(str, (char *)vh_keep_colour_word(cool.stage), "red"));
    cr_assert(eq(int, cool.place, VH_KEEP_STORE));
    cr_assert(eq(str, (char *)vh_keep_colour_word(hot.stage), "red"));
    cr_assert(eq(int, hot.place, VH_KEEP_WARM)); /* a store at 24 degC is no store */
    vh_parameters_free(p);
}

Test(keep, the_earlier_the_pick_the_paler_the_fruit)
{
    struct vh_parameters *p = params();
    double before = VH_RIPEN_RED;

    for (double days = 0; days <= 10; days += 0.25) {
        const struct vh_keep k = tomatoes(p, days, VH_UNKNOWN);
        cr_assert(le(dbl, k.stage, before));
        cr_assert(k.reaches);
        cr_assert(lt(dbl, k.lost, 0.10), "%g days: %s loses %g", days, vh_keep_colour_word(k.stage),
                  k.lost);
        before = k.stage;
    }
    cr_assert(eq(dbl, before, (double)VH_RIPEN_BREAKER));
    vh_parameters_free(p);
}

/* All ten pairs by hand for three days: only the one chosen is as good. */
Test(keep, no_other_pair_that_reaches_red_is_riper_and_as_sound)
{
    struct vh_parameters *p = params();
    const struct vh_store_params *s = &vh_parameters_crop(p, "tomato-large")->crop.store;
    const double warm_c = 19.0, cool_c = 0.5 * (s->best_low_c + s->best_high_c);

    for (double days = 0; days <= 9; days += 1) {
        const struct vh_keep k = tomatoes(p, days, VH_UNKNOWN);
        for (int stage = VH_RIPEN_BREAKER; stage <= VH_RIPEN_RED; stage++) {
            const double warm = vh_store_lost_frac(s, &p->ripen, stage, warm_c, days);
            const double then = vh_store_stage_after(s, &p->ripen, stage, warm_c, days);
            const double cool = vh_store_lost_frac(s, &p->ripen, stage, cool_c, days);
            if (then >= 4.5)
                cr_assert(stage <= k.stage || warm > k.lost);
            if (stage == VH_RIPEN_RED)
                cr_assert(stage <= k.stage || cool > k.lost);
        }
    }
    vh_parameters_free(p);
}

Test(keep, her_own_store_takes_the_place_of_the_best_range)
{
    struct vh_parameters *p = params();
    const struct vh_keep friday = tomatoes(p, 1, 14.0);
    /* at 15 degC light red is red in four days: Tuesday's fruit colours in her store */
    const struct vh_keep tuesday = tomatoes(p, 4, 15.0);

    cr_assert(eq(dbl, friday.low_c, 14.0));
    cr_assert(eq(dbl, friday.high_c, 14.0));
    cr_assert(eq(str, (char *)vh_keep_colour_word(tuesday.stage), "light-red"));
    cr_assert(eq(int, tuesday.place, VH_KEEP_STORE));
    vh_parameters_free(p);
}

Test(keep, fruit_without_a_choice_of_colour_goes_to_its_best_range)
{
    struct vh_parameters *p = params();
    struct vh_keep_request q = {.store = &vh_parameters_crop(p, "cucumber-long")->crop.store,
                                .ripen = &p->ripen,
                                .days = 3,
                                .wanted = VH_RIPEN_RED,
                                .own_stage = VH_UNKNOWN,
                                .own_only = true,
                                .hold_c = VH_UNKNOWN};
    struct vh_keep k;

    vh_keep_best(&q, &k);
    cr_assert(isnan(k.stage));
    cr_assert(eq(str, (char *)vh_keep_colour_word(k.stage), ""));
    cr_assert(k.reaches);
    cr_assert(eq(dbl, k.low_c, 10.0));
    cr_assert(eq(dbl, k.high_c, 12.5));
    q.store = &vh_parameters_crop(p, "pepper-large")->crop.store;
    q.own_stage = VH_RIPEN_LIGHT_RED;
    q.own_only = false;
    vh_keep_best(&q, &k); /* does not colour on: kept as it was picked */
    cr_assert(eq(dbl, k.stage, (double)VH_RIPEN_LIGHT_RED));
    cr_assert(eq(dbl, k.high_c, 10.0));
    vh_parameters_free(p);
}

Test(keep, whole_trusses_keep_their_colour_and_pale_ones_lie_warm)
{
    struct vh_parameters *p = params();
    struct vh_keep_request q = {.store = &vh_parameters_crop(p, "tomato-cluster")->crop.store,
                                .ripen = &p->ripen,
                                .days = 2,
                                .wanted = VH_RIPEN_RED,
                                .own_stage = VH_RIPEN_RED,
                                .own_only = true,
                                .hold_c = VH_UNKNOWN};
    struct vh_keep k;

    vh_keep_best(&q, &k);
    cr_assert(eq(int, k.place, VH_KEEP_STORE));
    q.own_stage = VH_RIPEN_PINK;
    q.days = 4;
    vh_keep_best(&q, &k);
    cr_assert(eq(dbl, k.stage, (double)VH_RIPEN_PINK));
    cr_assert(eq(int, k.place, VH_KEEP_WARM));
    vh_parameters_free(p);
}

Test(keep, cold_and_company_are_known)
{
    struct vh_parameters *p = params();
    const struct vh_store_params *tomato = &vh_parameters_crop(p, "tomato-plum")->crop.store;
    const struct vh_store_params *cucumber = &vh_parameters_crop(p, "cucumber-long")->crop.store;

    cr_assert(isinf(vh_keep_bears_cold_d(cucumber, 10.0)));
    cr_assert(epsilon_eq(
        dbl, vh_store_chilled_frac(cucumber, 7.0, vh_keep_bears_cold_d(cucumber, 7.0)), 0.5, 1e-9));
    cr_assert(vh_keep_apart(tomato, cucumber));
    cr_assert(vh_keep_apart(cucumber, tomato));
    cr_assert(not(vh_keep_apart(tomato, tomato)));
    cr_assert(not(vh_keep_apart(cucumber, cucumber)));
    vh_parameters_free(p);
}

Test(keep, a_pick_is_for_the_next_market_day)
{
    struct vh_parameters *p = params();
    int64_t day[] = {100, 107};
    struct vh_house h = {.market = {.given = true, .day = day, .days = 2},
                         .colours = p->colours,
                         .ripen = &p->ripen};
    struct vh_planting planting = {
        .crop = &vh_parameters_crop(p, "tomato-large")->crop,
        .policy = {.pick_stage = p->colours.light_red, .hold_c = VH_UNKNOWN}};
    struct vh_keep k;
    int64_t on;

    cr_assert(vh_market_day_for(&h.market, 100, &on));
    cr_assert(eq(i64, on, 100));
    cr_assert(vh_market_day_for(&h.market, 101, &on));
    cr_assert(eq(i64, on, 107));
    cr_assert(not(vh_market_day_for(&h.market, 108, &on)));
    cr_assert(vh_storeroom_keep(&h, &planting, 102, &k)); /* five days before */
    cr_assert(eq(dbl, k.stage, (double)VH_RIPEN_PINK));
    cr_assert(not(vh_storeroom_keep(&h, &planting, 108, &k)));
    /* half of a last pick is breaker, and keeps longer than the rest, which loses what others
     * lose */
    const struct vh_keep others = {.lost = 0.3};
    planting.policy.last_stage = p->colours.breaker;
    cr_assert(eq(dbl, vh_storeroom_lost(&h, &planting, 102, 0.0, &others), 0.3));
    const double green = vh_storeroom_lost(&h, &planting, 102, 1.0, &others);
    cr_assert(green < 0.3);
    cr_assert(epsilon_eq(dbl, vh_storeroom_lost(&h, &planting, 102, 0.5, &others),
                         0.5 * 0.3 + 0.5 * green, 1e-12));
    h.market.given = false;
    cr_assert(not(vh_storeroom_keep(&h, &planting, 102, &k)));
    vh_parameters_free(p);
}
