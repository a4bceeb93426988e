/* vh_her_hours.h - the hours that the work of the vines asks, week by week, beside those she has.
 */
#ifndef VH_HER_HOURS_H
#define VH_HER_HOURS_H

#include "vinehand.h"

enum { VH_HOURS_WEEKS_MOST = 160, VH_HOURS_TEXT = 200 };

struct vh_her_hours {
    int n; /* weeks with work, by their Mondays */
    double monday[VH_HOURS_WEEKS_MOST], total[VH_HOURS_WEEKS_MOST];
    double has; /* hours a week for the vines; NaN: not given */
    int worst;  /* the week that is not over with the most work; -1: none */
};

/* t: table "hours"; NULL: there is none. */
void vh_her_hours(const struct vh_table *t, int64_t today, struct vh_her_hours *h);
/* Is that more than she has, as both are said, in tenths? */
bool vh_hours_are_short(const struct vh_her_hours *h, double hours);
/* " of your 12 h", or where they are too few ", you have 1.5 h". "": they are not given. */
void vh_hours_has(const struct vh_her_hours *h, double hours, char said[VH_HOURS_TEXT]);
/* "3.1 of your 12 h; lettuce (9 h) not counted in". "": her hours are not given. */
void vh_hours_of_hers(const struct vh_table *t, const struct vh_her_hours *h, double hours,
                      char said[VH_HOURS_TEXT]);

#endif
