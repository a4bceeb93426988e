/* Tasks that come with a truss or node: thin and support; and those of once a season. */
#include <stdlib.h>

#include "task_parts.h"
#include "vh_due.h"
#include "vh_math.h"
#include "vh_visits.h"

#define DAYS_PER_WEEK 7

static bool by_truss(const struct vh_work_series *s)
{
    return s->crop->truss.clock_by == VH_CLOCK_BY_TRUSS;
}

/* The day of the season on which something dated from its start happens; days: it does not. */
static size_t day_in_season(const struct vh_work_series *s, double from_start_d)
{
    return from_start_d >= 0.0 && from_start_d < (double)s->days ? (size_t)from_start_d : s->days;
}

/* What she counted on a truss after taking off; NULL: nothing. */
static const struct vh_done_fruits *counted(const struct vh_done *done, size_t truss)
{
    const struct vh_done_fruits *found = NULL;

    for (size_t i = 0; done && i < done->fruits_rows; i++)
        if (done->fruits[i].truss == (int)truss + 1)
            found = &done->fruits[i];
    return found;
}

static void say_truss(struct vh_planned *t)
{
    vh_task_say(t, "truss ");
    vh_task_say_whole(t, (double)t->truss);
}

/* The first day from `day` on with a planned visit of this rhythm; the season's days: none within a
 * week. */
static size_t visit_within_week(const struct vh_work_series *s, const struct vh_rhythm *visit,
                                size_t day)
{
    for (size_t d = day; d < s->days && d < day + DAYS_PER_WEEK; d++)
        if (vh_visit_planned(s->policy, visit, s->first_day, s->first_day + (int64_t)d))
            return d;
    return s->days;
}

/* Nobody comes for one truss: its work is done on the next walk for suckers, or else for leaves; on
 * the day itself where there is neither within a week. */
static size_t visit_from(const struct vh_work_series *s, size_t day)
{
    size_t visit = visit_within_week(s, &s->policy->suckers.visit, day);

    if (visit == s->days)
        visit = visit_within_week(s, &s->policy->leaf_visit, day);
    return visit == s->days ? day : visit;
}

static size_t day_of(const struct vh_work_series *s, int64_t date)
{
    return (size_t)vh_clamp((double)(date - s->first_day), 0.0, (double)(s->days - 1));
}

/* ---- thin ---- */

int64_t vh_thinning_on(const struct vh_work_series *s, const struct vh_work_params *book,
                       size_t truss)
{
    const struct vh_truss_view *v = &s->truss[truss];
    const struct vh_done_fruits *done = by_truss(s) ? counted(s->done, truss) : NULL;
    const size_t due = day_in_season(s, v->thinned_d);

    if (due >= s->days || !(v->set - v->kept > (by_truss(s) ? book->thin_least_off : 0.0)))
        return INT64_MAX;
    return done ? done->day
                : vh_done_moved(s->done, VH_TASK_THIN, s->first_day + (int64_t)visit_from(s, due),
                                s->today);
}

/* By far the most notes of all futures: not through printf. */
static void say_thinning(struct vh_planned *t, double kept, double off, double in_all)
{
    say_truss(t);
    vh_task_say(t, ": leave ");
    vh_task_say_counted(t, kept);
    vh_task_say(t, ", take ");
    vh_task_say_counted(t, off);
    vh_task_say(t, " off (");
    vh_task_say_whole(t, in_all);
    vh_task_say(t, ")");
}

static void thin_truss(struct vh_task_planning *g, size_t truss)
{
    const struct vh_work_series *s = g->series;
    const struct vh_truss_view *v = &s->truss[truss];
    const struct vh_done_fruits *done = counted(s->done, truss);
    const int64_t date = vh_thinning_on(s, g->request->book, truss);
    const double off = v->set - v->kept;

    if (date == INT64_MAX)
        return;
    const double share = vh_done_share(s->done, VH_TASK_THIN, date, 1.0);
    const double stems = s->day[day_of(s, date)].stems * v->thin_share;
    struct vh_planned *t = vh_task_add(g, date, VH_TASK_THIN, share * stems, "trusses");
    enum vh_thin_stage at;
    if (!t)
        return;
    const double kept =
        vh_policy_fruits_kept(s->policy, (int)truss + 1, s->first_day + (int64_t)v->opened_d, &at);
    t->truss = (int)truss + 1;
    t->done = t->done || done != NULL;
    vh_task_say_if_moved(g, t, &s->policy->suckers.visit);
    if (done)
        vh_task_note(t, "truss %d: %.1f left", t->truss, done->fruits);
    else if (kept <= 0.0)
        vh_task_note(t, "truss %d: take it off", t->truss);
    else
        say_thinning(t, kept, off, off * stems);
}

/* Young fruit of nodes comes off with the suckers: all nodes since the last visit together. */
static void thin_nodes(struct vh_task_planning *g)
{
    const struct vh_work_series *s = g->series;

    for (size_t k = 0; k < s->trusses;) {
        size_t last = k;
        double off = 0.0, handled = 0.0;
        const size_t due = day_in_season(s, s->truss[k].thinned_d);
        if (due >= s->days) {
            k++;
            continue;
        }
        const size_t day = visit_from(s, due);
        for (; last < s->trusses; last++) {
            const struct vh_truss_view *v = &s->truss[last];
            const size_t its = day_in_season(s, v->thinned_d);
            if (its >= s->days || its > day || visit_from(s, its) != day)
                break;
            off += vh_max(0.0, v->set - v->kept) * v->thin_share;
            handled += vh_clamp(v->set - v->kept, 0.0, 1.0) * v->thin_share;
        }
        last = last > k ? last : k + 1;
        const int64_t date = vh_done_moved(s->done, VH_TASK_THIN, vh_task_date(g, day), s->today);
        const double share = vh_done_share(s->done, VH_TASK_THIN, date, 1.0);
        struct vh_planned *t =
            off > g->request->book->thin_least_off
                ? vh_task_add(g, date, VH_TASK_THIN, share * handled * s->day[day].stems, "nodes")
                : NULL;
        if (t) {
            t->truss = (int)k + 1;
            vh_task_say(t, "nodes ");
            vh_task_say_whole(t, (double)(k + 1));
            vh_task_say(t, " to ");
            vh_task_say_whole(t, (double)last);
            vh_task_say(t, ": ");
            vh_task_say_whole(t, off * s->day[day].stems);
            vh_task_say(t, " young fruits off");
        }
        k = last;
    }
}

/* ---- support ---- */

int64_t vh_support_on(const struct vh_work_series *s, const struct vh_work_params *book,
                      size_t truss)
{
    const size_t day = day_in_season(s, s->truss[truss].opened_d);
    double sum = 0.0;
    size_t n = 0;

    if (!by_truss(s) || day >= s->days || isnan(s->truss[truss].ripe_first_d))
        return INT64_MAX; /* what ripens no more before pull-out needs none */
    for (size_t d = day; d < s->days && n < DAYS_PER_WEEK; d++, n++)
        sum += s->day[d].dli_mol_m2_d;
    return sum / (double)n < book->support_below_mol
               ? vh_done_moved(s->done, VH_TASK_SUPPORT, s->first_day + (int64_t)visit_from(s, day),
                               s->today)
               : INT64_MAX;
}

static void support(struct vh_task_planning *g, size_t truss)
{
    const struct vh_work_series *s = g->series;
    const int64_t date = vh_support_on(s, g->request->book, truss);

    if (date == INT64_MAX)
        return;
    const struct vh_truss_view *v = &s->truss[truss];
    const double share = vh_done_share(s->done, VH_TASK_SUPPORT, date, 1.0);
    const double on = s->day[day_in_season(s, v->opened_d)].stems * v->opened_on;
    struct vh_planned *t = vh_task_add(g, date, VH_TASK_SUPPORT, share * on, "trusses");
    if (t) {
        t->truss = (int)truss + 1;
        vh_task_say_if_moved(g, t, &s->policy->suckers.visit);
        say_truss(t);
        vh_task_say(t, ": while its stalk is supple");
    }
}

void vh_tasks_of_trusses(struct vh_task_planning *g)
{
    if (!by_truss(g->series))
        thin_nodes(g);
    for (size_t t = 0; by_truss(g->series) && t < g->series->trusses; t++) {
        thin_truss(g, t);
        support(g, t);
    }
}

/* ---- once a season ---- */

int vh_topping_last(const struct vh_truss_view *truss, size_t trusses, size_t days)
{
    int last = 0;

    for (size_t t = 0; t < trusses; t++)
        if (!isnan(truss[t].ripe_last_d) && truss[t].ripe_last_d < (double)days)
            last = (int)t + 1;
    return last;
}

bool vh_topping_proposed(const struct vh_task_request *r, struct vh_planned *out)
{
    const struct vh_work_series *s = r->series;
    const int64_t end = s->first_day + (int64_t)s->days - 1;
    const int last =
        r->top_above == VH_TOP_OWN ? vh_topping_last(s->truss, s->trusses, s->days) : r->top_above;

    if (s->policy->has_top || !by_truss(s) || last <= 0 || (size_t)last >= s->trusses)
        return false;
    /* the tip goes when two leaves stand above that truss; some do already when it flowers */
    const double pace_d = s->truss[last].opened_d - s->truss[last - 1].opened_d;
    const double leaves = vh_max(0.0, r->book->top_leaves_above - s->crop->truss.leaves_ahead);
    const double wait_d = pace_d * leaves / vh_max(1.0, s->crop->truss.leaves_per_truss);
    const double on = s->truss[last - 1].opened_d + wait_d;
    if (!(on >= 0.0 && on < (double)s->days))
        return false;
    const int64_t day = s->first_day + (int64_t)on;
    if (day < s->today && (double)(end - s->today) < r->book->top_late_d)
        return false;
    const int64_t date = day < s->today && s->today <= end ? s->today : day;
    *out = (struct vh_planned){.date = date,
                               .task = VH_TASK_TOP,
                               .count = s->day[date - s->first_day].stems,
                               .unit = "stems",
                               .may_wait_d = r->book->may_wait_d[VH_TASK_TOP],
                               .truss = last,
                               .proposed = true};
    vh_task_note(out, "only proposed: truss %d is the last that ripens before pull-out", last);
    if (r->top_above != VH_TOP_OWN)
        vh_task_note(out, ", %.3g times in 10", 10.0 * r->book->top_sure);
    vh_task_note(out, "; give a date in [planting.top] to plan it");
    return true;
}

static void plan_top(struct vh_task_planning *g)
{
    const struct vh_work_series *s = g->series;
    const struct vh_policy *p = s->policy;
    const int64_t end = vh_task_date(g, s->days - 1);
    struct vh_planned *t = NULL, proposed;

    if (p->has_top && p->top_on >= s->first_day && p->top_on <= end)
        t = vh_task_add(g, p->top_on, VH_TASK_TOP, s->day[p->top_on - s->first_day].stems, "stems");
    if (t)
        vh_task_note(t, "take the tip, leave two leaves above the last truss; suckers go on");
    if (!vh_topping_proposed(g->request, &proposed))
        return;
    t = vh_task_add(g, proposed.date, VH_TASK_TOP, proposed.count, proposed.unit);
    if (!t)
        return;
    t->proposed = true;
    t->pieces = 0.0;
    vh_task_say(t, proposed.note);
}

/* A string and a hook for each new stem. */
static void plan_strings(struct vh_task_planning *g)
{
    const struct vh_work_series *s = g->series;
    double before = s->standing ? s->day[0].stems : 0.0;

    for (size_t d = 0; d < s->days; d++) {
        const double now = s->day[d].stems;
        struct vh_planned *t =
            vh_task_add(g, vh_task_date(g, d), VH_TASK_STRING, now - before, "stems");
        if (t)
            vh_task_note(t, "one string and hook a stem, tied loosely at the foot");
        before = vh_max(before, now);
    }
}

void vh_tasks_of_season(struct vh_task_planning *g)
{
    const struct vh_work_series *s = g->series;
    struct vh_planned *t = NULL;

    plan_strings(g);
    if (!s->standing)
        t = vh_task_add(g, s->first_day, VH_TASK_PLANT, s->plants, "plants");
    if (t)
        vh_task_note(t, "water well; the first clip before they topple");
    plan_top(g);
    t = vh_task_add(g, vh_task_date(g, s->days - 1), VH_TASK_PULL_OUT, s->plants, "plants");
    if (t)
        vh_task_note(t, "cut, carry out, take down string, clips and hooks");
}
