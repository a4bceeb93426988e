/* vh_ensemble.h - many futures of one house, each run as a whole season of all its plantings.
 *
 * Two ways to use it.
 * 1. Look at every member while it is there (learning, tables):
 *        struct vh_ensemble_request q = {.scenario = s, .members = 400, .draw = 1,
 *                                        .seen = look, .context = &mine};
 *        status = vh_ensemble_run(&q, messages);
 *    `look` is called once a member, by any thread, in any order: it writes into slots of its own
 *    member only (mine.value[view->member * n + i]); sums are made after, in member order. To run
 *    with factors of your own (a posterior), hand them in by `factors`; same_weather leaves all
 *    members the expected weather.
 * 2. Keep what the members picked (market days, promises):
 *        status = vh_ensemble_keep(&q, &futures, messages);
 *        kg = futures.planting[k].kg[member * futures.planting[k].picks + pick];
 *    Members are joint: member 7 is the same weather for all plantings and days. `seen` may be set
 *    as well, and is then called too.
 * A scenario and its parameters are read only and shared.
 */
#ifndef VH_ENSEMBLE_H
#define VH_ENSEMBLE_H

#include "vh_member.h"
#include "vh_season.h"

/* A member as it was run. All pointers hold during the call only. */
struct vh_member_view {
    size_t member;
    const struct vh_house *house;    /* with this member's climate and habits */
    const struct vh_member *factors; /* [planting] */
    const struct vh_season *season;  /* [planting] */
    double light_factor;             /* of the scenario, before the members' own */
};

/* A negative status ends the run with it. */
typedef enum vh_status (*vh_member_seen)(void *context, const struct vh_member_view *view);

struct vh_ensemble_request {
    const struct vh_scenario *scenario;
    size_t members; /* at least 1 */
    uint64_t draw;
    int threads;                     /* 0: as many as the machine has */
    const struct vh_member *factors; /* [member * plantings + planting]; NULL: what was learnt
                                        from records, else the priors */
    const double *log_offset_c;      /* [member] to be handed in with factors; NULL: 0 */
    bool same_weather;               /* all have the expected weather, visits come on their day */
    bool mean_run;                   /* the mean factors as well (1 where nothing was learnt): what
                                        one member alone is */
    bool steady;                     /* picks to come do not stray (vh_stray.h): for what moves
                                        picks to other days, whose luck is another */
    const bool *wanted;              /* [planting] the others stay empty; NULL: all are run */
    const size_t *order;             /* [members] in which they are run; NULL: as numbered */
    vh_member_seen seen;             /* NULL: nobody looks */
    void *context;
    vh_progress progress; /* NULL: none; called by the first thread only */
    void *progress_context;
};

/* vh_forecast; also, if not NULL, is shown each future as it was run: of more than one. */
enum vh_status vh_forecast_seen(const struct vh_scenario *s, vh_progress progress, void *context,
                                vh_member_seen also, void *also_context, struct vh_result **out,
                                struct vh_messages *m);

/* What records made of the futures of a house; the scenario keeps it (vh_learn.h), and every run
 * that brings no factors of its own starts from it. One block of memory. */
struct vh_posterior {
    size_t members, plantings;
    struct vh_member *factor; /* [member * plantings + planting] */
    struct vh_member *mean;   /* [planting] */
    double *log_offset_c;     /* [member] */
    double mean_log_offset_c;
    size_t values; /* entries of the records that moved them */
};
/* Copies of the arrays, and their means. NULL: no memory. To be freed by free(). */
struct vh_posterior *vh_posterior_create(size_t members, size_t plantings,
                                         const struct vh_member *factor,
                                         const double *log_offset_c);

/* Threads for so many members: as asked, 0 all of the machine; 1 without OpenMP. */
int vh_ensemble_threads(int asked, size_t members);
/* VH_NO_MEMORY, VH_NO_NUMBER (fruit that never ripens; told by a message), VH_INTERRUPTED. */
enum vh_status vh_ensemble_run(const struct vh_ensemble_request *q, struct vh_messages *m);

/* What the members picked in one planting. */
struct vh_planting_futures {
    const struct vh_planting *planting; /* the scenario's */
    size_t picks;
    int64_t *date;       /* [picks] the same in all members */
    double *fruits, *kg; /* [member * picks + pick], of the planting; mean mass: kg over fruits */
    size_t weeks;
    int64_t *monday; /* [weeks] */
    double *week_kg; /* [member * weeks + week] */
};

struct vh_ensemble {
    size_t members, plantings;
    struct vh_member *factors; /* [member * plantings + planting] as they were run with */
    struct vh_planting_futures *planting;
};

enum vh_status vh_ensemble_keep(const struct vh_ensemble_request *q, struct vh_ensemble *out,
                                struct vh_messages *m);
void vh_ensemble_clear(struct vh_ensemble *e);

#endif
