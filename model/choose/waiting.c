/* What a week of waiting costs: each task of the coming seven days done seven days later, in the
 * same futures. */
#include <stdlib.h>
#include <string.h>

#include "compare_parts.h"
#include "vh_due.h"
#include "vh_math.h"
#include "vh_result.h"
#include "vh_task_plan.h"
#include "vh_waiting_words.h"
#include "vh_work_series_of.h"

enum { WEEK_D = 7, MEMBERS_MOST = 16, TRUSSES_MOST = 8 };

/* What is due in a planting within the week. */
struct due {
    bool task[VH_TASKS];
    int64_t first[VH_TASKS]; /* its first day */
    char late[VH_TASKS][VH_LATE_ROOM];
    int truss[TRUSSES_MOST]; /* to be thinned */
    size_t trusses;
};

/* A rhythm with a pause of a week, after which the visits of that week are made. */
struct pause {
    struct vh_rhythm none, later;
};

struct waiting {
    const struct vh_scenario *s;
    struct vh_compare_request q;
    struct due *due; /* [planting] */
    struct vh_parts plan;
};

/* ---- what is due ---- */

static void note_task(const struct vh_planned *t, int64_t today, struct due *due)
{
    if (t->date < today || t->date >= today + WEEK_D || t->done || t->blocked || t->proposed)
        return;
    if (!due->task[t->task] || t->date < due->first[t->task])
        due->first[t->task] = t->date;
    due->task[t->task] = true;
    if (t->task == VH_TASK_THIN && t->truss > 0 && due->trusses < TRUSSES_MOST)
        due->truss[due->trusses++] = t->truss;
}

static enum vh_status look_at(const struct waiting *w, const struct vh_member_view *view, size_t k)
{
    const double light = view->light_factor * view->factors[k].plant.light;
    struct due *due = &w->due[k];
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
    for (int task = 0; status == VH_OK && task < VH_TASKS; task++)
        if (due->task[task])
            vh_waiting_words(&series, &lowering, (enum vh_task)task, due->first[task],
                             due->late[task]);
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

/* ---- done a week later ---- */

static void put_off(struct vh_rhythm *visit, const struct vh_rhythm *was, int64_t today,
                    struct pause *p)
{
    p->none = (struct vh_rhythm){.before = was, .from = today};
    p->later = *was;
    p->later.late_d += WEEK_D;
    p->later.before = &p->none;
    p->later.from = today + WEEK_D;
    visit->before = &p->later;
    visit->from = today + WEEK_D + WEEK_D;
}

/* Trusses that would be thinned this week are thinned at the next stage. */
static enum vh_status thin_later(const struct due *due, struct vh_planting *p,
                                 struct vh_fruits_rule **own)
{
    const struct vh_policy *was = &p->policy;
    const size_t n = was->fruits_rules;
    struct vh_fruits_rule *rule = calloc(n * (due->trusses + 1) + 1, sizeof *rule);
    size_t rules = n;

    if (!rule)
        return VH_NO_MEMORY;
    memcpy(rule, was->fruits, n * sizeof *rule);
    for (size_t t = 0; t < due->trusses; t++)
        for (size_t i = 0; i < n; i++) {
            const struct vh_fruits_rule *r = &was->fruits[i];
            if (due->truss[t] < r->first_truss ||
                (r->last_truss > 0 && due->truss[t] > r->last_truss))
                continue;
            rule[rules] = *r;
            rule[rules].first_truss = rule[rules].last_truss = due->truss[t];
            rule[rules++].at = r->at == VH_THIN_BUD ? VH_THIN_PEA : VH_THIN_MARBLE;
        }
    *own = rule;
    p->policy.fruits = rule;
    p->policy.fruits_rules = rules;
    return VH_OK;
}

static bool can_be_told(const struct vh_planting *p, enum vh_task task)
{
    return task == VH_TASK_SUCKER || task == VH_TASK_LEAF || task == VH_TASK_THIN ||
           task == VH_TASK_PICK ||
           (task == VH_TASK_POLLINATE && p->policy.pollination == VH_POLLINATION_HAND);
}

static enum vh_status wait_with(const struct waiting *w, size_t k, enum vh_task task,
                                struct vh_changed *c, struct pause *p)
{
    const struct vh_policy *was = &w->s->house.planting[k].policy;
    struct vh_policy *policy = &c->scenario.house.planting[k].policy;
    const int64_t today = w->s->house.today;

    c->touched[k] = true;
    if (task == VH_TASK_SUCKER)
        put_off(&policy->suckers.visit, &was->suckers.visit, today, p);
    else if (task == VH_TASK_LEAF)
        put_off(&policy->leaf_visit, &was->leaf_visit, today, p);
    else if (task == VH_TASK_PICK)
        put_off(&policy->pick, &was->pick, today, p);
    else if (task == VH_TASK_POLLINATE)
        put_off(&policy->pollination_visit, &was->pollination_visit, today, p);
    else
        return thin_later(&w->due[k], &c->scenario.house.planting[k], &c->rule[k]);
    return VH_OK;
}

/* ---- the cost ---- */

/* Mean over the members of what is lost: income, or mass for market without prices. Work that is
 * better left for a week costs nothing: no gain is promised of leaving it. */
static double cost_of(const struct waiting *w, const struct vh_parts *later)
{
    double money = 0.0, kg = 0.0;

    for (size_t i = 0; i < w->plan.members * w->plan.plantings; i++) {
        const double *was = w->plan.part + i * VH_PARTS, *is = later->part + i * VH_PARTS;
        money += was[VH_PART_INCOME] - is[VH_PART_INCOME];
        kg += was[VH_PART_MARKET_KG] - is[VH_PART_MARKET_KG];
    }
    return vh_max(0.0, (isnan(money) ? kg : money) / (double)w->plan.members);
}

static enum vh_status cost_of_task(const struct waiting *w, size_t k, enum vh_task task,
                                   double *cost, struct vh_messages *m)
{
    struct vh_changed changed;
    struct vh_parts later = {0};
    struct pause pause;
    bool *wanted = calloc(w->plan.plantings + 1, sizeof *wanted);
    enum vh_status status = wanted ? vh_changed_init(w->s, &changed) : VH_NO_MEMORY;

    if (status != VH_OK) {
        free(wanted);
        return status;
    }
    status = wait_with(w, k, task, &changed, &pause);
    vh_parts_want(&changed, wanted);
    if (status == VH_OK)
        status = vh_parts_init(&later, &w->s->house, w->plan.members);
    if (status == VH_OK) {
        memcpy(later.part, w->plan.part,
               w->plan.members * w->plan.plantings * VH_PARTS * sizeof *later.part);
        status = vh_parts_run(&w->q, &changed, wanted, &later, m);
    }
    if (status == VH_OK)
        *cost = cost_of(w, &later);
    vh_parts_clear(&later);
    vh_changed_clear(&changed);
    free(wanted);
    return status;
}

/* ---- into the table ---- */

/* The rows of tasks.csv that lie in the week, and the columns that are asked of them. */
struct week_rows {
    struct vh_table *table;
    size_t planting, task, *row, rows;
};

static enum vh_status find_week(struct week_rows *w, struct vh_table *t, int64_t today)
{
    const size_t date = (size_t)vh_table_find(t, "date");

    *w = (struct week_rows){t, (size_t)vh_table_find(t, "planting"),
                            (size_t)vh_table_find(t, "task"),
                            malloc((vh_table_rows(t) + 1) * sizeof *w->row), 0};
    if (!w->row)
        return VH_NO_MEMORY;
    for (size_t i = 0; i < vh_table_rows(t); i++) {
        const double day = vh_table_number(t, i, date);
        if (day >= (double)today && day < (double)(today + WEEK_D))
            w->row[w->rows++] = i;
    }
    return VH_OK;
}

static bool is_row_of(const struct week_rows *w, size_t k, const char *planting, const char *task)
{
    return strcmp(vh_table_text(w->table, w->row[k], w->planting), planting) == 0 &&
           strcmp(vh_table_text(w->table, w->row[k], w->task), task) == 0;
}

/* Several rows of a task in the week (trusses to be thinned, visits) are put off together, so each
 * has its share of the cost. */
static void put_cost(const struct week_rows *w, const char *planting, enum vh_task task,
                     double cost)
{
    const size_t column = (size_t)vh_table_find(w->table, "cost_of_waiting");
    double rows = 0.0;

    for (size_t k = 0; k < w->rows; k++)
        rows += is_row_of(w, k, planting, vh_task_name(task));
    for (size_t k = 0; k < w->rows; k++)
        if (is_row_of(w, k, planting, vh_task_name(task)))
            vh_table_put_number(w->table, w->row[k], column, cost / rows);
}

/* Where it is told in words. */
static enum vh_status put_late(const struct week_rows *w, const char *planting, enum vh_task task,
                               const char *late)
{
    const size_t column = (size_t)vh_table_find(w->table, "if_late");
    enum vh_status status = VH_OK;

    for (size_t k = 0; k < w->rows && late[0] && status == VH_OK; k++)
        if (is_row_of(w, k, planting, vh_task_name(task)))
            status = vh_table_put_text(w->table, w->row[k], column, late);
    return status;
}

static enum vh_status tell_costs(const struct waiting *w, const struct week_rows *rows,
                                 struct vh_messages *m)
{
    const struct vh_house *h = &w->s->house;
    enum vh_status status = VH_OK;

    for (size_t k = 0; k < h->plantings; k++)
        for (int task = 0; task < VH_TASKS && status == VH_OK; task++) {
            double cost = 0.0;
            status = put_late(rows, h->planting[k].name, (enum vh_task)task, w->due[k].late[task]);
            if (status != VH_OK || !w->due[k].task[task] ||
                !can_be_told(&h->planting[k], (enum vh_task)task))
                continue;
            status = cost_of_task(w, k, (enum vh_task)task, &cost, m);
            if (status == VH_OK)
                put_cost(rows, h->planting[k].name, (enum vh_task)task, cost);
        }
    return status;
}

enum vh_status vh_waiting_costs(const struct vh_scenario *s, struct vh_result *r,
                                struct vh_messages *m)
{
    const size_t asked = (size_t)s->options.members;
    struct waiting w = {.s = s, .due = calloc(s->house.plantings + 1, sizeof *w.due)};
    struct week_rows rows = {0};
    enum vh_status status = w.due ? VH_OK : VH_NO_MEMORY;

    w.q = (struct vh_compare_request){.scenario = s,
                                      .members = asked < MEMBERS_MOST ? asked : MEMBERS_MOST,
                                      .draw = s->options.draw,
                                      .threads = s->options.threads,
                                      .mean_run = asked == 1,
                                      .steady = true,
                                      .sales_only = true};
    if (status == VH_OK)
        status = find_due(&w, m);
    if (status == VH_OK)
        status = vh_parts_of_plan(&w.q, &w.plan, m);
    if (status == VH_OK)
        status = find_week(&rows, r->table[VH_TABLE_TASKS], s->house.today);
    if (status == VH_OK)
        status = tell_costs(&w, &rows, m);
    vh_parts_clear(&w.plan);
    free(rows.row);
    free(w.due);
    return status;
}
