/* A task of the week done seven days later, in the same futures: what that takes from the season.
 *
 * No planting hangs on another one's work, so a task is put off in all plantings at once and each
 * is held against the plan alone. Only money is not a planting's own: what one brings less, others
 * of the same good sell better. */
#include <stdlib.h>
#include <string.h>

#include "vh_due.h"
#include "vh_ensemble.h"
#include "vh_lever.h"
#include "vh_math.h"
#include "vh_sales.h"
#include "waiting_parts.h"

enum { MEMBERS_MOST = 16 };

/* A rhythm with a pause of a week, after which the visits of that week are made. */
struct pause {
    struct vh_rhythm none, later;
};

/* What one planting brings in one member. */
struct brings {
    struct vh_lots lots; /* none without market days */
    double market_kg;
};

struct reckoning {
    const struct vh_scenario *s;
    struct vh_due_week *due; /* [plantings] */
    size_t members, plantings;
    bool is_sold;               /* on market days */
    bool is_priced;             /* the income of every good is known */
    struct brings *plan, *late; /* [member * plantings + planting] */
    bool *wanted;               /* [planting] has the task that is put off */
    double *money, *kg;         /* [planting] lost in the members so far */
    struct vh_sale *sale;       /* [market day * plantings + planting] of one member */
    struct vh_sale *together;   /* [market day] of a good's plantings */
    struct vh_sale *put_off;    /* [market day] of one planting */
};

/* ---- room ---- */

static enum vh_status reckoning_init(struct reckoning *r)
{
    const size_t n = r->plantings, days = r->is_sold ? r->s->house.market.days : 0;

    r->plan = calloc(r->members * n + 1, sizeof *r->plan);
    r->late = calloc(r->members * n + 1, sizeof *r->late);
    r->wanted = calloc(n + 1, sizeof *r->wanted);
    r->money = calloc(n + 1, sizeof *r->money);
    r->kg = calloc(n + 1, sizeof *r->kg);
    r->sale = calloc(days * n + 1, sizeof *r->sale);
    r->together = calloc(days + 1, sizeof *r->together);
    r->put_off = calloc(days + 1, sizeof *r->put_off);
    return r->plan && r->late && r->wanted && r->money && r->kg && r->sale && r->together &&
                   r->put_off
               ? VH_OK
               : VH_NO_MEMORY;
}

static void forget(struct brings *b, size_t n)
{
    for (size_t i = 0; b && i < n; i++)
        vh_lots_clear(&b[i].lots);
}

static void reckoning_clear(struct reckoning *r)
{
    forget(r->plan, r->members * r->plantings);
    forget(r->late, r->members * r->plantings);
    free(r->plan);
    free(r->late);
    free(r->wanted);
    free(r->money);
    free(r->kg);
    free(r->together);
    free(r->sale);
    free(r->put_off);
}

/* ---- what the seasons bring ---- */

struct looking {
    const struct reckoning *r;
    struct brings *to; /* [member * plantings + planting] */
};

/* Without market days all that can be sold counts, and no money is known. */
static enum vh_status all_kg(const struct vh_run *run, size_t k, double *kg)
{
    struct vh_harvest harvest;
    const enum vh_status status = vh_harvest_of(run->house, k, &run->season[k], &harvest);

    *kg = 0.0;
    for (size_t d = 0; status == VH_OK && d < harvest.days; d++)
        *kg += harvest.day[d].picked.kg * run->marketable[k];
    vh_harvest_clear(&harvest);
    return status;
}

/* Called once a member, by any thread: writes into the member's own places. */
static enum vh_status look(void *context, const struct vh_member_view *view)
{
    const struct looking *l = context;
    const struct reckoning *r = l->r;
    struct brings *to = l->to + view->member * r->plantings;
    double *marketable = malloc((r->plantings + 1) * sizeof *marketable);
    const struct vh_run run = {
        .scenario = r->s, .house = view->house, .season = view->season, .marketable = marketable};
    enum vh_status status = marketable ? VH_OK : VH_NO_MEMORY;

    for (size_t k = 0; status == VH_OK && k < r->plantings; k++)
        marketable[k] = view->factors[k].marketable;
    for (size_t k = 0; status == VH_OK && k < r->plantings; k++) {
        if (!r->wanted[k])
            continue;
        if (r->is_sold)
            status = vh_lots_of(&run, k, &to[k].lots);
        else
            status = all_kg(&run, k, &to[k].market_kg);
    }
    free(marketable);
    return status;
}

/* The wanted plantings of a scenario in all members. */
static enum vh_status run_all(const struct reckoning *r, const struct vh_scenario *s,
                              struct brings *to, struct vh_messages *m)
{
    struct looking l = {r, to};
    const struct vh_ensemble_request e = {.scenario = s,
                                          .members = r->members,
                                          .draw = s->options.draw,
                                          .threads = s->options.threads,
                                          .mean_run = s->options.members == 1,
                                          .steady = true, /* luck on other days is another */
                                          .wanted = r->wanted,
                                          .seen = look,
                                          .context = &l};
    return vh_ensemble_run(&e, m);
}

/* ---- market days ---- */

static void sell_planting(const struct reckoning *r, const struct brings *b, size_t k,
                          struct vh_sale *sale, size_t step)
{
    const struct vh_run run = {.house = &r->s->house};

    for (size_t day = 0; day < r->s->house.market.days; day++)
        vh_sale_of(&run, &b->lots, k, day, &sale[day * step]);
}

static double kg_for_market(const struct reckoning *r, const struct vh_sale *sale, size_t step)
{
    double kg = 0.0;

    for (size_t day = 0; day < r->s->house.market.days; day++)
        kg += sale[day * step].all.kg;
    return kg;
}

/* The sales of a good's plantings in one member, as planned: each, and together. */
static void lay_out(const struct reckoning *r, const struct brings *plan, size_t good)
{
    const struct vh_market *m = &r->s->house.market;
    const struct vh_good *g = &m->good[good];

    for (size_t i = 0; i < g->plantings; i++)
        sell_planting(r, &plan[g->planting[i]], g->planting[i], r->sale + g->planting[i],
                      r->plantings);
    for (size_t day = 0; day < m->days; day++)
        vh_sale_together(&r->s->house, good, day, r->sale + day * r->plantings, &r->together[day]);
}

/* What the plan brings, of each member and planting; and whether its money is known. */
static void sell_plan(struct reckoning *r)
{
    const struct vh_market *m = &r->s->house.market;

    r->is_priced = r->is_sold;
    for (size_t i = 0; r->is_sold && i < r->members; i++) {
        struct brings *plan = r->plan + i * r->plantings;
        for (size_t g = 0; g < m->goods; g++) {
            lay_out(r, plan, g);
            for (size_t day = 0; day < m->days && m->good[g].plantings > 0; day++)
                r->is_priced = r->is_priced && !isnan(r->together[day].income);
        }
        for (size_t k = 0; k < r->plantings; k++)
            plan[k].market_kg = kg_for_market(r, r->sale + k, r->plantings);
    }
}

/* ---- done a week later ---- */

static void put_off(struct vh_rhythm *visit, const struct vh_rhythm *was, int64_t today,
                    struct pause *p)
{
    p->none = (struct vh_rhythm){.before = was, .from = today};
    p->later = *was;
    p->later.late_d += VH_WAITING_D;
    p->later.also = was->also ? was->also + VH_WAITING_D : 0;
    p->later.before = &p->none;
    p->later.from = today + VH_WAITING_D;
    visit->before = &p->later;
    visit->from = today + VH_WAITING_D + VH_WAITING_D;
}

/* Trusses that would be thinned this week are thinned at the next stage. */
static enum vh_status thin_later(const struct vh_due_week *due, struct vh_planting *p,
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

static enum vh_status wait_with(const struct reckoning *r, size_t k, enum vh_task task,
                                struct vh_changed *c, struct pause *p)
{
    const struct vh_policy *was = &r->s->house.planting[k].policy;
    struct vh_policy *policy = &c->scenario.house.planting[k].policy;
    const int64_t today = r->s->house.today;

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
        return thin_later(&r->due[k], &c->scenario.house.planting[k], &c->rule[k]);
    return VH_OK;
}

/* The plantings in which it is due, each with a week's pause, into late[]. */
static enum vh_status run_late(const struct reckoning *r, enum vh_task task, struct vh_messages *m)
{
    struct pause *pause = calloc(r->plantings + 1, sizeof *pause);
    struct vh_changed changed;
    enum vh_status status = pause ? vh_changed_init(r->s, &changed) : VH_NO_MEMORY;

    if (status != VH_OK) {
        free(pause);
        return status;
    }
    for (size_t k = 0; k < r->plantings && status == VH_OK; k++)
        if (r->wanted[k])
            status = wait_with(r, k, task, &changed, &pause[k]);
    if (status == VH_OK)
        status = run_all(r, &changed.scenario, r->late, m);
    vh_changed_clear(&changed);
    free(pause);
    return status;
}

/* ---- the cost ---- */

/* Money that a good brings less on a day by one planting that comes late: what lies on the table is
 * changed by that planting alone, so that others need not be summed anew for each. */
static double money_lost(const struct reckoning *r, size_t good, size_t day,
                         const struct vh_sale *planned, const struct vh_sale *late)
{
    const struct vh_market *m = &r->s->house.market;
    const struct vh_good *g = &m->good[good];
    const struct vh_sale *all = &r->together[day];
    struct vh_amount part[VH_GRADES_MOST + 1];
    bool is_other = false;

    for (size_t i = 0; i <= vh_good_grades(g); i++) {
        const struct vh_amount *a = &planned->part[i], *b = &late->part[i];
        is_other = is_other || a->fruits != b->fruits || a->kg != b->kg;
        part[i] = (struct vh_amount){.fruits = all->part[i].fruits + (b->fruits - a->fruits),
                                     .kg = all->part[i].kg + (b->kg - a->kg)};
    }
    if (!is_other)
        return 0.0;
    return all->income - vh_market_takings(g, part, vh_market_orders(m, good, m->day[day])).income;
}

/* One planting of one member with the task put off, all others as planned; sale[] and together[]
 * hold the plan's of its good. */
static void lose_on_market(struct reckoning *r, size_t member, size_t good, size_t k)
{
    const struct brings *plan = r->plan + member * r->plantings;

    sell_planting(r, &r->late[member * r->plantings + k], k, r->put_off, 1);
    r->kg[k] += plan[k].market_kg - kg_for_market(r, r->put_off, 1);
    for (size_t day = 0; r->is_priced && day < r->s->house.market.days; day++)
        r->money[k] += money_lost(r, good, day, &r->sale[day * r->plantings + k], &r->put_off[day]);
}

static void lose_in_member(struct reckoning *r, size_t member)
{
    const struct vh_market *m = &r->s->house.market;
    const struct brings *plan = r->plan + member * r->plantings,
                        *late = r->late + member * r->plantings;

    for (size_t g = 0; r->is_sold && g < m->goods; g++) {
        lay_out(r, plan, g);
        for (size_t i = 0; i < m->good[g].plantings; i++)
            if (r->wanted[m->good[g].planting[i]])
                lose_on_market(r, member, g, m->good[g].planting[i]);
    }
    for (size_t k = 0; !r->is_sold && k < r->plantings; k++)
        if (r->wanted[k])
            r->kg[k] += plan[k].market_kg - late[k].market_kg;
}

/* Mean over the members of what is lost: income, or mass for market without prices. Work that is
 * better left for a week costs nothing: no gain is promised of leaving it. */
static void put_costs(struct reckoning *r, enum vh_task task)
{
    for (size_t k = 0; k < r->plantings; k++)
        r->money[k] = r->kg[k] = 0.0;
    for (size_t member = 0; member < r->members; member++)
        lose_in_member(r, member);
    for (size_t k = 0; k < r->plantings; k++) {
        const bool is_money = r->is_priced && !isnan(r->money[k]);
        if (r->wanted[k])
            r->due[k].cost[task] =
                vh_max(0.0, (is_money ? r->money[k] : r->kg[k]) / (double)r->members);
    }
}

static enum vh_status reckon_task(struct reckoning *r, enum vh_task task, struct vh_messages *m)
{
    bool is_due = false;

    for (size_t k = 0; k < r->plantings; k++) {
        r->wanted[k] = r->due[k].task[task] && can_be_told(&r->s->house.planting[k], task);
        is_due = is_due || r->wanted[k];
    }
    if (!is_due)
        return VH_OK;
    const enum vh_status status = run_late(r, task, m);
    if (status == VH_OK)
        put_costs(r, task);
    forget(r->late, r->members * r->plantings);
    return status;
}

static enum vh_status reckon(struct reckoning *r, struct vh_messages *m)
{
    for (size_t k = 0; k < r->plantings; k++)
        r->wanted[k] = true;
    enum vh_status status = run_all(r, r->s, r->plan, m);
    if (status == VH_OK)
        sell_plan(r);
    for (int task = 0; task < VH_TASKS && status == VH_OK; task++)
        status = reckon_task(r, (enum vh_task)task, m);
    return status;
}

enum vh_status vh_waiting_reckon(const struct vh_scenario *s, struct vh_due_week *due,
                                 struct vh_messages *m)
{
    const size_t asked = (size_t)s->options.members;
    struct reckoning r = {.s = s,
                          .due = due,
                          .members = asked < MEMBERS_MOST ? asked : MEMBERS_MOST,
                          .plantings = s->house.plantings,
                          .is_sold = s->house.market.given && s->house.market.days > 0};
    enum vh_status status = reckoning_init(&r);

    if (status == VH_OK)
        status = reckon(&r, m);
    reckoning_clear(&r);
    return status;
}
