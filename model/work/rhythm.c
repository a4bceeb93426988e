#include "vh_policy.h"

#include "vh_date.h"

bool vh_rhythm_due(const struct vh_rhythm *r, int64_t start, int64_t day)
{
    if (r->by_weekday)
        return r->weekday[vh_date_weekday(day)];
    return r->every_d > 0 && day >= start && (day - start) % r->every_d == 0;
}

int64_t vh_rhythm_between_d(const struct vh_rhythm *r, int64_t start, int64_t day)
{
    enum { DAYS_PER_WEEK = 7 };
    const int64_t far = r->by_weekday ? DAYS_PER_WEEK : r->every_d;
    int64_t before = day, after = day + 1;

    while (before > day - far && !vh_rhythm_due(r, start, before))
        before--;
    while (after < day + far && !vh_rhythm_due(r, start, after))
        after++;
    if (!vh_rhythm_due(r, start, before) || !vh_rhythm_due(r, start, after))
        return -1;
    return after - before;
}
