#include "vh_policy.h"

#include "vh_date.h"

bool vh_rhythm_due(const struct vh_rhythm *r, int64_t start, int64_t day)
{
    if (r->before && day < r->from)
        return vh_rhythm_due(r->before, start, day);
    if (r->also && day == r->also)
        return true;
    day -= r->late_d;
    if (r->by_weekday)
        return r->weekday[vh_date_weekday(day)];
    return r->every_d > 0 && day >= start && (day - start) % r->every_d == 0;
}

int64_t vh_rhythm_last_due(const struct vh_rhythm *r, int64_t start, int64_t day, int64_t oldest)
{
    const bool is_own = !r->before || r->also >= r->from; /* else its day is the other one's */
    const int64_t also = r->also && r->also <= day && is_own ? r->also : oldest - 1;

    if (r->before && oldest < r->from) {
        while (day >= oldest && !vh_rhythm_due(r, start, day))
            day--;
    } else if (r->by_weekday) {
        for (int d = vh_date_weekday(day - r->late_d); day >= oldest && !r->weekday[d]; day--)
            d = d > 0 ? d - 1 : VH_DAYS_PER_WEEK - 1;
    } else {
        const int64_t since = day - r->late_d - start;
        day = r->every_d > 0 && since >= 0 ? day - since % r->every_d : oldest - 1;
    }
    day = day > also ? day : also;
    return day < oldest ? oldest - 1 : day;
}

/* Days within which it comes again. */
static int64_t longest_d(const struct vh_rhythm *r)
{
    const int64_t own = r->by_weekday ? VH_DAYS_PER_WEEK : r->every_d;
    const int64_t before = r->before ? longest_d(r->before) : 0;

    return own + before; /* a pause may lie between the two */
}

int64_t vh_rhythm_between_d(const struct vh_rhythm *r, int64_t start, int64_t day)
{
    const int64_t far = longest_d(r);
    int64_t before = day, after = day + 1;

    while (before > day - far && !vh_rhythm_due(r, start, before))
        before--;
    while (after < day + far && !vh_rhythm_due(r, start, after))
        after++;
    if (!vh_rhythm_due(r, start, before) || !vh_rhythm_due(r, start, after))
        return -1;
    return after - before;
}
