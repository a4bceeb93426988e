/* Market days by hand: which picks a day has, grades, orders, what sells and what it brings. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>
#include <math.h>

#include "vh_market_day.h"
#include "vh_math.h"

static const struct vh_mass_shape round_fruit = {4.8e-4, 3.0};

/* Tuesday, Friday and the Saturday itself are for Saturday; the next Tuesday is not. */
static const struct vh_lot lots[] = {
    {.on = 97, .fruits = 50.0, .kg = 10.0, .mass_cv = 0.2},
    {.on = 100, .fruits = 40.0, .kg = 8.0, .mass_cv = 0.2, .lost_frac = 0.25},
    {.on = 103, .fruits = 20.0, .kg = 4.0, .mass_cv = 0.2},
    {.on = 104, .fruits = 10.0, .kg = 1.0, .mass_cv = 0.2},
    {.on = 107, .fruits = 90.0, .kg = 20.0, .mass_cv = 0.2},
};

static struct vh_grade two[] = {{.name = "small", .from = 100.0, .to = 200.0},
                                {.name = "large", .from = 200.0, .to = 1e9}};
static const struct vh_grades by_mass = {.measure = VH_GRADE_MASS_G, .grade = two, .grades = 2};

Test(market_day, a_day_has_the_picks_since_the_one_before_less_what_was_lost)
{
    struct vh_amount part[2], lost;

    vh_market_gather(lots, 5, 97, 104, NULL, round_fruit, part, &lost);
    cr_expect(epsilon_eq(dbl, part[0].kg, 0.75 * 8.0 + 4.0 + 1.0, 1e-12));
    cr_expect(epsilon_eq(dbl, part[0].fruits, 0.75 * 40.0 + 20.0 + 10.0, 1e-12));
    cr_expect(eq(dbl, part[1].kg, 0.0));
    cr_expect(epsilon_eq(dbl, lost.kg, 2.0, 1e-12));
    cr_expect(epsilon_eq(dbl, lost.fruits, 10.0, 1e-12));
}

/* Half of the fruits of a log-normal lie below mean/sqrt(1 + cv^2). */
Test(market_day, grades_and_what_none_takes_make_up_the_whole)
{
    struct vh_amount part[3], lost;
    const double median_g = 200.0;
    const struct vh_lot lot = {
        .on = 1, .fruits = 100.0, .kg = 0.1 * median_g * sqrt(1.0 + 0.2 * 0.2), .mass_cv = 0.2};

    vh_market_gather(&lot, 1, 0, 1, &by_mass, round_fruit, part, &lost);
    cr_expect(epsilon_eq(dbl, part[1].fruits, 50.0, 1e-9));
    cr_expect(lt(dbl, 0.5 * lot.kg, part[1].kg));
    cr_expect(epsilon_eq(dbl, part[0].kg + part[1].kg + part[2].kg, lot.kg, 1e-9));
    cr_expect(lt(dbl, 0.0, part[2].fruits), "some are smaller than the least class");
}

static double price[] = {2.0, 4.0}, none[] = {NAN, NAN};
static const struct vh_good priced = {.plantings = 1,
                                      .grades = &by_mass,
                                      .per_kg = price,
                                      .per_fruit = none,
                                      .priced = true,
                                      .sells_kg = 10.0,
                                      .sells_fruits = HUGE_VAL,
                                      .price_share_beyond = 0.5};

/* 5 kg at 2 and 15 kg at 4 are worth 70; orders of 6 and a stall of 10 take 16 of 20 kg at full
 * price, the rest at half. */
Test(market_day, orders_then_the_stall_then_what_is_above)
{
    const struct vh_amount part[] = {{50.0, 5.0}, {75.0, 15.0}, {9.0, 1.0}};
    const struct vh_takings t = vh_market_takings(&priced, part, (struct vh_amount){0.0, 6.0});

    cr_expect(epsilon_eq(dbl, t.beyond_kg, 4.0, 1e-12));
    cr_expect(epsilon_eq(dbl, t.income, 70.0 * (0.8 + 0.2 * 0.5), 1e-12));
    const struct vh_takings all = vh_market_takings(&priced, part, (struct vh_amount){0.0, 10.0});
    cr_expect(eq(dbl, all.beyond_kg, 0.0));
    cr_expect(epsilon_eq(dbl, all.income, 70.0, 1e-12));
}

Test(market_day, without_a_price_income_is_unknown)
{
    struct vh_good good = priced;
    const struct vh_amount part[] = {{50.0, 5.0}, {75.0, 15.0}, {0.0, 0.0}};

    good.priced = false;
    good.per_kg = none;
    cr_expect(isnan(vh_market_takings(&good, part, (struct vh_amount){0.0, 0.0}).income));
}

Test(market_day, fruit_sold_by_the_piece_is_paid_by_the_piece)
{
    double per_fruit[] = {1.5}, per_kg[] = {NAN};
    const struct vh_good good = {.plantings = 1,
                                 .per_kg = per_kg,
                                 .per_fruit = per_fruit,
                                 .priced = true,
                                 .sells_kg = HUGE_VAL,
                                 .sells_fruits = 30.0,
                                 .price_share_beyond = 0.0};
    const struct vh_amount part[] = {{40.0, 16.0}, {0.0, 0.0}};
    const struct vh_takings t = vh_market_takings(&good, part, (struct vh_amount){2.0, 0.0});

    cr_expect(epsilon_eq(dbl, t.income, 32.0 * 1.5, 1e-12));
    cr_expect(epsilon_eq(dbl, t.beyond_kg, 8.0 * 16.0 / 40.0, 1e-12));
}

Test(market_day, orders_of_a_day_are_those_whose_time_it_is)
{
    struct vh_order order[] = {{.good = 0, .from = 10, .until = 20, .kg = 5.0},
                               {.good = 0, .from = 20, .until = 30, .kg = 3.0},
                               {.good = 1, .from = 0, .until = 99, .fruits = 7.0}};
    const struct vh_market m = {.order = order, .orders = 3};

    cr_expect(eq(dbl, vh_market_orders(&m, 0, 9).kg, 0.0));
    cr_expect(eq(dbl, vh_market_orders(&m, 0, 20).kg, 8.0));
    cr_expect(eq(dbl, vh_market_orders(&m, 0, 31).kg, 0.0));
    cr_expect(eq(dbl, vh_market_orders(&m, 1, 20).fruits, 7.0));
}
