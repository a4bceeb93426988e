/* Walking and clean blades: of the whole house, once a day. */
#include <stdlib.h>

#include "task_parts.h"
#include "vh_math.h"

#define CM_PER_M 100.0
#define SECONDS_PER_MIN 60.0

static bool cuts(enum vh_task task)
{
    return task == VH_TASK_SUCKER || task == VH_TASK_THIN || task == VH_TASK_LEAF ||
           task == VH_TASK_PICK || task == VH_TASK_TOP || task == VH_TASK_PULL_OUT;
}

static double rows_of(const struct vh_round_planting *p, double row_length_m,
                      const struct vh_work_params *book)
{
    return isnan(row_length_m) || isnan(p->plants_apart_cm)
               ? p->plants / book->plants_a_row
               : p->plants * p->plants_apart_cm / CM_PER_M / row_length_m;
}

/* What a planting asks of a day: *cut where blades or hands open plants. */
static bool has_work(const struct vh_task_plan *plan, int64_t date, size_t *next, bool *cut)
{
    bool work = false;

    *cut = false;
    for (; *next < plan->tasks && plan->task[*next].date <= date; (*next)++) {
        const struct vh_planned *t = &plan->task[*next];
        if (t->date < date || t->blocked || t->proposed)
            continue;
        work = true;
        *cut = *cut || cuts(t->task);
    }
    return work;
}

static void add_round(struct vh_task_planning *g, int64_t date, enum vh_task task, double count,
                      const char *unit, const char *note)
{
    const struct vh_task_request *r = g->request;
    struct vh_planned *t = vh_task_add(g, date, task, count, unit);

    if (!t)
        return;
    t->minutes = count * vh_task_seconds(r->book, r->labour, task, false) / SECONDS_PER_MIN;
    vh_task_say(t, note);
}

enum vh_status vh_task_rounds(const struct vh_round_planting *planting, size_t plantings,
                              double row_length_m, const struct vh_work_params *book,
                              const struct vh_labour *labour, struct vh_task_plan *out)
{
    const struct vh_task_request request = {.book = book, .labour = labour};
    struct vh_task_planning g = {.request = &request, .out = out};
    size_t *next = calloc(plantings + 1, sizeof *next);
    int64_t first = INT64_MAX, last = INT64_MIN;

    *out = (struct vh_task_plan){0};
    if (!next)
        return VH_NO_MEMORY;
    for (size_t k = 0; k < plantings; k++) {
        const struct vh_task_plan *p = planting[k].plan;
        if (p->tasks == 0)
            continue;
        first = p->task[0].date < first ? p->task[0].date : first;
        last = p->task[p->tasks - 1].date > last ? p->task[p->tasks - 1].date : last;
    }
    for (int64_t date = first; date <= last; date++) {
        double rows = 0.0, cut_into = 0.0;
        for (size_t k = 0; k < plantings; k++) {
            bool cut;
            if (!has_work(planting[k].plan, date, &next[k], &cut))
                continue;
            rows += rows_of(&planting[k], row_length_m, book);
            cut_into += cut;
        }
        add_round(&g, date, VH_TASK_CLEAN, cut_into, "times",
                  "blades, hands and gloves before each planting; youngest and healthiest first");
        add_round(&g, date, VH_TASK_WALK, ceil(rows), "rows",
                  "once along each row for all that is done in it");
    }
    free(next);
    if (g.status != VH_OK)
        vh_task_plan_clear(out);
    return g.status;
}
