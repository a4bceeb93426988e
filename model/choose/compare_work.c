/* What a choice costs: hours and supplies from the season's own work, heat by the floor. */
#include <stdlib.h>

#include "compare_parts.h"
#include "vh_lower.h"
#include "vh_math.h"
#include "vh_task_plan.h"
#include "vh_work_series_of.h"

#define CM_PER_M 100.0
#define MIN_PER_H 60.0

static double paid(double amount, double cost_each)
{
    return isnan(cost_each) ? 0.0 : amount * cost_each;
}

/* String wound on a hook: by the lowering, or the crop's usual where there is no wire. */
static double string_cm(const struct vh_planting *p)
{
    return p->policy.lower.given ? p->policy.lower.string_cm : p->crop->hang.string_m * CM_PER_M;
}

static double supplies_of(const struct vh_task_plan *plan, const struct vh_planting *p,
                          const struct vh_stock *stock)
{
    double cost = paid(p->plants, stock->cost_plant);

    for (size_t i = 0; i < plan->tasks; i++) {
        const struct vh_planned *t = &plan->task[i];
        if (t->blocked)
            continue;
        if (t->task == VH_TASK_CLIP)
            cost += paid(t->used, stock->cost_each[VH_SUPPLY_CLIPS]);
        else if (t->task == VH_TASK_SUPPORT)
            cost += paid(t->used, stock->cost_each[VH_SUPPLY_SUPPORTS]);
        else if (t->task == VH_TASK_STRING)
            cost += paid(t->used, stock->cost_each[VH_SUPPLY_HOOKS]) +
                    paid(t->used * string_cm(p) / CM_PER_M, stock->cost_each[VH_SUPPLY_STRING]);
    }
    return cost;
}

static double minutes_of(const struct vh_task_plan *plan)
{
    double minutes = 0.0;

    for (size_t i = 0; i < plan->tasks; i++)
        minutes += plan->task[i].minutes;
    return minutes;
}

static enum vh_status plan_work(const struct vh_scenario *s, const struct vh_planting *p,
                                const struct vh_work_series *series, double part[VH_PARTS])
{
    const struct vh_labour *labour = &s->house.labour;
    const struct vh_work_params *book = &s->parameters->work;
    struct vh_lower_plan lowering = {0};
    struct vh_task_plan plan = {0}, rounds = {0};
    const struct vh_task_request request = {series, &lowering, book, labour, VH_TOP_NOT};
    enum vh_status status = vh_lower_plan(series, &lowering);

    if (status == VH_OK)
        status = vh_task_plan(&request, &plan);
    if (status == VH_OK) {
        const struct vh_round_planting round = {&plan, p->plants, p->plants_apart_cm};
        status = vh_task_rounds(&round, 1, s->house.row_length_m, book, labour, &rounds);
    }
    if (status == VH_OK) {
        part[VH_PART_HOURS] = (minutes_of(&plan) + minutes_of(&rounds)) / MIN_PER_H;
        part[VH_PART_SUPPLIES] = supplies_of(&plan, p, &s->house.stock);
    }
    vh_task_plan_clear(&rounds);
    vh_task_plan_clear(&plan);
    vh_lower_plan_clear(&lowering);
    return status;
}

enum vh_status vh_work_parts(const struct vh_scenario *s, const struct vh_member_view *view,
                             size_t k, const struct vh_harvest *harvest, double part[VH_PARTS])
{
    struct vh_work_series series;
    const double light = view->light_factor * view->factors[k].plant.light;
    enum vh_status status = vh_work_series_of(view->house, &view->season[k], light, &series);

    if (status != VH_OK)
        return status;
    vh_work_series_take(&series, harvest);
    status = plan_work(s, &view->house->planting[k], &series, part);
    vh_work_series_clear(&series);
    return status;
}

void vh_heating_parts(const struct vh_member_view *view, double *part)
{
    const struct vh_house *h = view->house;
    const struct vh_climate *c = &h->climate;

    for (size_t k = 0; k < h->plantings; k++)
        part[k * VH_PARTS + VH_PART_HEATING_KWH] = 0.0;
    for (size_t d = 0; d < c->days; d++) {
        const int64_t day = c->first_day + (int64_t)d;
        double floor_m2 = 0.0;
        for (size_t k = 0; k < h->plantings; k++) {
            const struct vh_planting *p = &h->planting[k];
            if (day >= p->set_out && day <= p->pull_out)
                floor_m2 += p->plants / p->plants_per_m2;
        }
        for (size_t k = 0; k < h->plantings; k++) {
            const struct vh_planting *p = &h->planting[k];
            if (day >= p->set_out && day <= p->pull_out)
                part[k * VH_PARTS + VH_PART_HEATING_KWH] +=
                    c->heating_kwh[d] * (p->plants / p->plants_per_m2) / floor_m2;
        }
    }
}
