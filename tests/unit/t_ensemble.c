/* Many futures: the same bits however they are run; factors and weathers as far apart as they
 * should be; ranges that widen with the days to come. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>
#include <math.h>
#include <stdio.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "vh_ensemble.h"
#include "vh_result.h"
#include "vh_weather.h"

static struct vh_messages *messages;
static struct vh_parameters *params;
static struct vh_scenario *scenario;

static void open_house(void)
{
    const struct vh_run_options options = {.members = 24, .draw = 3, .threads = 2};
    struct vh_run_options o = options;

    messages = vh_messages_create();
    cr_assert(eq(int, vh_date_parse("2026-07-14", &o.today), VH_OK));
    cr_assert(ge(int, vh_parameters_read(VINEHAND_PARAMS, &params, messages), VH_OK));
    cr_assert(ge(int,
                 vh_scenario_read(VINEHAND_TEST_DATA "/../scenarios/two-bays", params, &o,
                                  &scenario, messages),
                 VH_OK));
}

static void close_house(void)
{
    vh_scenario_free(scenario);
    vh_parameters_free(params);
    vh_messages_free(messages);
}

TestSuite(ensemble, .init = open_house, .fini = close_house, .timeout = 110);

/* ---- factors ---- */

/* Standard error of a mean of n: cv/sqrt(n). Of a coefficient of variation, for a near-normal
 * sample: cv sqrt((1/2 + cv^2)/n). Four of them. */
Test(ensemble, factors_have_mean_one_and_the_spread_of_the_parameters)
{
    enum { N = 40000 };
    const struct vh_futures_params *p = &params->futures;
    const struct {
        double cv;
        size_t at;
    } factor[] = {
        {p->light_given_cv, offsetof(struct vh_member, plant.light)}, /* two-bays gives its own */
        {p->truss_pace_cv, offsetof(struct vh_member, plant.truss_pace)},
        {p->fruit_pace_cv, offsetof(struct vh_member, plant.fruit_pace)},
        {p->fruit_mass_cv, offsetof(struct vh_member, plant.fruit_mass)},
        {p->set_cv, offsetof(struct vh_member, plant.set)},
        {p->stem_pace_cv, offsetof(struct vh_member, plant.stem_pace)},
        {p->marketable_cv, offsetof(struct vh_member, marketable)},
    };
    for (size_t f = 0; f < sizeof factor / sizeof factor[0]; f++) {
        double sum = 0.0, squares = 0.0;
        for (size_t m = 0; m < N; m++) {
            const struct vh_member member = vh_member_draw(scenario, 1, m, 1);
            double x;
            memcpy(&x, (const char *)&member + factor[f].at, sizeof x);
            sum += x;
            squares += x * x;
        }
        const double cv = factor[f].cv, mean = sum / N;
        const double own_cv = sqrt(squares / N - mean * mean) / mean;
        cr_expect(lt(dbl, fabs(mean - 1.0), 4.0 * cv / sqrt(N)), "factor %zu: mean %g", f, mean);
        cr_expect(lt(dbl, fabs(own_cv - cv), 4.0 * cv * sqrt((0.5 + cv * cv) / N)),
                  "factor %zu: cv %g, not %g", f, own_cv, cv);
    }
}

/* The light is one for the house; the rest is drawn for each planting. */
Test(ensemble, plantings_of_a_house_share_the_light_only)
{
    const struct vh_member a = vh_member_draw(scenario, 1, 5, 0);
    const struct vh_member b = vh_member_draw(scenario, 1, 5, 1);
    cr_assert(eq(dbl, a.plant.light, b.plant.light));
    cr_assert(ne(dbl, a.plant.set, b.plant.set));
    cr_assert(ne(dbl, a.plant.set, vh_member_draw(scenario, 1, 6, 0).plant.set));
    cr_assert(ne(dbl, a.plant.set, vh_member_draw(scenario, 2, 5, 0).plant.set));
}

/* ---- weather ---- */

/* Far from the seam an anomaly has its full spread, and neighbours their persistence. Standard
 * errors of n independent members at one day: sd/sqrt(2 n), (1 - phi^2)/sqrt(n); four of them. */
Test(ensemble, anomalies_have_their_spread_and_persistence)
{
    enum { N = 4000 };
    const struct vh_climate *c = &scenario->house.climate;
    const struct vh_weather_spread spread = {2.5, 0.6, 0.25};
    double *warmer = calloc(c->days, sizeof *warmer), *clearer = calloc(c->days, sizeof *clearer);
    const size_t last = c->days - 1;
    double square = 0.0, before = 0.0, product = 0.0, early = 0.0;
    size_t first = 0;

    while (first < c->days && c->first_day + (int64_t)first <= c->last_logged_day)
        first++;
    for (uint32_t m = 0; m < N; m++) {
        vh_weather_draw(c, &spread, 9, m, VH_BY_ONE, warmer, clearer);
        square += warmer[last] * warmer[last] / N;
        before += warmer[last - 1] * warmer[last - 1] / N;
        product += warmer[last] * warmer[last - 1] / N;
        early += warmer[first] * warmer[first] / N;
        cr_assert(lt(dbl, 0.0, clearer[last]));
    }
    free(warmer);
    free(clearer);
    cr_expect(lt(dbl, fabs(sqrt(square) - 2.5), 4.0 * 2.5 / sqrt(2.0 * N)));
    cr_expect(lt(dbl, fabs(product / sqrt(square * before) - 0.6), 4.0 * 0.64 / sqrt(N)));
    /* the first day to come: sd sqrt(1 - phi^2) = 2.0 */
    cr_expect(lt(dbl, fabs(sqrt(early) - 2.0), 4.0 * 2.0 / sqrt(2.0 * N)));
}

Test(ensemble, logged_days_have_one_weather)
{
    const struct vh_climate *c = &scenario->house.climate;
    const struct vh_weather_spread spread = {2.5, 0.6, 0.25};
    double *warmer = calloc(c->days, sizeof *warmer), *clearer = calloc(c->days, sizeof *clearer);
    struct vh_climate other;
    size_t logged = 0, moved = 0;

    cr_assert(eq(int, vh_weather_init(c, &other), VH_OK));
    vh_weather_draw(c, &spread, 9, 4, VH_BY_ONE, warmer, clearer);
    vh_weather_fill(c, warmer, clearer, false, &other);
    for (size_t h = 0; h < c->days * VH_HOURS_PER_DAY; h++) {
        if (c->logged[h]) {
            logged++;
            cr_assert(eq(dbl, other.t_c[h], c->t_c[h]));
            cr_assert(eq(dbl, other.par_umol_m2_s[h], c->par_umol_m2_s[h]));
        }
        moved += other.t_c[h] != c->t_c[h];
        /* the heating holds what it is set to, as far as it does in the log */
        const double held = c->outlook.heat_c[h] + c->outlook.warmer_c[h] - 1e-9;
        cr_assert(le(dbl, c->logged[h] ? -99.0 : held, other.t_c[h]));
    }
    cr_assert(lt(sz, 1000, logged));
    cr_assert(lt(sz, 500, moved));
    vh_weather_clear(&other);
    free(warmer);
    free(clearer);
}

/* ---- runs ---- */

static void keep(struct vh_ensemble *e, int threads, const size_t *order)
{
    const struct vh_ensemble_request q = {
        .scenario = scenario, .members = 24, .draw = 3, .threads = threads, .order = order};
    cr_assert(eq(int, vh_ensemble_keep(&q, e, messages), VH_OK));
}

static void assert_same(const struct vh_ensemble *a, const struct vh_ensemble *b)
{
    for (size_t k = 0; k < a->plantings; k++) {
        const struct vh_planting_futures *x = &a->planting[k], *y = &b->planting[k];
        cr_assert(eq(sz, x->picks, y->picks));
        cr_assert(eq(int, memcmp(x->kg, y->kg, a->members * x->picks * sizeof *x->kg), 0));
        cr_assert(
            eq(int, memcmp(x->fruits, y->fruits, a->members * x->picks * sizeof *x->fruits), 0));
        cr_assert(
            eq(int, memcmp(x->week_kg, y->week_kg, a->members * x->weeks * sizeof *x->week_kg), 0));
    }
}

Test(ensemble, threads_and_the_order_of_members_change_no_bit)
{
    size_t backwards[24];
    struct vh_ensemble one, two, eight, back;

    for (size_t i = 0; i < 24; i++)
        backwards[i] = 23 - i;
    keep(&one, 1, NULL);
    keep(&two, 2, NULL);
    keep(&eight, 8, NULL);
    keep(&back, 2, backwards);
    assert_same(&one, &two);
    assert_same(&one, &eight);
    assert_same(&one, &back);
    cr_assert(ne(dbl, one.planting[0].kg[one.planting[0].picks - 1],
                 one.planting[0].kg[2 * one.planting[0].picks - 1]));
    vh_ensemble_clear(&one);
    vh_ensemble_clear(&two);
    vh_ensemble_clear(&eight);
    vh_ensemble_clear(&back);
}

/* ---- tables ---- */

static struct vh_result *forecast(int members, int threads)
{
    struct vh_result *r = NULL;

    scenario->options.members = members;
    scenario->options.threads = threads;
    cr_assert(eq(int, vh_forecast(scenario, NULL, NULL, &r, messages), VH_OK));
    return r;
}

static void assert_equal_tables(const struct vh_table *a, const struct vh_table *b)
{
    cr_assert(eq(sz, vh_table_rows(a), vh_table_rows(b)), "%s", vh_table_name(a));
    for (size_t r = 0; r < vh_table_rows(a); r++)
        for (size_t c = 0; c < vh_table_columns(a); c++) {
            const double x = vh_table_number(a, r, c), y = vh_table_number(b, r, c);
            cr_assert(memcmp(&x, &y, sizeof x) == 0 || (isnan(x) && isnan(y)), "%s row %zu %s",
                      vh_table_name(a), r, vh_table_column(a, c)->name);
            cr_assert(eq(int, strcmp(vh_table_text(a, r, c), vh_table_text(b, r, c)), 0));
        }
}

Test(ensemble, tables_are_the_same_for_any_number_of_threads)
{
    struct vh_result *one = forecast(12, 1), *eight = forecast(12, 8);

    for (size_t i = 0; i < vh_result_table_count(one); i++)
        assert_equal_tables(vh_result_table(one, i), vh_result_table(eight, i));
    vh_result_free(one);
    vh_result_free(eight);
}

/* Every _p10 has its _p50 (or, for days and plants to sow, its plain column) and _p90 above it. */
Test(ensemble, ranges_stand_in_every_table_and_in_order)
{
    struct vh_result *r = forecast(24, 2);
    size_t ranges = 0, wide = 0;

    for (size_t i = 0; i < vh_result_table_count(r); i++) {
        const struct vh_table *t = vh_result_table(r, i);
        for (size_t c = 0; c + 2 < vh_table_columns(t); c++) {
            const char *name = vh_table_column(t, c)->name;
            const size_t n = strlen(name);
            if (n < 4 || strcmp(name + n - 4, "_p10") != 0)
                continue;
            const bool plain =
                vh_table_column(t, c)->kind == VH_CELL_DATE || strcmp(name, "plants_p10") == 0;
            const size_t middle = plain ? c - 1 : c + 1, high = plain ? c + 1 : c + 2;
            ranges++;
            for (size_t row = 0; row < vh_table_rows(t); row++) {
                const double low = vh_table_number(t, row, c);
                if (isnan(low) || isnan(vh_table_number(t, row, high)))
                    continue;
                cr_assert(le(dbl, low, vh_table_number(t, row, middle)));
                cr_assert(le(dbl, vh_table_number(t, row, middle), vh_table_number(t, row, high)));
                wide += low < vh_table_number(t, row, high);
            }
        }
    }
    cr_assert(lt(sz, 40, ranges));
    cr_assert(lt(sz, 3000, wide));
    vh_result_free(r);
}

/* One member: the mean run, without ranges. */
Test(ensemble, one_member_is_the_mean_run_alone)
{
    struct vh_result *r = forecast(1, 1);
    const struct vh_table *weeks = vh_result_table_named(r, "weeks");

    cr_assert(eq(int, vh_table_find(weeks, "kg_p10"), -1));
    cr_assert(ge(int, vh_table_find(weeks, "kg"), 0));
    vh_result_free(r);
}

/* Mean width of the range of a column over the days from..until. */
static double spread_of(const struct vh_table *days, const char *column, int64_t from,
                        int64_t until)
{
    const size_t date = (size_t)vh_table_find(days, "date");
    char name[64];
    double sum = 0.0;
    int n = 0;

    snprintf(name, sizeof name, "%s_p10", column);
    const size_t low = (size_t)vh_table_find(days, name);
    for (size_t r = 0; r < vh_table_rows(days); r++) {
        const double d = vh_table_number(days, r, date);
        if (d < (double)from || d > (double)until)
            continue;
        sum += vh_table_number(days, r, low + 2) - vh_table_number(days, r, low);
        n++;
    }
    return sum / n;
}

Test(ensemble, weather_is_known_behind_and_widens_ahead)
{
    struct vh_result *r = forecast(24, 2);
    const struct vh_table *days = vh_result_table_named(r, "climate_days");
    const int64_t today = scenario->house.today;
    const size_t outlook = (size_t)vh_table_find(days, "hours_outlook");
    const size_t date = (size_t)vh_table_find(days, "date");
    int logged = 0;

    for (size_t row = 0; row < vh_table_rows(days); row++) {
        const int64_t day = (int64_t)vh_table_number(days, row, date);
        if (vh_table_number(days, row, outlook) > 0.0)
            continue;
        logged++;
        cr_assert(eq(dbl, spread_of(days, "tmean_c", day, day), 0.0));
        cr_assert(eq(dbl, spread_of(days, "dli_mol_m2_d", day, day), 0.0));
    }
    cr_assert(lt(int, 100, logged));
    cr_expect(lt(dbl, 0.5, spread_of(days, "tmean_c", today + 10, today + 30)));
    const struct vh_table *stem = vh_result_table_named(r, "stem");
    const double now = spread_of(stem, "stem_cm", today, today + 3);
    cr_expect(lt(dbl, now, spread_of(stem, "stem_cm", today + 60, today + 63)));
    vh_result_free(r);
}
