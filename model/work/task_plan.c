#include "vh_task_plan.h"

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>

#include "vh_math.h"

#define SECONDS_PER_MIN 60.0
#define LEAST_COUNT 0.5 /* of a whole planting: less than half a piece is none */

struct planning {
    const struct vh_task_request *request;
    const struct vh_work_series *series;
    struct vh_task_plan *out;
    enum vh_status status;
    double clip_rest; /* of a clip, owed from the days before */
};

static int64_t date_of(const struct planning *g, size_t day)
{
    return g->series->first_day + (int64_t)day;
}

/* Makes room for a task and gives it; the note follows as printf does. NULL: nothing to add. */
static struct vh_planned *add(struct planning *g, size_t day, enum vh_task task, double count,
                              const char *unit)
{
    struct vh_task_plan *p = g->out;
    const struct vh_task_request *r = g->request;
    const double share = vh_done_share(g->series->done, task, date_of(g, day), 1.0);

    if (count * share < LEAST_COUNT || g->status != VH_OK)
        return NULL;
    if (p->tasks == p->room) {
        const size_t room = p->room ? 2 * p->room : 256;
        struct vh_planned *more = realloc(p->task, room * sizeof *more);
        if (!more) {
            g->status = VH_NO_MEMORY;
            return NULL;
        }
        p->task = more;
        p->room = room;
    }
    struct vh_planned *t = &p->task[p->tasks++];
    *t = (struct vh_planned){.date = date_of(g, day),
                             .task = task,
                             .count = count * share,
                             .unit = unit,
                             .minutes = count * share * vh_task_seconds(r->book, r->labour, task) /
                                        SECONDS_PER_MIN,
                             .may_wait_d = r->book->may_wait_d[task],
                             .done = vh_done_said(g->series->done, task, date_of(g, day))};
    return t;
}

static bool is_due(const struct planning *g, const struct vh_rhythm *rhythm, size_t day)
{
    return vh_rhythm_due(rhythm, g->series->first_day, date_of(g, day));
}

/* ---- one task each ---- */

static void plan_pollination(struct planning *g, size_t day)
{
    const struct vh_work_series *s = g->series;

    if (s->policy->pollination != VH_POLLINATION_HAND || s->day[day].flowering_truss < 1.0 ||
        s->crop->flower.unvisited_share >= 1.0 || !is_due(g, &s->policy->pollination_visit, day))
        return;
    struct vh_planned *t = add(g, day, VH_TASK_POLLINATE, s->day[day].stems, "stems");
    if (t)
        snprintf(t->note, sizeof t->note, "every open truss, late morning%s",
                 s->day[day].hottest_c > 30.0 ? "; before the heat today" : "");
}

static void plan_suckers(struct planning *g, size_t day)
{
    const struct vh_work_series *s = g->series;
    const struct vh_work_params *b = g->request->book;
    const double longest = s->day[day].sucker_longest_cm;

    if (!is_due(g, &s->policy->suckers.visit, day) || s->policy->suckers.visit.every_d == 0)
        return;
    struct vh_planned *t = add(g, day, VH_TASK_SUCKER, s->day[day].stems, "stems");
    if (!t)
        return;
    if (longest > b->sucker_pinch_cm)
        snprintf(t->note, sizeof t->note,
                 "longest %.0f cm: pinch the tips of those over %.0f, pull them at the next visit",
                 longest, b->sucker_pinch_cm);
    else if (longest > b->sucker_warn_cm)
        snprintf(t->note, sizeof t->note, "longest %.0f cm: cut clean, dry morning", longest);
    else
        snprintf(t->note, sizeof t->note, "break by hand while 2 to 5 cm, dry morning");
}

static void plan_clips(struct planning *g, size_t day)
{
    const struct vh_work_series *s = g->series;
    const double every = s->policy->clips.every_cm > 0.0 ? s->policy->clips.every_cm
                                                         : g->request->book->clip_every_cm;
    const double grown = day > 0 ? s->day[day].stem_cm - s->day[day - 1].stem_cm : 0.0;

    g->clip_rest += vh_max(0.0, grown) / every * s->day[day].stems;
    if (!is_due(g, &s->policy->suckers.visit, day) && s->policy->suckers.visit.every_d != 0)
        return;
    const double now = floor(g->clip_rest);
    struct vh_planned *t = add(g, day, VH_TASK_CLIP, now, "clips");
    if (t)
        snprintf(t->note, sizeof t->note, "under a strong leaf, never under a truss");
    g->clip_rest -= t ? now : 0.0;
}

static void plan_leaves(struct planning *g, size_t day)
{
    const struct vh_work_series *s = g->series;
    const struct vh_work_day *d = &s->day[day];
    const double off = d->leaves_off * d->stems;

    if (off < LEAST_COUNT)
        return;
    struct vh_planned *t = add(g, day, VH_TASK_LEAF, off, "leaves");
    if (!t)
        return;
    t->count = off; /* what the season took off: records are in it already */
    t->minutes =
        off * vh_task_seconds(g->request->book, g->request->labour, VH_TASK_LEAF) / SECONDS_PER_MIN;
    snprintf(t->note, sizeof t->note, "%.1f off each, from below, dry morning", d->leaves_off);
}

static void plan_pick(struct planning *g, size_t day)
{
    const struct vh_work_day *d = &g->series->day[day];

    if (!d->pick_day)
        return;
    struct vh_planned *t = add(g, day, VH_TASK_PICK, d->picked_kg, "kg");
    if (t)
        snprintf(t->note, sizeof t->note, "about %.0f fruits", d->picked_fruits);
}

static void plan_lowering(struct planning *g, size_t visit)
{
    const struct vh_lower_visit *v = &g->request->lowering->visit[visit];
    const struct vh_lower_policy *p = &g->series->policy->lower;
    const double half_turns = floor(2.0 * v->let_out_cm / p->turn_cm + 0.5) / 2.0;
    struct vh_planned *t = add(g, v->day, VH_TASK_LOWER, g->series->day[v->day].stems, "stems");

    if (!t)
        return;
    if (v->leaves_first >= 1.0)
        snprintf(t->note, sizeof t->note,
                 "%.0f cm, %g turns; first %.0f leaves that would lie down",
                 half_turns * p->turn_cm, half_turns, v->leaves_first);
    else
        snprintf(t->note, sizeof t->note, "%.0f cm, %g turns, slowly, no sharp bend",
                 half_turns * p->turn_cm, half_turns);
}

/* ---- trusses ---- */

int64_t vh_support_on(const struct vh_task_request *r, size_t truss)
{
    enum { WEEK = 7 };
    const struct vh_work_series *s = r->series;
    const double opened = s->truss[truss].opened_d;
    double sum = 0.0;
    size_t n = 0;

    if (s->crop->truss.clock_by != VH_CLOCK_BY_TRUSS || isnan(opened) || opened < 0.0 ||
        opened >= (double)s->days)
        return INT64_MAX;
    for (size_t d = (size_t)opened; d < s->days && n < WEEK; d++, n++)
        sum += s->day[d].dli_mol_m2_d;
    if (n == 0 || sum / (double)n >= r->book->support_below_mol)
        return INT64_MAX;
    return s->first_day + (int64_t)opened;
}

static void plan_truss(struct planning *g, size_t truss)
{
    const struct vh_work_series *s = g->series;
    const struct vh_truss_view *v = &s->truss[truss];
    const int64_t support = vh_support_on(g->request, truss);
    const bool node = s->crop->truss.clock_by != VH_CLOCK_BY_TRUSS;

    if (!isnan(v->thinned_d) && v->thinned_d >= 0.0 && v->thinned_d < (double)s->days &&
        v->set > v->kept) {
        const size_t day = (size_t)v->thinned_d;
        const double stems = s->day[day].stems;
        struct vh_planned *t = add(g, day, VH_TASK_THIN, stems, node ? "nodes" : "trusses");
        if (t)
            snprintf(t->note, sizeof t->note, "%s %zu: leave %.3g, take %.0f off in all",
                     node ? "node" : "truss", truss + 1, v->kept, (v->set - v->kept) * stems);
    }
    if (support != INT64_MAX) {
        const size_t day = (size_t)(support - s->first_day);
        struct vh_planned *t = add(g, day, VH_TASK_SUPPORT, s->day[day].stems, "trusses");
        if (t)
            snprintf(t->note, sizeof t->note, "truss %zu: while its stem is supple", truss + 1);
    }
}

/* ---- once a season ---- */

int64_t vh_topping_proposed(const struct vh_task_request *r, int *last_truss)
{
    const struct vh_work_series *s = r->series;
    const double end = (double)s->days;
    size_t last = 0;

    *last_truss = 0;
    if (s->policy->has_top || s->crop->truss.clock_by != VH_CLOCK_BY_TRUSS)
        return INT64_MAX;
    for (size_t t = 0; t < s->trusses; t++)
        if (!isnan(s->truss[t].ripe_last_d) && s->truss[t].ripe_last_d < end)
            last = t + 1;
    if (last == 0 || last >= s->trusses)
        return INT64_MAX;
    /* the tip goes when two leaves stand above that truss: about as long after its flower as a stem
     * needs for those leaves */
    const double per_truss = s->truss[last].opened_d - s->truss[last - 1].opened_d;
    const double wait =
        per_truss * r->book->top_leaves_above / vh_max(1.0, s->crop->truss.leaves_per_truss);
    *last_truss = (int)last;
    return s->first_day + (int64_t)(s->truss[last - 1].opened_d + vh_max(0.0, wait));
}

static void plan_season(struct planning *g)
{
    const struct vh_work_series *s = g->series;
    const size_t end = s->days - 1;
    int last;
    struct vh_planned *t;

    if (!s->standing) {
        t = add(g, 0, VH_TASK_STRING, s->plants * s->heads_per_plant, "stems");
        if (t)
            snprintf(t->note, sizeof t->note, "one string a stem, tied loosely at the foot");
        t = add(g, 0, VH_TASK_PLANT, s->plants, "plants");
        if (t)
            snprintf(t->note, sizeof t->note, "water well, first clip before they topple");
    }
    if (s->policy->has_top && s->policy->top_on >= s->first_day &&
        s->policy->top_on <= date_of(g, end)) {
        const size_t day = (size_t)(s->policy->top_on - s->first_day);
        t = add(g, day, VH_TASK_TOP, s->day[day].stems, "stems");
        if (t)
            snprintf(t->note, sizeof t->note,
                     "take the tip, leave two leaves above the last truss");
    }
    const int64_t on = vh_topping_proposed(g->request, &last);
    if (on != INT64_MAX && on <= date_of(g, end)) {
        const size_t day = (size_t)(on - s->first_day);
        t = add(g, day, VH_TASK_TOP, s->day[day].stems, "stems");
        if (t)
            snprintf(t->note, sizeof t->note,
                     "proposed, not in the plan: truss %d is the last that ripens in time", last);
    }
    t = add(g, end, VH_TASK_PULL_OUT, s->plants, "plants");
    if (t)
        snprintf(t->note, sizeof t->note, "cut, carry out, take down string, clips and hooks");
}

/* Walking to a planting and along it, and clean blades, on every day with work. */
static void plan_walks(struct planning *g)
{
    const size_t tasks = g->out->tasks;
    bool *work = calloc(2 * g->series->days + 1, sizeof *work);

    if (!work) {
        g->status = VH_NO_MEMORY;
        return;
    }
    bool *cut = work + g->series->days;
    for (size_t i = 0; i < tasks; i++) {
        const struct vh_planned *t = &g->out->task[i];
        const size_t day = (size_t)(t->date - g->series->first_day);
        work[day] = true;
        cut[day] = cut[day] || t->task == VH_TASK_SUCKER || t->task == VH_TASK_LEAF ||
                   t->task == VH_TASK_THIN || t->task == VH_TASK_TOP || t->task == VH_TASK_PICK;
    }
    for (size_t d = 0; d < g->series->days; d++) {
        struct vh_planned *t = cut[d] ? add(g, d, VH_TASK_CLEAN, 1.0, "times") : NULL;
        if (t) {
            t->may_wait_d = VH_UNKNOWN;
            snprintf(t->note, sizeof t->note, "blades, hands, gloves before the next planting");
        }
        t = work[d] ? add(g, d, VH_TASK_WALK, 1.0, "times") : NULL;
        if (t)
            t->may_wait_d = VH_UNKNOWN;
    }
    free(work);
}

static int by_date(const void *one, const void *other)
{
    const struct vh_planned *a = one, *b = other;

    if (a->date != b->date)
        return a->date < b->date ? -1 : 1;
    if (a->task != b->task)
        return a->task < b->task ? -1 : 1;
    if (a->count != b->count)
        return a->count > b->count ? -1 : 1;
    for (size_t i = 0; i < VH_TASK_NOTE; i++)
        if (a->note[i] != b->note[i])
            return a->note[i] < b->note[i] ? -1 : 1;
    return 0;
}

enum vh_status vh_task_plan(const struct vh_task_request *request, struct vh_task_plan *out)
{
    struct planning g = {.request = request, .series = request->series, .out = out};

    *out = (struct vh_task_plan){0};
    for (size_t d = 0; d < g.series->days; d++) {
        plan_pollination(&g, d);
        plan_suckers(&g, d);
        plan_clips(&g, d);
        plan_leaves(&g, d);
        plan_pick(&g, d);
    }
    for (size_t v = 0; v < request->lowering->visits; v++)
        plan_lowering(&g, v);
    for (size_t t = 0; t < g.series->trusses; t++)
        plan_truss(&g, t);
    plan_season(&g);
    if (g.status == VH_OK)
        plan_walks(&g);
    if (g.status != VH_OK) {
        vh_task_plan_clear(out);
        return g.status;
    }
    qsort(out->task, out->tasks, sizeof out->task[0], by_date);
    return VH_OK;
}

void vh_task_plan_clear(struct vh_task_plan *plan)
{
    free(plan->task);
    *plan = (struct vh_task_plan){0};
}
