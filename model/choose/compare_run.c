/* One choice run in all members: its parts of money, mass and time. */
#include <stdlib.h>
#include <string.h>

#include "compare_parts.h"
#include "vh_math.h"

struct looking {
    const struct vh_changed *changed;
    const bool *wanted;
    struct vh_parts *out;
};

/* All 0. */
static enum vh_status parts_init(struct vh_parts *p, const struct vh_house *h, size_t members)
{
    const size_t n = h->plantings;

    *p = (struct vh_parts){.members = members,
                           .plantings = n,
                           .part = calloc(members * n * VH_PARTS + 1, sizeof *p->part),
                           .plants = calloc(n + 1, sizeof *p->plants)};
    if (!p->part || !p->plants) {
        vh_parts_clear(p);
        return VH_NO_MEMORY;
    }
    for (size_t k = 0; k < n; k++)
        p->plants[k] = h->planting[k].plants;
    return VH_OK;
}

void vh_parts_clear(struct vh_parts *p)
{
    free(p->part);
    free(p->plants);
    *p = (struct vh_parts){0};
}

static double *parts_at(const struct vh_parts *p, size_t member, size_t planting)
{
    return p->part + (member * p->plantings + planting) * VH_PARTS;
}

static void add_picks(const struct vh_harvest *h, double *part)
{
    part[VH_PART_KG] = part[VH_PART_FRUITS] = 0.0;
    for (size_t d = 0; d < h->days; d++) {
        part[VH_PART_KG] += h->day[d].picked.kg;
        part[VH_PART_FRUITS] += h->day[d].picked.fruits;
    }
}

/* Scatter of the weeks from `from` on, the first with fruit to the last whole one. */
static double unsteady(const struct vh_season *s, const struct vh_harvest *h, int64_t from)
{
    enum { WEEK_D = 7 };
    const int64_t start = from > s->first_day ? from - s->first_day : 0;
    double sum = 0.0, square = 0.0, n = 0.0;

    for (size_t d = (size_t)start; d + WEEK_D <= s->days; d += WEEK_D) {
        double kg = 0.0;
        for (size_t i = d; i < d + WEEK_D; i++)
            kg += h->day[i].picked.kg;
        if (n == 0.0 && !(kg > 0.0))
            continue;
        n += 1.0;
        sum += kg;
        square += kg * kg;
    }
    return sum > 0.0 ? sqrt(vh_max(0.0, square / n - sum / n * (sum / n))) / (sum / n) : VH_UNKNOWN;
}

static enum vh_status look_at(const struct looking *l, const struct vh_member_view *view, size_t k)
{
    const struct vh_season *s = &view->season[k];
    double *part = parts_at(l->out, view->member, k);
    struct vh_harvest harvest;
    enum vh_status status = vh_harvest_of(view->house, k, s, &harvest);

    if (status == VH_OK) {
        add_picks(&harvest, part);
        part[VH_PART_UNSTEADY] = unsteady(s, &harvest, view->house->today);
        status = vh_work_parts(&l->changed->scenario, view, k, &harvest, part);
    }
    vh_harvest_clear(&harvest);
    return status;
}

/* Called once a member, by any thread: writes into the member's own slots. */
static enum vh_status look(void *context, const struct vh_member_view *view)
{
    const struct looking *l = context;
    const struct vh_house *h = view->house;
    enum vh_status status = VH_OK;

    for (size_t k = 0; k < h->plantings && status == VH_OK; k++)
        if (l->wanted[k])
            status = look_at(l, view, k);
    if (status == VH_OK)
        vh_heating_parts(view, l->out->part + view->member * h->plantings * VH_PARTS);
    if (status == VH_OK)
        status = vh_sales_parts(&l->changed->scenario, view, l->wanted,
                                l->out->part + view->member * h->plantings * VH_PARTS);
    return status;
}

/* Runs the wanted plantings into `out`, whose other parts stay. */
static enum vh_status parts_run(const struct vh_compare_request *q,
                                const struct vh_changed *changed, const bool *wanted,
                                struct vh_parts *out, struct vh_messages *m)
{
    struct looking l = {changed, wanted, out};
    const struct vh_ensemble_request e = {.scenario = &changed->scenario,
                                          .members = q->members,
                                          .draw = q->draw,
                                          .threads = q->threads,
                                          .factors = q->factors,
                                          .mean_run = q->mean_run,
                                          .wanted = wanted,
                                          .seen = look,
                                          .context = &l,
                                          .progress = q->progress,
                                          .progress_context = q->progress_context};
    return vh_ensemble_run(&e, m);
}

/* Which plantings a change makes it necessary to run: those it touches, and those whose fruit meets
 * the same buyers, since their money is reckoned together. wanted: [planting]. */
static void want(const struct vh_changed *c, bool *wanted)
{
    const struct vh_house *h = &c->scenario.house;
    const struct vh_market *market = &h->market;

    for (size_t k = 0; k < h->plantings; k++) {
        wanted[k] = c->touched[k];
        for (size_t i = 0; market->given && market->good_of && i < h->plantings; i++)
            if (c->touched[i] && market->good_of[i] == market->good_of[k])
                wanted[k] = true;
    }
}

enum vh_status vh_parts_of_plan(const struct vh_compare_request *q, struct vh_parts *out,
                                struct vh_messages *m)
{
    const struct vh_house *h = &q->scenario->house;
    struct vh_changed plan;
    bool *all = malloc((h->plantings + 1) * sizeof *all);
    enum vh_status status = all ? vh_changed_init(q->scenario, &plan) : VH_NO_MEMORY;

    if (status != VH_OK) {
        free(all);
        return status;
    }
    for (size_t k = 0; k < h->plantings; k++)
        all[k] = true;
    status = parts_init(out, h, q->members);
    if (status == VH_OK)
        status = parts_run(q, &plan, all, out, m);
    if (status != VH_OK)
        vh_parts_clear(out);
    vh_changed_clear(&plan);
    free(all);
    return status;
}

static enum vh_status change(const struct vh_compare_request *q, const struct vh_choice *c,
                             size_t planting, struct vh_changed *out)
{
    enum vh_status status = vh_changed_init(q->scenario, out);

    if (status != VH_OK)
        return status;
    for (size_t k = 0; k < q->scenario->house.plantings && status == VH_OK; k++)
        if (planting == VH_ALL_PLANTINGS || planting == k)
            status = vh_lever_apply(q->scenario, c, k, out);
    if (status != VH_OK)
        vh_changed_clear(out);
    return status;
}

enum vh_status vh_parts_of_choice(const struct vh_compare_request *q, const struct vh_choice *c,
                                  size_t planting, const struct vh_parts *plan,
                                  struct vh_parts *out, struct vh_messages *m)
{
    struct vh_changed changed;
    bool *wanted = calloc(q->scenario->house.plantings + 1, sizeof *wanted);
    enum vh_status status = wanted ? change(q, c, planting, &changed) : VH_NO_MEMORY;

    if (status != VH_OK) {
        free(wanted);
        return status;
    }
    want(&changed, wanted);
    status = parts_init(out, &changed.scenario.house, q->members);
    if (status == VH_OK) {
        memcpy(out->part, plan->part,
               plan->members * plan->plantings * VH_PARTS * sizeof *plan->part);
        status = parts_run(q, &changed, wanted, out, m);
    }
    if (status != VH_OK)
        vh_parts_clear(out);
    vh_changed_clear(&changed);
    free(wanted);
    return status;
}

enum vh_status vh_room_of_choice(const struct vh_compare_request *q, const struct vh_choice *c,
                                 size_t planting, struct vh_floor_short *out)
{
    const struct vh_house *plan = &q->scenario->house;
    struct vh_changed changed;

    out->need_m2 = VH_UNKNOWN;
    if (!c->has[VH_LEVER_SET_OUT] && !c->has[VH_LEVER_PULL_OUT])
        return VH_OK; /* another density is one of the same floor */
    const enum vh_status status = change(q, c, planting, &changed);
    if (status != VH_OK)
        return status;
    vh_floor_short_next(&changed.scenario.house, plan, changed.scenario.house.first_day, out);
    vh_changed_clear(&changed);
    return VH_OK;
}
