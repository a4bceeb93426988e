#include "vh_ensemble.h"

#include <stdlib.h>

#ifdef _OPENMP
#include <omp.h>
#endif

#include "vh_math.h"
#include "vh_result.h"
#include "vh_stray.h"
#include "vh_visits.h"
#include "vh_weather.h"
#include "vh_wide.h"

/* Seasons that a thread holds at most, and members that are worth being run side by side: of speed
 * and memory alone, no result hangs on them. */
enum { SEASONS_MOST = 512, SIDE_BY_SIDE_LEAST = 3 };

/* What one member needs while it is run. */
struct seat {
    struct vh_house house; /* a copy of the scenario's with this member's climate and plantings */
    struct vh_climate climate;
    struct vh_planting *planting;
    struct vh_season *season;
    struct vh_member *factors;
    struct vh_delays *delays; /* [planting] */
    double *warmer_k, *clearer;
    bool has_climate;
    size_t member;
};

/* What one thread needs to run members, so many side by side. */
struct worker {
    size_t seats; /* that were made ready */
    struct vh_plant_room room;
    struct seat seat[VH_LANES];
};

/* What all threads share. */
struct run {
    const struct vh_ensemble_request *q;
    double light_factor;
    enum vh_status *status;        /* [member] */
    size_t *failed;                /* [member] the planting that failed */
    struct vh_crop_tables *tables; /* [planting] */
    size_t *order;                 /* [members] in which they are run */
    size_t groups;                 /* that they are run in, nearly even */
    size_t done;
    int stop;
};

static bool own_weather(const struct vh_ensemble_request *q)
{
    return !q->same_weather && !q->mean_run;
}

/* What another season found the thermometer to be off by. */
static double kept_offset_c(const struct vh_scenario *s)
{
    return s->house.climate.last_logged_day == INT64_MIN
               ? 0.0
               : vh_member_prior(s, VH_KEPT_LOG_OFFSET, 0).mean;
}

/* Does any member need hours of its own? */
static bool own_climate(const struct vh_ensemble_request *q)
{
    const struct vh_posterior *learnt = q->scenario->posterior;

    return own_weather(q) ||
           (q->factors ? q->log_offset_c != NULL : learnt || kept_offset_c(q->scenario) != 0.0);
}

static enum vh_status seat_init(struct seat *w, const struct vh_ensemble_request *q)
{
    const struct vh_house *h = &q->scenario->house;
    const size_t n = h->plantings + 1;

    *w = (struct seat){.house = *h};
    w->planting = calloc(n, sizeof *w->planting);
    w->season = calloc(n, sizeof *w->season);
    w->factors = calloc(n, sizeof *w->factors);
    w->delays = own_weather(q) ? calloc(n, sizeof *w->delays) : NULL;
    w->house.planting = w->planting;
    if (!w->planting || !w->season || !w->factors || (own_weather(q) && !w->delays))
        return VH_NO_MEMORY;
    if (!own_climate(q))
        return VH_OK;
    w->warmer_k = calloc(h->climate.days + 1, sizeof *w->warmer_k);
    w->clearer = calloc(h->climate.days + 1, sizeof *w->clearer);
    w->has_climate = true;
    if (vh_weather_init(&h->climate, &w->climate) != VH_OK || !w->warmer_k || !w->clearer)
        return VH_NO_MEMORY;
    return VH_OK;
}

static void seat_clear(struct seat *w)
{
    free(w->planting);
    free(w->season);
    free(w->factors);
    free(w->delays);
    free(w->warmer_k);
    free(w->clearer);
    if (w->has_climate)
        vh_weather_clear(&w->climate);
}

/* Of member `member` in planting k, as it was handed in, learnt, or drawn. */
static struct vh_member factors_of(const struct vh_ensemble_request *q, size_t member, size_t k)
{
    const size_t plantings = q->scenario->house.plantings;
    const struct vh_posterior *learnt = q->scenario->posterior;

    if (q->factors)
        return q->factors[member * plantings + k];
    if (q->mean_run)
        return learnt ? learnt->mean[k] : vh_member_expected(q->scenario, k);
    return learnt ? learnt->factor[member % learnt->members * plantings + k]
                  : vh_member_draw(q->scenario, q->draw, member, k);
}

static double log_offset_of(const struct vh_ensemble_request *q, size_t member)
{
    const struct vh_posterior *learnt = q->scenario->posterior;

    if (q->factors)
        return q->log_offset_c ? q->log_offset_c[member] : 0.0;
    if (!learnt) /* nobody doubts the log before there is something to hold it against */
        return kept_offset_c(q->scenario);
    return q->mean_run ? learnt->mean_log_offset_c : learnt->log_offset_c[member % learnt->members];
}

static void prepare_climate(struct seat *w, const struct vh_ensemble_request *q, size_t member)
{
    const struct vh_climate *c = &q->scenario->house.climate;
    const struct vh_futures *f = &q->scenario->house.futures;
    const struct vh_weather_spread spread = {f->temperature_sd_c, f->persistence, f->clearness_sd};

    if (own_weather(q))
        vh_weather_draw(c, &spread, q->draw, (uint32_t)member, vh_registers(), w->warmer_k,
                        w->clearer);
    else
        for (size_t d = 0; d < c->days; d++) {
            w->warmer_k[d] = 0.0;
            w->clearer[d] = 1.0;
        }
    vh_weather_fill(c, w->warmer_k, w->clearer, vh_registers(), &w->climate);
    vh_weather_shift_log(c, log_offset_of(q, member), &w->climate);
    w->house.climate = w->climate;
}

/* The member's factors, weather and habits. */
static void prepare(struct seat *w, const struct run *r, size_t member)
{
    const struct vh_ensemble_request *q = r->q;
    const struct vh_house *h = &q->scenario->house;

    w->member = member;
    for (size_t k = 0; k < h->plantings; k++) {
        struct vh_policy *policy = &w->planting[k].policy;
        w->factors[k] = factors_of(q, member, k);
        w->planting[k] = h->planting[k];
        w->planting[k].tables = &r->tables[k];
        policy->suckers.overlooked =
            vh_min(1.0, policy->suckers.overlooked * w->factors[k].overlooked);
        if (own_weather(q)) {
            vh_delays_forget(&w->delays[k]);
            policy->late = (struct vh_lateness){.mean_d = h->futures.visit_delay_d,
                                                .draw = q->draw,
                                                .member = (uint32_t)member,
                                                .row = (uint32_t)k,
                                                .from = h->today,
                                                .known = &w->delays[k]};
        }
    }
    if (own_climate(q))
        prepare_climate(w, q, member);
}

static void stray(const struct vh_ensemble_request *q, const struct vh_member *factors,
                  size_t member, size_t k, struct vh_season *season)
{
    const struct vh_parameters *p = q->scenario->parameters;
    const double far = factors->unsteady;
    const struct vh_stray way = {.sd = far * p->futures.stray_sd,
                                 .days = p->futures.stray_d,
                                 .flush = far * p->record.error[VH_RECORD_PICKED_KG].model_share,
                                 .draw = q->draw,
                                 .member = (uint32_t)member,
                                 .planting = (uint32_t)k,
                                 .is_mean = q->mean_run};

    vh_stray_apply(&way, factors->stray, q->scenario->house.today, season);
}

static bool is_wanted(const struct vh_ensemble_request *q, size_t k)
{
    return !q->wanted || q->wanted[k];
}

/* Planting k of all that sit at the table. */
static enum vh_status run_planting(struct run *r, struct worker *w, size_t members, size_t k)
{
    const struct vh_ensemble_request *q = r->q;
    struct vh_season_member side[VH_LANES];

    for (size_t i = 0; i < members; i++) {
        struct seat *s = &w->seat[i];
        s->season[k] = (struct vh_season){.planting = &s->planting[k]};
        side[i] = (struct vh_season_member){&s->house, &s->planting[k], &s->factors[k].plant,
                                            &s->season[k]};
    }
    if (!is_wanted(q, k))
        return VH_OK;
    const enum vh_status status = vh_season_run_members(
        side, members, r->light_factor, q->scenario->parameters->colours.breaker, &w->room);
    for (size_t i = 0; i < members && status == VH_OK && !q->steady; i++)
        stray(q, &w->seat[i].factors[k], w->seat[i].member, k, &w->seat[i].season[k]);
    return status;
}

static enum vh_status show(const struct run *r, const struct seat *s)
{
    const struct vh_ensemble_request *q = r->q;
    const struct vh_member_view view = {.member = s->member,
                                        .house = &s->house,
                                        .factors = s->factors,
                                        .season = s->season,
                                        .light_factor = r->light_factor};

    return q->seen ? q->seen(q->context, &view) : VH_OK;
}

/* Members from `from` to `until` - 1 of the order, at most VH_LANES. */
static void run_group(struct run *r, struct worker *w, size_t from, size_t until)
{
    const size_t n = r->q->scenario->house.plantings, members = until - from;
    enum vh_status status = VH_OK;
    size_t run = 0;

    for (size_t i = 0; i < members; i++)
        prepare(&w->seat[i], r, r->order[from + i]);
    while (run < n && status == VH_OK)
        status = run_planting(r, w, members, run++);
    for (size_t i = 0; i < members; i++) {
        const size_t member = w->seat[i].member;
        r->failed[member] = run - 1;
        r->status[member] = status == VH_OK ? show(r, &w->seat[i]) : status;
        for (size_t k = 0; k < run; k++)
            vh_season_clear(&w->seat[i].season[k]);
    }
}

static bool is_first_thread(void)
{
#ifdef _OPENMP
    return omp_get_thread_num() == 0;
#else
    return true;
#endif
}

static bool is_stopped(struct run *r)
{
    int stop;

#pragma omp atomic read
    stop = r->stop;
    return stop != 0;
}

/* One group of the list; after a failure the rest is passed over. */
static void take_turn(struct run *r, struct worker *w, enum vh_status ready, size_t group)
{
    const struct vh_ensemble_request *q = r->q;
    const size_t from = group * q->members / r->groups,
                 until = (group + 1) * q->members / r->groups;
    enum vh_status worst = ready;
    size_t done;

    if (is_stopped(r))
        return;
    for (size_t i = from; i < until && ready != VH_OK; i++)
        r->status[r->order[i]] = ready;
    if (ready == VH_OK)
        run_group(r, w, from, until);
    for (size_t i = from; i < until; i++)
        if (r->status[r->order[i]] < 0)
            worst = r->status[r->order[i]];
#pragma omp atomic capture
    done = r->done += until - from;
    if (q->progress && is_first_thread() &&
        !q->progress(q->progress_context, (double)done / (double)q->members))
        worst = r->status[r->order[from]] = VH_INTERRUPTED;
    if (worst < 0) {
#pragma omp atomic write
        r->stop = 1;
    }
}

/* Seats for the largest group there is. */
static enum vh_status worker_init(struct worker *w, const struct run *r)
{
    const size_t most = (r->q->members + r->groups - 1) / r->groups;

    *w = (struct worker){.seats = 0};
    while (w->seats < most) {
        const enum vh_status status = seat_init(&w->seat[w->seats++], r->q);
        if (status != VH_OK)
            return status;
    }
    return VH_OK;
}

static void worker_clear(struct worker *w)
{
    for (size_t i = 0; i < w->seats; i++)
        seat_clear(&w->seat[i]);
    vh_plant_room_clear(&w->room);
}

static void run_all(struct run *r, int threads)
{
    (void)threads;
#pragma omp parallel num_threads(threads)
    {
        struct worker w;
        const enum vh_status ready = worker_init(&w, r);
#pragma omp for schedule(dynamic, 1)
        for (size_t group = 0; group < r->groups; group++)
            take_turn(r, &w, ready, group);
        worker_clear(&w);
    }
}

/* ---- who sits beside whom ---- */

struct paced {
    double pace;
    size_t member;
};

static int by_pace(const void *a, const void *b)
{
    const struct paced *x = a, *y = b;

    if (x->pace != y->pace)
        return x->pace > y->pace ? 1 : -1;
    return (x->member > y->member) - (x->member < y->member);
}

/* Members of like pace side by side: then they carry trusses and leaves of the same numbers, and
 * none waits for another. What comes out is the same in any order. */
static enum vh_status seat_by_pace(struct run *r)
{
    const struct vh_ensemble_request *q = r->q;
    struct paced *p = malloc((q->members + 1) * sizeof *p);
    size_t first = 0;

    while (first + 1 < q->scenario->house.plantings && !is_wanted(q, first))
        first++;
    if (!p)
        return VH_NO_MEMORY;
    for (size_t m = 0; m < q->members; m++) {
        const bool sorts = q->members > VH_LANES && q->scenario->house.plantings > 0;
        p[m] = (struct paced){sorts ? factors_of(q, m, first).plant.truss_pace : 0.0, m};
    }
    qsort(p, q->members, sizeof *p, by_pace);
    for (size_t m = 0; m < q->members; m++)
        r->order[m] = q->order ? q->order[m] : p[m].member;
    free(p);
    return VH_OK;
}

/* Groups of at most VH_LANES, as many for each thread. Of two it is not worth it, and in a house of
 * hundreds of plantings the seasons of eight members would fill the memory. */
static size_t groups_of(size_t members, size_t plantings, size_t threads)
{
    const size_t fewest = SIDE_BY_SIDE_LEAST, room = SEASONS_MOST / (plantings + 1),
                 most = room < VH_LANES ? room : VH_LANES;

    if (members < fewest || most < fewest)
        return members;
    const size_t full = (members + most - 1) / most;
    const size_t even = (full + threads - 1) / threads * threads;
    return even * fewest <= members ? even : members;
}

int vh_ensemble_threads(int asked, size_t members)
{
    int threads = asked;
#ifdef _OPENMP
    if (threads < 1)
        threads = omp_get_num_procs();
#else
    threads = 1;
#endif
    return (size_t)threads > members ? (int)members : threads;
}

static enum vh_status never_ripens(const struct vh_planting *p, struct vh_messages *m)
{
    return vh_fail(m, VH_NO_NUMBER, p->place, "%s: fruit of %s never ripens with these parameters",
                   p->name, p->crop_name);
}

/* What the seasons of all members look up: worked out once, where it can be. */
static enum vh_status fill_tables(struct run *r, struct vh_messages *m)
{
    const struct vh_house *h = &r->q->scenario->house;

    for (size_t k = 0; k < h->plantings; k++) {
        const struct vh_planting *p = &h->planting[k];
        if (is_wanted(r->q, k) && vh_crop_tables_init(p->crop, &r->tables[k]) != VH_OK)
            return never_ripens(p, m);
    }
    return VH_OK;
}

/* The first member that failed stands for all: the same for any number of threads. */
static enum vh_status outcome(const struct run *r, struct vh_messages *m)
{
    const struct vh_house *h = &r->q->scenario->house;

    for (size_t i = 0; i < r->q->members; i++) {
        if (r->status[i] >= 0)
            continue;
        if (r->status[i] != VH_NO_NUMBER)
            return r->status[i];
        return never_ripens(&h->planting[r->failed[i]], m);
    }
    return VH_OK;
}

enum vh_status vh_ensemble_run(const struct vh_ensemble_request *q, struct vh_messages *m)
{
    struct run r = {.q = q, .light_factor = vh_scenario_light_factor(q->scenario)};
    enum vh_status status = VH_NO_MEMORY;

    r.status = calloc(q->members + 1, sizeof *r.status);
    r.failed = calloc(q->members + 1, sizeof *r.failed);
    r.tables = calloc(q->scenario->house.plantings + 1, sizeof *r.tables);
    r.order = calloc(q->members + 1, sizeof *r.order);
    if (r.status && r.failed && r.tables && r.order)
        status = fill_tables(&r, m);
    if (status == VH_OK)
        status = seat_by_pace(&r);
    if (status == VH_OK && q->members > 0) {
        const int threads = vh_ensemble_threads(q->threads, q->members);
        r.groups = groups_of(q->members, q->scenario->house.plantings, (size_t)threads);
        run_all(&r, threads);
        status = outcome(&r, m);
    }
    free(r.order);
    free(r.tables);
    free(r.status);
    free(r.failed);
    return status;
}
