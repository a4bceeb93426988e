#include "vh_sun.h"

#include "vh_math.h"

#define DAYS_PER_YEAR 365.0
#define HOURS_PER_DAY 24.0
#define MINUTES_PER_DAY 1440.0
#define DEG_PER_HOUR 15.0 /* the earth turns 360 degrees in 24 hours */

/* [fao56] eq. 23 and 24 write 2 pi J / 365 for leap years too. */
static double year_angle_rad(int day_of_year)
{
    return 2.0 * VH_PI * day_of_year / DAYS_PER_YEAR;
}

double vh_sun_inverse_distance(int day_of_year)
{
    return 1.0 + 0.033 * vh_cos(year_angle_rad(day_of_year)); /* eq. 23 */
}

double vh_sun_declination_rad(int day_of_year)
{
    return 0.409 * vh_sin(year_angle_rad(day_of_year) - 1.39); /* eq. 24 */
}

double vh_sun_sunset_angle_rad(double latitude_rad, int day_of_year)
{
    const double declination = vh_sun_declination_rad(day_of_year);
    const double level = vh_cos(latitude_rad) * vh_cos(declination);
    const double tilt = vh_sin(latitude_rad) * vh_sin(declination);

    /* eq. 25, acos(-tan tan); at a pole the product has no value, but its sign tells day from night
     */
    if (level <= 0.0)
        return tilt > 0.0 ? VH_PI : 0.0;
    return vh_acos(vh_clamp(-tilt / level, -1.0, 1.0));
}

double vh_sun_daylight_h(double latitude_rad, int day_of_year)
{
    return HOURS_PER_DAY / VH_PI * vh_sun_sunset_angle_rad(latitude_rad, day_of_year); /* eq. 34 */
}

struct vh_sun_day vh_sun_day_of(double latitude_rad, int day_of_year, double solar_constant)
{
    const double declination = vh_sun_declination_rad(day_of_year);

    return (struct vh_sun_day){
        .sunset_rad = vh_sun_sunset_angle_rad(latitude_rad, day_of_year),
        .sines = vh_sin(latitude_rad) * vh_sin(declination),
        .cosines = vh_cos(latitude_rad) * vh_cos(declination),
        .full_mj =
            MINUTES_PER_DAY / (2.0 * VH_PI) * solar_constant * vh_sun_inverse_distance(day_of_year),
    };
}

/* eq. 28 between two hour angles that both lie between sunrise and sunset; eq. 21 is the same from
 * end to end. */
static double between_angles_mj(const struct vh_sun_day *s, double from_rad, double to_rad)
{
    const double height =
        (to_rad - from_rad) * s->sines + s->cosines * (vh_sin(to_rad) - vh_sin(from_rad));

    return s->full_mj * vh_max(height, 0.0);
}

double vh_sun_day_mj(const struct vh_sun_day *s)
{
    return between_angles_mj(s, -s->sunset_rad, s->sunset_rad);
}

double vh_sun_hours_mj(const struct vh_sun_day *s, double from_h, double to_h)
{
    const double per_hour = 2.0 * VH_PI / HOURS_PER_DAY, sunset = s->sunset_rad;
    const double from = vh_clamp((from_h - HOURS_PER_DAY / 2.0) * per_hour, -sunset, sunset);
    const double to = vh_clamp((to_h - HOURS_PER_DAY / 2.0) * per_hour, -sunset, sunset);

    return to > from ? between_angles_mj(s, from, to) : 0.0;
}

double vh_sun_seasonal_correction_h(int day_of_year)
{
    const double b = 2.0 * VH_PI * (day_of_year - 81) / 364.0; /* eq. 33 */

    return 0.1645 * vh_sin(2.0 * b) - 0.1255 * vh_cos(b) - 0.025 * vh_sin(b); /* eq. 32 */
}

double vh_sun_solar_minus_clock_h(double longitude_deg, double utc_offset_h, int day_of_year)
{
    /* eq. 31 counts longitudes west of Greenwich and a zone's middle meridian; ours run east */
    return longitude_deg / DEG_PER_HOUR - utc_offset_h + vh_sun_seasonal_correction_h(day_of_year);
}

double vh_sun_from_sunshine_mj(double a, double b, double sunshine_h, double daylight_h,
                               double extraterrestrial_mj)
{
    /* hours of bright sun can pass the day length by what a recorder reads beyond it, never the
     * light by that */
    const double share = daylight_h > 0.0 ? vh_clamp(sunshine_h / daylight_h, 0.0, 1.0) : 0.0;

    return (a + b * share) * extraterrestrial_mj; /* eq. 35 */
}

double vh_sun_from_temperature_mj(double krs, double tmin_c, double tmax_c,
                                  double extraterrestrial_mj)
{
    return krs * sqrt(vh_max(tmax_c - tmin_c, 0.0)) * extraterrestrial_mj; /* eq. 50 */
}
