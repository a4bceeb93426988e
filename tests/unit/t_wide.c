/* Loops laid side by side in wide registers: the same bits as one turn after the other. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>
#include <stdlib.h>
#include <string.h>

#include "vh_day.h"
#include "vh_leaf.h"
#include "vh_light.h"
#include "vh_math_parts.h"
#include "vh_parameters.h"
#include "vh_acts.h"
#include "vh_random.h"
#include "vh_weather.h"
#include "vinehand.h"

enum { DAYS = 400 };

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

Test(wide, a_day_is_the_sum_of_its_hours_each_alone)
{
    struct vh_parameters *params;
    const struct vh_light_params *p = &crop_of(&params)->light;
    int lit = 0;

    for (int d = 0; d < DAYS; d++) {
        const struct hours w = weather(d);
        const double passed = drawn(d, 0, 3, 0.05, 0.99), light = drawn(d, 0, 4, 0.5, 1.5);
        struct vh_leaf_hours row, one;
        double sum = 0.0;

        vh_light_leaf_hours(p, w.t_c, w.par, w.co2, VH_BY_ONE, &row);
        for (int h = 0; h < VH_LIGHT_HOURS; h++) {
            double par[VH_LIGHT_HOURS] = {0.0};
            par[h] = w.par[h];
            vh_light_leaf_hours(p, w.t_c, par, w.co2, VH_BY_ONE, &one);
            lit += one.until - one.from;
            sum += vh_light_day_g_m2(p, &one, light, passed, VH_BY_ONE);
        }
        const double whole = vh_light_day_g_m2(p, &row, light, passed, VH_BY_ONE);
        cr_assert(fabs(sum - whole) <= 1e-12 * whole, "day %d", d); /* rounding of sums */
    }
    cr_assert(lit > DAYS && lit < DAYS * VH_LIGHT_HOURS);
    vh_parameters_free(params);
}

/* Hours of one crop's day are the same by any registers, and so is what the canopy makes of them.
 */
static void compare_registers(const struct vh_crop *crop, int d)
{
    const struct hours w = weather(d);
    const double passed = drawn(d, 0, 3, 0.05, 0.99), light = drawn(d, 0, 4, 0.5, 1.5);
    struct vh_leaf_hours plain, wide;

    memset(&plain, 0, sizeof plain);
    memset(&wide, 0, sizeof wide);
    vh_light_leaf_hours(&crop->light, w.t_c, w.par, w.co2, VH_BY_ONE, &plain);
    for (int r = VH_BY_FOUR; r <= (int)vh_registers(); r++) {
        const enum vh_registers registers = (enum vh_registers)r;
        vh_light_leaf_hours(&crop->light, w.t_c, w.par, w.co2, registers, &wide);
        cr_assert(memcmp(&plain, &wide, sizeof plain) == 0, "hours of day %d by %d", d, r);
        cr_assert(vh_light_day_g_m2(&crop->light, &plain, light, passed, VH_BY_ONE) ==
                  vh_light_day_g_m2(&crop->light, &plain, light, passed, registers));
    }
}

Test(wide, wide_registers_give_the_same_bits)
{
    struct vh_parameters *params;
    const struct vh_crop *crop = crop_of(&params);

    if (!vh_can_go_wide())
        cr_skip_test("this machine has no wide registers");
    for (int d = 0; d < DAYS; d++)
        compare_registers(crop, d);
    vh_parameters_free(params);
}

/* Frost, mild days and scorching ones beside each other. */
Test(wide, a_day_beside_seven_others_has_the_bits_it_has_alone)
{
    struct vh_parameters *params;
    const struct vh_crop *crop = crop_of(&params);
    struct vh_day_hours hours[VH_LANES];
    struct hours w[VH_LANES];
    struct vh_day day[VH_LANES], alone;
    struct vh_fgp fgp;

    cr_assert(vh_fgp_init(crop, &fgp) == VH_OK);
    for (int d = 0; d + VH_LANES <= DAYS; d++) {
        for (int l = 0; l < VH_LANES; l++) {
            w[l] = weather(d + l);
            for (int h = 0; h < VH_LIGHT_HOURS && l % 3 > 0; h++)
                w[l].t_c[h] = l % 3 == 1 ? 18.0 + 0.1 * w[l].t_c[h] : 8.0 + 0.1 * w[l].t_c[h];
            hours[l] = (struct vh_day_hours){w[l].t_c, w[l].par, w[l].co2};
        }
        for (int r = VH_BY_ONE; r <= (int)vh_registers(); r++) {
            memset(day, 0, sizeof day);
            vh_days_init(day, crop, &fgp, hours, VH_LANES, (enum vh_registers)r);
            for (int l = 0; l < VH_LANES; l++) {
                memset(&alone, 0, sizeof alone);
                vh_days_init(&alone, crop, &fgp, &hours[l], 1, VH_BY_ONE);
                cr_assert(memcmp(&alone, &day[l], sizeof alone) == 0, "day %d by %d", d + l, r);
            }
        }
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

/* Light is what is above 1 umol m-2 s-1 (model.md section 7), so an hour of just that is dark. */
Test(wide, an_hour_at_the_limit_of_light_is_dark)
{
    struct vh_parameters *params;
    const struct vh_crop *crop = crop_of(&params);
    const double limit = crop->stem.light_hour_umol_m2_s;
    struct vh_fgp fgp;
    struct vh_day day;
    struct hours w;

    cr_assert(vh_fgp_init(crop, &fgp) == VH_OK);
    for (int h = 0; h < VH_LIGHT_HOURS; h++) {
        const bool is_light = h < VH_LIGHT_HOURS / 2;
        w.t_c[h] = is_light ? 21.0 : 16.0;
        w.par[h] = is_light ? 2.0 * limit : limit;
        w.co2[h] = 420.0;
    }
    vh_day_init(&day, crop, &fgp, w.t_c, w.par, w.co2);
    cr_assert(limit > 0.0 && day.dif_k == 5.0);
    vh_parameters_free(params);
}

Test(wide, the_sine_without_branches_has_the_bits_of_that_with)
{
    for (int i = -20000; i <= 20000; i++) {
        const double x = i * 0.0573;
        const double sine = vh_sin(x), straight = vh_sin_straight(x);
        cr_assert(memcmp(&sine, &straight, sizeof sine) == 0, "sine of %a", x);
    }
}

/* Hours and days of a climate with every kind of hour: logged or not, of unknown outside. */
static struct vh_climate some_climate(double *block, unsigned char *bytes)
{
    const size_t n = (size_t)DAYS * VH_HOURS_PER_DAY;
    struct vh_climate c = {.days = DAYS, .logged = bytes};
    double **const hourly[] = {&c.t_c,
                               &c.par_umol_m2_s,
                               &c.co2_ppm,
                               &c.t_out_c,
                               &c.outlook.sun_w_m2,
                               &c.outlook.heat_c,
                               &c.outlook.lamps_umol_m2_s,
                               &c.outlook.warmer_c,
                               &c.outlook.lighter_umol_m2_s};
    const double low[] = {5, 0, 300, -20, 0, 10, 0, -3, -60},
                 high[] = {40, 1500, 900, 40, 1000, 22, 90, 3, 60};

    c.outlook.light_logged = bytes + n;
    for (size_t k = 0; k < sizeof hourly / sizeof hourly[0]; k++) {
        *hourly[k] = block + k * n;
        for (size_t i = 0; i < n; i++)
            (*hourly[k])[i] = drawn((int)k, (int)i, 20, low[k], high[k]);
    }
    for (size_t i = 0; i < n; i++) {
        c.logged[i] = drawn(0, (int)i, 21, 0.0, 1.0) > 0.7;
        c.outlook.light_logged[i] = drawn(0, (int)i, 22, 0.0, 1.0) > 0.7;
        if (drawn(0, (int)i, 23, 0.0, 1.0) > 0.99)
            c.t_out_c[i] = VH_UNKNOWN;
    }
    c.outlook.par_per_w = block + 9 * n;
    for (size_t d = 0; d < DAYS; d++)
        c.outlook.par_per_w[d] = drawn((int)d, 0, 24, 0.5, 2.0);
    c.outlook.gain_k_m2_w = 0.02;
    c.outlook.lift_k = 2.0;
    c.outlook.vent_c = 24.0;
    c.outlook.heat_loss_w_k = 500.0;
    c.outlook.degree_day_base_c = 10.0;
    c.outlook.hot_c = 32.0;
    return c;
}

/* Days of a log among those to come; a clear day is no limit on one in three. */
Test(wide, the_light_of_a_weathers_days_is_the_same_in_wide_registers)
{
    const struct vh_weather_spread spread = {2.5, 0.6, 0.25};
    bool known[DAYS];
    double most[DAYS], warmer[DAYS], plain[DAYS], wide[DAYS];
    struct vh_climate c = {.days = DAYS, .first_day = 20500};
    int limited = 0, free = 0;

    c.outlook.known = known;
    c.outlook.clearer_most = most;
    for (int d = 0; d < DAYS; d++) {
        known[d] = drawn(d, 0, 27, 0.0, 1.0) > 0.8;
        most[d] = d % 3 == 0 ? 9.0 : drawn(d, 0, 28, 1.0, 1.2);
    }
    vh_weather_draw(&c, &spread, 9, 4, VH_BY_ONE, warmer, plain);
    for (int d = 0; d < DAYS; d++) {
        cr_assert(known[d] ? plain[d] == 1.0 : plain[d] > 0.0 && plain[d] <= most[d]);
        limited += !known[d] && plain[d] == most[d];
        free += !known[d] && plain[d] < most[d];
    }
    cr_assert(limited > 0 && free > 0);
    for (int r = VH_BY_FOUR; r <= (int)vh_registers(); r++) {
        vh_weather_draw(&c, &spread, 9, 4, (enum vh_registers)r, warmer, wide);
        cr_assert(memcmp(plain, wide, sizeof plain) == 0);
    }
}

Test(wide, another_weather_is_the_same_in_wide_registers)
{
    const size_t n = (size_t)DAYS * VH_HOURS_PER_DAY;
    double *block = malloc((10 * n) * sizeof *block), warmer[DAYS], clearer[DAYS];
    unsigned char *bytes = malloc(2 * n);
    struct vh_climate c, plain, wide;

    cr_assert(block && bytes);
    c = some_climate(block, bytes);
    cr_assert(vh_weather_init(&c, &plain) == VH_OK && vh_weather_init(&c, &wide) == VH_OK);
    for (int d = 0; d < DAYS; d++) {
        warmer[d] = drawn(d, 0, 25, -5.0, 5.0);
        clearer[d] = drawn(d, 0, 26, 0.5, 1.5);
    }
    vh_weather_fill(&c, warmer, clearer, VH_BY_ONE, &plain);
    for (int r = VH_BY_FOUR; r <= (int)vh_registers(); r++) {
        vh_weather_fill(&c, warmer, clearer, (enum vh_registers)r, &wide);
        /* four numbers an hour and seven a day in one block; of unknown ones only that they are */
        for (size_t i = 0; i < 4 * n + 7 * (size_t)DAYS; i++)
            cr_assert(plain.t_c[i] == wide.t_c[i] || (isnan(plain.t_c[i]) && isnan(wide.t_c[i])));
    }
    vh_weather_clear(&plain);
    vh_weather_clear(&wide);
    free(bytes);
    free(block);
}
