#include "vh_due.h"

#include "vh_done.h"
#include "vh_math.h"
#include "vh_visits.h"

double vh_policy_fruits_kept(const struct vh_policy *policy, int truss, int64_t day,
                             enum vh_thin_stage *at)
{
    for (size_t k = policy->fruits_rules; k-- > 0;) {
        const struct vh_fruits_rule *r = &policy->fruits[k];
        if (truss < r->first_truss || (r->last_truss && truss > r->last_truss) || day < r->from ||
            day > r->until)
            continue;
        *at = r->at;
        return r->fruits;
    }
    *at = VH_THIN_BUD;
    return VH_ENDLESS;
}

bool vh_policy_takes_set_fruit(const struct vh_policy *policy, const struct vh_crop *crop,
                               int truss, int64_t day, enum vh_thin_stage *at)
{
    const double left = vh_policy_fruits_kept(policy, truss, day, at);

    return left < VH_ENDLESS && !(crop->truss.clock_by == VH_CLOCK_BY_NODE && *at == VH_THIN_BUD);
}

const struct vh_policy *vh_policy_on(const struct vh_policy *policy, int64_t day)
{
    return policy->before && day < policy->from ? policy->before : policy;
}

double vh_policy_heads(const struct vh_policy *policy, double at_set_out, int64_t day)
{
    double heads = at_set_out;
    for (size_t k = 0; k < policy->head_changes && policy->heads[k].from <= day; k++)
        heads = policy->heads[k].heads_per_plant;
    return heads;
}

static double thin_stage(const struct vh_crop *crop, enum vh_thin_stage at)
{
    switch (at) {
    case VH_THIN_BUD:
        return crop->habit.thin_stage_bud;
    case VH_THIN_PEA:
        return crop->habit.thin_stage_pea;
    case VH_THIN_MARBLE:
        return crop->habit.thin_stage_marble;
    }
    return 0.0;
}

/* Share of the stems that a visit reaches on `day`; in a future it may come late. */
static double reached(const struct vh_policy *policy, enum vh_task task,
                      const struct vh_rhythm *visit, enum vh_visit what, int64_t first_day,
                      int64_t day)
{
    if (vh_visit_may_be_late(&policy->late, day))
        return !vh_visit_is_idle(policy, task, day) &&
               vh_visit_due(policy, visit, what, first_day, day);
    return vh_visit_share(policy, task, visit, first_day, day);
}

/* Leaves that come off a stem today, by the records or the plan. After a missed fortnight not all
 * at once. */
static double leaves_off(const struct vh_policy *policy, const struct vh_plant *plant, size_t lane,
                         int64_t first_day, int64_t day)
{
    const struct vh_rhythm *visit = &policy->leaf_visit;
    const double share = reached(policy, VH_TASK_LEAF, visit, VH_VISIT_LEAVES, first_day, day);
    double most = policy->leaves_most_per_visit;

    if (share <= 0.0)
        return 0.0;
    if (policy->done && vh_visit_is_behind(policy, VH_TASK_LEAF, visit, first_day, day))
        most = vh_min(most, policy->recover_leaves_most);
    const struct vh_policy *now = vh_policy_on(policy, day);
    const double over = now->leaves_down_to_picking
                            ? vh_plant_leaves_below_picking(plant, lane)
                            : vh_plant_leaves_on_stem(plant, lane) - now->leaves_keep;
    return share * vh_clamp(over, 0.0, most);
}

/* Fruits on a truss that opens on `day`: as counted once the others were off, or else by the rule.
 * A count from before it opened is of another truss, miscounted. */
static double fruits_left(const struct vh_done *done, int truss, int64_t day, double by_rule)
{
    double left = by_rule;

    for (size_t i = 0; done && i < done->fruits_rows; i++)
        if (done->fruits[i].truss == truss && done->fruits[i].day >= day)
            left = done->fruits[i].fruits;
    return left;
}

/* The days of the visits on either side of today by what was done; each reaches its share of the
 * stems, and those it missed wait for the next. */
static double reached_as_done(const struct vh_policy *policy, const struct vh_crop *crop,
                              int64_t first_day, int64_t day)
{
    enum { FAR_D = 60 }; /* no flower waits so long */
    const struct vh_rhythm *visit = &policy->pollination_visit;
    double waiting = 1.0, reached = 0.0;
    int64_t before = day;

    while (before > day - FAR_D &&
           vh_visit_share(policy, VH_TASK_POLLINATE, visit, first_day, before) <= 0.0)
        before--;
    for (int64_t after = day + 1; after < day + FAR_D && waiting > 0.0; after++) {
        const double share = vh_visit_share(policy, VH_TASK_POLLINATE, visit, first_day, after);
        if (share > 0.0)
            reached +=
                waiting * share * vh_flower_visited_share(&crop->flower, (double)(after - before));
        waiting *= 1.0 - share;
    }
    return reached;
}

double vh_policy_flowers_reached(const struct vh_policy *policy, const struct vh_crop *crop,
                                 int64_t first_day, int64_t day)
{
    if (policy->pollination == VH_POLLINATION_BEES)
        return policy->bees_share;
    if (policy->pollination == VH_POLLINATION_NONE)
        return 0.0;
    if (vh_visit_is_idle(policy, VH_TASK_POLLINATE, day))
        return 0.0;
    if (policy->done && policy->done->tasks)
        return reached_as_done(policy, crop, first_day, day);
    const int64_t between = vh_rhythm_between_d(&policy->pollination_visit, first_day, day);
    return between < 0 ? 0.0 : vh_flower_visited_share(&crop->flower, (double)between);
}

struct vh_acts vh_policy_acts(const struct vh_policy *policy, const struct vh_crop *crop,
                              const struct vh_plant *plant, size_t lane, int64_t first_day,
                              int64_t day, double heads_now)
{
    struct vh_acts acts;

    vh_policy_acts_by(policy, crop, plant, lane, first_day, day, heads_now,
                      vh_policy_flowers_reached(policy, crop, first_day, day), &acts);
    return acts;
}

void vh_policy_acts_by(const struct vh_policy *policy, const struct vh_crop *crop,
                       const struct vh_plant *plant, size_t lane, int64_t first_day, int64_t day,
                       double heads_now, double flowers_reached, struct vh_acts *out)
{
    const double topped_from_share = 0.5; /* the average stem is topped, or it is not */

    out->kept_first = vh_plant_next_truss(plant, lane);
    out->flowers_reached = flowers_reached;
    out->by_bees = policy->pollination == VH_POLLINATION_BEES;
    for (int k = 0; k < VH_OPEN_MOST; k++) {
        enum vh_thin_stage at;
        const double kept = vh_policy_fruits_kept(policy, out->kept_first + k, day, &at);
        out->thin_stage[k] = thin_stage(crop, at);
        out->kept[k] = fruits_left(policy->done, out->kept_first + k, day, kept);
    }
    out->leaves_off = leaves_off(policy, plant, lane, first_day, day);
    out->suckers_pulled =
        (1.0 - policy->suckers.overlooked) *
        reached(policy, VH_TASK_SUCKER, &policy->suckers.visit, VH_VISIT_SUCKERS, first_day, day);
    out->heads_factor = 1.0;
    out->new_stem_age_d = 0.0;
    for (size_t k = 0; k < policy->head_changes; k++) {
        if (policy->heads[k].from != day)
            continue;
        out->heads_factor = policy->heads[k].heads_per_plant / heads_now;
        out->new_stem_age_d = policy->heads[k].new_stem_age_d;
    }
    const double planned = policy->has_top && policy->top_on == day ? 1.0 : 0.0;
    out->top = vh_done_share(policy->done, VH_TASK_TOP, day, planned) >= topped_from_share;
}
