/* Degree-days against published cases, a computed grid, and quadrature of the same curve. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>

#include <math.h>
#include <stdio.h>
#include <string.h>

#include <gsl/gsl_errno.h>
#include <gsl/gsl_integration.h>

#include "vh_csv.h"
#include "vh_degree_days.h"
#include "vh_math.h"

static const enum vh_cutoff cutoffs[] = {VH_CUTOFF_HORIZONTAL, VH_CUTOFF_INTERMEDIATE,
                                         VH_CUTOFF_VERTICAL};

static double number_of(const struct vh_csv_row *row, size_t cell)
{
    double value;

    return vh_csv_number(row->cell[cell], '.', &value) ? value : (double)NAN;
}

/* Half of the last printed digit. */
static double half_digit(const struct vh_csv_row *row, size_t cell)
{
    const char *point = strchr(row->cell[cell].text, '.');

    return point ? 0.5000001 * pow(10.0, -(double)strlen(point + 1)) : 0.01;
}

struct cases {
    int numbers;
};

static void expect_published(struct cases *c, const struct vh_csv_row *row, size_t cell,
                             double ours)
{
    if (isnan(number_of(row, cell)))
        return;
    /* a printed 0 of the sheet stands for 0.00 */
    cr_expect(fabs(ours - number_of(row, cell)) <= half_digit(row, cell),
              "%s column %zu: %.7f, printed %s", row->cell[0].text, cell, ours,
              row->cell[cell].text);
    c->numbers++;
}

static enum vh_status take_published(void *context, const struct vh_csv_row *row, bool is_header)
{
    if (is_header)
        return VH_OK;
    const double low = number_of(row, 1), high = number_of(row, 2);
    const double next = isnan(number_of(row, 3)) ? low : number_of(row, 3);
    const struct vh_thresholds t = {number_of(row, 4), number_of(row, 5), VH_CUTOFF_HORIZONTAL};

    expect_published(context, row, 6, vh_degree_days_single_triangle(low, high, t));
    expect_published(context, row, 7, vh_degree_days_single_sine(low, high, t));
    expect_published(context, row, 8, vh_degree_days_double_triangle(low, high, next, t));
    expect_published(context, row, 9, vh_degree_days_double_sine(low, high, next, t));
    expect_published(context, row, 10, vh_degree_days_simple_average(low, high, t));
    expect_published(context, row, 11, vh_degree_days_modified_average(low, high, t));
    return VH_OK;
}

static void read_reference(const char *name, vh_csv_take take, void *context)
{
    char path[512];

    snprintf(path, sizeof path, "%s/reference/%s", VINEHAND_TEST_DATA, name);
    cr_assert(eq(
        int, vh_csv_read(path, name, (struct vh_csv_format){',', '.'}, NULL, take, context, NULL),
        VH_OK));
}

Test(degree_days, published_cases_come_out_to_the_printed_digits)
{
    struct cases c = {0};

    read_reference("degree-day-cases.csv", take_published, &c);
    cr_expect(eq(int, c.numbers, 10 * 4 + 6 + 5));
}

/* DD-53: University of California IPM, mean 64 above 53 degF */
Test(degree_days, a_mean_above_the_base_counts_in_full)
{
    const struct vh_thresholds t = {53, INFINITY, VH_CUTOFF_HORIZONTAL};

    cr_expect(eq(dbl, vh_degree_days_simple_average(54, 74, t), 11.0));
}

static enum vh_status take_grid(void *context, const struct vh_csv_row *row, bool is_header)
{
    struct cases *c = context;
    if (is_header)
        return VH_OK;
    const double low = number_of(row, 0), high = number_of(row, 1), next = low + 3.0;
    struct vh_thresholds t = {10.0, 30.0, VH_CUTOFF_HORIZONTAL};
    double ours[10];

    ours[0] = vh_degree_days_simple_average(
        low, high, (struct vh_thresholds){10, INFINITY, VH_CUTOFF_HORIZONTAL});
    ours[1] = vh_degree_days_modified_average(low, high, t);
    for (int k = 0; k < 3; k++) {
        t.cutoff = cutoffs[k];
        ours[2 + k] = vh_degree_days_single_triangle(low, high, t);
        ours[5 + k] = vh_degree_days_single_sine(low, high, t);
    }
    t.cutoff = VH_CUTOFF_HORIZONTAL;
    ours[8] = vh_degree_days_double_triangle(low, high, next, t);
    ours[9] = vh_degree_days_double_sine(low, high, next, t);
    for (size_t k = 0; k < 10; k++) {
        cr_expect(fabs(ours[k] - number_of(row, k + 2)) <= 0.000051,
                  "%g..%g column %zu: %.6f, grid %g", low, high, k + 2, ours[k],
                  number_of(row, k + 2));
        c->numbers++;
    }
    return VH_OK;
}

Test(degree_days, the_computed_grid_comes_out)
{
    struct cases c = {0};

    read_reference("degree-day-grid.csv", take_grid, &c);
    cr_expect(eq(int, c.numbers, 100));
}

/* ---- quadrature of the same curve: published cases never reach the upper threshold ---- */

struct day_curve {
    double low, high;
    bool is_sine;
    struct vh_thresholds t;
};

static double rate_at(double phase, void *context)
{
    const struct day_curve *d = context;
    const double share =
        d->is_sine ? (1.0 - cos(M_PI * phase)) / 2.0 : phase; /* rising half of the day */

    return vh_degree_rate(d->low + (d->high - d->low) * share, d->t);
}

/* Split where the curve crosses a threshold, so that each piece is smooth. */
static double crossing(const struct day_curve *d, double level)
{
    const double share = vh_clamp((level - d->low) / (d->high - d->low), 0.0, 1.0);

    return d->is_sine ? acos(1.0 - 2.0 * share) / M_PI : share;
}

static double by_quadrature(struct day_curve d)
{
    gsl_integration_workspace *w = gsl_integration_workspace_alloc(200);
    gsl_function f = {rate_at, &d};
    const double ends[4] = {0.0, crossing(&d, d.t.lower), crossing(&d, d.t.upper), 1.0};
    double sum = 0.0;

    gsl_set_error_handler_off();
    for (int k = 0; k < 3; k++) {
        double part = 0.0, error;
        if (ends[k + 1] > ends[k])
            cr_assert(eq(int,
                         gsl_integration_qag(&f, ends[k], ends[k + 1], 1e-11, 1e-11, 200,
                                             GSL_INTEG_GAUSS31, w, &part, &error),
                         0));
        sum += part;
    }
    gsl_integration_workspace_free(w);
    return vh_max(sum, 0.0);
}

Test(degree_days, cutoffs_are_the_integral_of_the_rate_over_the_same_curve)
{
    for (double low = -5.3; low < 36.0; low += 4.1) {
        for (double range = 0.7; range < 40.0; range += 3.3) {
            for (int k = 0; k < 3; k++) {
                const struct vh_thresholds t = {10.0, 30.0, cutoffs[k]};
                const double high = low + range;
                const double sine = by_quadrature((struct day_curve){low, high, true, t});
                const double triangle = by_quadrature((struct day_curve){low, high, false, t});
                cr_expect(epsilon_eq(dbl, vh_degree_days_single_sine(low, high, t), sine, 1e-8),
                          "%g..%g cutoff %d", low, high, k);
                cr_expect(
                    epsilon_eq(dbl, vh_degree_days_single_triangle(low, high, t), triangle, 1e-8),
                    "%g..%g cutoff %d", low, high, k);
            }
        }
    }
}

/* ---- laws ---- */

Test(degree_days, horizontal_is_never_below_intermediate_nor_that_below_vertical)
{
    for (double low = -5.0; low < 40.0; low += 2.7) {
        for (double range = 0.0; range < 30.0; range += 1.9) {
            double value[3];
            for (int k = 0; k < 3; k++)
                value[k] = vh_degree_days_single_sine(low, low + range,
                                                      (struct vh_thresholds){10, 30, cutoffs[k]});
            cr_expect(le(dbl, value[1], value[0]));
            cr_expect(le(dbl, value[2], value[1]), "%g..%g", low, low + range);
            cr_expect(le(dbl, 0.0, value[2]));
        }
    }
}

Test(degree_days, doubled_with_the_same_minimum_equals_single_and_a_flat_day_divides_nothing)
{
    const struct vh_thresholds t = {10, 30, VH_CUTOFF_VERTICAL};

    cr_expect(eq(dbl, vh_degree_days_double_sine(8.1, 33.3, 8.1, t),
                 vh_degree_days_single_sine(8.1, 33.3, t)));
    cr_expect(eq(dbl, vh_degree_days_double_triangle(8.1, 33.3, 8.1, t),
                 vh_degree_days_single_triangle(8.1, 33.3, t)));
    cr_expect(eq(dbl, vh_degree_days_single_sine(17.5, 17.5, t), 7.5));
    cr_expect(eq(dbl, vh_degree_days_single_triangle(5.0, 5.0, t), 0.0));
    cr_expect(eq(dbl, vh_degree_days_single_sine(10.0, 10.0, t), 0.0));
}

Test(degree_days, no_upper_threshold_is_an_infinite_one)
{
    for (int k = 0; k < 3; k++) {
        const struct vh_thresholds t = {10, INFINITY, cutoffs[k]};
        cr_expect(eq(dbl, vh_degree_days_single_sine(15, 45, t), 20.0));
        cr_expect(eq(dbl, vh_degree_days_single_triangle(15, 45, t), 20.0));
        cr_expect(eq(dbl, vh_degree_rate(45, t), 35.0));
    }
}

Test(degree_days, hours_of_a_fine_sine_agree_with_the_closed_form)
{
    enum { STEPS = 4800 };
    static double t_c[STEPS];
    const struct vh_thresholds t = {10, 30, VH_CUTOFF_INTERMEDIATE};

    for (int i = 0; i < STEPS; i++)
        t_c[i] = 22.0 + 14.0 * sin(2.0 * M_PI * (i + 0.5) / STEPS);
    cr_expect(epsilon_eq(dbl, vh_degree_days_hourly(t_c, STEPS, t),
                         vh_degree_days_single_sine(8, 36, t), 1e-4));
    cr_expect(eq(dbl, vh_degree_days_hourly(t_c, 0, t), 0.0));
}
