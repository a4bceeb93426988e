/* How long one season takes: 300 days of hourly climate, one planting, one member alone or each of
 * eight side by side (VH_LANES).
 *
 * Measured in turns with it, in the same run: the bare logarithms and exponentials of its hours,
 * below which it cannot fall. Trust the ratio, not the milliseconds.
 * Usage: bench_season PARAMS_FOLDER CROP MEMBERS [TIMES]
 * Prints "ms BARE_MS RATIO Q1 Q3" a season, the ratio and its quartiles over the turns; with TIMES
 * nothing: it runs all members so many times, for counting instructions.
 */
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include "vh_math.h"
#include "vh_parameters.h"
#include "vh_season.h"

enum { DAYS = 300, REPEATS = 61 };

static double now_ms(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec * 1e3 + (double)t.tv_nsec * 1e-6;
}

static int by_size(const void *a, const void *b)
{
    const double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

/* The value below which a share of them lies. */
static double quantile(double *v, int of_4)
{
    qsort(v, REPEATS, sizeof *v, by_size);
    return v[REPEATS * of_4 / 4];
}

/* A made-up year of a house: warm days, cool nights, light by a parabola that grows towards summer.
 */
static bool make_climate(struct vh_climate *c)
{
    const size_t hours = DAYS * VH_HOURS_PER_DAY;
    *c = (struct vh_climate){.days = DAYS};
    c->t_c = malloc(hours * sizeof *c->t_c);
    c->par_umol_m2_s = malloc(hours * sizeof *c->par_umol_m2_s);
    c->co2_ppm = malloc(hours * sizeof *c->co2_ppm);
    if (!c->t_c || !c->par_umol_m2_s || !c->co2_ppm)
        return false;
    for (size_t i = 0; i < hours; i++) {
        const double h = (double)(i % VH_HOURS_PER_DAY), x = (h - 5.0) / 14.0;
        const double season =
            1.0 - 0.5 * (double)abs((int)(i / VH_HOURS_PER_DAY) - DAYS / 2) / (DAYS / 2);
        c->t_c[i] = h > 6 && h < 20 ? 22.0 : 18.0;
        c->par_umol_m2_s[i] = x > 0.0 && x < 1.0 ? 3200.0 * season * x * (1.0 - x) : 0.0;
        c->co2_ppm[i] = 420.0;
    }
    return true;
}

static double bare_ms(const struct vh_climate *c)
{
    volatile double sink = 0.0;
    const double start = now_ms();
    for (size_t i = 0; i < DAYS * VH_HOURS_PER_DAY; i++) {
        if (c->par_umol_m2_s[i] > 0.0)
            sink = sink + vh_log(1.0 + c->par_umol_m2_s[i]);
        sink = sink + vh_exp(0.01 * c->t_c[i]);
    }
    return now_ms() - start;
}

/* Members as they sit beside each other in a forecast: of like pace, else apart. */
static void spread(struct vh_factors *factor, size_t members)
{
    for (size_t l = 0; l < members; l++) {
        const double x = ((double)l - 0.5 * (double)(members - 1)) / (double)members;
        factor[l] =
            (struct vh_factors){1.0 + 0.12 * x, 1.0 + 0.01 * x, 1.0 - 0.08 * x, 1.0 + 0.06 * x,
                                1.0 - 0.04 * x, 1.0 + 0.2 * x,  1.0 - 0.4 * x};
    }
}

static bool bench(const struct vh_parameters *params, const char *name, size_t members, int times)
{
    const struct vh_crop_file *file = vh_parameters_crop(params, name);
    struct vh_factors factors[VH_LANES];
    struct vh_season season[VH_LANES];
    struct vh_season_member member[VH_LANES];
    struct vh_plant_room room = {NULL, 0};
    struct vh_house house = {0};
    double season_ms[REPEATS], calls_ms[REPEATS], ratio[REPEATS];

    if (!file || !make_climate(&house.climate))
        return false;
    const struct vh_habit_params *habit = &file->crop.habit;
    struct vh_fruits_rule rule = {
        1, 0, habit->fruits_kept, (enum vh_thin_stage)habit->thin_at, INT64_MIN, INT64_MAX};
    struct vh_planting p = {
        .crop = &file->crop,
        .plants = 100,
        .plants_per_m2 = 2.5,
        .heads_per_plant = 1,
        .pull_out = DAYS - 1,
        .seedling_leaves = habit->seedling_leaves,
        .usual_fruit_g = habit->usual_fruit_g,
        .feed_ec_ms_cm = habit->feed_ec_ms_cm,
        .policy = {.fruits = &rule,
                   .fruits_rules = 1,
                   .leaves_keep = habit->leaves_kept,
                   .leaf_visit = {.every_d = 7},
                   .suckers = {{.every_d = (int)habit->sucker_visit_d}, habit->suckers_overlooked},
                   .leaves_most_per_visit = habit->leaves_most,
                   .pick = {.every_d = (int)habit->pick_every_d},
                   .pick_stage = params->colours.light_red,
                   .pick_from_g = habit->pick_from_g,
                   .bees_share = 1.0}};
    struct vh_crop_tables tables; /* once for all members, as in a forecast */
    if (vh_crop_tables_init(p.crop, &tables) != VH_OK)
        return false;
    p.tables = &tables;
    spread(factors, members);
    for (size_t l = 0; l < members; l++)
        member[l] = (struct vh_season_member){&house, &p, &factors[l], &season[l]};
    for (int k = 0; k < (times > 0 ? times : REPEATS); k++) {
        const double start = now_ms();
        if (vh_season_run_members(member, members, 1.0, params->colours.breaker, &room) != VH_OK)
            return false;
        const double ms = (now_ms() - start) / (double)members;
        for (size_t l = 0; l < members; l++)
            vh_season_clear(&season[l]);
        if (times > 0)
            continue;
        season_ms[k] = ms;
        calls_ms[k] = bare_ms(&house.climate);
        ratio[k] = ms / calls_ms[k];
    }
    vh_plant_room_clear(&room);
    if (times == 0)
        printf("%.4f %.4f %.2f %.2f %.2f\n", quantile(season_ms, 2), quantile(calls_ms, 2),
               quantile(ratio, 2), quantile(ratio, 1), quantile(ratio, 3));
    free(house.climate.t_c);
    free(house.climate.par_umol_m2_s);
    free(house.climate.co2_ppm);
    return true;
}

int main(int argc, char **argv)
{
    struct vh_messages *m = vh_messages_create();
    struct vh_parameters *params = NULL;
    const int members = argc >= 4 ? atoi(argv[3]) : 0, times = argc == 5 ? atoi(argv[4]) : 0;
    bool good =
        members >= 1 && members <= VH_LANES && m && vh_parameters_read(argv[1], &params, m) >= 0;

    good = good && bench(params, argv[2], (size_t)members, times);
    vh_parameters_free(params);
    vh_messages_free(m);
    return good ? 0 : 1;
}
