/* The outlook carried on from where the latest log has the house: the same scenario read with and
 * without its log. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "temp_folder.h"
#include "vh_math.h"
#include "vh_scenario.h"
#include "vh_weather.h"

enum { LOG_DAYS = 30, WARM_C = 27, LIGHT = 300, PPM = 900 };

static struct vh_parameters *params;
static struct vh_messages *messages;
static int64_t first;

static void begin(void)
{
    messages = vh_messages_create();
    cr_assert(eq(int, vh_parameters_read(VINEHAND_PARAMS, &params, messages), VH_OK));
    cr_assert(eq(int, vh_date_parse("2026-03-01", &first), VH_OK));
    make_folder();
}

static void end(void)
{
    drop_folder();
    vh_parameters_free(params);
    vh_messages_free(messages);
}

TestSuite(recent, .init = begin, .fini = end);

/* Light day and night or from 8 to 16 h alone, in air that never changes: for so many days. */
static void write_log(int days, bool is_lit)
{
    char date[11];
    FILE *f = fopen(path_of("log.csv"), "w");

    cr_assert(f != NULL);
    fprintf(f, "time,t_air_c,par_umol_m2_s,co2_ppm\n");
    for (int d = 0; d < days; d++) {
        vh_date_format(first + d, date);
        for (int h = 0; h < VH_HOURS_PER_DAY; h++)
            fprintf(f, "%sT%02d:00,%d,%d,%d\n", date, h, WARM_C,
                    is_lit || (h >= 8 && h < 16) ? LIGHT : 0, PPM);
    }
    fclose(f);
}

static struct vh_scenario *read_with(const char *log)
{
    char text[1024];
    const struct vh_run_options o = {.today = first + LOG_DAYS - 1, .members = 1, .draw = 1};
    struct vh_scenario *s = NULL;
    const int n = snprintf(text, sizeof text,
                           "[house]\nname = \"x\"\nlatitude_deg = 45\nutc_offset_h = 0\n"
                           "longitude_deg = 0\n"
                           "[climate]\n%s\n[climate.roughly]\nwarmest_high_c = 28\n"
                           "warmest_low_c = 16\ncoldest_high_c = 4\ncoldest_low_c = -4\n"
                           "sky = \"mixed\"\n"
                           "[[planting]]\nname = \"a\"\ncrop = \"tomato-large\"\nplants = 10\n"
                           "plants_per_m2 = 2.5\nset_out = 2026-03-01\npull_out = 2026-06-01\n",
                           log);

    cr_assert(
        ge(int,
           vh_scenario_parse(text, (size_t)n, "scenario.toml", folder, params, &o, &s, messages),
           VH_OK),
        "%s", vh_messages_count(messages) ? vh_messages_at(messages, 0)->text : "");
    return s;
}

/* 21 days tell, and recent_half_d of the book stand against them: params/defaults.csv. */
static double moved_to(const double *blind, size_t day, size_t h, double seen)
{
    double sum = 0.0;

    for (size_t d = LOG_DAYS - 21; d < LOG_DAYS; d++)
        sum += seen - blind[d * VH_HOURS_PER_DAY + h];
    return vh_max(blind[day * VH_HOURS_PER_DAY + h] + sum / (21.0 + params->house.recent_half_d),
                  0.0);
}

Test(recent, hours_after_a_log_lie_above_the_outlook_as_its_last_weeks_did)
{
    write_log(LOG_DAYS, false);
    struct vh_scenario *with = read_with("log = \"log.csv\""), *blind = read_with("");
    const struct vh_climate *a = &with->house.climate, *b = &blind->house.climate;

    for (size_t day = LOG_DAYS; day < LOG_DAYS + 40; day += 13) {
        for (size_t h = 0; h < VH_HOURS_PER_DAY; h++) {
            const size_t at = day * VH_HOURS_PER_DAY + h;
            cr_expect(epsilon_eq(dbl, a->t_c[at], moved_to(b->t_c, day, h, WARM_C), 1e-9));
            cr_expect(epsilon_eq(dbl, a->par_umol_m2_s[at],
                                 moved_to(b->par_umol_m2_s, day, h, h >= 8 && h < 16 ? LIGHT : 0),
                                 1e-9));
            cr_expect(
                epsilon_eq(dbl, a->co2_ppm[at], (21.0 * PPM + params->house.co2_ppm) / 22.0, 1e-9));
        }
    }
    cr_expect(epsilon_eq(dbl, a->t_c[0], WARM_C, 1e-12)); /* what was logged stays */
    vh_scenario_free(with);
    vh_scenario_free(blind);
}

Test(recent, another_weather_is_laid_over_the_moved_outlook)
{
    write_log(LOG_DAYS, false);
    struct vh_scenario *s = read_with("log = \"log.csv\"");
    const struct vh_climate *c = &s->house.climate;
    struct vh_climate other;
    double *warmer = calloc(c->days, sizeof *warmer), *clearer = calloc(c->days, sizeof *clearer);

    cr_assert(eq(int, vh_weather_init(c, &other), VH_OK));
    for (size_t d = 0; d < c->days; d++)
        clearer[d] = 1.0 + 1e-12; /* all but the same weather, reckoned anew */
    vh_weather_fill(c, warmer, clearer, false, &other);
    for (size_t at = 0; at < c->days * VH_HOURS_PER_DAY; at++) {
        cr_assert(epsilon_eq(dbl, other.t_c[at], c->t_c[at], 1e-6));
        cr_assert(epsilon_eq(dbl, other.par_umol_m2_s[at], c->par_umol_m2_s[at], 1e-6));
    }
    vh_weather_clear(&other);
    free(warmer);
    free(clearer);
    vh_scenario_free(s);
}

Test(recent, a_log_of_two_days_moves_the_outlook_less_than_one_of_weeks)
{
    struct vh_scenario *blind = read_with("");
    const size_t at = (LOG_DAYS + 5) * VH_HOURS_PER_DAY + 2;
    double moved[2];

    for (int i = 0; i < 2; i++) {
        write_log(i == 0 ? 2 : LOG_DAYS, false);
        struct vh_scenario *s = read_with("log = \"log.csv\"");
        moved[i] = s->house.climate.t_c[at] - blind->house.climate.t_c[at];
        vh_scenario_free(s);
    }
    cr_expect(moved[0] > 0.0);
    cr_expect(moved[0] < 0.6 * moved[1]);
    vh_scenario_free(blind);
}

/* Lamps make up for the sun: their hours are what goes on, not their distance from the sky. */
Test(recent, light_of_a_lit_house_goes_on_as_it_was)
{
    write_log(LOG_DAYS, true);
    struct vh_scenario *with = read_with("log = \"log.csv\""), *blind = read_with("");
    const double *a = with->house.climate.par_umol_m2_s, *b = blind->house.climate.par_umol_m2_s;
    const double told = 21.0 / (21.0 + params->house.recent_half_d);

    for (size_t at = (LOG_DAYS + 9) * VH_HOURS_PER_DAY; at < (LOG_DAYS + 10) * VH_HOURS_PER_DAY;
         at++)
        cr_expect(epsilon_eq(dbl, a[at], b[at] + (LIGHT - b[at]) * told, 1e-9));
    vh_scenario_free(with);
    vh_scenario_free(blind);
}

/* What is logged differs from hour to hour and from day to day: each hour of the day goes on from
 * its own last weeks. */
static double warm_at(size_t day, size_t h)
{
    return 18.0 + 0.3 * (double)h + 0.1 * (double)(day % 7);
}

static double light_at(size_t day, size_t h)
{
    return h >= 8 && h < 16 ? 200.0 + 10.0 * (double)h + (double)day : 0.0;
}

static double ppm_at(size_t day, size_t h)
{
    return 600.0 + 10.0 * (double)h + (double)day;
}

Test(recent, each_hour_of_the_day_goes_on_from_its_own)
{
    char date[11];
    FILE *f = fopen(path_of("log.csv"), "w");

    fprintf(f, "time,t_air_c,par_umol_m2_s,co2_ppm\n");
    for (size_t d = 0; d < LOG_DAYS; d++) {
        vh_date_format(first + (int64_t)d, date);
        for (size_t h = 0; h < VH_HOURS_PER_DAY; h++)
            fprintf(f, "%sT%02zu:00,%.6f,%.6f,%.6f\n", date, h, warm_at(d, h), light_at(d, h),
                    ppm_at(d, h));
    }
    fclose(f);
    struct vh_scenario *with = read_with("log = \"log.csv\""), *blind = read_with("");
    const struct vh_climate *a = &with->house.climate, *b = &blind->house.climate;
    const double of = 21.0 + params->house.recent_half_d;
    for (size_t h = 0; h < VH_HOURS_PER_DAY; h++) {
        double t_k = 0.0, par = 0.0, ppm = params->house.co2_ppm;
        for (size_t d = LOG_DAYS - 21; d < LOG_DAYS; d++) {
            const size_t at = d * VH_HOURS_PER_DAY + h;
            t_k += (warm_at(d, h) - b->t_c[at]) / of;
            par += (light_at(d, h) - b->par_umol_m2_s[at]) / of;
            ppm += ppm_at(d, h);
        }
        for (size_t d = LOG_DAYS; d < a->days; d += 11) {
            const size_t at = d * VH_HOURS_PER_DAY + h;
            cr_expect(epsilon_eq(dbl, a->t_c[at], b->t_c[at] + t_k, 1e-6));
            cr_expect(epsilon_eq(dbl, a->par_umol_m2_s[at], vh_max(0.0, b->par_umol_m2_s[at] + par),
                                 1e-5));
            cr_expect(epsilon_eq(dbl, a->co2_ppm[at], ppm / 22.0, 1e-6), "day %zu, hour %zu", d, h);
        }
    }
    vh_scenario_free(with);
    vh_scenario_free(blind);
}
