/* What stands in for an answer she does not have, by params/start.csv: a first file, not the model.
 * She reads each there, called a guess. */
#include "vh_start.h"

#include <math.h>
#include <stddef.h>
#include <stdio.h>
#include <string.h>

/* A row of params/start.csv; the reader of params/ has seen to it that all are there. */
static double guess(const struct vh_parameters *p, const char *name)
{
    double value = (double)NAN;

    (void)vh_parameters_value(p, NULL, name, &value, NULL, NULL);
    return value;
}

/* Does the file know a year at this latitude? */
static bool knows_year(const struct vh_parameters *p, const char *side, int deg)
{
    char name[80];
    double value;

    snprintf(name, sizeof name, "start.%s_%02d.warmest_high_c", side, deg);
    return vh_parameters_value(p, NULL, name, &value, NULL, NULL);
}

/* The latitudes with a year on either side of a place, and how far it lies between them, 0 to 1. */
struct band {
    const char *side;
    int deg[2];
    double share;
};

static struct band band_of(const struct vh_parameters *p, double latitude_deg)
{
    enum { POLE_DEG = 90 };
    const double far = fabs(latitude_deg);
    struct band b = {.side = latitude_deg < 0.0 ? "south" : "north", .deg = {(int)far, 0}};

    while (b.deg[0] > 0 && !knows_year(p, b.side, b.deg[0]))
        b.deg[0]--;
    b.deg[1] = b.deg[0] + 1;
    while (b.deg[1] < POLE_DEG && !knows_year(p, b.side, b.deg[1]))
        b.deg[1]++;
    if (b.deg[1] >= POLE_DEG) /* beyond the last one it is that one */
        b.deg[1] = b.deg[0];
    else
        b.share = (far - b.deg[0]) / (b.deg[1] - b.deg[0]);
    return b;
}

/* One temperature at a place, along the line between its two latitudes; *spread: how far places
 * lie apart. */
static double between(const struct vh_parameters *p, const struct band *b, const char *what,
                      double *spread)
{
    double value[2], wide[2];

    for (size_t k = 0; k < 2; k++) {
        char name[80];
        double low = (double)NAN, high = (double)NAN;
        snprintf(name, sizeof name, "start.%s_%02d.%s", b->side, b->deg[k], what);
        value[k] = (double)NAN;
        (void)vh_parameters_value(p, NULL, name, &value[k], &low, &high);
        wide[k] = 0.5 * (high - low);
    }
    *spread = round(wide[0] + (wide[1] - wide[0]) * b->share);
    return round(value[0] + (value[1] - value[0]) * b->share);
}

static struct vh_start_climate rough_climate(const struct vh_parameters *p, double latitude_deg)
{
    const struct band b = band_of(p, latitude_deg);
    struct vh_start_climate c;

    c.warmest_high_c = between(p, &b, "warmest_high_c", &c.warmest_high_spread_c);
    c.warmest_low_c = between(p, &b, "warmest_low_c", &c.warmest_low_spread_c);
    c.coldest_high_c = between(p, &b, "coldest_high_c", &c.coldest_high_spread_c);
    c.coldest_low_c = between(p, &b, "coldest_low_c", &c.coldest_low_spread_c);
    return c;
}

void vh_start_nothing(struct vh_start_answers *a, int64_t today, enum vh_say_units units)
{
    *a = (struct vh_start_answers){
        .today = today, .units = units, .latitude_deg = (double)NAN, .wire = (double)NAN};
}

/* The first such day of the year on or after `from`, by rows "start.WHAT_month" and "_day"; half a
 * year later in the south. */
static int64_t first_after(const struct vh_parameters *p, int64_t from, const char *what,
                           bool south)
{
    enum { MONTHS = 12, LONGEST_YEAR_D = 367 };
    char row[60], month_day[20], text[11];

    snprintf(row, sizeof row, "start.%s_month", what);
    const int month = (int)guess(p, row) + (south ? MONTHS / 2 : 0);
    snprintf(row, sizeof row, "start.%s_day", what);
    snprintf(month_day, sizeof month_day, "%02d-%02d", month > MONTHS ? month - MONTHS : month,
             (int)guess(p, row));
    for (int64_t d = from; d < from + LONGEST_YEAR_D; d++) {
        vh_date_format(d, text);
        if (strcmp(text + 5, month_day) == 0)
            return d;
    }
    return from;
}

static bool has_winter(const struct vh_parameters *p, const struct vh_start_answers *a)
{
    return fabs(a->latitude_deg) >= guess(p, "start.no_winter_deg");
}

/* A usual day of setting out: of this season if it still goes on, else of the next. */
static int64_t usual_set_out(const struct vh_parameters *p, const struct vh_start_answers *a)
{
    if (!has_winter(p, a))
        return a->today;
    return first_after(p, a->today - (int64_t)guess(p, "start.still_goes_on_d"),
                       a->heated ? "heated_from" : "cold_from", a->latitude_deg < 0.0);
}

/* Late autumn for a heated house, the first frosts for an unheated one. */
static int64_t usual_pull_out(const struct vh_parameters *p, const struct vh_start_answers *a)
{
    if (!has_winter(p, a))
        return a->set_out + (int64_t)guess(p, "start.no_winter_season_d");
    return first_after(p, a->set_out + (int64_t)guess(p, "start.least_season_d"),
                       a->heated ? "heated_until" : "cold_until", a->latitude_deg < 0.0);
}

/* What no question asks. */
static void fill_rest(const struct vh_parameters *p, struct vh_start_answers *a)
{
    a->climate = rough_climate(p, a->latitude_deg);
    a->frost_c = guess(p, "start.frost_c");
    a->vent_c = guess(p, "start.vent_c");
    a->pull_out = usual_pull_out(p, a);
    (void)vh_parameters_value(p, a->crop->name, "habit.plants_per_m2", &a->plants_per_m2, NULL,
                              NULL);
    (void)vh_parameters_value(p, a->crop->name, "habit.usual_fruit_g", &a->usual_fruit_g, NULL,
                              NULL);
    double pick_every_d = (double)NAN;
    (void)vh_parameters_value(p, a->crop->name, "habit.pick_every_d", &pick_every_d, NULL, NULL);
    vh_start_picks(a->market, pick_every_d, a->pick);
}

void vh_start_guess(const struct vh_parameters *p, struct vh_start_answers *a)
{
    const bool us = a->units == VH_SAY_US;

    if (!isfinite(a->latitude_deg))
        a->latitude_deg = guess(p, "start.latitude_deg");
    if (!a->knows_heat)
        a->heated = false; /* the poorer house: what comes is more than was said */
    a->knows_heat = true;
    if (!a->cover)
        a->cover = "film-single";
    if (!isfinite(a->wire)) {
        const double m = guess(p, "start.wire_m");
        a->wire = us ? round(vh_say_ft(m)) : m;
        a->wire_us = us;
    }
    if (!a->crop) {
        struct vh_start_answers large;
        char why[VH_START_WHY];

        vh_start_nothing(&large, a->today, a->units);
        (void)vh_start_read(VH_START_CROP, "tomato-large", &large, why);
        a->crop = large.crop;
    }
    if (a->plants == 0)
        a->plants = (int)guess(p, "start.plants");
    if (!a->knows_set_out)
        a->set_out = usual_set_out(p, a);
    a->knows_set_out = true;
    fill_rest(p, a);
}
