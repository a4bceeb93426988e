/* The outlook moved to where the latest log has the house. */
#include <math.h>
#include <string.h>

#include "climate_parts.h"

/* The outlook as it would be without any log. */
static void fill_blind(struct vh_climate_work *w)
{
    const struct vh_hour_sums log = w->log;
    const size_t bytes = w->window.days * VH_HOURS_PER_DAY * sizeof *w->t_c;

    w->log = (struct vh_hour_sums){.window = log.window};
    vh_outlook_fill(w);
    vh_inside_fill(w);
    memcpy(w->t_blind_c, w->t_c, bytes);
    memcpy(w->par_blind_umol_m2_s, w->par_umol_m2_s, bytes);
    w->log = log;
}

/* Hours up to the last logged one; 0: none. */
static size_t hours_logged(const struct vh_climate_work *w, const unsigned char *logged)
{
    size_t hours = w->window.days * VH_HOURS_PER_DAY;

    while (hours > 0 && !logged[hours - 1])
        hours--;
    return hours;
}

struct hour_of_day {
    double off, blind; /* means of what was logged above the blind outlook, and of that outlook */
    double n;          /* days that tell it */
};

static struct hour_of_day tell(const struct vh_climate_work *w, size_t last, size_t h,
                               const double *seen, const double *blind, const unsigned char *logged)
{
    const size_t days = (size_t)w->params->recent_d;
    struct hour_of_day t = {0.0, 0.0, 0.0};

    for (size_t day = last + 1 > days ? last + 1 - days : 0; day <= last; day++) {
        const size_t hour = day * VH_HOURS_PER_DAY + h;
        if (!logged[hour] || isnan(blind[hour]))
            continue;
        t.off += seen[hour] - blind[hour];
        t.blind += blind[hour];
        t.n++;
    }
    t.off = t.n > 0.0 ? t.off / t.n : 0.0;
    t.blind = t.n > 0.0 ? t.blind / t.n : 0.0;
    return t;
}

/* holds: what was logged at an hour goes on; else it keeps its distance from the outlook. */
static void move(struct vh_climate_work *w, double *seen, const double *blind,
                 const unsigned char *logged, bool holds, double *by)
{
    const size_t hours = w->window.days * VH_HOURS_PER_DAY, end = hours_logged(w, logged);
    struct hour_of_day t[VH_HOURS_PER_DAY] = {{0.0, 0.0, 0.0}};

    for (size_t h = 0; end > 0 && h < VH_HOURS_PER_DAY; h++)
        t[h] = tell(w, (end - 1) / VH_HOURS_PER_DAY, h, seen, blind, logged);
    for (size_t hour = 0; hour < hours; hour++) {
        const struct hour_of_day *d = &t[hour % VH_HOURS_PER_DAY];
        by[hour] = 0.0;
        if (hour < end || d->n <= 0.0)
            continue;
        by[hour] = (d->off + (holds ? d->blind - seen[hour] : 0.0)) * d->n /
                   (d->n + w->params->recent_half_d);
        seen[hour] += by[hour];
    }
}

/* Does the log of the last weeks show lamps: more light in hours without sun than a sensor's zero
 * and the moon explain? Where they burn they make up for the sun, as its own light computer or the
 * grower's hand sees to: a duller month is not a darker one inside. */
static bool is_lit(const struct vh_climate_work *w)
{
    const size_t end = hours_logged(w, w->light_logged), days = (size_t)w->params->recent_d;
    const size_t first = end > days * VH_HOURS_PER_DAY ? end - days * VH_HOURS_PER_DAY : 0;
    double dark = 0.0, all = 0.0;

    for (size_t hour = first; hour < end; hour++) {
        const double par = w->light_logged[hour] ? w->par_umol_m2_s[hour] : 0.0;
        all += par;
        dark += vh_sun_is_up(w, hour) ? 0.0 : par;
    }
    return dark > w->params->lit_share * all;
}

/* CO2 after its log, hour of the day by hour. */
static void carry_co2(struct vh_climate_work *w)
{
    const double given = w->request->co2_ppm, book = isnan(given) ? w->params->co2_ppm : given;
    const size_t days = (size_t)w->params->recent_d;
    size_t last = w->window.days;

    for (size_t hour = 0; hour < w->window.days * VH_HOURS_PER_DAY; hour++)
        if (!isnan(vh_hour_sums_hour(&w->log, VH_HOURLY_CO2, hour)))
            last = hour / VH_HOURS_PER_DAY;
    for (size_t h = 0; last < w->window.days && h < VH_HOURS_PER_DAY; h++) {
        double sum = book, n = 1.0; /* no weather in it: the book is worth one day */
        for (size_t day = last + 1 > days ? last + 1 - days : 0; day <= last; day++) {
            const double ppm =
                vh_hour_sums_hour(&w->log, VH_HOURLY_CO2, day * VH_HOURS_PER_DAY + h);
            sum += isnan(ppm) ? 0.0 : ppm;
            n += !isnan(ppm);
        }
        for (size_t day = last + 1; day < w->window.days; day++)
            w->co2_ppm[day * VH_HOURS_PER_DAY + h] = sum / n;
    }
}

/* Lamps of which a log tells the hours and the scenario does not burn on as they did. */
static void carry_lamps(struct vh_climate_work *w)
{
    const size_t days = (size_t)w->params->recent_d;
    size_t end = 0;

    for (size_t hour = 0; hour < w->window.days * VH_HOURS_PER_DAY; hour++)
        if (!isnan(vh_hour_sums_hour(&w->log, VH_HOURLY_LAMPS, hour)))
            end = hour + 1;
    const size_t last = end > 0 ? (end - 1) / VH_HOURS_PER_DAY : 0;
    for (size_t h = 0; end > 0 && h < VH_HOURS_PER_DAY; h++) {
        double sum = 0.0, n = 0.0;
        for (size_t day = last + 1 > days ? last + 1 - days : 0; day <= last; day++) {
            const double percent =
                vh_hour_sums_hour(&w->log, VH_HOURLY_LAMPS, day * VH_HOURS_PER_DAY + h);
            sum += isnan(percent) ? 0.0 : percent / 100.0;
            n += !isnan(percent);
        }
        for (size_t day = last; n > 0.0 && day < w->window.days; day++) {
            const size_t hour = day * VH_HOURS_PER_DAY + h;
            if (hour >= end && isnan(w->lamps_share[hour]))
                w->lamps_share[hour] = sum / n;
        }
    }
}

void vh_recent_fill(struct vh_climate_work *w)
{
    fill_blind(w);
    carry_lamps(w);
    vh_outlook_fill(w);
    vh_inside_fill(w);
    move(w, w->t_c, w->t_blind_c, w->t_logged, false, w->warmer_c);
    move(w, w->par_umol_m2_s, w->par_blind_umol_m2_s, w->light_logged, is_lit(w),
         w->lighter_umol_m2_s);
    for (size_t hour = 0; hour < w->window.days * VH_HOURS_PER_DAY; hour++)
        if (w->par_umol_m2_s[hour] < 0.0)
            w->par_umol_m2_s[hour] = 0.0;
    carry_co2(w);
}
