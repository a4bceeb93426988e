/* vh_work_series.h - what a season of one planting gives the work to plan with. Plain arrays,
 * filled by house/, so that work/ need not know who ran the season. */
#ifndef VH_WORK_SERIES_H
#define VH_WORK_SERIES_H

#include "vh_done.h"
#include "vh_plant.h"
#include "vh_policy.h"

/* One day; per stem unless named. Lengths and counts are those of the evening. */
struct vh_work_day {
    double stems; /* of the whole planting */
    double stem_cm;
    double leaves, leaves_off; /* on the stem; taken off today */
    double flowering_truss, picking_truss;
    double suckers_off;                         /* pulled today */
    double sucker_longest_cm, sucker_pulled_cm; /* longest on the stem this morning; mean of those
                                                   pulled; NaN: none */
    double hanging_kg;                          /* fruit, leaves and stem, fresh */
    double picked_kg, picked_fruits;            /* of the planting */
    bool pick_day;
    double dli_mol_m2_d; /* at the leaves */
    double hottest_c;    /* hottest hour */
    bool foreseen;       /* no log covers the day */
};

struct vh_work_series {
    const struct vh_crop *crop;
    bool by_piece; /* its picks are counted, not weighed */
    const struct vh_policy *policy;
    const struct vh_done *done; /* may be NULL */
    const char *planting;       /* its name */
    double plants, heads_per_plant, plants_apart_cm, plants_per_m2;
    int64_t first_day, today;
    size_t days;
    const struct vh_work_day *day;     /* [days] */
    const struct vh_truss_view *truss; /* [trusses], number 1 first; days count from first_day */
    size_t trusses;
    bool standing;                /* the first day is not a set-out */
    struct vh_work_day *own_days; /* the memory behind day; NULL: somebody else's */
};

#endif
