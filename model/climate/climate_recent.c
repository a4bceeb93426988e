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

/* What lies above `blind` at an hour of the day, weighed by how many days tell it. */
static double moved(const struct vh_climate_work *w, size_t last, size_t h, const double *seen,
                    const double *blind, const unsigned char *logged)
{
    const size_t days = (size_t)w->params->recent_d;
    double sum = 0.0, n = 0.0;

    for (size_t day = last + 1 > days ? last + 1 - days : 0; day <= last; day++) {
        const size_t hour = day * VH_HOURS_PER_DAY + h;
        const double off = seen[hour] - blind[hour];
        if (!logged[hour] || isnan(off))
            continue;
        sum += off;
        n++;
    }
    return n > 0.0 ? sum / (n + w->params->recent_half_d) : 0.0;
}

static void move(struct vh_climate_work *w, double *seen, const double *blind,
                 const unsigned char *logged, double *by)
{
    const size_t hours = w->window.days * VH_HOURS_PER_DAY, end = hours_logged(w, logged);
    double d[VH_HOURS_PER_DAY] = {0.0};

    for (size_t h = 0; end > 0 && h < VH_HOURS_PER_DAY; h++)
        d[h] = moved(w, (end - 1) / VH_HOURS_PER_DAY, h, seen, blind, logged);
    for (size_t hour = 0; hour < hours; hour++)
        by[hour] = hour < end ? 0.0 : d[hour % VH_HOURS_PER_DAY];
    for (size_t hour = end; hour < hours; hour++)
        seen[hour] += by[hour];
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
        double sum = w->params->recent_half_d * book, n = w->params->recent_half_d;
        for (size_t day = last + 1 > days ? last + 1 - days : 0; day <= last; day++) {
            const double ppm =
                vh_hour_sums_hour(&w->log, VH_HOURLY_CO2, day * VH_HOURS_PER_DAY + h);
            sum += isnan(ppm) ? 0.0 : ppm;
            n += !isnan(ppm);
        }
        for (size_t day = last + 1; n > 0.0 && day < w->window.days; day++)
            w->co2_ppm[day * VH_HOURS_PER_DAY + h] = sum / n;
    }
}

void vh_recent_fill(struct vh_climate_work *w)
{
    fill_blind(w);
    vh_outlook_fill(w);
    vh_inside_fill(w);
    move(w, w->t_c, w->t_blind_c, w->t_logged, w->warmer_c);
    move(w, w->par_umol_m2_s, w->par_blind_umol_m2_s, w->light_logged, w->lighter_umol_m2_s);
    for (size_t hour = 0; hour < w->window.days * VH_HOURS_PER_DAY; hour++)
        if (w->par_umol_m2_s[hour] < 0.0)
            w->par_umol_m2_s[hour] = 0.0;
    carry_co2(w);
}
