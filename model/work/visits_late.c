/* Visits of a future that come late. */
#include <math.h>

#include "vh_math.h"
#include "vh_random.h"
#include "vh_visits.h"

enum { LATEST_D = 14 }; /* later than that a visit is left out */

static double log_q(const struct vh_lateness *late)
{
    return vh_log(late->mean_d / (1.0 + late->mean_d));
}

void vh_delays_forget(struct vh_delays *known)
{
    for (size_t i = 0; i < VH_VISIT_KINDS; i++)
        known->of[i] = (struct vh_coming){.from = 0, .until = -1};
}

/* Geometric with the wanted mean: floor(log u / log q), q = mean/(1 + mean). */
static double draw_delay_d(const struct vh_lateness *late, enum vh_visit what, int64_t planned)
{
    const double u =
        vh_uniform(late->draw, late->member, (uint32_t)planned, (uint32_t)what, late->row);

    return floor(vh_log(u) / log_q(late));
}

bool vh_visit_may_be_late(const struct vh_lateness *late, int64_t day)
{
    return late->mean_d > 0.0 && day >= late->from;
}

/* The last day of the plan up to `day` that has a visit; oldest - 1: none from `oldest` on. */
static int64_t last_planned(const struct vh_policy *policy, const struct vh_rhythm *rhythm,
                            int64_t start, int64_t day, int64_t oldest)
{
    if (policy->sprays == 0) /* no lock moves a visit */
        return vh_rhythm_last_due(rhythm, start, day, oldest);
    while (day >= oldest && !vh_visit_planned(policy, rhythm, start, day))
        day--;
    return day;
}

/* Days after `planned` on which that visit comes. */
static double delay_d(const struct vh_lateness *late, enum vh_visit what, int64_t planned)
{
    return vh_visit_may_be_late(late, planned) ? draw_delay_d(late, what, planned) : 0.0;
}

/* By looking back from `day`. */
static bool comes_on(const struct vh_policy *policy, const struct vh_rhythm *rhythm,
                     enum vh_visit what, int64_t start, int64_t day)
{
    const int64_t oldest = day - LATEST_D;
    int64_t planned = last_planned(policy, rhythm, start, day, oldest);

    for (; planned >= oldest; planned = last_planned(policy, rhythm, start, planned - 1, oldest))
        if (delay_d(&policy->late, what, planned) == (double)(day - planned))
            return true;
    return false;
}

static uint64_t bit_of(int64_t day)
{
    return (uint64_t)1 << ((uint64_t)day % VH_COMING_DAYS);
}

/* By looking forward from each planned visit, day after day. Of a day the past LATEST_D must have
 * been looked at, and it must not be so long ago that its place is another day's. */
static bool is_coming(struct vh_coming *c, const struct vh_policy *policy,
                      const struct vh_rhythm *rhythm, enum vh_visit what, int64_t start,
                      int64_t day)
{
    const bool is_known = c->until >= c->from && day >= c->from + LATEST_D &&
                          day <= c->until + LATEST_D && day > c->until + LATEST_D - VH_COMING_DAYS;

    if (!is_known)
        *c = (struct vh_coming){.from = day - LATEST_D, .until = day - LATEST_D - 1};
    for (; c->until < day; c->until++) {
        const int64_t planned = c->until + 1;
        c->comes &= ~bit_of(planned + LATEST_D); /* no visit before this one comes so late */
        if (!vh_visit_planned(policy, rhythm, start, planned))
            continue;
        const double d = delay_d(&policy->late, what, planned);
        if (d <= LATEST_D)
            c->comes |= bit_of(planned + (int64_t)d);
    }
    return (c->comes & bit_of(day)) != 0;
}

bool vh_visit_due(const struct vh_policy *policy, const struct vh_rhythm *rhythm,
                  enum vh_visit what, int64_t start, int64_t day)
{
    struct vh_delays *known = policy->late.known;

    if (vh_entry_locked(policy, day))
        return false;
    return known ? is_coming(&known->of[what - VH_VISIT_LEAVES], policy, rhythm, what, start, day)
                 : comes_on(policy, rhythm, what, start, day);
}
