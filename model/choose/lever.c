#include "vh_lever.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "vh_due.h"
#include "vh_market_days.h"

enum vh_status vh_changed_init(const struct vh_scenario *s, struct vh_changed *out)
{
    const size_t n = s->house.plantings + 1;
    struct vh_planting *planting = calloc(n, sizeof *planting);

    *out = (struct vh_changed){.scenario = *s,
                               .touched = calloc(n, sizeof *out->touched),
                               .rule = calloc(n, sizeof *out->rule),
                               .head = calloc(n, sizeof *out->head)};
    out->scenario.house.planting = planting;
    if (!planting || !out->touched || !out->rule || !out->head) {
        vh_changed_clear(out);
        return VH_NO_MEMORY;
    }
    memcpy(planting, s->house.planting, s->house.plantings * sizeof *planting);
    return VH_OK;
}

void vh_changed_clear(struct vh_changed *c)
{
    for (size_t k = 0; k < c->scenario.house.plantings; k++) {
        if (c->rule)
            free(c->rule[k]);
        if (c->head)
            free(c->head[k]);
    }
    free(c->rule);
    free(c->head);
    free(c->touched);
    free(c->market_day);
    free(c->scenario.house.planting);
    *c = (struct vh_changed){0};
}

/* The day on which a habit changes; before set-out: with it. */
static int64_t change_day(const struct vh_scenario *s, const struct vh_planting *p)
{
    return s->house.today > p->set_out ? s->house.today : INT64_MIN;
}

/* Every rule that keeps fruit keeps so many from then on; what is stripped stays stripped. */
static enum vh_status keep_fruits(struct vh_planting *p, double fruits, int64_t from,
                                  struct vh_fruits_rule **own)
{
    const struct vh_policy *was = &p->policy;
    const size_t n = was->fruits_rules;
    struct vh_fruits_rule *rule = calloc(2 * n + 1, sizeof *rule);

    if (!rule)
        return VH_NO_MEMORY;
    for (size_t i = 0; i < n; i++) {
        rule[i] = rule[n + i] = was->fruits[i];
        rule[n + i].from = was->fruits[i].from > from ? was->fruits[i].from : from;
        if (rule[n + i].fruits > 0.0)
            rule[n + i].fruits = fruits;
    }
    free(*own);
    *own = rule;
    p->policy.fruits = rule;
    p->policy.fruits_rules = 2 * n;
    return VH_OK;
}

int vh_stripped_planned(const struct vh_policy *policy, int64_t day)
{
    enum { FIRST_MOST = 60 }; /* as many as compare.stripped_nodes may be */
    enum vh_thin_stage at;
    int n = 0;

    while (n < FIRST_MOST && !(vh_policy_fruits_kept(policy, n + 1, day, &at) > 0.0))
        n++;
    return n < FIRST_MOST ? n : 0;
}

/* The first so many keep nothing from then on; what the plan strips above them keeps what the first
 * one does that it does not strip. */
static enum vh_status strip(struct vh_planting *p, int stripped, int64_t from,
                            struct vh_fruits_rule **own)
{
    const struct vh_policy *was = &p->policy;
    const int64_t day = from == INT64_MIN ? p->set_out : from;
    const int planned = vh_stripped_planned(was, day);
    size_t n = was->fruits_rules;
    struct vh_fruits_rule *rule = calloc(n + 2, sizeof *rule);

    if (!rule)
        return VH_NO_MEMORY;
    if (n > 0)
        memcpy(rule, was->fruits, n * sizeof *rule);
    if (stripped < planned) {
        rule[n] = (struct vh_fruits_rule){stripped + 1, planned, 0.0, VH_THIN_BUD, from, INT64_MAX};
        rule[n].fruits = vh_policy_fruits_kept(was, planned + 1, day, &rule[n].at);
        n++;
    }
    if (stripped > 0)
        rule[n++] = (struct vh_fruits_rule){1, stripped, 0.0, VH_THIN_BUD, from, INT64_MAX};
    free(*own);
    *own = rule;
    p->policy.fruits = rule;
    p->policy.fruits_rules = n;
    return VH_OK;
}

/* Fruits kept by ranges of trusses, each taken off when the rule for it says. */
static enum vh_status keep_ranges(struct vh_planting *p, const struct vh_choice *c, int64_t from,
                                  struct vh_fruits_rule **own)
{
    const struct vh_policy *was = &p->policy;
    const size_t n = was->fruits_rules;
    struct vh_fruits_rule *rule = calloc(n + c->ranges + 1, sizeof *rule);

    if (!rule)
        return VH_NO_MEMORY;
    if (n > 0)
        memcpy(rule, was->fruits, n * sizeof *rule);
    for (size_t i = 0; i < c->ranges; i++) {
        const struct vh_truss_range *r = &c->range[i];
        rule[n + i] =
            (struct vh_fruits_rule){r->first, r->last, r->fruits, VH_THIN_BUD, from, INT64_MAX};
        vh_policy_fruits_kept(was, r->first, from == INT64_MIN ? p->set_out : from,
                              &rule[n + i].at);
    }
    free(*own);
    *own = rule;
    p->policy.fruits = rule;
    p->policy.fruits_rules = n + c->ranges;
    return VH_OK;
}

/* So many heads from then on; changes planned for later are dropped. */
static enum vh_status keep_heads(struct vh_planting *p, double heads, int64_t from,
                                 struct vh_head_change **own)
{
    const struct vh_policy *was = &p->policy;
    struct vh_head_change *change = calloc(was->head_changes + 1, sizeof *change);
    size_t n = 0;

    if (!change)
        return VH_NO_MEMORY;
    for (size_t i = 0; i < was->head_changes && was->heads[i].from < from; i++)
        change[n++] = was->heads[i];
    if (from == INT64_MIN)
        p->heads_per_plant = heads;
    else if (vh_policy_heads(was, p->heads_per_plant, from - 1) != heads)
        change[n++] = (struct vh_head_change){.from = from, .heads_per_plant = heads};
    free(*own);
    *own = change;
    p->policy.heads = change;
    p->policy.head_changes = n;
    return VH_OK;
}

static void change_rhythm(struct vh_rhythm *to, const struct vh_rhythm *was, double every_d,
                          int64_t from)
{
    *to = (struct vh_rhythm){.also = was->also,
                             .every_d = (int)every_d,
                             .before = from == INT64_MIN ? NULL : was,
                             .from = from};
}

/* Leaves and colour: what held before is kept for the days before. */
static void change_habit(struct vh_planting *p, const struct vh_planting *was, int64_t from)
{
    if (from == INT64_MIN)
        return;
    p->policy.before = &was->policy;
    p->policy.from = from;
}

static void move_set_out(struct vh_planting *p, int64_t day)
{
    if (p->has_first_flower)
        p->first_flower += day - p->set_out;
    p->set_out = day;
    p->policy.done = NULL; /* what was done belongs to plants of another age */
}

static void change_density(struct vh_planting *p, double plants_per_m2)
{
    const double more = plants_per_m2 / p->plants_per_m2;

    p->plants = floor(p->plants * more + 0.5);
    p->plants_apart_cm /= more;
    p->plants_per_m2 = plants_per_m2;
}

static double stage_of(const struct vh_colours *c, double colour)
{
    const double stage[] = {c->breaker, c->turning, c->pink, c->light_red, c->red};

    return stage[(size_t)colour];
}

static enum vh_status apply(const struct vh_scenario *s, enum vh_lever lever, double value,
                            size_t k, struct vh_changed *out)
{
    const struct vh_planting *was = &s->house.planting[k];
    struct vh_planting *p = &out->scenario.house.planting[k];
    struct vh_policy *policy = &p->policy;
    const int64_t from = change_day(s, p);

    switch (lever) {
    case VH_LEVER_FRUITS_KEPT:
        return keep_fruits(p, value, from, &out->rule[k]);
    case VH_LEVER_STRIPPED:
        return strip(p, (int)value, from, &out->rule[k]);
    case VH_LEVER_HEADS:
        return keep_heads(p, value, from, &out->head[k]);
    case VH_LEVER_SUCKERS:
        change_rhythm(&policy->suckers.visit, &was->policy.suckers.visit, value, from);
        break;
    case VH_LEVER_LOWER:
        change_rhythm(&policy->lower.visit, &was->policy.lower.visit, value, from);
        policy->lower.when_head_at_wire = false;
        break;
    case VH_LEVER_POLLINATION:
        change_rhythm(&policy->pollination_visit, &was->policy.pollination_visit, value, from);
        break;
    case VH_LEVER_LEAVES:
        policy->leaves_keep = value;
        policy->leaves_down_to_picking = false;
        change_habit(p, was, from);
        break;
    case VH_LEVER_PICK_STAGE:
        policy->pick_stage = stage_of(&s->parameters->colours, value);
        change_habit(p, was, from);
        break;
    case VH_LEVER_TOP:
        policy->has_top = true;
        policy->top_on = (int64_t)value;
        break;
    case VH_LEVER_PULL_OUT:
        p->pull_out = policy->last_on = (int64_t)value;
        break;
    case VH_LEVER_SET_OUT:
        move_set_out(p, (int64_t)value);
        break;
    case VH_LEVER_DENSITY:
        change_density(p, value);
        break;
    case VH_LEVERS:
        break;
    }
    return VH_OK;
}

/* Other plants have other market days. */
static enum vh_status list_market(struct vh_changed *c)
{
    struct vh_market *m = &c->scenario.house.market;

    if (!m->given)
        return VH_OK;
    free(c->market_day);
    c->market_day = vh_market_days_of(&c->scenario.house, &m->days);
    m->day = c->market_day;
    return c->market_day ? VH_OK : VH_NO_MEMORY;
}

static void take_season(struct vh_house *h)
{
    for (size_t k = 0; k < h->plantings; k++) {
        const struct vh_planting *p = &h->planting[k];
        h->first_day = p->set_out < h->first_day ? p->set_out : h->first_day;
        h->last_day = p->pull_out > h->last_day ? p->pull_out : h->last_day;
    }
}

enum vh_status vh_lever_apply(const struct vh_scenario *s, const struct vh_choice *c,
                              size_t planting, struct vh_changed *out)
{
    /* set-out first: the day from which the other habits change hangs on it */
    static const enum vh_lever order[VH_LEVERS] = {
        VH_LEVER_SET_OUT,     VH_LEVER_PULL_OUT,   VH_LEVER_DENSITY,    VH_LEVER_FRUITS_KEPT,
        VH_LEVER_STRIPPED,    VH_LEVER_SUCKERS,    VH_LEVER_LEAVES,     VH_LEVER_LOWER,
        VH_LEVER_HEADS,       VH_LEVER_POLLINATION, VH_LEVER_PICK_STAGE, VH_LEVER_TOP};
    enum vh_status status = VH_OK;

    for (int i = 0; i < VH_LEVERS && status == VH_OK; i++) {
        const enum vh_lever lever = order[i];
        if (!c->has[lever] || vh_lever_unfit(&s->house.planting[planting], lever))
            continue;
        status = apply(s, lever, c->value[lever], planting, out);
        out->touched[planting] = true;
    }
    if (status == VH_OK && c->ranges > 0) {
        struct vh_planting *p = &out->scenario.house.planting[planting];
        status = keep_ranges(p, c, change_day(s, p), &out->rule[planting]);
        out->touched[planting] = true;
    }
    take_season(&out->scenario.house);
    return status == VH_OK ? list_market(out) : status;
}

bool vh_choice_looks_back(const struct vh_scenario *s, const struct vh_choice *c, size_t planting)
{
    const struct vh_planting *p = &s->house.planting[planting];
    const double today = (double)s->house.today;

    if ((c->has[VH_LEVER_SET_OUT] && c->value[VH_LEVER_SET_OUT] < today) ||
        (c->has[VH_LEVER_TOP] && c->value[VH_LEVER_TOP] < today) ||
        (c->has[VH_LEVER_PULL_OUT] && c->value[VH_LEVER_PULL_OUT] < today))
        return true;
    return (c->has[VH_LEVER_SET_OUT] || c->has[VH_LEVER_DENSITY]) && p->set_out < s->house.today;
}
