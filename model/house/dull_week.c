/* A dull week, as the reason for less fruit. */
#include <math.h>

#include "vh_math.h"
#include "vh_result.h"
#include "vh_scenario.h"
#include "vh_sun.h"

enum { LAST_D = 7, BACK_D = 21 };

/* What the season alone sends on a day, in any unit: autumn is not dull weather. 1: no latitude. */
static double season_sends(const struct vh_house *h, int64_t day)
{
    const double latitude_deg = h->climate_request.latitude_deg, any = 1.0;

    if (isnan(latitude_deg))
        return any;
    const struct vh_sun_day s =
        vh_sun_day_of(latitude_deg * VH_PI / 180.0, vh_day_of_year(day), any);
    return vh_sun_day_mj(&s);
}

bool vh_week_was_dull(const struct vh_scenario *s)
{
    const struct vh_house *h = &s->house;
    const struct vh_climate *c = &h->climate;
    double last = 0.0, before = 0.0;

    if (h->today - BACK_D < h->first_day || h->today > c->first_day + (int64_t)c->days)
        return false;
    for (int64_t day = h->today - BACK_D; day < h->today; day++)
        *(day >= h->today - LAST_D ? &last : &before) +=
            c->dli_mol_m2_d[day - c->first_day] / season_sends(h, day);
    return last / LAST_D < s->house_params.doubt_dull_share * before / (BACK_D - LAST_D);
}
