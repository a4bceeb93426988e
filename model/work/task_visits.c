/* Tasks that come with a visit: pollinate, sucker, clip, leaf, lower, pick. */
#include "task_parts.h"
#include "vh_date.h"
#include "vh_math.h"
#include "vinehand.h"
#include "vh_visits.h"

#define HALF_TURN 0.5

enum { DAYS_PER_WEEK = 7 };

void vh_task_say_if_moved(const struct vh_task_planning *g, struct vh_planned *t,
                         const struct vh_rhythm *rhythm)
{
    const struct vh_policy *p = g->series->policy;

    if (t->done || vh_rhythm_due(rhythm, g->series->first_day, t->date) ||
        !(t->task == VH_TASK_PICK ? vh_pick_locked : vh_entry_locked)(p, t->date - 1))
        return;
    t->moved = true;
    vh_task_note(t, "moved, your label barred the days before; ");
}

static double share_on(const struct vh_task_planning *g, enum vh_task task,
                       const struct vh_rhythm *rhythm, size_t day)
{
    return vh_visit_share(g->series->policy, task, rhythm, g->series->first_day,
                          vh_task_date(g, day));
}

static bool is_behind(const struct vh_task_planning *g, enum vh_task task,
                      const struct vh_rhythm *rhythm, int64_t date)
{
    const struct vh_work_series *s = g->series;

    return s->done && vh_visit_is_behind(s->policy, task, rhythm, s->first_day, date);
}

/* Has a flower opened that still waits for a visit? */
static bool has_open_flowers(const struct vh_task_planning *g, size_t day)
{
    const struct vh_work_series *s = g->series;
    const size_t back = (size_t)ceil(s->crop->flower.receptive_d);
    const double now = s->day[day].flowering_truss;

    if (!(now >= 1.0))
        return false;
    return day < back || now > s->day[day - back].flowering_truss;
}

static void plan_pollination(struct vh_task_planning *g, size_t day)
{
    const struct vh_work_series *s = g->series;
    const struct vh_policy *p = s->policy;
    const double window = s->crop->flower.receptive_d;

    if (p->pollination != VH_POLLINATION_HAND || s->crop->flower.unvisited_share >= 1.0 ||
        !has_open_flowers(g, day))
        return;
    const double share = share_on(g, VH_TASK_POLLINATE, &p->pollination_visit, day);
    struct vh_planned *t =
        vh_task_add(g, vh_task_date(g, day), VH_TASK_POLLINATE, share * s->day[day].stems, "stems");
    if (!t)
        return;
    vh_task_say_if_moved(g, t, &p->pollination_visit);
    vh_task_say(t, "every open truss, ");
    vh_task_say(t, s->day[day].hottest_c > g->request->book->hot_c ? "early, before the heat"
                                                                   : "late in a dry morning");
    const int64_t between =
        vh_rhythm_between_d(&p->pollination_visit, s->first_day, vh_task_date(g, day));
    if ((double)between > window)
        vh_task_note(t, "; a flower waits %g days, your visits are %d apart", window, (int)between);
}

/* share: of the stems that the visit for suckers reaches today. */
static void plan_suckers(struct vh_task_planning *g, size_t day, double share)
{
    const struct vh_work_series *s = g->series;
    const struct vh_work_params *b = g->request->book;
    const struct vh_rhythm *visit = &s->policy->suckers.visit;
    const double longest = s->day[day].sucker_longest_cm; /* NaN: not reckoned */
    const int64_t date = vh_task_date(g, day);
    struct vh_planned *t = vh_task_add(g, date, VH_TASK_SUCKER, share * s->day[day].stems, "stems");

    if (!t)
        return;
    vh_task_say_if_moved(g, t, visit);
    const int64_t before = vh_visit_gap_d(s->policy, VH_TASK_SUCKER, visit, s->first_day, date);
    if (is_behind(g, VH_TASK_SUCKER, visit, date) || longest > b->sucker_pinch_cm)
        vh_task_note(
            t, "pinch the tips of those over %g cm now, pull half; the rest at the next visit",
            b->sucker_pinch_cm);
    else if (day > (size_t)before && is_behind(g, VH_TASK_SUCKER, visit, date - before))
        vh_task_note(t, "pull those that were pinched last time, and all new ones");
    else if (longest > b->sucker_warn_cm) {
        vh_task_say(t, "longest ");
        vh_task_say_whole(t, longest);
        vh_task_say(t, " cm: a clean cut, dry morning");
    } else
        vh_task_note(t, "break by hand while 2 to 5 cm, dry morning");
}

/* On the visits for suckers. */
static void plan_clips(struct vh_task_planning *g, size_t day, double share)
{
    const struct vh_work_series *s = g->series;
    const struct vh_clip_policy *clips = &s->policy->clips;
    const double every = clips->every_cm > 0.0 ? clips->every_cm : g->request->book->clip_every_cm;
    const struct vh_lower_state *state = g->request->lowering->state;
    const double stems = s->day[day].stems;
    const int64_t date = vh_task_date(g, day);

    if (day > 0) {
        g->clips_owed += vh_max(0.0, s->day[day].stem_cm - s->day[day - 1].stem_cm) / every * stems;
        if (clips->reuse && state)
            g->clips_freed +=
                vh_max(0.0, state[day].laid_cm - state[day - 1].laid_cm) / every * stems;
    }
    if (vh_visit_is_idle(s->policy, VH_TASK_CLIP, date))
        return;
    if (!s->standing && day == 0)
        g->clips_owed += stems; /* the first, before the plants topple */
    else if (!(share > 0.0) && date != vh_done_again(s->done, VH_TASK_CLIP, s->today))
        return;
    if (vh_done_share(s->done, VH_TASK_CLIP, date, 1.0) < vh_done_least_share)
        return;
    const double now = floor(g->clips_owed);
    struct vh_planned *t = vh_task_add(g, date, VH_TASK_CLIP, now, "clips");
    if (!t)
        return;
    const double old = vh_min(floor(g->clips_freed), now);
    vh_task_say(t, "under a strong leaf, never under a truss");
    vh_task_say(t, old > 0.0 ? "; used ones only after disinfection" : "");
    g->clips_owed -= now;
    g->clips_freed -= old;
    t->used = now - old;
}

static void plan_leaves(struct vh_task_planning *g, size_t day)
{
    const struct vh_work_series *s = g->series;
    const struct vh_work_day *d = &s->day[day];
    const struct vh_rhythm *visit = &s->policy->leaf_visit;
    const int64_t date = vh_task_date(g, day);

    /* how many is in the season already: only that the visit was made is asked here */
    if (!(d->leaves_off > 0.0) || !(share_on(g, VH_TASK_LEAF, visit, day) > 0.0))
        return;
    struct vh_planned *t = vh_task_add(g, date, VH_TASK_LEAF, d->leaves_off * d->stems, "leaves");
    if (!t)
        return;
    vh_task_say_if_moved(g, t, visit);
    if (d->leaves_off < g->request->book->leaf_each) { /* not every stem has one to give */
        vh_task_say(t, "1 off each stem that has one to spare");
    } else {
        vh_task_say_counted(t, d->leaves_off);
        vh_task_say(t, " off each stem");
    }
    vh_task_say(t, s->policy->leaves_down_to_picking ? ", up to the truss being picked, dry morning"
                                                     : ", from below, dry morning");
    if (is_behind(g, VH_TASK_LEAF, visit, date))
        vh_task_note(t, "; behind: at most %g a visit", g->request->book->recover_leaves_most);
}

/* Days that a visit may wait: the last of them on which the heads, left as they hang, are not yet
 * past the wire; a week at most, for then the next visit comes. */
static double heads_wait_d(const struct vh_task_planning *g, size_t day)
{
    const struct vh_work_series *s = g->series;
    const struct vh_lower_state *evening = g->request->lowering->state;
    size_t later = 0;

    if (day == 0 || !evening)
        return g->request->book->may_wait_d[VH_TASK_LOWER];
    while (later <= DAYS_PER_WEEK && day + later < s->days &&
           !vh_lower_is_past_wire(&s->policy->lower, evening[day - 1], s->day[day + later].stem_cm))
        later++;
    return day + later == s->days ? DAYS_PER_WEEK : later > 0 ? (double)(later - 1) : 0.0;
}

/* goes_on: the rest is let out tomorrow. */
static void plan_lowering(struct vh_task_planning *g, const struct vh_lower_visit *v, bool goes_on)
{
    const struct vh_work_series *s = g->series;
    const struct vh_lower_policy *p = &s->policy->lower;
    const int64_t date = vh_task_date(g, v->day);
    if (v->let_out_cm < g->request->book->string_least_cm) /* it only tells that the heads cannot come down */
        return;
    const double turns = vh_round_on(&g->turns_rest, v->let_out_cm / p->turn_cm, HALF_TURN);
    const double share = vh_done_share(s->done, VH_TASK_LOWER, date, 1.0);
    struct vh_planned *t =
        vh_task_add(g, date, VH_TASK_LOWER, share * s->day[v->day].stems, "stems");

    if (!t)
        return;
    t->done = t->done || v->recorded;
    t->may_wait_d = heads_wait_d(g, v->day);
    if (!p->when_head_at_wire)
        vh_task_say_if_moved(g, t, &p->visit);
    vh_task_say_whole(t, v->let_out_cm);
    vh_task_say(t, " cm, ");
    vh_task_say_halves(t, turns);
    vh_task_say(t, turns > 1.0 ? " turns" : " turn");
    if (goes_on) { /* after a missed visit the lowering itself is in two visits */
        vh_task_note(t, ", the first of two passes");
    } else if (v->breach & VH_LOWER_MORE_THAN_MOST) {
        vh_task_note(t, ", in two passes");
        t->pieces *= 2.0;
    }
    if (v->leaves_first >= 1.0)
        vh_task_note(t, "; first %.0f leaves that would lie down", v->leaves_first);
    vh_task_note(t, "; slowly, no sharp bend");
}

/* At the last pick, than at others. */
static bool takes_more(const struct vh_policy *p)
{
    return p->has_last &&
           (p->last_colour ? p->last_stage < p->pick_stage : p->last_from_g < p->pick_from_g);
}

static void plan_pick(struct vh_task_planning *g, size_t day)
{
    const struct vh_work_series *s = g->series;
    const struct vh_work_day *d = &s->day[day];
    const bool by_kg = !s->by_piece;
    struct vh_planned *t = d->pick_day ? vh_task_add(g, vh_task_date(g, day), VH_TASK_PICK,
                                                     d->picked_fruits, by_kg ? "kg" : "fruits")
                                       : NULL;

    if (!t)
        return;
    t->count = t->used = by_kg ? d->picked_kg : d->picked_fruits;
    vh_task_say_if_moved(g, t, &s->policy->pick);
    t->pieces = d->picked_fruits;
    if (s->policy->whole_truss && d->picking_truss >= 1.0 &&
        d->picking_truss < (double)s->trusses + 1.0)
        t->pieces /= vh_max(1.0, s->truss[(size_t)d->picking_truss - 1].kept);
    vh_task_say(t, "about ");
    vh_task_say_whole(t, by_kg ? d->picked_fruits : d->picked_kg);
    vh_task_say(t, by_kg ? " fruits" : " kg");
    if (!takes_more(s->policy) || t->date != s->policy->last_on)
        return;
    if (s->policy->last_colour)
        vh_task_note(t, ", the last pick: all goes from %s on", s->policy->last_colour);
    else
        vh_task_note(t, ", the last pick: all goes from %.0f g on", s->policy->last_from_g);
}

void vh_tasks_of_visits(struct vh_task_planning *g)
{
    for (size_t d = 0; d < g->series->days; d++) {
        plan_pollination(g, d);
        const double share = share_on(g, VH_TASK_SUCKER, &g->series->policy->suckers.visit, d);
        plan_suckers(g, d, share);
        plan_clips(g, d, share);
        plan_leaves(g, d);
        plan_pick(g, d);
    }
    const struct vh_lower_plan *lowering = g->request->lowering;
    for (size_t v = 0; v < lowering->visits; v++) {
        const struct vh_lower_visit *visit = &lowering->visit[v];
        const bool tomorrow =
            v + 1 < lowering->visits && lowering->visit[v + 1].day == visit->day + 1;
        plan_lowering(g, visit, tomorrow && (visit->breach & VH_LOWER_FIRST_PASS));
    }
}
