#include "vh_stray.h"

#include "vh_math.h"
#include "vh_random.h"

#define DAYS_PER_WEEK 7.0

/* What a random number is for; never renumbered. */
enum purpose { STRAY_DAY = 300, STRAY_FLUSH = 301 };

double vh_stray_covariance(double sd, double days, double apart_d)
{
    return sd * sd * vh_exp(-fabs(apart_d) / days);
}

/* e as a factor with mean 1, so that a week of many picks is not larger than one of few. */
static double flush(const struct vh_stray *p, int64_t day, double days)
{
    const double sd = p->flush * sqrt(DAYS_PER_WEEK / vh_max(days, 1.0));

    if (p->is_mean)
        return 1.0;
    return vh_exp(sd * vh_normal(p->draw, p->member, (uint32_t)day, STRAY_FLUSH, p->planting) -
                  sd * sd / 2.0);
}

void vh_stray_apply(const struct vh_stray *p, double now, int64_t today, struct vh_season *s)
{
    const double keeps = vh_exp(-1.0 / p->days), fresh = p->sd * sqrt(1.0 - keeps * keeps);
    double a = now, since = DAYS_PER_WEEK, z[VH_NORMALS];
    size_t from = 0, until = 0; /* the days of those */

    for (size_t d = 0; d < s->days; d++, since++) {
        const int64_t day = s->first_day + (int64_t)d;
        struct vh_picked *picked = &s->day[d].picked;
        if (day > today && d >= until && !p->is_mean) {
            vh_normals(p->draw, p->member, (uint32_t)day, STRAY_DAY, p->planting, z);
            from = d;
            until = d + VH_NORMALS;
        }
        if (day > today)
            a = keeps * a + (p->is_mean ? 0.0 : fresh * z[d - from]);
        if (!s->day[d].pick_day)
            continue;
        if (day > today) {
            const double factor = vh_exp(a) * flush(p, day, since);
            picked->fruits *= factor;
            picked->dm_g *= factor;
            picked->fresh_g *= factor;
        }
        since = 0.0;
    }
}

void vh_stray_mean(double days, double now, int64_t today, const struct vh_season *s,
                   double *factor)
{
    const double keeps = vh_exp(-1.0 / days);
    double a = now;

    for (size_t d = 0; d < s->days; d++) {
        const bool is_to_come = s->first_day + (int64_t)d > today;
        a *= is_to_come ? keeps : 1.0;
        factor[d] = is_to_come ? vh_exp(a) : 1.0;
    }
}
