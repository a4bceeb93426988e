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
    size_t lowest; /* truss from which on fruit may hang */
};

double vh_lower_joint_cm(const struct vh_work_series *series, size_t truss)
{
    const double opened = vh_clamp(series->truss[truss].opened_d, 0.0, (double)series->days);
    const size_t day = (size_t)opened;
    const double part = opened - (double)day;
    const double before = day > 0 ? series->day[day - 1].stem_cm : series->day[0].stem_cm;
    const double after = series->day[day < series->days ? day : series->days - 1].stem_cm;
    const double length = before + part * (after - before);

    return vh_max(0.0, length - series->policy->lower.flower_below_head_cm);
}

/* Does the truss carry fruit on the evening of that day? */
static bool carries(const struct vh_work_series *s, size_t truss, size_t day)
{
    const struct vh_truss_view *v = &s->truss[truss];
    const double few = 0.05; /* of a fruit a stem: most stems have none there */

    return v->opened_d <= (double)day + 1.0 && v->kept > few &&
           (double)(truss + 1) >= vh_max(1.0, s->day[day].picking_truss - 1.0 + few);
}

/* The lowest truss with fruit on it; trusses: none. Moves the mark of `from` on. */
static size_t lowest_truss(const struct vh_work_series *s, size_t from, size_t day)
{
    size_t t = from;

    while (t < s->trusses && s->truss[t].opened_d <= (double)day + 1.0 && !carries(s, t, day))
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

static void record_visit(struct planning *g, struct vh_lower_plan *out, size_t day,
                         struct vh_lower_state next, double let_out, unsigned breach, bool recorded)
{
    const struct vh_lower_policy *p = g->policy;
    struct vh_lower_visit *v = &out->visit[out->visits++];
    const double hook = vh_lower_hook_cm(p, next), string = vh_lower_string_cm(p, next);

    *v = (struct vh_lower_visit){
        .day = day,
        .let_out_cm = let_out,
        .state = next,
        .stem_cm = g->series->day[day].stem_cm,
        .hook_cm = hook,
        .hook_moves_cm = hook - g->hook_cm,
        .string_cm = string,
        .string_left_cm = p->string_cm - string - p->knots_cm,
        .lowest_fruit_cm = lowest_fruit_cm(g, next, day),
        .leaves_first = leaves_lying(g->series, day, next.laid_cm),
        .breach = breach,
        .recorded = recorded,
    };
    if (v->lowest_fruit_cm < p->fruit_floor_cm - NOTHING_CM)
        v->breach |= VH_LOWER_FRUIT_LOW;
    g->now = next;
    g->hook_cm = hook;
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
    unsigned breach = 0;
    double string = vh_min(wanted, now + p->most_cm);

    if (string < needed) { /* the head goes before `most` */
        string = needed;
        breach |= VH_LOWER_MORE_THAN_MOST;
    }
    string = vh_min(string, fruit);
    if (string > wound) {
        string = wound;
        breach |= VH_LOWER_STRING_SHORT;
    }
    string = vh_max(string, now);
    if (string - now < p->least_cm && now >= needed && !(breach & VH_LOWER_STRING_SHORT))
        return; /* not worth a visit, and the head stays below the wire */
    if (string < needed - NOTHING_CM)
        breach |= VH_LOWER_HEAD_HIGH;
    if (string - now > p->most_cm + NOTHING_CM)
        breach |= VH_LOWER_MORE_THAN_MOST;
    else
        breach &= ~(unsigned)VH_LOWER_MORE_THAN_MOST;
    string = now + share * (string - now);
    if (string - now < NOTHING_CM && !breach)
        return;
    record_visit(g, out, day, vh_lower_state_for_string(p, string), string - now, breach, false);
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

static size_t next_visit(const struct vh_work_series *s, size_t day)
{
    size_t d = day + 1;

    while (d < s->days && !vh_visit_planned(s->policy, &s->policy->lower.visit, s->first_day,
                                            s->first_day + (int64_t)d))
        d++;
    return d < s->days ? d : s->days - 1;
}

/* Is a visit due, and how long will the stem be when the next one comes? */
static bool is_due(const struct planning *g, size_t day, double *next_cm)
{
    const struct vh_work_series *s = g->series;
    const struct vh_lower_policy *p = g->policy;
    const size_t tomorrow = day + 1 < s->days ? day + 1 : day;

    if (!p->when_head_at_wire) {
        *next_cm = s->day[next_visit(s, day)].stem_cm;
        return vh_visit_planned(s->policy, &p->visit, s->first_day, s->first_day + (int64_t)day);
    }
    if (vh_lower_head_cm(p, g->now, s->day[tomorrow].stem_cm) <= p->wire_cm ||
        vh_entry_locked(s->policy, s->first_day + (int64_t)day))
        return false;
    const double out = vh_lower_string_cm(p, g->now) + p->most_cm;
    const struct vh_lower_state then = vh_lower_state_for_string(p, out);
    const double reached =
        then.laid_cm + (p->wire_cm - p->head_clearance_cm - p->laid_height_cm) / then.sin_lean;
    *next_cm = vh_max(s->day[tomorrow].stem_cm, reached); /* `most` gives way to the wire */
    return true;
}

static void run_day(struct planning *g, struct vh_lower_plan *out, size_t day)
{
    const struct vh_work_series *s = g->series;
    const int64_t date = s->first_day + (int64_t)day;
    const double recorded = recorded_cm(s->done, date);
    double next_cm = 0.0;

    while (g->lowest < s->trusses && s->truss[g->lowest].opened_d <= (double)day &&
           (double)(g->lowest + 1) < s->day[day].picking_truss - 1.0)
        g->lowest++;
    if (recorded > 0.0) {
        const double string = vh_lower_string_cm(g->policy, g->now) + recorded;
        record_visit(g, out, day, vh_lower_state_for_string(g->policy, string), recorded, 0, true);
    } else if (is_due(g, day, &next_cm)) {
        const double share = vh_done_share(s->done, VH_TASK_LOWER, date, 1.0);
        if (share > 0.0)
            plan_visit(g, out, day, next_cm, share);
    }
    out->state[day] = g->now;
    out->lowest_fruit_cm[day] = lowest_fruit_cm(g, g->now, day);
}

enum vh_status vh_lower_plan(const struct vh_work_series *series, struct vh_lower_plan *out)
{
    const struct vh_lower_policy *p = &series->policy->lower;
    struct planning g = {.series = series, .policy = p};

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
