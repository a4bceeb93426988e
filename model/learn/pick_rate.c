#include "vh_pick_rate.h"

#include <math.h>
#include <stdlib.h>

#include "vh_math.h"

enum vh_status vh_pick_rate_init(struct vh_pick_rate *r, int64_t first_day, int64_t last_day)
{
    *r = (struct vh_pick_rate){.first_day = first_day, .days = (size_t)(last_day - first_day + 1)};
    r->kg = calloc(r->days + 1, sizeof *r->kg);
    r->told = calloc(r->days + 1, sizeof *r->told);
    if (!r->kg || !r->told)
        return VH_NO_MEMORY;
    for (size_t d = 0; d < r->days; d++)
        r->kg[d] = VH_UNKNOWN;
    return VH_OK;
}

void vh_pick_rate_clear(struct vh_pick_rate *r)
{
    free(r->kg);
    free(r->told);
    *r = (struct vh_pick_rate){0};
}

void vh_pick_rate_add(struct vh_pick_rate *r, int64_t from, int64_t until, double kg)
{
    const double days = (double)(until - from + 1);

    for (int64_t day = from; day <= until; day++) {
        const int64_t at = day - r->first_day;
        if (at < 0 || at >= (int64_t)r->days)
            continue;
        r->kg[at] = kg / days;
        r->told[at] = until;
    }
}

enum vh_status vh_pick_rate_of(const struct vh_records *records, size_t planting, int64_t set_out,
                               int64_t last_day, struct vh_pick_rate *out)
{
    struct vh_record_picks *entry = NULL;
    size_t n = 0;
    enum vh_status status = vh_pick_rate_init(out, set_out, last_day);

    if (status == VH_OK)
        status = vh_record_picks_of(records, planting, set_out, &entry, &n);
    for (size_t i = 0; i < n; i++)
        if (!entry[i].kg_doubt && !entry[i].gap && !isnan(entry[i].kg))
            vh_pick_rate_add(out, entry[i].from, entry[i].until, entry[i].kg);
    free(entry);
    return status;
}

double vh_pick_rate_kg(const struct vh_pick_rate *r, int64_t from, int64_t until, int64_t by)
{
    double sum = 0.0;

    for (int64_t day = from; day <= until; day++) {
        const int64_t at = day - r->first_day;
        if (at < 0 || at >= (int64_t)r->days || isnan(r->kg[at]) || r->told[at] > by)
            return VH_UNKNOWN;
        sum += r->kg[at];
    }
    return sum;
}

int64_t vh_pick_rate_last(const struct vh_pick_rate *r, int64_t by)
{
    for (size_t d = r->days; d-- > 0;)
        if (!isnan(r->kg[d]) && r->told[d] <= by)
            return r->first_day + (int64_t)d;
    return INT64_MIN;
}
