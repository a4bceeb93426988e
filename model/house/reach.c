#include "vh_reach.h"

#include "vh_math.h"

#define DAYS_PER_WEEK 7.0

void vh_reach_bounds(struct vh_reach *r, const struct vh_habit_params *habit, double weeks,
                     double peak_weeks, double plants_per_m2, double heads_per_plant)
{
    const double most_weeks = weeks + peak_weeks;
    const double by_stem = habit->reach_high_kg_stem_week * most_weeks * heads_per_plant;

    r->weeks = weeks;
    r->low_kg_m2 = habit->reach_low_kg_m2_week * weeks;
    r->high_kg_m2 = vh_min(habit->reach_high_kg_m2_week * most_weeks, by_stem * plants_per_m2);
    r->high_kg_plant = r->high_kg_m2 / plants_per_m2;
}

struct vh_reach vh_reach_of_season(const struct vh_season *s, const struct vh_harvest *harvest,
                                   double peak_weeks)
{
    const double worth_a_walk = 0.1;    /* fruits a stem: what counts as the first pick */
    const double too_short_weeks = 4.0; /* the first picks of any crop are little */
    const struct vh_planting *p = s->planting;
    struct vh_reach r = {.word = VH_REACH_NOTHING};
    double kg = 0.0, stems = 0.0;
    size_t days = 0;

    for (size_t d = 0; d < s->days; d++) {
        const struct vh_amount *picked = &harvest->day[d].picked;
        kg += picked->kg;
        if (days == 0 && !(picked->fruits > 0.0 && picked->fruits >= worth_a_walk * s->day[d].stems))
            continue;
        days++;
        stems += s->day[d].stems;
    }
    r.kg_plant = kg / p->plants;
    r.kg_m2 = r.kg_plant * p->plants_per_m2;
    if (days == 0)
        return r;
    vh_reach_bounds(&r, &p->crop->habit, (double)days / DAYS_PER_WEEK, peak_weeks, p->plants_per_m2,
                    stems / ((double)days * p->plants));
    r.word = r.kg_m2 > r.high_kg_m2                                ? VH_REACH_MUCH
             : r.kg_m2 < r.low_kg_m2 && r.weeks >= too_short_weeks ? VH_REACH_LITTLE
                                                                   : VH_REACH_USUAL;
    return r;
}

const char *vh_reach_said(enum vh_reach_word word)
{
    switch (word) {
    case VH_REACH_NOTHING:
        return "nothing";
    case VH_REACH_LITTLE:
        return "little";
    case VH_REACH_USUAL:
        return "usual";
    case VH_REACH_MUCH:
        return "much";
    }
    return "";
}
