/* A run far from what such houses reach is questioned, by the tool itself. */
#include "vh_reach.h"
#include "vh_result.h"

#include <stdio.h>

#include "vh_math.h"

enum { TEXT = 200 };

static enum vh_status warn_much(struct vh_table *t, const char *name, int64_t date,
                                const struct vh_reach *r)
{
    char why[TEXT];

    snprintf(why, sizeof why,
             "%.10g kg a plant, %.10g kg a m2 in %.0f weeks of picking; such houses reach %.10g to %.10g kg a m2, with"
             " your spacing %.10g kg a plant",
             vh_round_digits(r->kg_plant, 3), vh_round_digits(r->kg_m2, 3), r->weeks,
             vh_round_digits(r->low_kg_m2, 2), vh_round_digits(r->high_kg_m2, 2),
             vh_round_digits(r->high_kg_plant, 2));
    /* how much is said in the summary, by all futures */
    return vh_result_warn(t, date, name,
                          "the season's harvest is questioned: more than such houses reach", why,
                          "check plants_per_m2, light, CO2 and the units of the log; promise less"
                          " until a few picks are weighed",
                          date);
}

static enum vh_status warn_little(struct vh_table *t, const char *name, int64_t date,
                                  const struct vh_reach *r)
{
    char why[TEXT];

    snprintf(why, sizeof why,
             "%.10g kg a plant, %.10g kg a m2 in %.0f weeks of picking; such houses reach %.10g to"
             " %.10g kg a m2",
             vh_round_digits(r->kg_plant, 2), vh_round_digits(r->kg_m2, 2), r->weeks,
             vh_round_digits(r->low_kg_m2, 2), vh_round_digits(r->high_kg_m2, 2));
    return vh_result_warn(t, date, name,
                          "the season's harvest is questioned: less than such houses reach", why,
                          "check light, temperatures and how many fruits are kept", date);
}

enum vh_status vh_result_warn_reach(struct vh_table *t, const struct vh_season *s,
                                    const struct vh_harvest *harvest, int64_t today,
                                    const struct vh_house_params *doubt)
{
    const struct vh_reach r = vh_reach_of_season(s, harvest, doubt->doubt_reach_peak_weeks);
    const int64_t last = s->first_day + (int64_t)s->days - 1;
    const int64_t date = today < s->first_day ? s->first_day : today > last ? last : today;

    switch (r.word) {
    case VH_REACH_NOTHING:
        return vh_result_warn(t, date, s->planting->name, "nothing is ripe before it is pulled out",
                              "from setting out to pull-out the first fruit does not get ready",
                              "set out earlier or pull out later; check both dates", date);
    case VH_REACH_LITTLE:
        return warn_little(t, s->planting->name, date, &r);
    case VH_REACH_MUCH:
        return warn_much(t, s->planting->name, date, &r);
    case VH_REACH_USUAL:
        break;
    }
    return VH_OK;
}
