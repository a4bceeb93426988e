#include "vh_harvest.h"

#include <math.h>
#include <stdlib.h>

#define G_PER_KG 1000.0

/* Days of the season from `from` to `until`; none: first > last. */
struct span {
    int64_t first, last;
};

static struct span span_of(const struct vh_season *s, int64_t from, int64_t until)
{
    const int64_t end = (int64_t)s->days - 1;
    struct span span = {from - s->first_day, until - s->first_day};

    span.first = span.first < 0 ? 0 : span.first;
    span.last = span.last > end ? end : span.last;
    return span;
}

/* At the usual mass of a fruit. */
static struct vh_amount of_usual_fruit(const struct vh_amount *p, double usual_g)
{
    const bool weighed = p->kg > 0.0, counted = p->fruits > 0.0;

    if (!(usual_g > 0.0) || (!weighed && !counted))
        return (struct vh_amount){0.0, 0.0};
    return (struct vh_amount){counted ? p->fruits : p->kg * G_PER_KG / usual_g,
                              weighed ? p->kg : p->fruits * usual_g / G_PER_KG};
}

/* Of an interval what is not doubted. */
static void take(const struct vh_record_picks *entry, const struct vh_season *s,
                 struct vh_harvest *h)
{
    const struct span span = span_of(s, entry->stands_from, entry->until);
    const struct vh_amount p = {.fruits = entry->fruits_doubt ? VH_UNKNOWN : entry->fruits,
                                .kg = entry->kg_doubt ? VH_UNKNOWN : entry->kg};
    struct vh_amount model = {0.0, 0.0};

    if (isnan(p.kg) && isnan(p.fruits))
        return;
    for (int64_t d = span.first; d <= span.last; d++) {
        h->day[d].written = true;
        model.fruits += h->day[d].picked.fruits;
        model.kg += h->day[d].picked.kg;
    }
    if (!(model.kg > 0.0) || !(model.fruits > 0.0)) {
        if (span.first <= span.last)
            h->day[span.last].picked = of_usual_fruit(&p, s->planting->usual_fruit_g);
        return;
    }
    const double counted = p.fruits > 0.0 ? p.fruits / model.fruits : 0.0;
    const double kg = p.kg > 0.0 ? p.kg / model.kg : counted;
    const double fruits = counted > 0.0 ? counted : kg;
    for (int64_t d = span.first; d <= span.last; d++) {
        h->day[d].picked.kg *= kg;
        h->day[d].picked.fruits *= fruits;
    }
}

static enum vh_status take_records(const struct vh_house *house, size_t planting,
                                   const struct vh_season *s, struct vh_harvest *h)
{
    struct vh_record_picks *picks = NULL;
    size_t n = 0;

    if (!house->records.read)
        return VH_OK;
    const enum vh_status status =
        vh_record_picks_of(&house->records, planting, s->planting->set_out, &picks, &n);
    for (size_t i = 0; status == VH_OK && i < n; i++)
        take(&picks[i], s, h);
    free(picks);
    return status;
}

enum vh_status vh_harvest_of(const struct vh_house *house, size_t planting,
                             const struct vh_season *s, struct vh_harvest *out)
{
    *out = (struct vh_harvest){.day = malloc((s->days + 1) * sizeof *out->day), .days = s->days};
    if (!out->day)
        return VH_NO_MEMORY;
    for (size_t d = 0; d < s->days; d++) {
        const struct vh_season_day *day = &s->day[d];
        const struct vh_amount model = {day->picked.fruits * day->stems,
                                        day->picked.fresh_g * day->stems / G_PER_KG};
        out->day[d] = (struct vh_harvest_day){model, false};
    }
    return take_records(house, planting, s, out);
}

void vh_harvest_clear(struct vh_harvest *h)
{
    free(h->day);
    *h = (struct vh_harvest){0};
}

struct vh_harvest *vh_harvests_of(const struct vh_house *house, const struct vh_season *season)
{
    struct vh_harvest *h = calloc(house->plantings + 1, sizeof *h);
    enum vh_status status = h ? VH_OK : VH_NO_MEMORY;

    for (size_t k = 0; k < house->plantings && status == VH_OK; k++)
        status = vh_harvest_of(house, k, &season[k], &h[k]);
    if (status == VH_OK)
        return h;
    vh_harvests_free(h, house->plantings);
    return NULL;
}

void vh_harvests_free(struct vh_harvest *h, size_t plantings)
{
    for (size_t k = 0; h && k < plantings; k++)
        vh_harvest_clear(&h[k]);
    free(h);
}
