#include "vh_market_days.h"

#include <stdlib.h>

#include "scenario_parts.h"
#include "vh_date.h"

bool vh_house_stands(const struct vh_house *h, int64_t day, int64_t after_d)
{
    for (size_t i = 0; i < h->plantings; i++) {
        const struct vh_planting *p = &h->planting[i];
        if (vh_planting_is_dated(p) && day >= p->set_out && day <= p->pull_out + after_d)
            return true;
    }
    return false;
}

/* Is it the first market day after a pull-out, and near enough? before: the last one listed. */
static bool takes_last(const struct vh_house *h, int64_t day, int64_t before)
{
    for (size_t i = 0; i < h->plantings; i++) {
        const struct vh_planting *p = &h->planting[i];
        if (vh_planting_is_dated(p) && before < p->pull_out && day > p->pull_out &&
            day <= p->pull_out + h->market.sold_after_d)
            return true;
    }
    return false;
}

static bool is_dated(const struct vh_market_open *open, int64_t day)
{
    for (size_t i = 0; i < open->dates; i++)
        if (open->date[i] == day)
            return true;
    return false;
}

int64_t *vh_market_days_of(const struct vh_house *h, size_t *days)
{
    const struct vh_market_open *open = &h->market.open;
    const int64_t last = h->last_day + h->market.sold_after_d;
    int64_t *listed = calloc((size_t)(last - h->first_day + 1), sizeof *listed);
    size_t n = 0;

    for (int64_t day = h->first_day; listed && day <= last; day++) {
        const int64_t before = n > 0 ? listed[n - 1] : INT64_MIN;
        const bool weekly =
            open->weekday[vh_date_weekday(day)] && day >= open->from && day <= open->until;
        if ((weekly && (vh_house_stands(h, day, 0) || takes_last(h, day, before))) ||
            (is_dated(open, day) && vh_house_stands(h, day, h->market.sold_after_d)))
            listed[n++] = day;
    }
    *days = n;
    return listed;
}
