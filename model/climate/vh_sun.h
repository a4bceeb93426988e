/* vh_sun.h - where the sun stands and what it sends: FAO-56 equations 21-35 and 50 [fao56].
 *
 * Angles in rad unless named; day_of_year 1..366; latitude in rad, south negative. Inside the polar
 * circles the sunset angle is clamped (no sunrise: 0; no sunset: pi).
 */
#ifndef VH_SUN_H
#define VH_SUN_H

double vh_sun_inverse_distance(int day_of_year);                      /* eq. 23, dimensionless */
double vh_sun_declination_rad(int day_of_year);                       /* eq. 24 */
double vh_sun_sunset_angle_rad(double latitude_rad, int day_of_year); /* eq. 25 */
double vh_sun_daylight_h(double latitude_rad, int day_of_year);       /* eq. 34 */
/* What all hours of a day have in common. */
struct vh_sun_day {
    double sunset_rad;
    double sines, cosines; /* of latitude and declination, multiplied */
    double full_mj;        /* MJ m-2 d-1: eq. 21 without the height of the sun */
};
/* solar_constant in MJ m-2 min-1. */
struct vh_sun_day vh_sun_day_of(double latitude_rad, int day_of_year, double solar_constant);
/* Extraterrestrial radiation of the day, MJ m-2 d-1 (eq. 21). */
double vh_sun_day_mj(const struct vh_sun_day *s);
/* Extraterrestrial radiation between two of its solar hours (0..24), MJ m-2 (eq. 28, sunrise and
 * sunset clipped). */
double vh_sun_hours_mj(const struct vh_sun_day *s, double from_h, double to_h);
double vh_sun_seasonal_correction_h(int day_of_year); /* eq. 32 */
/* Solar minus clock time, hours; longitude in degrees, east positive; utc_offset in hours (from eq.
 * 31). */
double vh_sun_solar_minus_clock_h(double longitude_deg, double utc_offset_h, int day_of_year);
double vh_sun_from_sunshine_mj(double a, double b, double sunshine_h, double daylight_h,
                               double extraterrestrial_mj); /* eq. 35 */
double vh_sun_from_temperature_mj(double krs, double tmin_c, double tmax_c,
                                  double extraterrestrial_mj); /* eq. 50 */

#endif
