#include <criterion/criterion.h>
#include <criterion/new/assert.h>
#include <string.h>

#include "vh_task.h"
#include "vh_done.h"
#include "vh_work_series_of.h"

Test(work_series, leaves_that_went_are_those_made_more_than_those_left)
{
    static double dli[3] = {20.0, 20.0, 20.0}, hottest[3] = {24.0, 25.0, 26.0};
    struct vh_season_day day[3] = {0};
    struct vh_planting planting = {.name = (char *)"rows", .plants = 10.0, .heads_per_plant = 1.0};
    struct vh_season season = {.planting = &planting, .first_day = 100, .days = 3, .day = day};
    struct vh_house house = {.today = 102};
    struct vh_work_series series;

    house.climate.first_day = 100;
    house.climate.days = 3;
    house.climate.dli_mol_m2_d = dli;
    house.climate.tmax_c = hottest;
    house.climate.last_logged_day = 101;
    for (size_t d = 0; d < 3; d++) {
        day[d].stems = 10.0;
        day[d].plant.leaves_made = 10.0 + 0.5 * (double)d;
        day[d].plant.leaves =
            d == 2 ? 8.0 : 10.0 + 0.5 * (double)d; /* 3 leaves go on the third day */
        day[d].picked.fresh_g = 50.0;
        day[d].picked.fruits = 0.5;
    }
    cr_assert(eq(int, vh_work_series_of(&house, &season, 0.8, &series), VH_OK));
    cr_expect(epsilon_eq(dbl, series.day[1].leaves_off, 0.0, 1e-12));
    cr_expect(epsilon_eq(dbl, series.day[2].leaves_off, 3.0, 1e-12));
    cr_expect(epsilon_eq(dbl, series.day[0].picked_kg, 0.5, 1e-12));
    cr_expect(epsilon_eq(dbl, series.day[0].dli_mol_m2_d, 16.0, 1e-12));
    cr_expect(not(series.day[1].foreseen));
    cr_expect(series.day[2].foreseen);
    vh_work_series_clear(&series);
    cr_expect(series.day == NULL);
}

Test(work_series, tasks_have_the_names_of_the_records)
{
    for (int t = 0; t < VH_TASKS; t++)
        cr_expect(eq(int, vh_task_of_name(vh_task_name((enum vh_task)t)), t));
    cr_expect(eq(int, vh_task_of_name("hoover"), -1));
    cr_expect(eq(str, (char *)vh_task_name(VH_TASK_PULL_OUT), (char *)"pull_out"));
}

Test(work_series, what_was_done_holds_in_place_of_the_plan_and_the_last_word_of_a_day_counts)
{
    struct vh_done_task task[] = {{100, VH_TASK_LEAF, 1.0},
                                  {103, VH_TASK_SUCKER, 0.5},
                                  {103, VH_TASK_LEAF, 1.0},
                                  {103, VH_TASK_LEAF, 0.0}};
    const struct vh_done done = {.task = task, .tasks = 4};

    cr_expect(epsilon_eq(dbl, vh_done_share(&done, VH_TASK_LEAF, 103, 1.0), 0.0, 0.0));
    cr_expect(epsilon_eq(dbl, vh_done_share(&done, VH_TASK_SUCKER, 103, 1.0), 0.5, 0.0));
    cr_expect(epsilon_eq(dbl, vh_done_share(&done, VH_TASK_SUCKER, 104, 1.0), 1.0, 0.0));
    cr_expect(epsilon_eq(dbl, vh_done_share(NULL, VH_TASK_SUCKER, 103, 1.0), 1.0, 0.0));
    cr_expect(vh_done_said(&done, VH_TASK_LEAF, 100));
    cr_expect(not(vh_done_said(&done, VH_TASK_LEAF, 101)));
}
