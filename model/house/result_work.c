/* Rows of tasks, hours and supplies, and the warnings of work. */
#include "vh_result.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "vh_date.h"
#include "vh_math.h"

#define MIN_PER_H 60.0
#define DAYS_PER_WEEK 7
#define HAS_OTHER VH_TASKS /* the rest of her week stands behind the tasks */

enum vh_status vh_result_add_tasks(struct vh_table *t, const struct vh_task_plan *plan,
                                   const char *planting)
{
    for (size_t i = 0; i < plan->tasks; i++) {
        const struct vh_planned *p = &plan->task[i];
        if (vh_table_add_row(t) != VH_OK || vh_table_set_text(t, 1, planting) != VH_OK ||
            vh_table_set_text(t, 2, vh_task_name(p->task)) != VH_OK ||
            vh_table_set_text(t, 4, p->unit) != VH_OK || vh_table_set_text(t, 7, p->note) != VH_OK)
            return VH_NO_MEMORY;
        vh_table_set_number(t, 0, (double)p->date);
        vh_table_set_number(t, 3, p->count);
        vh_table_set_number(t, 5, p->minutes);
        vh_table_set_number(t, 6, p->may_wait_d);
    }
    return VH_OK;
}

enum vh_status vh_work_hours_init(struct vh_work_hours *h, int64_t first_day, int64_t last_day)
{
    const int64_t first = first_day - vh_date_weekday(first_day);

    *h = (struct vh_work_hours){.first_monday = first,
                                .weeks = (size_t)((last_day - first) / DAYS_PER_WEEK) + 1};
    h->minutes = calloc(h->weeks * VH_TASKS, sizeof *h->minutes);
    return h->minutes ? VH_OK : VH_NO_MEMORY;
}

void vh_work_hours_clear(struct vh_work_hours *h)
{
    free(h->minutes);
    *h = (struct vh_work_hours){0};
}

void vh_work_hours_add(struct vh_work_hours *h, const struct vh_task_plan *plan)
{
    for (size_t i = 0; i < plan->tasks; i++) {
        const int64_t week = (plan->task[i].date - h->first_monday) / DAYS_PER_WEEK;
        if (week >= 0 && (size_t)week < h->weeks)
            h->minutes[(size_t)week * VH_TASKS + plan->task[i].task] += plan->task[i].minutes;
    }
}

static enum vh_status add_hours_row(struct vh_table *t, int64_t monday, const char *task,
                                    double hours, double left)
{
    char text[16];
    int year, number;

    vh_date_iso_week(monday, &year, &number);
    snprintf(text, sizeof text, "%d-W%02d", year, number);
    if (vh_table_add_row(t) != VH_OK || vh_table_set_text(t, 0, text) != VH_OK ||
        vh_table_set_text(t, 2, task) != VH_OK)
        return VH_NO_MEMORY;
    vh_table_set_number(t, 1, (double)monday);
    vh_table_set_number(t, 3, hours);
    vh_table_set_number(t, 4, left);
    return VH_OK;
}

static double week_hours(const struct vh_work_hours *h, size_t week)
{
    double sum = 0.0;

    for (int k = 0; k < VH_TASKS; k++)
        sum += h->minutes[week * VH_TASKS + (size_t)k];
    return sum / MIN_PER_H;
}

static double other_hours(const struct vh_labour *labour)
{
    double sum = 0.0;

    for (size_t i = 0; i < labour->others; i++)
        sum += labour->other[i].hours_per_week;
    return sum;
}

/* Her hours are for the vines; the rest of her week is listed apart (interface.md section 2). */
enum vh_status vh_result_add_hours(struct vh_table *t, const struct vh_work_hours *h,
                                   const struct vh_labour *labour)
{
    enum vh_status status = VH_OK;

    for (size_t w = 0; w < h->weeks; w++) {
        const int64_t monday = h->first_monday + DAYS_PER_WEEK * (int64_t)w;
        const double left = labour->hours_per_week - week_hours(h, w);
        for (int k = 0; k < VH_TASKS && status == VH_OK; k++) {
            const double minutes = h->minutes[w * VH_TASKS + (size_t)k];
            if (minutes > 0.0)
                status = add_hours_row(t, monday, vh_task_name((enum vh_task)k),
                                       minutes / MIN_PER_H, left);
        }
        for (size_t i = 0; i < labour->others && status == VH_OK; i++)
            status = add_hours_row(t, monday, labour->other[i].what,
                                   labour->other[i].hours_per_week, left);
    }
    return status;
}

enum vh_status vh_result_add_supplies(struct vh_table *t, const struct vh_supply_plan *plan)
{
    for (size_t w = 0; w < plan->weeks; w++)
        for (int item = 0; item < VH_SUPPLIES; item++) {
            const struct vh_supply_week *week = &plan->week[w];
            char text[16];
            int year, number;
            if (week->needed[item] <= 0.0 && isnan(week->stock_left[item]))
                continue;
            vh_date_iso_week(week->monday, &year, &number);
            snprintf(text, sizeof text, "%d-W%02d", year, number);
            if (vh_table_add_row(t) != VH_OK || vh_table_set_text(t, 0, text) != VH_OK ||
                vh_table_set_text(t, 2, vh_supply_name((enum vh_supply)item)) != VH_OK)
                return VH_NO_MEMORY;
            vh_table_set_number(t, 1, (double)week->monday);
            vh_table_set_number(t, 3, week->needed[item]);
            vh_table_set_number(t, 4, week->stock_left[item]);
            if (plan->runs_out[item] == INT64_MAX)
                continue;
            vh_table_set_number(t, 5, (double)plan->runs_out[item]);
            vh_table_set_number(t, 6, (double)plan->order_by[item]);
        }
    return VH_OK;
}

/* ---- warnings ---- */

/* Weeks to come with more work than hours: said for the first of a run. */
enum vh_status vh_result_warn_hours(struct vh_table *t, const struct vh_work_hours *h,
                                    const struct vh_labour *labour, int64_t today)
{
    bool short_before = false;

    for (size_t w = 0; w < h->weeks; w++) {
        const int64_t monday = h->first_monday + DAYS_PER_WEEK * (int64_t)w;
        const double hours = week_hours(h, w), over = hours - labour->hours_per_week;
        char what[96], why[128];
        const bool is_short = over > 0.0 && monday + DAYS_PER_WEEK > today;
        if (is_short && !short_before) {
            snprintf(what, sizeof what, "the vines ask %.1f h a week, you have %.1f", hours,
                     labour->hours_per_week);
            snprintf(why, sizeof why,
                     "all tasks with their walking; the rest of your week (%.1f h) is not counted",
                     other_hours(labour));
            if (vh_result_warn(t, monday, "", what, why,
                               "do first what cannot wait; the list is in that order",
                               monday < today ? today : monday) != VH_OK)
                return VH_NO_MEMORY;
        }
        short_before = is_short;
    }
    return VH_OK;
}

enum vh_status vh_result_warn_supplies(struct vh_table *t, const struct vh_supply_plan *plan)
{
    for (int item = 0; item < VH_SUPPLIES; item++) {
        char what[64], why[64], on[11];
        if (plan->runs_out[item] == INT64_MAX)
            continue;
        vh_date_format(plan->runs_out[item], on);
        snprintf(what, sizeof what, "the %s run out", vh_supply_name((enum vh_supply)item));
        snprintf(why, sizeof why, "the stock is used up on %s", on);
        if (vh_result_warn(t, plan->runs_out[item], "", what, why,
                           "order before; a crop without them topples in a week",
                           plan->order_by[item]) != VH_OK)
            return VH_NO_MEMORY;
    }
    return VH_OK;
}

/* Nothing written down for long: what is assumed. */
enum vh_status vh_result_warn_silence(struct vh_table *t, const struct vh_work_series *s,
                                      const struct vh_work_params *book, bool has_records)
{
    char why[96], last[11];
    const bool any = s->done && s->done->any;
    const int64_t from = any ? s->done->last_day : s->first_day;

    if (!has_records || s->today < s->first_day || s->today >= s->first_day + (int64_t)s->days ||
        (double)(s->today - from) <= book->silent_d)
        return VH_OK;
    vh_date_format(from, last);
    if (any)
        snprintf(why, sizeof why, "the last entry is of %s", last);
    else
        snprintf(why, sizeof why, "there is no entry for it yet");
    return vh_result_warn(t, s->today, s->planting, "nothing was written down for a while", why,
                          "all work is taken as done as planned; note what was not: done_<task> 0",
                          s->today);
}
