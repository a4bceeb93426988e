/* Records in the place of the model's picks: a season of three picks filled by hand. What is noted
 * is all that was taken off (interface.md section 3), so of what can be sold it is the model's
 * share of it. Truth: arithmetic beside each check. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>
#include <math.h>

#include "vh_math.h"
#include "vh_sales.h"

enum { DAYS = 9, FIRST_DAY = 20000, PLANTS = 10 };

static const double sound = 0.9, slack = 1e-12;

struct made {
    struct vh_crop crop;
    struct vh_planting planting;
    struct vh_house house;
    struct vh_season season;
    struct vh_season_day day[DAYS];
    double sound_of[DAYS], *sound_row[1];
    struct vh_run run;
    struct vh_lots lots;
};
static struct made made;

static void clear(void)
{
    vh_lots_clear(&made.lots);
}

TestSuite(sales, .fini = clear);

/* Each third day 2 fruits of 300 g a stem, of which nine in ten can be sold: 20 fruits, 6 kg; 18
 * and 5.4 kg of them for sale. */
static void lots_with(struct vh_record *row, size_t rows)
{
    made = (struct made){
        .house = {.planting = &made.planting, .plantings = 1},
        .planting = {.crop = &made.crop, .set_out = FIRST_DAY, .usual_fruit_g = 200.0},
        .season = {.planting = &made.planting,
                   .first_day = FIRST_DAY,
                   .days = DAYS,
                   .day = made.day},
        .sound_row = {made.sound_of},
        .run = {.house = &made.house, .season = &made.season, .sound = made.sound_row}};
    made.crop.fruit.pick_by = VH_PICK_BY_MASS;
    made.house.records = (struct vh_records){.read = true, .row = row, .rows = rows};
    for (size_t d = 0; d < DAYS; d++) {
        made.sound_of[d] = sound;
        made.day[d].pick_day = d % 3 == 2;
        made.day[d].stems = PLANTS;
        if (made.day[d].pick_day)
            made.day[d].picked = (struct vh_picked){.fruits = 2.0, .fresh_g = 600.0};
    }
    cr_assert(eq(int, vh_lots_of(&made.run, 0, &made.lots), VH_OK));
}

static void expect_lot(size_t i, double fruits, double kg)
{
    cr_expect(epsilon_eq(dbl, made.lots.lot[i].fruits, fruits, slack), "fruits of pick %zu", i + 1);
    cr_expect(epsilon_eq(dbl, made.lots.lot[i].kg, kg, slack), "kg of pick %zu", i + 1);
}

static struct vh_record entry(int day, enum vh_record_item item, double value)
{
    return (struct vh_record){.day = FIRST_DAY + day, .item = item, .value = value};
}

static struct vh_record doubtful(struct vh_record r)
{
    r.doubt = true;
    return r;
}

/* The lots of a season whose picks were noted like this. */
#define LOTS_WITH(...)                                                                             \
    lots_with((struct vh_record[]){__VA_ARGS__},                                                   \
              sizeof((struct vh_record[]){__VA_ARGS__}) / sizeof(struct vh_record))

Test(sales, without_an_entry_the_models_picks_stand)
{
    lots_with(NULL, 0);
    for (size_t i = 0; i < 3; i++)
        expect_lot(i, 18.0, 5.4);
}

/* 10 kg where 6 were foreseen: 9 of them for sale, 30 fruits of 300 g. */
Test(sales, what_was_weighed_takes_its_place)
{
    LOTS_WITH(entry(2, VH_RECORD_PICKED_KG, 6.0), entry(5, VH_RECORD_PICKED_KG, 10.0));
    expect_lot(0, 18.0, 5.4);
    expect_lot(1, 30.0, 9.0);
    expect_lot(2, 18.0, 5.4);
}

/* 26 fruits where 20 were foreseen, and nothing weighed: 0.9 * 26 for sale, still of 300 g. */
Test(sales, what_was_counted_takes_its_place_alone)
{
    LOTS_WITH(entry(2, VH_RECORD_PICKED_FRUITS, 20.0), entry(5, VH_RECORD_PICKED_FRUITS, 26.0));
    expect_lot(1, 23.4, 7.02);
    expect_lot(2, 18.0, 5.4);
}

/* 25 fruits of together 10 kg: 400 g each. */
Test(sales, weight_and_number_each_take_their_own)
{
    LOTS_WITH(entry(2, VH_RECORD_PICKED_KG, 6.0), entry(5, VH_RECORD_PICKED_FRUITS, 25.0),
              entry(5, VH_RECORD_PICKED_KG, 10.0));
    expect_lot(1, 22.5, 9.0);
}

/* One entry for two picks: 60 fruits for 40, shared as the model has them. */
Test(sales, an_entry_of_two_picks_is_shared_by_both)
{
    LOTS_WITH(entry(2, VH_RECORD_PICKED_FRUITS, 20.0), entry(8, VH_RECORD_PICKED_FRUITS, 60.0));
    expect_lot(1, 27.0, 8.1);
    expect_lot(2, 27.0, 8.1);
}

Test(sales, nothing_picked_is_nothing_to_sell)
{
    LOTS_WITH(entry(2, VH_RECORD_PICKED_FRUITS, 20.0), entry(5, VH_RECORD_PICKED_FRUITS, 0.0));
    expect_lot(1, 0.0, 0.0);
}

/* A count of 0 beside a weight is no count. */
Test(sales, of_two_that_contradict_the_one_that_is_something_counts)
{
    LOTS_WITH(entry(2, VH_RECORD_PICKED_FRUITS, 0.0), entry(2, VH_RECORD_PICKED_KG, 6.0));
    expect_lot(0, 18.0, 5.4);
}

Test(sales, a_doubtful_count_promises_nothing)
{
    LOTS_WITH(entry(2, VH_RECORD_PICKED_FRUITS, 20.0),
              doubtful(entry(5, VH_RECORD_PICKED_FRUITS, 2000.0)));
    expect_lot(1, 18.0, 5.4);
}

/* Two entries before the model's first pick, of day 2: each is a lot of its own, at the usual mass
 * of 200 g: 1 kg are 5 fruits; 10 fruits are 2 kg. Nine in ten of both can be sold. */
Test(sales, a_pick_sooner_than_the_models_is_a_lot_of_its_own)
{
    LOTS_WITH(entry(0, VH_RECORD_PICKED_KG, 1.0), entry(1, VH_RECORD_PICKED_FRUITS, 10.0),
              entry(2, VH_RECORD_PICKED_KG, 6.0));
    cr_assert(eq(sz, made.lots.lots, 5));
    expect_lot(0, 4.5, 0.9);
    expect_lot(1, 9.0, 1.8);
    expect_lot(2, 18.0, 5.4);
    expect_lot(3, 18.0, 5.4);
}

/* Entries of days 0 to 2, then one of day 8: a day is usual, so an entry may be missing between.
 * It stands for day 8 alone, and the pick of day 5 stays the model's. */
Test(sales, after_a_silence_an_entry_stands_for_the_usual_time_alone)
{
    LOTS_WITH(entry(0, VH_RECORD_PICKED_KG, 0.0), entry(1, VH_RECORD_PICKED_KG, 0.0),
              entry(2, VH_RECORD_PICKED_KG, 6.0), entry(8, VH_RECORD_PICKED_KG, 12.0));
    cr_assert(eq(sz, made.lots.lots, 3));
    expect_lot(0, 18.0, 5.4);
    expect_lot(1, 18.0, 5.4);
    expect_lot(2, 36.0, 10.8);
}

/* Of a day's weight and number the weight is doubted: the number counts. */
Test(sales, beside_a_doubted_weight_the_number_counts)
{
    LOTS_WITH(doubtful(entry(2, VH_RECORD_PICKED_KG, 600.0)),
              entry(2, VH_RECORD_PICKED_FRUITS, 30.0));
    expect_lot(0, 27.0, 8.1);
}

/* What was picked is written, whatever can be sold of it; what no entry tells of is not. */
Test(sales, the_harvest_tells_which_days_are_written)
{
    struct vh_record row[] = {entry(2, VH_RECORD_PICKED_KG, 6.0),
                              entry(5, VH_RECORD_PICKED_KG, 10.0)};
    struct vh_harvest h;

    lots_with(row, 2);
    cr_assert(eq(int, vh_harvest_of(&made.house, 0, &made.season, &h), VH_OK));
    cr_expect(epsilon_eq(dbl, h.day[5].picked.kg, 10.0, slack));
    cr_expect(epsilon_eq(dbl, h.day[8].picked.kg, 6.0, slack));
    cr_expect(eq(int, h.day[3].written, 1));
    cr_expect(eq(int, h.day[5].written, 1));
    cr_expect(eq(int, h.day[6].written, 0));
    vh_harvest_clear(&h);
}

/* Of fruit that is picked truss by truss the scatter is that of the mean truss: of 2 and of 6
 * fruits, 4; a truss without fruit does not count. vh_fruit_mass_cv itself: t_fruit_cv.c. */
Test(sales, masses_scatter_as_on_the_mean_of_all_trusses)
{
    struct vh_truss_view truss[] = {{.kept = 2.0}, {.kept = 0.0}, {.kept = 6.0}};

    lots_with(NULL, 0);
    vh_lots_clear(&made.lots);
    made.crop.fruit.pick_by = VH_PICK_BY_STAGE;
    made.crop.fruit.mass_cv = 0.2;
    made.crop.fruit.knot1_position = 3.0;
    made.crop.fruit.knot1_weight = 1.0;
    made.crop.fruit.knot2_position = 6.0;
    made.crop.fruit.knot2_weight = 0.6;
    made.season.truss = truss;
    made.season.trusses = 3;
    cr_assert(eq(int, vh_lots_of(&made.run, 0, &made.lots), VH_OK));
    const struct vh_fruit_params *f = &made.crop.fruit;
    cr_assert(lt(dbl, 1e-3, fabs(vh_fruit_mass_cv(f, 6.0) - vh_fruit_mass_cv(f, 4.0))));
    cr_expect(epsilon_eq(dbl, made.lots.lot[0].mass_cv, vh_fruit_mass_cv(f, 4.0), slack));
}
