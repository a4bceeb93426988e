/* Coordinate search: fruits kept on ranges of the trusses that are still to flower. */
#include <stdlib.h>
#include <string.h>

#include "compare_parts.h"
#include "vh_due.h"
#include "vh_math.h"

enum { MEMBERS_MOST = 60, ROUNDS_MOST = 3, LADDER_MOST = 24 };

/* Fruits a truss may keep, rising, the plan's own among them. */
struct ladder {
    double step[LADDER_MOST];
    size_t steps, planned;
};

struct searching {
    struct vh_compare_request q;
    size_t planting;
    enum vh_search what;
    double at_least_g;
    struct vh_parts plan;
    struct vh_choice ranges; /* which trusses */
    struct ladder ladder;
    size_t seasons;
};

/* ---- the trusses to come ---- */

struct trusses {
    const struct searching *s;
    int first, last;
};

static enum vh_status count_trusses(void *context, const struct vh_member_view *view)
{
    struct trusses *t = context;
    const struct vh_season *season = &view->season[t->s->planting];
    const double today = (double)(view->house->today - season->first_day);

    t->last = (int)season->trusses;
    t->first = 1;
    while (t->first <= t->last && season->truss[t->first - 1].opened_d < today)
        t->first++;
    return VH_OK;
}

static double planned_fruits(const struct vh_planting *p, int truss, int64_t today)
{
    enum vh_thin_stage at;

    return vh_policy_fruits_kept(&p->policy, truss, today > p->set_out ? today : p->set_out, &at);
}

static size_t nearest_step(const struct ladder *l, double fruits)
{
    size_t best = 0;

    for (size_t i = 1; i < l->steps; i++)
        if (fabs(l->step[i] - fruits) < fabs(l->step[best] - fruits))
            best = i;
    return best;
}

/* Whole fruits, up to twice as many as planned or what she asks of; where a node keeps one or less,
 * also shares of the nodes, and up to three on each. */
static void make_ladder(double planned, const struct vh_lever_values *asked, struct ladder *l)
{
    static const double share[] = {0.2, 0.25, 0.33, 0.5, 0.67};
    const double few = 1.5, most_of_few = 3.0;
    double most = planned < few ? most_of_few : 2.0 * planned;

    *l = (struct ladder){0};
    for (size_t i = 0; i < asked->values; i++)
        most = vh_max(most, asked->value[i]);
    for (size_t i = 0; planned < few && i < sizeof share / sizeof share[0]; i++)
        l->step[l->steps++] = share[i];
    for (double n = 1.0; n <= most && l->steps < LADDER_MOST; n += 1.0)
        l->step[l->steps++] = n;
    l->planned = nearest_step(l, planned);
    l->step[l->planned] = planned;
}

/* Three ranges of about as many trusses each, none of them stripped. */
static enum vh_status lay_ranges(struct searching *s, struct vh_messages *m)
{
    const struct vh_house *h = &s->q.scenario->house;
    const struct vh_planting *p = &h->planting[s->planting];
    struct trusses t = {.s = s};
    const struct vh_ensemble_request mean = {.scenario = s->q.scenario,
                                             .members = 1,
                                             .threads = 1,
                                             .mean_run = true,
                                             .seen = count_trusses,
                                             .context = &t};
    const enum vh_status status = vh_ensemble_run(&mean, m);

    if (status != VH_OK)
        return status;
    s->ranges.by_node = p->crop->truss.clock_by == VH_CLOCK_BY_NODE;
    while (t.first <= t.last && planned_fruits(p, t.first, h->today) <= 0.0)
        t.first++;
    const int n = t.last - t.first + 1, ranges = n < VH_RANGES_MOST ? n : VH_RANGES_MOST;
    for (int i = 0; i < ranges; i++) {
        struct vh_truss_range *r = &s->ranges.range[s->ranges.ranges++];
        r->first = t.first + i * n / ranges;
        r->last = i + 1 < ranges ? t.first + (i + 1) * n / ranges - 1 : 0;
    }
    if (ranges > 0)
        make_ladder(planned_fruits(p, t.last, h->today),
                    &s->q.scenario->choices.lever[VH_LEVER_FRUITS_KEPT], &s->ladder);
    return isinf(s->ladder.step[0]) ? VH_NO_NUMBER : VH_OK;
}

/* ---- how good is it? ---- */

struct score {
    bool is_enough; /* of what is asked for, before all else */
    double good;
};

static double mean_of(const struct searching *s, const struct vh_parts *p, enum vh_choice_value v,
                      size_t planting)
{
    double sum = 0.0, n = 0.0;

    for (size_t m = 0; m < p->members; m++) {
        double value[VH_CHOICE_VALUES];
        vh_choice_values(s->q.scenario, p, m, planting, value);
        if (isnan(value[v]))
            continue;
        sum += value[v];
        n += 1.0;
    }
    return n > 0.0 ? sum / n : 0.0;
}

double vh_parts_unsteady(const struct vh_parts *p, size_t planting)
{
    double sum = 0.0;

    for (size_t m = 0; m < p->members; m++)
        sum += p->part[(m * p->plantings + planting) * VH_PARTS + VH_PART_UNSTEADY];
    return sum / (double)p->members;
}

double vh_parts_reached(const struct vh_parts *p, const struct vh_parts *plan, size_t planting,
                        enum vh_search what, double at_least_g)
{
    const double g_per_kg = 1000.0;
    size_t reached = 0;

    for (size_t m = 0; m < p->members; m++) {
        const double *is = p->part + (m * p->plantings + planting) * VH_PARTS,
                     *was = plan->part + (m * p->plantings + planting) * VH_PARTS;
        if (what == VH_SEARCH_STEADY)
            reached += is[VH_PART_UNSTEADY] < was[VH_PART_UNSTEADY];
        else
            reached += is[VH_PART_KG] * g_per_kg >= at_least_g * is[VH_PART_FRUITS];
    }
    return (double)reached / (double)p->members;
}

static struct score score_of(const struct searching *s, const struct vh_parts *p)
{
    const bool money = vh_margin_is_known(&s->plan, s->planting);
    const double gain = mean_of(s, p, money ? VH_VALUE_MARGIN : VH_VALUE_MARKET_KG, s->planting);
    const double g = mean_of(s, p, VH_VALUE_FRUIT_G, s->planting);

    if (s->what == VH_SEARCH_STEADY)
        return (struct score){true, -vh_parts_unsteady(p, s->planting)};
    if (s->what == VH_SEARCH_SIZE && g < s->at_least_g)
        return (struct score){false, g};
    return (struct score){true, gain};
}

static bool is_better(struct score a, struct score b)
{
    return a.is_enough != b.is_enough ? a.is_enough : a.good > b.good;
}

/* ---- the search ---- */

static void choice_of(const struct searching *s, const size_t *at, struct vh_choice *c)
{
    *c = s->ranges;
    for (size_t i = 0; i < c->ranges; i++)
        c->range[i].fruits = s->ladder.step[at[i]];
}

static enum vh_status try(struct searching *s, const size_t *at, struct score *score,
                          struct vh_messages *m)
{
    struct vh_choice c;
    struct vh_parts parts;

    choice_of(s, at, &c);
    s->seasons++;
    const enum vh_status status = vh_parts_of_choice(&s->q, &c, s->planting, &s->plan, &parts, m);
    if (status != VH_OK)
        return status;
    *score = score_of(s, &parts);
    vh_parts_clear(&parts);
    return VH_OK;
}

/* Steps up and down in one range, as long as it helps; moved: whether any did. */
static enum vh_status climb(struct searching *s, size_t range, size_t *at, struct score *best,
                            bool *moved, struct vh_messages *m)
{
    enum vh_status status = VH_OK;

    for (int direction = 1; direction >= -1 && status == VH_OK; direction -= 2) {
        const size_t kept = at[range];
        struct score now = *best;
        if (direction < 0 ? kept == 0 : kept + 1 >= s->ladder.steps)
            continue;
        at[range] = direction < 0 ? kept - 1 : kept + 1;
        status = try(s, at, &now, m);
        if (status == VH_OK && is_better(now, *best)) {
            *best = now;
            *moved = true;
            return VH_OK; /* the next round goes on from here */
        }
        at[range] = kept;
    }
    return status;
}

static void put_all(size_t *at, size_t step)
{
    for (size_t i = 0; i < VH_RANGES_MOST; i++)
        at[i] = step;
}

/* From the best of the plan and what she asks of herself, left on all these trusses. */
static enum vh_status start(struct searching *s, size_t *at, struct score *best, bool *found,
                            struct vh_messages *m)
{
    const struct vh_lever_values *asked = &s->q.scenario->choices.lever[VH_LEVER_FRUITS_KEPT];
    enum vh_status status = VH_OK;

    put_all(at, s->ladder.planned);
    for (size_t i = 0; s->ranges.ranges > 0 && i < asked->values && status == VH_OK; i++) {
        const size_t step = nearest_step(&s->ladder, asked->value[i]);
        size_t all[VH_RANGES_MOST];
        struct score now;
        if (step == s->ladder.planned || step == at[0])
            continue;
        put_all(all, step);
        status = try(s, all, &now, m);
        if (status != VH_OK || !is_better(now, *best))
            continue;
        put_all(at, step);
        *best = now;
        *found = true;
    }
    return status;
}

static enum vh_status search(struct searching *s, struct vh_found *out, struct vh_messages *m)
{
    size_t at[VH_RANGES_MOST];
    struct score best = score_of(s, &s->plan);
    bool found = false, moved = s->ranges.ranges > 0;
    enum vh_status status = start(s, at, &best, &found, m);

    for (int round = 0; round < ROUNDS_MOST && moved && status == VH_OK; round++) {
        moved = false;
        for (size_t i = 0; i < s->ranges.ranges && status == VH_OK; i++)
            status = climb(s, i, at, &best, &moved, m);
        found = found || moved;
    }
    *out = (struct vh_found){.seasons = s->seasons, .members = s->q.members};
    if (found)
        choice_of(s, at, &out->choice);
    for (size_t i = 0; found && i < s->ranges.ranges; i++)
        if (at[i] + 1 == s->ladder.steps)
            out->most_tried = s->ladder.step[at[i]];
    return status;
}

enum vh_status vh_search_fruits(const struct vh_compare_request *q, size_t planting,
                                enum vh_search what, double at_least_g, struct vh_found *out,
                                struct vh_messages *m)
{
    const uint64_t other_draw = 0x8000000000000000u; /* no draw that a person asks for */
    struct searching s = {.q = *q, .planting = planting, .what = what, .at_least_g = at_least_g};

    s.q.draw = q->draw ^ other_draw;
    if (s.q.members > MEMBERS_MOST)
        s.q.members = MEMBERS_MOST;
    enum vh_status status = lay_ranges(&s, m);
    if (status == VH_NO_NUMBER && s.ranges.ranges > 0) { /* all that set stay: nothing to step */
        *out = (struct vh_found){0};
        return VH_OK;
    }
    if (status == VH_OK)
        status = vh_parts_of_plan(&s.q, &s.plan, m);
    if (status == VH_OK)
        status = search(&s, out, m);
    vh_parts_clear(&s.plan);
    return status;
}
