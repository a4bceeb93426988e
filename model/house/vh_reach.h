/* vh_reach.h - what houses of this kind reach, to hold a forecast, a record or an order against.
 *
 * Published yields are those of a year or a season; here they are laid on its weeks of picking, so
 * that a short season is not held against a long one [our choice]:
 *
 *     kg a m2 = kg a m2 and week (habit.reach_...) * (weeks from the first pick to pull-out + peak)
 *
 * A short season has the bright weeks without the dark ones: the upper bound counts some weeks more
 * (peak, doubt.reach_peak_weeks), the lower one none.
 */
#ifndef VH_REACH_H
#define VH_REACH_H

#include "vh_harvest.h"

enum vh_reach_word {
    VH_REACH_NOTHING, /* nothing is picked at all */
    VH_REACH_LITTLE,
    VH_REACH_USUAL,
    VH_REACH_MUCH
};

struct vh_reach {
    double weeks;                 /* of picking */
    double kg_m2, kg_plant;       /* of the season run */
    double low_kg_m2, high_kg_m2; /* what houses reach in so many weeks */
    double high_kg_plant;         /* the most of both bounds for a plant */
    enum vh_reach_word word;
};

/* Fills the bounds for so many weeks, plants a m2 and heads a plant. */
void vh_reach_bounds(struct vh_reach *r, const struct vh_habit_params *habit, double weeks,
                     double peak_weeks, double plants_per_m2, double heads_per_plant);
/* Of a season run and what is picked in it; little is not said of less than four weeks of picking.
 */
struct vh_reach vh_reach_of_season(const struct vh_season *s, const struct vh_harvest *harvest,
                                   double peak_weeks);
/* "nothing", "little", "usual", "much" */
const char *vh_reach_said(enum vh_reach_word word);

#endif
