#include "vh_topping.h"

#include <stdio.h>
#include <stdlib.h>

#include "vh_ensemble.h"
#include "vh_math.h"
#include "vh_table.h"
#include "vh_task_plan.h"
#include "vh_work_series_of.h"

struct topping {
    const struct vh_scenario *scenario;
    const int *last; /* [planting] of which the futures are sure */
    struct vh_table *tasks;
};

static void put(struct vh_table *t, const char *column, double value)
{
    const int at = vh_table_find(t, column);

    if (at >= 0)
        vh_table_set_number(t, (size_t)at, value);
}

/* The same in every future: mean and range of it. */
static void put_all(struct vh_table *t, const char *column, double value)
{
    static const char *const ending[] = {"", "_p10", "_p50", "_p90"};
    char name[VH_TASK_NOTE];

    for (size_t i = 0; i < sizeof ending / sizeof ending[0]; i++) {
        snprintf(name, sizeof name, "%s%s", column, ending[i]);
        put(t, name, value);
    }
}

static enum vh_status put_text(struct vh_table *t, const char *column, const char *text)
{
    return vh_table_set_text(t, (size_t)vh_table_find(t, column), text);
}

static enum vh_status add(struct vh_table *t, const struct vh_planned *top, const char *planting)
{
    if (vh_table_add_row(t) != VH_OK || put_text(t, "planting", planting) != VH_OK ||
        put_text(t, "task", vh_task_name(top->task)) != VH_OK ||
        put_text(t, "unit", top->unit) != VH_OK || put_text(t, "note", top->note) != VH_OK)
        return VH_NO_MEMORY;
    put(t, "date", (double)top->date);
    put_all(t, "count", top->count);
    put_all(t, "minutes", 0.0); /* nobody has decided it */
    put(t, "may_wait_d", top->may_wait_d);
    put(t, "done", 0.0);
    return VH_OK;
}

static enum vh_status propose(void *context, const struct vh_member_view *view)
{
    const struct topping *w = context;
    enum vh_status status = VH_OK;

    for (size_t k = 0; k < view->house->plantings && status == VH_OK; k++) {
        struct vh_work_series series;
        struct vh_planned top;
        status = vh_work_series_of(view->house, &view->season[k],
                                   view->light_factor * view->factors[k].plant.light, &series);
        if (status != VH_OK)
            return status;
        const struct vh_task_request request = {.series = &series,
                                                .book = &w->scenario->parameters->work,
                                                .top_above = w->last[k] ? w->last[k] : VH_TOP_NOT};
        if (vh_topping_proposed(&request, &top))
            status = add(w->tasks, &top, series.planting);
        vh_work_series_clear(&series);
    }
    return status;
}

static int rising(const void *one, const void *other)
{
    const int a = *(const int *)one, b = *(const int *)other;

    return (a > b) - (a < b);
}

/* The largest truss that so large a share of the futures ripens: theirs, sorted, at the rest. */
static int sure_last(const int *last, size_t members, size_t plantings, size_t k, double sure,
                     int *room)
{
    const double n = (double)members;

    for (size_t i = 0; i < members; i++)
        room[i] = last[i * plantings + k];
    qsort(room, members, sizeof *room, rising);
    return room[(size_t)vh_min(n - 1.0, floor(n - sure * n))];
}

enum vh_status vh_topping_propose(const struct vh_scenario *s, const int *last, size_t members,
                                  struct vh_result *r, struct vh_messages *m)
{
    const size_t plantings = s->house.plantings;
    int *room = malloc((members + plantings + 1) * sizeof *room),
        *sure = room ? room + members : NULL;
    struct topping w = {s, sure, r->table[VH_TABLE_TASKS]};
    const struct vh_ensemble_request mean = {.scenario = s,
                                             .members = 1,
                                             .threads = 1,
                                             .mean_run = true,
                                             .seen = propose,
                                             .context = &w};

    if (!room)
        return VH_NO_MEMORY;
    for (size_t k = 0; k < plantings; k++)
        sure[k] = sure_last(last, members, plantings, k, s->parameters->work.top_sure, room);
    const enum vh_status status = vh_ensemble_run(&mean, m);
    free(room);
    return status;
}
