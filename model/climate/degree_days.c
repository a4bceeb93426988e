#include "vh_degree_days.h"

#include "vh_math.h"

/* Every method integrates vh_degree_rate over a curve of the day. What lies above one level
 * (`above`) and the share of the day spent above it (`share`) are enough for all three cutoffs. */
struct part {
    double above, share;
};

static struct part triangle_part(double tmin, double tmax, double level)
{
    if (tmax <= level)
        return (struct part){0.0, 0.0};
    if (tmin >= level)
        return (struct part){(tmin + tmax) / 2.0 - level, 1.0};

    const double over = tmax - level, range = tmax - tmin;
    return (struct part){over * over / (2.0 * range), over / range};
}

/* [be69], equation of a sine day that crosses the level */
static struct part sine_part(double tmin, double tmax, double level)
{
    if (tmax <= level)
        return (struct part){0.0, 0.0};
    const double mean = (tmin + tmax) / 2.0, half_range = (tmax - tmin) / 2.0;
    if (tmin >= level)
        return (struct part){mean - level, 1.0};

    const double sine = vh_clamp((level - mean) / half_range, -1.0, 1.0);
    const double to_top = vh_acos(sine); /* pi/2 - asin */
    const double above = ((mean - level) * to_top + half_range * sqrt(1.0 - sine * sine)) / VH_PI;
    return (struct part){vh_max(above, 0.0), to_top / VH_PI};
}

static double with_cutoff(struct part lower, struct part upper, struct vh_thresholds t)
{
    switch (t.cutoff) {
    case VH_CUTOFF_INTERMEDIATE:
        return vh_max(lower.above - 2.0 * upper.above, 0.0);
    case VH_CUTOFF_VERTICAL:
        if (upper.share <= 0.0)
            return lower.above; /* never (inf - lower) x 0 */
        return vh_max(lower.above - upper.above - (t.upper - t.lower) * upper.share, 0.0);
    case VH_CUTOFF_HORIZONTAL:
    default:
        return vh_max(lower.above - upper.above, 0.0);
    }
}

double vh_degree_days_simple_average(double tmin, double tmax, struct vh_thresholds t)
{
    return vh_max((tmin + vh_min(tmax, t.upper)) / 2.0 - t.lower, 0.0);
}

double vh_degree_days_modified_average(double tmin, double tmax, struct vh_thresholds t)
{
    const double low = vh_clamp(tmin, t.lower, t.upper), high = vh_clamp(tmax, t.lower, t.upper);

    return (low + high) / 2.0 - t.lower;
}

double vh_degree_days_single_triangle(double tmin, double tmax, struct vh_thresholds t)
{
    return with_cutoff(triangle_part(tmin, tmax, t.lower), triangle_part(tmin, tmax, t.upper), t);
}

double vh_degree_days_double_triangle(double tmin, double tmax, double next_tmin,
                                      struct vh_thresholds t)
{
    return (vh_degree_days_single_triangle(tmin, tmax, t) +
            vh_degree_days_single_triangle(next_tmin, tmax, t)) /
           2.0;
}

double vh_degree_days_single_sine(double tmin, double tmax, struct vh_thresholds t)
{
    return with_cutoff(sine_part(tmin, tmax, t.lower), sine_part(tmin, tmax, t.upper), t);
}

double vh_degree_days_double_sine(double tmin, double tmax, double next_tmin,
                                  struct vh_thresholds t)
{
    return (vh_degree_days_single_sine(tmin, tmax, t) +
            vh_degree_days_single_sine(next_tmin, tmax, t)) /
           2.0;
}

double vh_degree_rate(double temp, struct vh_thresholds t)
{
    if (temp <= t.lower)
        return 0.0;
    if (temp <= t.upper)
        return temp - t.lower;
    switch (t.cutoff) {
    case VH_CUTOFF_VERTICAL:
        return 0.0;
    case VH_CUTOFF_INTERMEDIATE:
        return t.upper - t.lower - (temp - t.upper);
    case VH_CUTOFF_HORIZONTAL:
    default:
        return t.upper - t.lower;
    }
}

double vh_degree_days_hourly(const double *t_c, size_t hours, struct vh_thresholds t)
{
    double sum = 0.0;

    for (size_t h = 0; h < hours; h++)
        sum += vh_degree_rate(t_c[h], t);
    return hours > 0 ? vh_max(sum / (double)hours, 0.0) : 0.0;
}
