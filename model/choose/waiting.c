/* What a week of waiting costs: each task of the coming seven days done seven days later, in the
 * same futures. */
#include <stdlib.h>
#include <string.h>

#include "vh_ensemble.h"
#include "vh_math.h"
#include "vh_name_index.h"
#include "vh_result.h"
#include "vh_work_series_of.h"
#include "waiting_parts.h"

struct waiting {
    const struct vh_scenario *s;
    struct vh_due_week *due; /* [planting] */
};

/* ---- what is due ---- */

static void note_task(const struct vh_planned *t, int64_t today, struct vh_due_week *due)
{
    if (t->date < today || t->date >= today + VH_WAITING_D || t->done || t->blocked || t->proposed)
        return;
    if (!due->task[t->task] || t->date < due->first[t->task])
        due->first[t->task] = t->date;
    due->task[t->task] = true;
    if (t->task == VH_TASK_THIN && t->truss > 0 && due->trusses < VH_WAITING_TRUSSES_MOST)
        due->truss[due->trusses++] = t->truss;
}

static enum vh_status look_at(const struct waiting *w, const struct vh_member_view *view, size_t k)
{
    const double light = view->light_factor * view->factors[k].plant.light;
    struct vh_due_week *due = &w->due[k];
    struct vh_work_series series;
    struct vh_lower_plan lowering = {0};
    struct vh_task_plan plan = {0};
    const struct vh_task_request request = {&series, &lowering, &w->s->parameters->work,
                                            &w->s->house.labour, VH_TOP_NOT};
    enum vh_status status = vh_work_series_of(view->house, &view->season[k], light, &series);

    if (status != VH_OK)
        return status;
    status = vh_lower_plan(&series, &lowering);
    if (status == VH_OK)
        status = vh_task_plan(&request, &plan);
    for (size_t i = 0; status == VH_OK && i < plan.tasks; i++)
        note_task(&plan.task[i], w->s->house.today, due);
    for (int task = 0; status == VH_OK && task < VH_TASKS; task++) {
        due->cost[task] = VH_UNKNOWN;
        if (due->task[task])
            vh_waiting_words(&series, &lowering, (enum vh_task)task, due->first[task],
                             due->late[task]);
    }
    vh_task_plan_clear(&plan);
    vh_lower_plan_clear(&lowering);
    vh_work_series_clear(&series);
    return status;
}

static enum vh_status look(void *context, const struct vh_member_view *view)
{
    struct waiting *w = context;
    enum vh_status status = VH_OK;

    for (size_t k = 0; k < view->house->plantings && status == VH_OK; k++)
        status = look_at(w, view, k);
    return status;
}

static enum vh_status find_due(struct waiting *w, struct vh_messages *m)
{
    const struct vh_ensemble_request e = {
        .scenario = w->s, .members = 1, .threads = 1, .mean_run = true, .seen = look, .context = w};
    return vh_ensemble_run(&e, m);
}

/* ---- into the table ---- */

/* The rows of tasks.csv that lie in the week; what is done waits no longer. */
struct week_rows {
    struct vh_table *table;
    size_t *row, rows;
    size_t *planting; /* [rows] of the house; VH_NAME_NONE: of none */
    int *task;        /* [rows] */
};

static void week_rows_clear(struct week_rows *w)
{
    free(w->row);
    free(w->planting);
    free(w->task);
}

static enum vh_status find_week(struct week_rows *w, struct vh_table *t, const struct vh_house *h)
{
    const struct vh_named_list plantings = {h->planting, sizeof *h->planting};
    const size_t date = (size_t)vh_table_find(t, "date"), done = (size_t)vh_table_find(t, "done"),
                 n = vh_table_rows(t) + 1;
    struct vh_name_index at;

    *w = (struct week_rows){t, malloc(n * sizeof *w->row), 0, malloc(n * sizeof *w->planting),
                            malloc(n * sizeof *w->task)};
    const bool has_room =
        vh_name_index_of(&at, plantings, h->plantings) && w->row && w->planting && w->task;
    for (size_t i = 0; has_room && i < vh_table_rows(t); i++) {
        const double day = vh_table_number(t, i, date);
        if (!(day >= (double)h->today && day < (double)(h->today + VH_WAITING_D)) ||
            vh_table_number(t, i, done) > 0.0)
            continue;
        w->row[w->rows] = i;
        w->planting[w->rows] = vh_name_index_find(&at, plantings, vh_cell_text(t, i, "planting"));
        w->task[w->rows++] = vh_task_of_name(vh_cell_text(t, i, "task"));
    }
    vh_name_index_clear(&at);
    return has_room ? VH_OK : VH_NO_MEMORY;
}

/* Several rows of a task in the week (trusses to be thinned, visits) are put off together, so each
 * has its share of the cost; what is not told in numbers is told in words. */
static enum vh_status tell(const struct waiting *w, const struct week_rows *rows)
{
    const size_t cost = (size_t)vh_table_find(rows->table, "cost_of_waiting"),
                 late = (size_t)vh_table_find(rows->table, "if_late");
    size_t(*shares)[VH_TASKS] = calloc(w->s->house.plantings + 1, sizeof *shares);
    enum vh_status status = shares ? VH_OK : VH_NO_MEMORY;

    for (size_t i = 0; shares && i < rows->rows; i++)
        if (rows->planting[i] != VH_NAME_NONE)
            shares[rows->planting[i]][rows->task[i]]++;
    for (size_t i = 0; i < rows->rows && status == VH_OK; i++) {
        if (rows->planting[i] == VH_NAME_NONE)
            continue;
        const struct vh_due_week *due = &w->due[rows->planting[i]];
        const int task = rows->task[i];
        if (due->late[task][0])
            status = vh_table_put_text(rows->table, rows->row[i], late, due->late[task]);
        if (!isnan(due->cost[task]))
            vh_table_put_number(rows->table, rows->row[i], cost,
                                due->cost[task] / (double)shares[rows->planting[i]][task]);
    }
    free(shares);
    return status;
}

enum vh_status vh_waiting_costs(const struct vh_scenario *s, struct vh_result *r,
                                struct vh_messages *m)
{
    struct waiting w = {.s = s, .due = calloc(s->house.plantings + 1, sizeof *w.due)};
    struct week_rows rows = {0};
    enum vh_status status = w.due ? VH_OK : VH_NO_MEMORY;

    if (status == VH_OK)
        status = vh_topping_judge(s, r, m);
    if (status == VH_OK)
        status = find_due(&w, m);
    if (status == VH_OK)
        status = vh_waiting_reckon(s, w.due, m);
    if (status == VH_OK)
        status = find_week(&rows, r->table[VH_TABLE_TASKS], &s->house);
    if (status == VH_OK)
        status = tell(&w, &rows);
    week_rows_clear(&rows);
    free(w.due);
    return status;
}
