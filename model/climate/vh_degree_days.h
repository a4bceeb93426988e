/* vh_degree_days.h - degree-days by hour and by the daily methods [be69, allen76].
 *
 * Any consistent temperature unit; result in that unit x day, >= 0. Upper cutoff: horizontal (rate
 * stays), intermediate (rate falls by what lies above), vertical (no rate above).
 */
#ifndef VH_DEGREE_DAYS_H
#define VH_DEGREE_DAYS_H

#include <stddef.h>

enum vh_cutoff { VH_CUTOFF_HORIZONTAL, VH_CUTOFF_INTERMEDIATE, VH_CUTOFF_VERTICAL };

struct vh_thresholds {
    double lower, upper;
    enum vh_cutoff cutoff;
}; /* upper may be INFINITY */

double vh_degree_days_simple_average(double tmin, double tmax, struct vh_thresholds t);
double vh_degree_days_modified_average(double tmin, double tmax,
                                       struct vh_thresholds t); /* tmin, tmax clipped first */
double vh_degree_days_single_triangle(double tmin, double tmax, struct vh_thresholds t);
double vh_degree_days_double_triangle(double tmin, double tmax, double next_tmin,
                                      struct vh_thresholds t);
double vh_degree_days_single_sine(double tmin, double tmax, struct vh_thresholds t);
double vh_degree_days_double_sine(double tmin, double tmax, double next_tmin,
                                  struct vh_thresholds t);
/* Mean of the day's hourly rates; t_c[hours]. */
double vh_degree_days_hourly(const double *t_c, size_t hours, struct vh_thresholds t);
/* The rate at one temperature: 0 below lower, then T - lower, then by the cutoff; what all methods
 * integrate. */
double vh_degree_rate(double temp, struct vh_thresholds t);

#endif
