/* Which records do not fit what is known of the planting itself: a first pick has no neighbours to
 * be held against, and a count of one truss none at all. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include <gsl/gsl_sort.h>
#include <gsl/gsl_statistics_double.h>

#include "record_parts.h"
#include "vh_due.h"
#include "vh_math.h"
#include "vh_plant.h"

#define DAYS_PER_WEEK 7
#define G_PER_KG 1000.0

/* Noted of one item of a planting on the day of a row, in all; NaN: nothing. */
static double on_its_day(const struct vh_records *r, size_t row, enum vh_record_item item)
{
    const struct vh_record *a = &r->row[row];
    double sum = VH_UNKNOWN;
    bool doubt = false;

    while (row > 0 && r->row[row - 1].day == a->day)
        row--;
    for (size_t i = row; i < r->rows && r->row[i].day == a->day; i++)
        if (r->row[i].planting == a->planting && r->row[i].item == item)
            vh_record_add_to(&sum, &doubt, &r->row[i]);
    return sum;
}

/* Days since the planting's entry of that item before it, a week at least. */
static double grown_d(const struct vh_records *r, size_t row)
{
    const struct vh_record *a = &r->row[row];

    for (size_t i = row; i-- > 0;)
        if (r->row[i].item == a->item && r->row[i].planting == a->planting &&
            r->row[i].day < a->day)
            return vh_max(DAYS_PER_WEEK, (double)(a->day - r->row[i].day));
    return DAYS_PER_WEEK;
}

/* More than a planting of this size gives in the time. */
static bool is_too_much(const struct vh_records *r, size_t row, const struct vh_planting *p,
                        const struct vh_record_params *params, char why[VH_FITS_ROOM])
{
    const struct vh_record *a = &r->row[row];

    if (!p->crop || !(p->plants_per_m2 > 0.0))
        return false;
    const double weeks = params->pick_reach_weeks * grown_d(r, row) / DAYS_PER_WEEK;
    const double most_kg = p->crop->habit.reach_high_kg_m2_week * weeks / p->plants_per_m2;
    const double kg =
        a->item == VH_RECORD_PICKED_KG ? a->value : a->value * p->usual_fruit_g / G_PER_KG;
    if (!(kg > most_kg * p->plants))
        return false;
    snprintf(why, VH_FITS_ROOM, "%.10g kg a plant, and such crops give %.10g at most in that time",
             vh_round_digits(kg / p->plants, 2), vh_round_digits(most_kg, 2));
    return true;
}

/* Mass of a fruit far from what the variety has. */
static bool is_odd_fruit(double fruit_g, const struct vh_planting *p,
                         const struct vh_record_params *params, char why[VH_FITS_ROOM])
{
    const double times = params->known_doubt_ratio;

    if (!(p->usual_fruit_g > 0.0) || !(fruit_g > 0.0) ||
        (fruit_g <= times * p->usual_fruit_g && times * fruit_g >= p->usual_fruit_g))
        return false;
    snprintf(why, VH_FITS_ROOM, "%.0f g a fruit where %.0f are usual", fruit_g, p->usual_fruit_g);
    return true;
}

/* Was an entry of the day beside which this one alone would do? Then one of the others is the slip.
 */
static bool has_its_like(const struct vh_records *r, size_t row, const struct vh_planting *p,
                         const struct vh_record_params *params)
{
    const struct vh_record *a = &r->row[row];
    const bool is_kg = a->item == VH_RECORD_PICKED_KG;
    const enum vh_record_item other = is_kg ? VH_RECORD_PICKED_FRUITS : VH_RECORD_PICKED_KG;
    char why[VH_FITS_ROOM];

    for (size_t i = 0; i < r->rows; i++) {
        const struct vh_record *b = &r->row[i];
        if (b->day != a->day || b->planting != a->planting || b->item != other)
            continue;
        const double kg = is_kg ? a->value : b->value, fruits = is_kg ? b->value : a->value;
        if (kg > 0.0 && fruits > 0.0 && !is_odd_fruit(kg * G_PER_KG / fruits, p, params, why))
            return true;
    }
    return false;
}

/* Thrown away: nearly all that was picked that day. */
static bool is_most_of_it(const struct vh_records *r, size_t row,
                          const struct vh_record_params *params, char why[VH_FITS_ROOM])
{
    const double picked_kg = on_its_day(r, row, VH_RECORD_PICKED_KG);

    if (!(r->row[row].value > params->thrown_doubt_share * picked_kg))
        return false;
    snprintf(why, VH_FITS_ROOM, "of %.10g picked that day", vh_round_digits(picked_kg, 3));
    return true;
}

bool vh_record_is_much_thrown(const struct vh_records *r, size_t row,
                              const struct vh_record_params *params, double *of_kg)
{
    const struct vh_record *a = &r->row[row];

    *of_kg = on_its_day(r, row, VH_RECORD_PICKED_KG);
    return a->item == VH_RECORD_UNMARKETABLE_KG && a->value > params->thrown_ask_share * *of_kg;
}

/* Far from the number of fruits that the plan leaves on the truss; all of them taken off is a
 * plan of its own. */
static bool is_odd_count(const struct vh_record *a, const struct vh_planting *p,
                         const struct vh_record_params *params, char why[VH_FITS_ROOM])
{
    enum vh_thin_stage at;
    const double plan = vh_policy_fruits_kept(&p->policy, a->truss, a->day, &at);
    const double times = params->known_doubt_ratio;
    const bool few = a->item == VH_RECORD_FRUITS_LEFT && times * a->value < plan;

    if (a->truss <= 0 || !(plan > 0.0) || !(plan < VH_ENDLESS) || !(a->value > 0.0) ||
        (!few && a->value <= times * vh_max(plan, 1.0)))
        return false;
    snprintf(why, VH_FITS_ROOM, "and the plan leaves %.2g on that truss", plan);
    return true;
}

/* Noted on one day: of both more than nothing, or of neither. */
static bool is_at_odds(double picked_kg, double picked_fruits, char why[VH_FITS_ROOM])
{
    if (isnan(picked_kg) || isnan(picked_fruits) || (picked_kg > 0.0) == (picked_fruits > 0.0))
        return false;
    snprintf(why, VH_FITS_ROOM, "with %.10g kg and %.0f fruits picked that day",
             vh_round_digits(picked_kg, 3), picked_fruits);
    return true;
}

/* Picked when no flower of a young plant can have come so far. */
static bool is_too_soon(const struct vh_record *a, const struct vh_planting *p,
                        const struct vh_record_params *params, char why[VH_FITS_ROOM])
{
    if (!p->crop || p->standing.given || !(a->value > 0.0))
        return false;
    const struct vh_policy *policy = vh_policy_on(&p->policy, p->set_out);
    const bool is_later = p->has_first_flower && p->first_flower > p->set_out;
    const int64_t from = is_later ? p->first_flower : p->set_out;
    const double least_d =
        vh_plant_least_pick_d(p->crop, policy->pick_stage, p->policy.pick_from_g);
    const double days = (double)(a->day - from);
    if (!(days < params->pick_soon_share * least_d))
        return false;
    snprintf(why, VH_FITS_ROOM,
             "%.0f d %s %s, but from flower to pick it takes %.0f at least; plants with fruit on "
             "are [planting.standing]",
             fabs(days), days < 0.0 ? "before" : "after", is_later ? "`first_flower`" : "set-out",
             least_d);
    return true;
}

bool vh_record_is_picked_undone(const struct vh_records *r, size_t row, char why[VH_FITS_ROOM])
{
    const struct vh_record *a = &r->row[row];

    if (a->item != VH_RECORD_DONE || a->task != VH_TASK_PICK || a->value >= vh_done_least_share)
        return false;
    const double kg = vh_record_picked_kg(r, a->planting, a->day, a->day),
                 fruits = vh_record_picked_fruits(r, a->planting, a->day, a->day);
    if (kg > 0.0)
        snprintf(why, VH_FITS_ROOM, "with %.10g kg picked that day", vh_round_digits(kg, 3));
    else if (fruits > 0.0)
        snprintf(why, VH_FITS_ROOM, "with %.0f fruits picked that day", fruits);
    return kg > 0.0 || fruits > 0.0;
}

bool vh_record_is_odd(const struct vh_records *r, size_t row, const struct vh_planting *p,
                      const struct vh_record_params *params, bool beside_slip,
                      char why[VH_FITS_ROOM])
{
    const struct vh_record *a = &r->row[row];

    if (vh_record_is_pick(a->item)) {
        const double kg = on_its_day(r, row, VH_RECORD_PICKED_KG),
                     fruits = on_its_day(r, row, VH_RECORD_PICKED_FRUITS);
        return is_too_much(r, row, p, params, why) || is_too_soon(a, p, params, why) ||
               (!beside_slip && (is_at_odds(kg, fruits, why) ||
                                 (is_odd_fruit(kg * G_PER_KG / fruits, p, params, why) &&
                                  !has_its_like(r, row, p, params))));
    }
    if (a->item == VH_RECORD_FRUIT_G)
        return is_odd_fruit(a->value, p, params, why);
    if (a->item == VH_RECORD_UNMARKETABLE_KG || a->item == VH_RECORD_ROT_KG)
        return is_most_of_it(r, row, params, why);
    if (a->item == VH_RECORD_FRUITS_SET || a->item == VH_RECORD_FRUITS_LEFT)
        return is_odd_count(a, p, params, why);
    return false;
}

double vh_record_usual_fruit_g(const struct vh_records *r, size_t planting,
                               const struct vh_planting *p)
{
    double *weighed = malloc((r->rows + 1) * sizeof *weighed);
    size_t n = 0;

    if (!weighed)
        return 0.0;
    for (size_t i = 0; i < r->rows; i++)
        if (r->row[i].planting == planting && r->row[i].item == VH_RECORD_FRUIT_G)
            weighed[n++] = r->row[i].value;
    gsl_sort(weighed, 1, n);
    const double own = n > 0 ? gsl_stats_median_from_sorted_data(weighed, 1, n) : 0.0;
    free(weighed);
    return own > 0.0 ? own : p->policy.pick_from_g > 0.0 ? p->policy.pick_from_g : p->usual_fruit_g;
}
