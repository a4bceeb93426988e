#include "climate_parts.h"

#include <math.h>
#include <stdlib.h>

/* Sums are whole numbers (value x minutes in units of 2^-40), the same in any order of rows. */
#define FIXED 0x1p40

enum vh_status vh_fill_nan(double **array, size_t n)
{
    if (*array)
        return VH_OK;
    *array = malloc((n + 1) * sizeof **array);
    if (!*array)
        return VH_NO_MEMORY;
    for (size_t i = 0; i < n; i++)
        (*array)[i] = (double)NAN;
    return VH_OK;
}

size_t vh_hour_sums_hours(const struct vh_hour_sums *s)
{
    return s->window.days * VH_HOURS_PER_DAY;
}

enum vh_status vh_hour_sums_prepare(struct vh_hour_sums *s, enum vh_hourly q)
{
    struct vh_hour_sum *sum = &s->sum[q];
    const size_t hours = vh_hour_sums_hours(s);

    if (sum->sum)
        return VH_OK;
    if (q == VH_HOURLY_T_AIR) {
        s->warmth_lines = calloc(hours, sizeof *s->warmth_lines);
        if (!s->warmth_lines)
            return VH_NO_MEMORY;
    }
    sum->sum = calloc(hours, sizeof *sum->sum);
    sum->minutes = calloc(hours, sizeof *sum->minutes);
    if (!sum->sum || !sum->minutes ||
        vh_minutes_init(&sum->seen, hours * VH_MINUTES_PER_HOUR) != VH_OK ||
        vh_minutes_init(&sum->taken, hours * VH_MINUTES_PER_HOUR) != VH_OK)
        return VH_NO_MEMORY;
    return VH_OK;
}

static void sum_clear(struct vh_hour_sum *sum)
{
    free(sum->sum);
    free(sum->minutes);
    vh_minutes_clear(&sum->seen);
    vh_minutes_clear(&sum->taken);
    *sum = (struct vh_hour_sum){0};
}

void vh_hour_sums_add(struct vh_hour_sums *s, enum vh_hourly q, size_t minute, size_t hold,
                      double value)
{
    const int64_t fixed = (int64_t)(value * FIXED + (value < 0.0 ? -0.5 : 0.5));
    const size_t end = vh_hour_sums_hours(s) * VH_MINUTES_PER_HOUR;

    for (size_t at = minute; at < minute + hold && at < end;) {
        const size_t hour = at / VH_MINUTES_PER_HOUR;
        size_t next = (hour + 1) * VH_MINUTES_PER_HOUR;
        if (next > minute + hold)
            next = minute + hold;
        s->sum[q].sum[hour] += fixed * (int64_t)(next - at);
        s->sum[q].minutes[hour] = (uint16_t)(s->sum[q].minutes[hour] + (next - at));
        at = next;
    }
}

/* Straight line over hours without a reading between two that have one, up to gap_fill_h. */
static void interpolate(double *hourly, size_t hours, double longest_h)
{
    size_t last = hours; /* none yet */

    for (size_t h = 0; h < hours; h++) {
        if (isnan(hourly[h]))
            continue;
        const size_t lost = last < hours ? h - last - 1 : 0;
        if (lost > 0 && (double)lost <= longest_h) {
            for (size_t k = 1; k <= lost; k++)
                hourly[last + k] =
                    hourly[last] + (hourly[h] - hourly[last]) * (double)k / (double)(lost + 1);
        }
        last = h;
    }
}

enum vh_status vh_hour_sums_finish(struct vh_hour_sums *s, double gap_fill_h)
{
    const size_t hours = vh_hour_sums_hours(s);

    for (int q = 0; q < VH_HOURLY_COUNT; q++) {
        if (!s->sum[q].sum)
            continue;
        if (vh_fill_nan(&s->hourly[q], hours) != VH_OK)
            return VH_NO_MEMORY;
        for (size_t h = 0; h < hours; h++) {
            if (s->sum[q].minutes[h] > 0)
                s->hourly[q][h] = (double)s->sum[q].sum[h] / s->sum[q].minutes[h] / FIXED;
        }
        sum_clear(&s->sum[q]);
        interpolate(s->hourly[q], hours, gap_fill_h);
    }
    return VH_OK;
}

void vh_hour_sums_clear(struct vh_hour_sums *s)
{
    for (int q = 0; q < VH_HOURLY_COUNT; q++) {
        sum_clear(&s->sum[q]);
        free(s->hourly[q]);
        s->hourly[q] = NULL;
    }
    free(s->warmth_lines);
    s->warmth_lines = NULL;
    for (int q = 0; q < VH_DAILY_COUNT; q++) {
        free(s->daily[q]);
        s->daily[q] = NULL;
    }
}

double vh_hour_sums_hour(const struct vh_hour_sums *s, enum vh_hourly q, size_t hour)
{
    return s->hourly[q] ? s->hourly[q][hour] : (double)NAN;
}

double vh_hour_sums_day(const struct vh_hour_sums *s, enum vh_daily q, size_t day)
{
    return s->daily[q] ? s->daily[q][day] : (double)NAN;
}
