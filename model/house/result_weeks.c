/* What the weeks are called: their names are rows' names in three tables of every future. */
#include "vh_result.h"

#include <stdlib.h>

enum { DAYS_PER_WEEK = 7 };

enum vh_status vh_weeks_init(struct vh_weeks *w, int64_t first_day, int64_t last_day)
{
    const int64_t monday = vh_date_monday(first_day);
    const size_t weeks = (size_t)((last_day - monday) / DAYS_PER_WEEK) + 1;

    *w = (struct vh_weeks){
        .monday = monday, .weeks = weeks, .name = malloc(weeks * sizeof *w->name)};
    if (!w->name)
        return VH_NO_MEMORY;
    for (size_t i = 0; i < weeks; i++)
        vh_date_week_format(monday + (int64_t)i * DAYS_PER_WEEK, w->name[i]);
    return VH_OK;
}

void vh_weeks_clear(struct vh_weeks *w)
{
    free(w->name);
    *w = (struct vh_weeks){0};
}

const char *vh_result_week(struct vh_table *t, const struct vh_run *run, int64_t monday)
{
    const struct vh_weeks *w = run->weeks;
    const int64_t day = w ? monday - w->monday : -1;
    char text[VH_WEEK_TEXT];

    if (day >= 0 && (size_t)(day / DAYS_PER_WEEK) < w->weeks)
        return w->name[day / DAYS_PER_WEEK];
    vh_date_week_format(monday, text);
    return vh_table_keep_text(t, text);
}
