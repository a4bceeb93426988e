/* What stands in for an answer she does not have. These numbers make a first file, not the model:
 * she reads them there, each called a guess. */
#include "vh_start.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

/* Usual highs and lows of the warmest and the coldest month by latitude, degC, and how far places
 * of that latitude lie apart. From memory, no source: inland and coast differ by the spread. */
static const struct {
    double latitude_deg;
    struct vh_start_climate north, south;
} bands[] = {
    {0, {31, 23, 30, 22, 4, 4}, {31, 23, 30, 22, 4, 4}},
    {15, {35, 24, 30, 18, 5, 5}, {32, 21, 27, 15, 5, 5}},
    {30, {34, 22, 17, 6, 5, 6}, {29, 18, 17, 6, 5, 5}},
    {40, {30, 18, 5, -4, 5, 8}, {22, 12, 12, 4, 5, 4}},
    {45, {27, 15, -1, -9, 5, 9}, {20, 10, 8, 1, 4, 4}},
    {50, {24, 13, -2, -9, 4, 10}, {16, 7, 5, -1, 4, 4}},
    {60, {20, 11, -4, -11, 4, 10}, {10, 3, 2, -4, 4, 5}},
    {72, {13, 7, -10, -17, 5, 10}, {4, -1, -4, -10, 4, 6}},
};

static double between(double from, double to, double share)
{
    return from + (to - from) * share;
}

struct vh_start_climate vh_start_rough_climate(double latitude_deg)
{
    const double far = fmin(fabs(latitude_deg), 72.0);
    size_t i = 0;

    while (i + 2 < sizeof bands / sizeof bands[0] && far > bands[i + 1].latitude_deg)
        i++;
    const double share =
        (far - bands[i].latitude_deg) / (bands[i + 1].latitude_deg - bands[i].latitude_deg);
    const struct vh_start_climate *a = latitude_deg < 0 ? &bands[i].south : &bands[i].north;
    const struct vh_start_climate *b = latitude_deg < 0 ? &bands[i + 1].south : &bands[i + 1].north;
    return (struct vh_start_climate){
        .warmest_high_c = round(between(a->warmest_high_c, b->warmest_high_c, share)),
        .warmest_low_c = round(between(a->warmest_low_c, b->warmest_low_c, share)),
        .coldest_high_c = round(between(a->coldest_high_c, b->coldest_high_c, share)),
        .coldest_low_c = round(between(a->coldest_low_c, b->coldest_low_c, share)),
        .summer_spread_c = round(between(a->summer_spread_c, b->summer_spread_c, share)),
        .winter_spread_c = round(between(a->winter_spread_c, b->winter_spread_c, share)),
    };
}

void vh_start_nothing(struct vh_start_answers *a, int64_t today, enum vh_say_units units)
{
    *a = (struct vh_start_answers){
        .today = today, .units = units, .latitude_deg = (double)NAN, .wire = (double)NAN};
}

/* The first such day of the year ("05-15") on or after `from`. */
static int64_t first_after(int64_t from, const char *month_day)
{
    char text[11];
    int64_t day = from;

    for (int64_t d = from; d < from + 367; d++) {
        vh_date_format(d, text);
        if (strcmp(text + 5, month_day) == 0) {
            day = d;
            break;
        }
    }
    return day;
}

/* A usual day of setting out: of this season if it still goes on, else of the next. */
static int64_t usual_set_out(const struct vh_start_answers *a)
{
    enum { STILL_GOES_ON_D = 120 };
    const bool south = a->latitude_deg < 0.0;

    if (fabs(a->latitude_deg) < 25.0) /* no winter to wait for */
        return a->today;
    return first_after(a->today - STILL_GOES_ON_D,
                       a->heated ? (south ? "09-01" : "03-01") : (south ? "11-15" : "05-15"));
}

void vh_start_guess(struct vh_start_answers *a)
{
    const bool us = a->units == VH_SAY_US;

    if (!isfinite(a->latitude_deg))
        a->latitude_deg = 45.0;
    if (!a->knows_heat)
        a->heated = false; /* the poorer house: what comes is more than was said */
    a->knows_heat = true;
    if (!a->cover)
        a->cover = "film-single";
    if (!isfinite(a->wire)) {
        a->wire = us ? 7.0 : 2.2;
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
        a->plants = 50;
    if (!a->knows_set_out)
        a->set_out = usual_set_out(a);
    a->knows_set_out = true;
}
