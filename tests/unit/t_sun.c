/* The sun against FAO-56: its tables of Annex 2 and its worked examples [fao56]. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>

#include <math.h>
#include <stdio.h>

#include "vh_csv.h"
#include "vh_math.h"
#include "vh_sun.h"

/* day 15 of the months of a common year: the days the printed tables were made for */
static const int mid_month[12] = {15, 46, 74, 105, 135, 166, 196, 227, 258, 288, 319, 349};

static double rad(double degrees)
{
    return degrees * VH_PI / 180.0;
}

static const double solar_constant = 0.0820; /* MJ m-2 min-1, FAO-56 eq. 21 */

struct table_check {
    double hemisphere; /* +1 north, -1 south */
    double tolerance, last_latitude;
    double beyond_56; /* tolerance from 58 degrees on */
    double (*value)(double latitude_rad, int day_of_year);
    int cells;
    double worst;
};

static enum vh_status compare_row(void *context, const struct vh_csv_row *row, bool is_header)
{
    struct table_check *check = context;
    double latitude, printed;

    if (is_header)
        return VH_OK;
    cr_assert(vh_csv_number(row->cell[0], '.', &latitude));
    if (latitude > check->last_latitude)
        return VH_OK;
    for (int month = 0; month < 12; month++) {
        cr_assert(vh_csv_number(row->cell[month + 1], '.', &printed));
        const double ours = check->value(rad(latitude * check->hemisphere), mid_month[month]);
        cr_expect(fabs(ours - printed) <= (latitude > 56.0 ? check->beyond_56 : check->tolerance),
                  "latitude %g month %d: %g, printed %g", latitude * check->hemisphere, month + 1,
                  ours, printed);
        check->worst = vh_max(check->worst, fabs(ours - printed));
        check->cells++;
    }
    return VH_OK;
}

static void compare_table(const char *name, struct table_check check, int cells)
{
    char path[512];

    snprintf(path, sizeof path, "%s/reference/%s", VINEHAND_TEST_DATA, name);
    cr_assert(eq(
        int,
        vh_csv_read(path, name, (struct vh_csv_format){',', '.'}, NULL, compare_row, &check, NULL),
        VH_OK));
    cr_expect(eq(int, check.cells, cells));
    cr_log_info("%s: worst difference %g", name, check.worst);
}

static double ra(double latitude_rad, int day_of_year)
{
    const struct vh_sun_day sun = vh_sun_day_of(latitude_rad, day_of_year, solar_constant);

    return vh_sun_day_mj(&sun);
}

/* The printed table lies within 0.11 of eq. 21 on day 15 up to 56 degrees and within 0.14 up to 70
 * (worst here 0.125 at 58 degrees south in October). */
Test(sun, extraterrestrial_radiation_of_the_north_is_that_of_table_2_6)
{
    compare_table("fao56-ra-north.csv", (struct table_check){1, 0.12, 60, 0.14, ra, 0, 0}, 31 * 12);
}

Test(sun, extraterrestrial_radiation_of_the_south_is_that_of_table_2_6)
{
    compare_table("fao56-ra-south.csv", (struct table_check){-1, 0.12, 60, 0.14, ra, 0, 0},
                  31 * 12);
}

Test(sun, day_length_is_that_of_table_2_7)
{
    compare_table("fao56-daylight-hours-north.csv",
                  (struct table_check){1, 0.06, 56, 0.06, vh_sun_daylight_h, 0, 0}, 29 * 12);
}

/* FAO-56 example 8: 20 deg S on 3 September, to the printed digits */
Test(sun, example_8_comes_out_as_printed)
{
    cr_expect(epsilon_eq(dbl, vh_sun_inverse_distance(246), 0.985, 0.0005));
    cr_expect(epsilon_eq(dbl, vh_sun_declination_rad(246), 0.120, 0.0005));
    cr_expect(epsilon_eq(dbl, vh_sun_sunset_angle_rad(rad(-20), 246), 1.527, 0.0005));
    cr_expect(epsilon_eq(dbl, ra(rad(-20), 246), 32.2, 0.05));
}

/* Example 9 prints 11.7 h; the digits are of the documentation of the NCAR command language */
Test(sun, example_9_comes_out_as_printed)
{
    cr_expect(epsilon_eq(dbl, vh_sun_daylight_h(rad(-20), 246), 11.66559, 0.000005));
}

/* Example 10: 22 deg 54 min S in mid May, 7.1 of 10.9 h of sun, Ra 25.1: Rs 14.45 */
Test(sun, example_10_light_from_sunshine_comes_out_as_printed)
{
    cr_expect(epsilon_eq(dbl, vh_sun_from_sunshine_mj(0.25, 0.50, 7.1, 10.9, 25.1), 14.45, 0.005));
    cr_expect(epsilon_eq(dbl, ra(rad(-22.9), 135), 25.1, 0.05));
}

/* Example 15: Ra 40.6, 14.8 to 26.6 degC, interior: Rs 22.3 */
Test(sun, example_15_light_from_temperature_comes_out_as_printed)
{
    cr_expect(epsilon_eq(dbl, vh_sun_from_temperature_mj(0.16, 14.8, 26.6, 40.6), 22.3, 0.05));
}

/* Examples 17 and 18: Ra 38.06, N 12.31, and Ra 41.09 (read), N 16.1 (from memory) */
Test(sun, examples_17_and_18_come_out_as_printed)
{
    cr_expect(epsilon_eq(dbl, ra(rad(13.0 + 44.0 / 60.0), 105), 38.06, 0.005)); /* from memory */
    cr_expect(epsilon_eq(dbl, vh_sun_daylight_h(rad(13.0 + 44.0 / 60.0), 105), 12.31, 0.005));
    cr_expect(epsilon_eq(dbl, ra(rad(50.8), 187), 41.09, 0.005));
    cr_expect(epsilon_eq(dbl, vh_sun_daylight_h(rad(50.8), 187), 16.1, 0.05));
}

/* Example 19 (from memory; recomputed): 16.22 deg N 16.25 deg W, zone meridian 15 deg W, 1 October,
 * 14 to 15 h */
Test(sun, example_19_hour_comes_out_as_printed)
{
    const double shift = vh_sun_solar_minus_clock_h(-16.25, -1.0, 274);
    const struct vh_sun_day sun = vh_sun_day_of(rad(16.0 + 13.0 / 60.0), 274, solar_constant);

    cr_expect(epsilon_eq(dbl, vh_sun_seasonal_correction_h(274), 0.1889, 0.00005));
    cr_expect(epsilon_eq(dbl, (14.5 + shift - 12.0) * VH_PI / 12.0, 0.682, 0.0005));
    cr_expect(epsilon_eq(dbl, vh_sun_hours_mj(&sun, 14.0 + shift, 15.0 + shift), 3.543, 0.0005));
}

/* eq. 28 over all hours is eq. 21 */
Test(sun, the_hours_of_a_day_add_up_to_the_day)
{
    for (int latitude = -66; latitude <= 66; latitude += 11) {
        for (int day = 1; day <= 366; day += 13) {
            const struct vh_sun_day sun = vh_sun_day_of(rad(latitude), day, solar_constant);
            double sum = 0.0;
            for (int h = 0; h < 24; h++) {
                const double part = vh_sun_hours_mj(&sun, h, h + 1);
                cr_expect(le(dbl, 0.0, part));
                sum += part;
            }
            cr_expect(epsilon_eq(dbl, sum, ra(rad(latitude), day), 1e-9), "latitude %d day %d",
                      latitude, day);
        }
    }
}

/* Annex 2: the south's day is 24 h less the north's */
Test(sun, north_and_south_share_the_day)
{
    for (int day = 1; day <= 365; day += 7)
        cr_expect(epsilon_eq(
            dbl, vh_sun_daylight_h(rad(45), day) + vh_sun_daylight_h(rad(-45), day), 24.0, 1e-9));
}

Test(sun, inside_the_polar_circles_the_sun_stays_up_or_down)
{
    cr_expect(epsilon_eq(dbl, vh_sun_daylight_h(rad(80), 172), 24.0, 1e-12));
    cr_expect(eq(dbl, vh_sun_daylight_h(rad(80), 355), 0.0));
    cr_expect(eq(dbl, ra(rad(80), 355), 0.0));
    cr_expect(lt(dbl, 40.0, ra(rad(90), 172)));
    cr_expect(eq(dbl, ra(rad(-90), 172), 0.0));
}

Test(sun, sunshine_beyond_the_day_and_a_turned_range_give_no_more_than_they_can)
{
    cr_expect(eq(dbl, vh_sun_from_sunshine_mj(0.25, 0.5, 20.0, 10.0, 10.0), 7.5));
    cr_expect(eq(dbl, vh_sun_from_sunshine_mj(0.25, 0.5, 1.0, 0.0, 0.0), 0.0));
    cr_expect(eq(dbl, vh_sun_from_temperature_mj(0.16, 20.0, 10.0, 30.0), 0.0));
}
