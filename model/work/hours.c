#include "vh_hours.h"

#include <math.h>
#include <stdlib.h>

#include "vh_date.h"

#define DAYS_PER_WEEK 7
#define MIN_PER_H 60.0

enum vh_status vh_hours_init(struct vh_hours *h, int64_t first_day, int64_t last_day)
{
    const int64_t first = vh_date_monday(first_day);
    const size_t weeks = (size_t)((vh_date_monday(last_day) - first) / DAYS_PER_WEEK) + 1;

    *h = (struct vh_hours){.week = calloc(weeks, sizeof *h->week), .weeks = weeks};
    if (!h->week)
        return VH_NO_MEMORY;
    for (size_t w = 0; w < weeks; w++)
        h->week[w].monday = first + DAYS_PER_WEEK * (int64_t)w;
    return VH_OK;
}

struct vh_hours_week *vh_hours_week_of(struct vh_hours *h, int64_t day)
{
    const int64_t d = day - h->week[0].monday;

    return d >= 0 && (size_t)(d / DAYS_PER_WEEK) < h->weeks ? &h->week[d / DAYS_PER_WEEK] : NULL;
}

void vh_hours_add(struct vh_hours *h, const struct vh_task_plan *plan)
{
    for (size_t i = 0; i < plan->tasks; i++) {
        const struct vh_planned *t = &plan->task[i];
        struct vh_hours_week *week = vh_hours_week_of(h, t->date);
        if (week)
            week->hours[t->task] += t->minutes / MIN_PER_H;
    }
}

double vh_hours_of(const struct vh_hours_week *week)
{
    double sum = 0.0;

    for (int task = 0; task < VH_TASKS; task++)
        sum += week->hours[task];
    return sum;
}

void vh_hours_finish(struct vh_hours *h, const struct vh_labour *labour)
{
    for (size_t w = 0; w < h->weeks; w++) {
        struct vh_hours_week *week = &h->week[w];
        week->left_h = labour->hours_per_week - vh_hours_of(week);
    }
}

void vh_hours_clear(struct vh_hours *h)
{
    free(h->week);
    *h = (struct vh_hours){0};
}
