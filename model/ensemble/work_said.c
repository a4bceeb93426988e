#include "vh_work_said.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "vh_hours.h"
#include "vh_math.h"
#include "vh_table.h"

#define MIN_PER_H 60.0

enum { DATE = 0 }; /* column of the tasks and of the warnings */

static bool is_kept(const struct vh_table *t, size_t row)
{
    return !isnan(vh_table_number(t, row, DATE));
}

static void take_out(struct vh_table *t, size_t row)
{
    vh_table_put_number(t, row, DATE, VH_UNKNOWN);
}

static bool has_monday(const struct vh_table *hours, size_t row)
{
    return !isnan(vh_cell_number(hours, row, "monday"));
}

static bool is_round(enum vh_task task)
{
    return task == VH_TASK_WALK || task == VH_TASK_CLEAN;
}

/* A pick that few futures have took its walk with it. */
static enum vh_status drop_lonely_rounds(struct vh_table *t, const struct vh_house *h)
{
    const size_t days = (size_t)(h->last_day - h->first_day) + 1,
                 task = (size_t)vh_table_find(t, "task");
    bool *has_work = calloc(days, sizeof *has_work);

    if (!has_work)
        return VH_NO_MEMORY;
    for (int rounds = 0; rounds <= 1; rounds++)
        for (size_t i = 0; i < vh_table_rows(t); i++) {
            const double day = vh_table_number(t, i, DATE) - (double)h->first_day;
            if (!(day >= 0.0 && day < (double)days) ||
                is_round((enum vh_task)vh_task_of_name(vh_table_text(t, i, task))) != (rounds == 1))
                continue;
            if (rounds == 0)
                has_work[(size_t)day] = true;
            else if (!has_work[(size_t)day])
                take_out(t, i);
        }
    free(has_work);
    vh_table_keep_rows(t, is_kept);
    return VH_OK;
}

static void add_up(struct vh_hours *h, const struct vh_table *tasks)
{
    const size_t date = (size_t)vh_table_find(tasks, "date"),
                 task = (size_t)vh_table_find(tasks, "task"),
                 minutes = (size_t)vh_table_find(tasks, "minutes");

    for (size_t i = 0; i < vh_table_rows(tasks); i++) {
        struct vh_hours_week *week = vh_hours_week_of(h, (int64_t)vh_table_number(tasks, i, date));
        const int of = vh_task_of_name(vh_table_text(tasks, i, task));
        if (week && of >= 0)
            week->hours[of] += vh_table_number(tasks, i, minutes) / MIN_PER_H;
    }
}

/* Rows of her other work keep theirs. */
static void put_hours(struct vh_table *t, struct vh_hours *h)
{
    const size_t monday = (size_t)vh_table_find(t, "monday"),
                 task = (size_t)vh_table_find(t, "task"), hours = (size_t)vh_table_find(t, "hours"),
                 left = (size_t)vh_table_find(t, "hours_left");

    for (size_t i = 0; i < vh_table_rows(t); i++) {
        const struct vh_hours_week *week =
            vh_hours_week_of(h, (int64_t)vh_table_number(t, i, monday));
        const int of = vh_task_of_name(vh_table_text(t, i, task));
        if (!week)
            continue;
        vh_table_put_number(t, i, left, week->left_h);
        if (of < 0)
            continue;
        vh_table_put_number(t, i, hours, week->hours[of]);
        if (!(week->hours[of] > 0.0)) /* the plan has it in another week */
            vh_table_put_number(t, i, monday, VH_UNKNOWN);
    }
    vh_table_keep_rows(t, has_monday);
}

enum vh_status vh_work_said(const struct vh_scenario *s, struct vh_result *r)
{
    struct vh_table *tasks = r->table[VH_TABLE_TASKS], *warnings = r->table[VH_TABLE_WARNINGS];
    const size_t what = (size_t)vh_table_find(warnings, "what");
    struct vh_hours hours;
    enum vh_status status = vh_hours_init(&hours, s->house.first_day, s->house.last_day);

    if (status == VH_OK)
        status = drop_lonely_rounds(tasks, &s->house);
    if (status == VH_OK) {
        add_up(&hours, tasks);
        vh_hours_finish(&hours, &s->house.labour);
        put_hours(r->table[VH_TABLE_HOURS], &hours);
        for (size_t i = 0; i < vh_table_rows(warnings); i++)
            if (vh_result_is_of_hours(vh_table_text(warnings, i, what)))
                take_out(warnings, i);
        vh_table_keep_rows(warnings, is_kept);
        status = vh_result_warn_hours(warnings, &hours, &s->house.labour, &s->parameters->work,
                                      s->house.today);
    }
    vh_hours_clear(&hours);
    return status;
}
