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
    for (size_t i = 0; i < VH_DELAYS; i++)
        known->at[i].planned = INT64_MIN;
}

/* Geometric with the wanted mean: floor(log u / log q), q = mean/(1 + mean). */
static double draw_delay_d(const struct vh_lateness *late, enum vh_visit what, int64_t planned)
{
    const double u =
        vh_uniform(late->draw, late->member, (uint32_t)planned, (uint32_t)what, late->row);

    return floor(vh_log(u) / log_q(late));
}

static double delay_d(const struct vh_lateness *late, enum vh_visit what, int64_t planned)
{
    if (!late->known)
        return draw_delay_d(late, what, planned);
    /* days that are looked back over, side by side for two kinds of visit */
    struct vh_delay *k = &late->known->at[((uint64_t)planned * 2 + (uint64_t)what) % VH_DELAYS];
    if (k->planned != planned || k->what != what)
        *k = (struct vh_delay){planned, what, draw_delay_d(late, what, planned)};
    return k->d;
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

bool vh_visit_due(const struct vh_policy *policy, const struct vh_rhythm *rhythm,
                  enum vh_visit what, int64_t start, int64_t day)
{
    const struct vh_lateness *late = &policy->late;

    if (vh_entry_locked(policy, day))
        return false;
    const int64_t oldest = day - LATEST_D;
    int64_t planned = last_planned(policy, rhythm, start, day, oldest);
    for (; planned >= oldest; planned = last_planned(policy, rhythm, start, planned - 1, oldest)) {
        const double d = vh_visit_may_be_late(late, planned) ? delay_d(late, what, planned) : 0.0;
        if (d == (double)(day - planned))
            return true;
    }
    return false;
}
