#include "vh_policy.h"

#include "vh_date.h"

bool vh_rhythm_due(const struct vh_rhythm *r, int64_t start, int64_t day)
{
    if (r->by_weekday)
        return r->weekday[vh_date_weekday(day)];
    return r->every_d > 0 && day >= start && (day - start) % r->every_d == 0;
}
