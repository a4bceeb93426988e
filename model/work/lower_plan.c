#include "vh_lower.h"

#include <stdlib.h>

#include "vh_math.h"
#include "vh_visits.h"

/* Less than a millimetre is no lowering: such a visit would only be noise of the arithmetic. */
#define NOTHING_CM 0.1

struct planning {
    const struct vh_work_series *series;
    const struct vh_lower_policy *policy;
    struct vh_lower_state now;
    double hook_cm;
    size_t lowest;  /* truss from which on fruit may hang */
    bool missed;    /* a visit was left undone and not made up for since */
    bool unplanned; /* today's visit is none of the rhythm: heads are past the wire */
    size_t next_of; /* day after which the rest of a first pass is let out; series->days: none */
};

/* Stem grown a day in the first two weeks of the series. */
static double early_pace_cm_d(const struct vh_work_series *s)
{
    const size_t weeks_d = 14, last = s->days > weeks_d ? weeks_d : s->days - 1;

    return last > 0 ? (s->day[last].stem_cm - s->day[0].stem_cm) / (double)last : 0.0;
}

/* Length of the stem at a moment in days since the first day's morning; before it, too. */
static double stem_cm_at(const struct vh_work_series *s, double at_d)
{
    if (at_d <= 0.0)
        return s->day[0].stem_cm + (s->standing ? at_d * early_pace_cm_d(s) : 0.0);
    const size_t day = (size_t)vh_min(at_d, (double)(s->days - 1));
    const double before = day > 0 ? s->day[day - 1].stem_cm : s->day[0].stem_cm;

    return before + vh_min(1.0, at_d - (double)day) * (s->day[day].stem_cm - before);
}

double vh_lower_joint_cm(const struct vh_work_series *series, size_t truss)
{
    const double opened_d = series->truss[truss].opened_d;
    const double length = isnan(opened_d) ? 0.0 : stem_cm_at(series, opened_d);

    return vh_max(0.0, length - series->policy->lower.flower_below_head_cm);
}

/* Has the truss opened by the evening of that day? One without a day opened long before a standing
 * crop was seen. */
static bool is_open(const struct vh_work_series *s, size_t truss, size_t day)
{
    const double opened_d = s->truss[truss].opened_d;

    return isnan(opened_d) || opened_d <= (double)day + 1.0;
}

/* Does the truss carry fruit on the evening of that day? */
static bool carries(const struct vh_work_series *s, size_t truss, size_t day)
{
    const struct vh_truss_view *v = &s->truss[truss];
    const double few = 0.05; /* of a fruit a stem: most stems have none there */

    return !isnan(v->opened_d) && is_open(s, truss, day) && v->kept > few &&
           (double)(truss + 1) >= vh_max(1.0, s->day[day].picking_truss - 1.0 + few);
}

/* The lowest truss with fruit on it; trusses: none. Moves the mark of `from` on. */
static size_t lowest_truss(const struct vh_work_series *s, size_t from, size_t day)
{
    size_t t = from;

    while (t < s->trusses && is_open(s, t, day) && !carries(s, t, day))
        t++;
    return t < s->trusses && carries(s, t, day) ? t : s->trusses;
}

static double lowest_fruit_cm(const struct planning *g, struct vh_lower_state state, size_t day)
{
    const size_t t = lowest_truss(g->series, g->lowest, day);

    return t < g->series->trusses
               ? vh_lower_fruit_cm(g->policy, state, vh_lower_joint_cm(g->series, t))
               : VH_UNKNOWN;
}

/* Is the fruit too near the floor because the stem leans or lies? What a short stem carries so low
 * by nature no lowering has brought there, and no visit can mend. */
static bool is_brought_low(const struct planning *g, size_t day, double fruit_cm)
{
    const struct vh_lower_state upright = {0.0, 1.0};

    return fruit_cm < g->policy->fruit_floor_cm - NOTHING_CM &&
           lowest_fruit_cm(g, upright, day) >= g->policy->fruit_floor_cm - NOTHING_CM;
}

/* The longest string at which the lowest fruit stays off the floor, not less than what is out. */
static double string_for_fruit_cm(const struct planning *g, size_t day, double string_cm)
{
    const struct vh_lower_policy *p = g->policy;
    const size_t t = lowest_truss(g->series, g->lowest, day);
    const double rise = p->wire_cm - p->laid_height_cm;
    const double hang = p->fruit_floor_cm + p->truss_hang_cm - p->laid_height_cm;
    const double least_sin = vh_sin(p->lean_deg * VH_PI / 180.0);

    if (t >= g->series->trusses)
        return (double)INFINITY;
    const double joint = vh_lower_joint_cm(g->series, t);
    if (hang <= 0.0) /* a truss on the bundle itself hangs high enough */
        return (double)INFINITY;
    if (joint * least_sin >= hang)
        return vh_max(string_cm, joint - hang / least_sin + rise / least_sin);
    if (joint > hang)
        return vh_max(string_cm, rise * joint / hang);
    return string_cm;
}

/* Leaves on the stem below the point where it leaves the floor. */
static double leaves_lying(const struct vh_work_series *s, size_t day, double laid_cm)
{
    double made = s->day[0].leaves, made_there = 0.0;

    for (size_t d = 0; d <= day; d++) {
        if (d > 0)
            made += vh_max(0.0, s->day[d].leaves + s->day[d].leaves_off - s->day[d - 1].leaves);
        if (s->day[d].stem_cm <= laid_cm)
            made_there = made;
    }
    return laid_cm > 0.0 ? vh_max(0.0, made_there - (made - s->day[day].leaves)) : 0.0;
}

/* The last day of the season that a visit looks to: behind it none brings anything any more. */
static size_t last_useful(const struct vh_work_series *s)
{
    const double day = (double)s->days - 1.0 - s->policy->idle_d;

    return day > 0.0 ? (size_t)day : 0;
}

static size_t next_visit(const struct vh_work_series *s, size_t day)
{
    const size_t last = last_useful(s);
    size_t d = day + 1;

    while (d <= last && !vh_visit_planned(s->policy, &s->policy->lower.visit, s->first_day,
                                          s->first_day + (int64_t)d))
        d++;
    return d <= last ? d : day > last ? day : last;
}

/* Length of the stem when it can be lowered again. */
static double next_stem_cm(const struct planning *g, size_t day)
{
    const struct vh_work_series *s = g->series;
    const bool tomorrow = g->policy->when_head_at_wire || g->next_of == day;

    return s->day[tomorrow ? (day + 1 < s->days ? day + 1 : day) : next_visit(s, day)].stem_cm;
}

static void record_visit(struct planning *g, struct vh_lower_plan *out, size_t day, double let_out,
                         unsigned breach, bool recorded)
{
    const struct vh_lower_policy *p = g->policy;
    struct vh_lower_visit *v = &out->visit[out->visits++];
    const double string = vh_lower_string_cm(p, g->now) + let_out;
    const double left = p->string_cm - p->knots_cm - string;
    const struct vh_lower_state next = vh_lower_state_for_string(p, string);
    const double hook = vh_lower_hook_cm(p, next);
    const double next_cm = next_stem_cm(g, day);
    const size_t lowest = lowest_truss(g->series, g->lowest, day);

    *v = (struct vh_lower_visit){
        .day = day,
        .let_out_cm = let_out,
        .state = next,
        .stem_cm = g->series->day[day].stem_cm,
        .hook_cm = hook,
        .hook_moves_cm = hook - g->hook_cm,
        .string_cm = string,
        .string_left_cm = vh_max(0.0, left),
        .lowest_fruit_cm = lowest_fruit_cm(g, next, day),
        .zone_cm = lowest < g->series->trusses ? next_cm - vh_lower_joint_cm(g->series, lowest)
                                               : VH_UNKNOWN,
        .leaves_first = leaves_lying(g->series, day, next.laid_cm),
        .breach = breach,
        .recorded = recorded,
    };
    if (left < -NOTHING_CM) /* more was let out than was wound: more was tied on */
        v->breach |= VH_LOWER_STRING_SHORT;
    if (is_brought_low(g, day, v->lowest_fruit_cm))
        v->breach |= VH_LOWER_FRUIT_LOW;
    if (vh_lower_head_cm(p, next, next_cm) > p->wire_cm + NOTHING_CM)
        v->breach |= VH_LOWER_HEAD_HIGH;
    g->now = next;
    g->hook_cm = hook;
}

/* The string after a visit that must reach `needed` for the head's sake and would like `wanted`:
 * `most` gives way to the head, but after a missed visit the rest waits a day where it can. */
static double string_for_head_cm(struct planning *g, size_t day, double wanted, double needed,
                                 unsigned *breach)
{
    const double now = vh_lower_string_cm(g->policy, g->now);
    const double string = vh_min(wanted, now + g->policy->most_cm);

    if (string >= needed)
        return string;
    const int64_t tomorrow = g->series->first_day + (int64_t)day + 1;
    if (g->missed && day + 1 < g->series->days && !vh_entry_locked(g->series->policy, tomorrow)) {
        g->next_of = day;
        *breach |= VH_LOWER_FIRST_PASS;
        return string;
    }
    *breach |= VH_LOWER_MORE_THAN_MOST;
    return needed;
}

/* What the plan lets out at a visit that looks ahead to a stem of next_cm. */
static void plan_visit(struct planning *g, struct vh_lower_plan *out, size_t day, double next_cm,
                       double share)
{
    const struct vh_lower_policy *p = g->policy;
    const double now = vh_lower_string_cm(p, g->now);
    const double wanted =
        vh_lower_string_cm(p, vh_lower_state_for_stem(p, next_cm, p->head_clearance_cm));
    const double needed = vh_lower_string_cm(p, vh_lower_state_for_stem(p, next_cm, 0.0));
    const double wound = p->string_cm - p->knots_cm;
    const double fruit = string_for_fruit_cm(g, day, now);
    const bool low_now = is_brought_low(g, day, lowest_fruit_cm(g, g->now, day));
    unsigned breach = 0;
    double string = string_for_head_cm(g, day, wanted, needed, &breach);

    if (fruit < needed - NOTHING_CM)
        breach |= VH_LOWER_ZONE_LONG;
    string = vh_min(string, fruit);
    if (string > wound) {
        string = wound;
        breach |= VH_LOWER_STRING_SHORT;
    }
    string = vh_max(string, now);
    if (g->unplanned && string - now < p->least_cm) {
        g->next_of = g->series->days; /* no second pass without a first */
        return; /* the fruit leaves no room to let out: it waits for the next visit */
    }
    if ((breach & VH_LOWER_FIRST_PASS) && string - now < p->most_cm) {
        breach &= ~(unsigned)VH_LOWER_FIRST_PASS; /* it is not `most` that holds the string back */
        g->next_of = g->series->days;
    }
    if (string - now < p->least_cm && now >= needed && !low_now &&
        !(breach & VH_LOWER_STRING_SHORT))
        return; /* not worth a visit, and the head stays below the wire */
    if (string - now <= p->most_cm + NOTHING_CM)
        breach &= ~(unsigned)VH_LOWER_MORE_THAN_MOST;
    string = now + share * (string - now);
    if (string - now < NOTHING_CM && !breach && !low_now)
        return;
    record_visit(g, out, day, string - now, breach, false);
}

/* The string let out on a day by the records; 0: they say nothing. */
static double recorded_cm(const struct vh_done *done, int64_t day)
{
    double sum = 0.0;

    for (size_t i = 0; done && i < done->lowered_rows; i++)
        if (done->lowered[i].day == day)
            sum += done->lowered[i].cm;
    return sum;
}

/* What cannot wait is done today, whatever the rhythm: heads that are past the wire already. */
static bool cannot_wait(const struct planning *g, size_t day)
{
    const struct vh_work_series *s = g->series;

    return s->first_day + (int64_t)day == s->today &&
           vh_lower_is_past_wire(g->policy, g->now, s->day[day].stem_cm);
}

/* Is a visit due, and how long will the stem be when the next one comes? */
static bool is_due(struct planning *g, size_t day, double *next_cm)
{
    const struct vh_work_series *s = g->series;
    const struct vh_lower_policy *p = g->policy;
    const bool second_pass = day > 0 && g->next_of == day - 1;

    *next_cm = next_stem_cm(g, day);
    if (vh_entry_locked(s->policy, s->first_day + (int64_t)day) || day > last_useful(s))
        return false;
    if (!p->when_head_at_wire) {
        if (second_pass ||
            vh_visit_planned(s->policy, &p->visit, s->first_day, s->first_day + (int64_t)day))
            return true;
        g->unplanned = cannot_wait(g, day);
        g->missed = g->missed || g->unplanned; /* in two passes on two days */
        return g->unplanned;
    }
    if (!second_pass && vh_lower_head_cm(p, g->now, *next_cm) <= p->wire_cm)
        return false;
    const double out = vh_lower_string_cm(p, g->now) + p->most_cm;
    const struct vh_lower_state then = vh_lower_state_for_string(p, out);
    const double reached =
        then.laid_cm + (p->wire_cm - p->head_clearance_cm - p->laid_height_cm) / then.sin_lean;
    *next_cm = vh_max(*next_cm, reached); /* `most` gives way to the wire */
    return true;
}

/* A visit that the records or the rhythm put on that day. */
static void visit_day(struct planning *g, struct vh_lower_plan *out, size_t day)
{
    const struct vh_work_series *s = g->series;
    const int64_t date = s->first_day + (int64_t)day;
    const double recorded = recorded_cm(s->done, date);
    const size_t visits = out->visits;
    const bool missed = g->missed;
    double next_cm = 0.0;
    g->unplanned = false;
    const bool due = is_due(g, day, &next_cm);

    if (recorded > 0.0) {
        record_visit(g, out, day, recorded, 0, true);
        return;
    }
    if (!due)
        return;
    const double share = vh_done_share(s->done, VH_TASK_LOWER, date, 1.0);
    if (share > 0.0)
        plan_visit(g, out, day, next_cm, share);
    /* two passes are all: what is left over goes at the second */
    g->missed = share < 1.0 || (missed && g->unplanned && out->visits == visits);
}

static void run_day(struct planning *g, struct vh_lower_plan *out, size_t day)
{
    const struct vh_work_series *s = g->series;

    while (g->lowest < s->trusses && is_open(s, g->lowest, day) &&
           (double)(g->lowest + 1) < s->day[day].picking_truss - 1.0)
        g->lowest++;
    visit_day(g, out, day);
    out->state[day] = g->now;
    out->lowest_fruit_cm[day] = lowest_fruit_cm(g, g->now, day);
}

enum vh_status vh_lower_plan(const struct vh_work_series *series, struct vh_lower_plan *out)
{
    const struct vh_lower_policy *p = &series->policy->lower;
    struct planning g = {.series = series, .policy = p, .next_of = series->days};

    *out = (struct vh_lower_plan){0};
    if (!p->given)
        return VH_OK;
    out->visit = calloc(series->days + 1, sizeof *out->visit);
    out->state = calloc(series->days + 1, sizeof *out->state);
    out->lowest_fruit_cm = calloc(series->days + 1, sizeof *out->lowest_fruit_cm);
    if (!out->visit || !out->state || !out->lowest_fruit_cm) {
        vh_lower_plan_clear(out);
        return VH_NO_MEMORY;
    }
    /* a stem that stands already hangs as it should on that day, as far as its string reaches */
    g.now = vh_lower_state_for_stem(p, series->day[0].stem_cm, p->head_clearance_cm);
    if (vh_lower_string_cm(p, g.now) > p->string_cm - p->knots_cm)
        g.now = vh_lower_state_for_string(p, p->string_cm - p->knots_cm);
    g.hook_cm = vh_lower_hook_cm(p, g.now);
    for (size_t d = 0; d < series->days; d++)
        run_day(&g, out, d);
    return VH_OK;
}

void vh_lower_plan_clear(struct vh_lower_plan *plan)
{
    free(plan->visit);
    free(plan->state);
    free(plan->lowest_fruit_cm);
    *plan = (struct vh_lower_plan){0};
}
