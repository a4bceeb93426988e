/* vh_task_plan.h - the dated tasks of a planting: what, how much, how long, how long it may wait.
 *
 * A task is there only if the crop and the habits need it: no pollination where bees or the crop
 * itself see to it, no lowering without a wire. On past days the records replace the plan. What
 * falls on a day that a label bars stands on the first free day, or is blocked where there is none.
 */
#ifndef VH_TASK_PLAN_H
#define VH_TASK_PLAN_H

#include "vh_lower.h"
#include "vh_minutes.h"

#define VH_TASK_NOTE 160

struct vh_planned {
    int64_t date;
    enum vh_task task;
    double count;
    const char *unit; /* "stems", "clips", "leaves", "kg", "fruits", "trusses", "plants" … */
    double pieces;    /* what the seconds are of: for picks fruits or trusses, else the count */
    double minutes;
    double may_wait_d;       /* NaN: it has no urgency of its own (walking, cleaning) */
    double used;             /* of the supply that goes with it: clips, supports, strings */
    int truss;               /* 0: none */
    bool done;               /* the records say so */
    bool moved;              /* from a day that a label bars */
    bool blocked;            /* no free day is left */
    bool proposed;           /* not in the plan: nobody has decided it */
    char note[VH_TASK_NOTE]; /* how, in plain words */
    size_t noted;            /* its length */
};

struct vh_task_plan {
    struct vh_planned *task; /* [tasks], by date, then by what may wait least */
    size_t tasks, room;
};

struct vh_task_request {
    const struct vh_work_series *series;
    const struct vh_lower_plan *lowering;
    const struct vh_work_params *book;
    const struct vh_labour *labour; /* may be NULL */
    int top_above; /* truss above which topping is proposed; VH_TOP_OWN, VH_TOP_NOT */
};

/* The last truss that this season ripens; nothing is proposed. */
enum { VH_TOP_OWN = 0, VH_TOP_NOT = -1 };

/* VH_NO_MEMORY. Clear with vh_task_plan_clear. */
enum vh_status vh_task_plan(const struct vh_task_request *request, struct vh_task_plan *out);
void vh_task_plan_clear(struct vh_task_plan *plan);

/* Does a stand before b: by date, then by what may wait least, then by enum vh_task? */
bool vh_task_before(const struct vh_planned *a, const struct vh_planned *b);

/* What belongs to no single planting: on each day with work one walk along every row that is gone
 * to, and clean blades and hands before each planting that is cut into. */
struct vh_round_planting {
    const struct vh_task_plan *plan;
    double plants, plants_apart_cm; /* NaN: not given */
};
/* row_length_m: NaN: not given. VH_NO_MEMORY. */
enum vh_status vh_task_rounds(const struct vh_round_planting *planting, size_t plantings,
                              double row_length_m, const struct vh_work_params *book,
                              const struct vh_labour *labour, struct vh_task_plan *out);

/* The task to take the growing tips out so that the last truss is still picked. false: topping
 * would win nothing in this season, its day is set, or the crop has no trusses. */
bool vh_topping_proposed(const struct vh_task_request *request, struct vh_planned *out);
/* The last truss (from 1) of which all is ripe within the days of a season; 0: none. */
int vh_topping_last(const struct vh_truss_view *truss, size_t trusses, size_t days);
/* The day on which truss or node i (from 0) is thinned, as the list of work has it: on the walk for
 * suckers after its fruit is so large, or when the records say. INT64_MAX: nothing is taken off. */
int64_t vh_thinning_on(const struct vh_work_series *series, const struct vh_work_params *book,
                       size_t truss);
/* Likewise the day on which it gets a support: it flowers in a week of so little light that its
 * stalk grows long and thin. INT64_MAX: none. */
int64_t vh_support_on(const struct vh_work_series *series, const struct vh_work_params *book,
                      size_t truss);

#endif
