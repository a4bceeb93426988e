/* Many futures of one table laid upon each other: rows by name, means and quantiles by hand. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "vh_ranges.h"

/* A table of trusses: number, fruit mass (NaN: unknown), day of the first ripe fruit. */
static struct vh_table *trusses(size_t n, const double row[][3])
{
    struct vh_table *t = vh_result_table_new(VH_TABLE_TRUSSES);
    for (size_t i = 0; i < n; i++) {
        cr_assert(eq(int, vh_table_add_row(t), VH_OK));
        cr_assert(eq(int, vh_table_set_text(t, 0, "slicers"), VH_OK));
        vh_table_set_number(t, 1, row[i][0]);
        vh_table_set_number(t, (size_t)vh_table_find(t, "fruit_g"), row[i][1]);
        vh_table_set_number(t, (size_t)vh_table_find(t, "first_ripe"), row[i][2]);
    }
    return t;
}

static void take(struct vh_ranges *r, size_t member, struct vh_table *t)
{
    cr_assert(eq(int, vh_ranges_take(r, member, t), VH_OK));
    vh_table_free(t);
}

static double at(const struct vh_table *t, size_t row, const char *column)
{
    const int c = vh_table_find(t, column);
    cr_assert(ge(int, c, 0), "%s", column);
    return vh_table_number(t, row, (size_t)c);
}

/* Where the mean run knows nothing, or 0, a column has no room of its own until a future brings
 * another number: the ranges are the same as with any other number in it. Truss 2 is not in all. */
Test(ranges, what_the_mean_run_knows_moves_no_range)
{
    const double unknown = (double)NAN;
    const double mean_run[][2] = {{unknown, unknown}, {0, 0}, {-0.0, 3}, {999, 99}};
    enum { RUNS = sizeof mean_run / sizeof mean_run[0], MEMBERS = 5 };
    const double future[MEMBERS][2][3] = {{{1, 7, unknown}, {2, unknown, 40}},
                                          {{1, 0, 12}, {2, 0, 41}},
                                          {{1, -0.0, 14}, {2, 0, 40}},
                                          {{1, unknown, 13}},
                                          {{1, 3, unknown}, {2, 0, unknown}}};
    struct vh_table *out[RUNS];
    void *columns[RUNS];

    for (size_t i = 0; i < RUNS; i++) {
        struct vh_ranges *r = vh_ranges_create(VH_TABLE_TRUSSES, MEMBERS, 0.8);
        const double now[][3] = {{1, mean_run[i][0], mean_run[i][1]},
                                 {2, mean_run[i][1], mean_run[i][0]}};
        take(r, VH_MEAN_RUN, trusses(2, now));
        for (size_t m = 0; m < MEMBERS; m++)
            take(r, m, trusses(future[m][1][0] > 0.0 ? 2 : 1, future[m]));
        cr_assert(eq(int, vh_ranges_finish(r, 1, &out[i], &columns[i]), VH_OK));
        vh_ranges_free(r);
        cr_assert(eq(sz, vh_table_rows(out[i]), 2));
        for (size_t row = 0; row < 2; row++)
            for (size_t c = 1; c < vh_table_columns(out[i]); c++) {
                const double own = vh_table_number(out[i], row, c),
                             first = vh_table_number(out[0], row, c);
                cr_assert(own == first || (isnan(own) && isnan(first)),
                          "run %zu row %zu column %zu", i, row, c);
            }
    }
    cr_expect(eq(dbl, at(out[0], 0, "fruit_g"), 2.5)); /* of 7, 0, -0 and 3 */
    cr_expect(eq(dbl, at(out[0], 0, "first_ripe"), 14.0));
    for (size_t i = 0; i < RUNS; i++) {
        vh_table_free(out[i]);
        free(columns[i]);
    }
}

/* Four members; truss 1 is in all, truss 2 in two, truss 3 in one, which is too few. Members come
 * in disorder. Truss 1: 100 110 130 160 g: mean 125, rank 1 + 3 p: p10 100 + 0.3 10 = 103, p50 120,
 * p90 130 + 0.7 30 = 151. Ripe on days 10 12 14 and never: median 13, p10 10.6, so 11; the p90 is
 * not reached. */
Test(ranges, rows_by_name_means_and_quantiles_by_hand)
{
    const double unknown = (double)NAN;
    struct vh_ranges *r = vh_ranges_create(VH_TABLE_TRUSSES, 4, 0.8);
    struct vh_table *out = NULL;
    void *columns = NULL;

    take(r, VH_MEAN_RUN, trusses(1, (const double[][3]){{1, 999, 99}}));
    take(r, 2, trusses(2, (const double[][3]){{2, 90, 31}, {1, 130, 14}}));
    take(r, 0, trusses(3, (const double[][3]){{1, 100, 10}, {3, 5, 50}, {2, 70, 30}}));
    take(r, 3, trusses(1, (const double[][3]){{1, 160, unknown}}));
    take(r, 1, trusses(1, (const double[][3]){{1, 110, 12}}));
    cr_assert(eq(int, vh_ranges_finish(r, 1, &out, &columns), VH_OK));
    cr_assert(eq(sz, vh_table_rows(out), 2));
    cr_expect(eq(dbl, at(out, 0, "fruit_g"), 125.0));
    cr_expect(epsilon_eq(dbl, at(out, 0, "fruit_g_p10"), 103.0, 1e-12));
    cr_expect(eq(dbl, at(out, 0, "fruit_g_p50"), 120.0));
    cr_expect(epsilon_eq(dbl, at(out, 0, "fruit_g_p90"), 151.0, 1e-12));
    cr_expect(eq(dbl, at(out, 0, "first_ripe"), 13.0));
    cr_expect(eq(dbl, at(out, 0, "first_ripe_p10"), 11.0));
    cr_expect(isnan(at(out, 0, "first_ripe_p90")));
    cr_expect(eq(int, vh_table_find(out, "first_ripe_p50"), -1));
    cr_expect(eq(dbl, at(out, 1, "truss"), 2.0));
    cr_expect(eq(dbl, at(out, 1, "fruit_g"), 80.0));
    cr_expect(isnan(at(out, 1, "kept"))); /* no member knows */
    vh_ranges_free(r);
    vh_table_free(out);
    free(columns);
}

static void add(struct vh_table *t, const char *planting, double truss)
{
    const size_t row = vh_table_rows(t);

    cr_assert(eq(int, vh_table_add_row(t), VH_OK));
    cr_assert(eq(int, vh_table_set_text(t, 0, planting), VH_OK));
    vh_table_set_number(t, 1, truss);
    vh_table_set_number(t, (size_t)vh_table_find(t, "fruit_g"), 100.0 * (double)(row + 1));
}

/* What the mean run lacks stands behind its own planting's rows, in order, whoever comes first. */
Test(ranges, rows_of_futures_alone_stand_with_their_planting)
{
    static const struct {
        const char *planting;
        double truss;
    } expected[] = {{"slicers", 1.0}, {"slicers", 2.0}, {"slicers", 3.0}, {"slicers", 4.0},
                    {"plums", 1.0},   {"plums", 2.0},   {"plums", 3.0}};
    struct vh_ranges *r = vh_ranges_create(VH_TABLE_TRUSSES, 2, 0.8);
    struct vh_table *out = NULL, *t = vh_result_table_new(VH_TABLE_TRUSSES);
    void *columns = NULL;

    add(t, "slicers", 1.0);
    add(t, "slicers", 2.0);
    add(t, "plums", 1.0);
    take(r, VH_MEAN_RUN, t);
    for (size_t member = 0; member < 2; member++) {
        t = vh_result_table_new(VH_TABLE_TRUSSES);
        add(t, "plums", 3.0);
        add(t, "plums", 1.0);
        add(t, "slicers", 4.0);
        add(t, "slicers", 3.0);
        add(t, "plums", 2.0);
        add(t, "slicers", 2.0);
        add(t, "slicers", 1.0);
        take(r, member, t);
    }
    cr_assert(eq(int, vh_ranges_finish(r, 1, &out, &columns), VH_OK));
    cr_assert(eq(sz, vh_table_rows(out), 7));
    for (size_t i = 0; i < 7; i++) {
        cr_expect(eq(str, (char *)(uintptr_t)vh_table_text(out, i, 0),
                     (char *)(uintptr_t)expected[i].planting));
        cr_expect(eq(dbl, at(out, i, "truss"), expected[i].truss), "row %zu", i);
    }
    vh_ranges_free(r);
    vh_table_free(out);
    free(columns);
}

/* Hours: a work that a future does not have takes no time. */
Test(ranges, what_is_not_done_takes_no_hours)
{
    struct vh_ranges *r = vh_ranges_create(VH_TABLE_HOURS, 2, 0.8);
    struct vh_table *t = vh_result_table_new(VH_TABLE_HOURS), *out = NULL;
    void *columns = NULL;

    cr_assert(eq(int, vh_ranges_take(r, VH_MEAN_RUN, t), VH_OK));
    cr_assert(eq(int, vh_ranges_take(r, 0, t), VH_OK));
    cr_assert(eq(int, vh_table_add_row(t), VH_OK));
    cr_assert(eq(int, vh_table_set_text(t, (size_t)vh_table_find(t, "task"), "lower"), VH_OK));
    vh_table_set_number(t, (size_t)vh_table_find(t, "hours"), 3.0);
    cr_assert(eq(int, vh_ranges_take(r, 1, t), VH_OK));
    cr_assert(eq(int, vh_ranges_finish(r, 1, &out, &columns), VH_OK));
    cr_assert(eq(sz, vh_table_rows(out), 1));
    cr_expect(eq(dbl, at(out, 0, "hours"), 1.5));
    cr_expect(
        eq(int, strcmp(vh_table_text(out, 0, (size_t)vh_table_find(out, "task")), "lower"), 0));
    vh_ranges_free(r);
    vh_table_free(out);
    vh_table_free(t);
    free(columns);
}

/* Promised is what four futures in five reach: with 1..11 kg the type-7 quantile 0.2 is 3. Three of
 * them cannot fill an order of 3.5. */
Test(ranges, a_promise_and_a_chance_are_one_number_each)
{
    struct vh_ranges *r = vh_ranges_create(VH_TABLE_MARKET_DAYS, 11, 0.8);
    struct vh_table *out = NULL;
    void *columns = NULL;

    for (size_t m = 0; m <= 11; m++) {
        struct vh_table *t = vh_result_table_new(VH_TABLE_MARKET_DAYS);
        const double kg = 1.0 + (double)((7 * m) % 11);
        cr_assert(eq(int, vh_table_add_row(t), VH_OK));
        vh_table_set_number(t, (size_t)vh_table_find(t, "kg"), kg);
        vh_table_set_number(t, (size_t)vh_table_find(t, "promise_kg"), kg);
        vh_table_set_number(t, (size_t)vh_table_find(t, "short_chance"), kg < 3.5 ? 1.0 : 0.0);
        take(r, m < 11 ? m : VH_MEAN_RUN, t);
    }
    cr_assert(eq(int, vh_ranges_finish(r, 1, &out, &columns), VH_OK));
    cr_assert(eq(sz, vh_table_rows(out), 1));
    cr_expect(epsilon_eq(dbl, at(out, 0, "promise_kg"), 3.0, 1e-12));
    cr_expect(epsilon_eq(dbl, at(out, 0, "short_chance"), 3.0 / 11.0, 1e-12));
    cr_expect(eq(int, vh_table_find(out, "promise_kg_p10"), -1));
    cr_expect(ge(int, vh_table_find(out, "kg_p10"), 0));
    vh_ranges_free(r);
    vh_table_free(out);
    free(columns);
}

/* One work of the list: its day, what it is, how many. */
static void add_task(struct vh_table *t, double date, const char *task, double count)
{
    cr_assert(eq(int, vh_table_add_row(t), VH_OK));
    vh_table_set_number(t, (size_t)vh_table_find(t, "date"), date);
    cr_assert(eq(int, vh_table_set_text(t, (size_t)vh_table_find(t, "planting"), "rows"), VH_OK));
    cr_assert(eq(int, vh_table_set_text(t, (size_t)vh_table_find(t, "task"), task), VH_OK));
    vh_table_set_number(t, (size_t)vh_table_find(t, "count"), count);
}

/* Four futures. The mean run thins 48 on day 10, as one of them does; two do on day 17: the work
 * stands once, on day 10, without a range. All pull suckers of 40 to 46 stems on day 10: the plan's
 * 48 with their range. Picks go by the futures: the mean run's of day 11 has no like, two have one
 * on day 12, so 3 and 5 kg and nothing twice. */
Test(ranges, the_list_of_work_is_the_mean_runs_and_picks_are_the_futures)
{
    static const double suckers[] = {40.0, 42.0, 44.0, 46.0},
                        thinned_on[] = {10.0, 17.0, 17.0, 24.0};
    struct vh_ranges *r = vh_ranges_create(VH_TABLE_TASKS, 4, 0.8);
    struct vh_table *out = NULL, *t = vh_result_table_new(VH_TABLE_TASKS);
    void *columns = NULL;

    add_task(t, 10.0, "sucker", 48.0);
    add_task(t, 10.0, "thin", 48.0);
    add_task(t, 11.0, "pick", 7.0);
    take(r, VH_MEAN_RUN, t);
    for (size_t member = 0; member < 4; member++) {
        t = vh_result_table_new(VH_TABLE_TASKS);
        add_task(t, 10.0, "sucker", suckers[member]);
        add_task(t, thinned_on[member], "thin", 45.0);
        if (member < 2)
            add_task(t, 12.0, "pick", member == 0 ? 3.0 : 5.0);
        take(r, member, t);
    }
    cr_assert(eq(int, vh_ranges_finish(r, 1, &out, &columns), VH_OK));
    cr_assert(eq(sz, vh_table_rows(out), 3));
    cr_expect(eq(dbl, at(out, 0, "count"), 48.0));
    cr_expect(eq(dbl, at(out, 0, "count_p50"), 43.0));
    cr_expect(eq(dbl, at(out, 1, "date"), 10.0));
    cr_expect(eq(dbl, at(out, 1, "count"), 48.0));
    cr_expect(isnan(at(out, 1, "count_p50")));
    cr_expect(eq(dbl, at(out, 2, "date"), 12.0));
    cr_expect(eq(dbl, at(out, 2, "count"), 2.0));
    vh_ranges_free(r);
    vh_table_free(out);
    free(columns);
}
