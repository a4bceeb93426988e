/* vh_plant_state.h - the arrays behind vh_plant.h; for the files of plant/ only. */
#ifndef VH_PLANT_STATE_H
#define VH_PLANT_STATE_H

#include "vh_math_parts.h"
#include "vh_plant.h"
#include "vh_wide.h"

/* Days of history kept: temperature for pollen, supply for set and dropping. */
#define VH_HISTORY 32

struct vh_plant {
    struct vh_plant_setup setup;
    const struct vh_crop_tables *tables; /* of the setup, or own */
    struct vh_crop_tables *own;
    enum vh_registers registers; /* the machine's (vh_wide.h); the bits are the same by any */
    size_t lanes, trusses_most, leaves_most;
    struct vh_plant_room own_room, *room; /* all arrays below lie in it */
    struct vh_factors *factors;           /* [lane] */
    int *trusses, *days;                  /* [lane] opened so far; days done */
    /* Steps of all lanes: the rings' slot that today fills. Days before it, of lanes that are
     * older, lie where they would if it went below 0. */
    int turn;
    double *brought; /* [lane] leaves at set-out */
    /* [lane] no size-picked fruit reaches the lightest mass picked before this age */
    double *pick_from_cd;
    int *first_on;                 /* [lane] lowest truss that may still carry fruit, from 1 */
    int *first_leaf_growing;       /* [lane] lowest leaf still expanding, from 1 */
    int *first_sucker, *last_axil; /* [lane] lowest axil not cleared, last one open, from 1 */
    int *first_bud;                /* [lane] lowest axil whose sucker has not begun to grow */
    bool *topped;                  /* [lane] */
    /* [lane] */
    double *plastochron; /* leaf intervals since the first leaf; equals leaves made until topping */
    double *leaves_made, *leaves_gone;
    double *flowering_most; /* the flowering clock stops here (topping) */
    double *heads;
    /* new stems that do not flower yet: their share, the truss that comes on half of them */
    double *late_share, *late_from;
    double *leaf_area_m2, *leaf_dm_g, *stem_dm_g, *stem_cm;
    double *reserve_g_m2;
    double *light_mean_mol_m2_d; /* at the crop, of the last days: vh_leaf.h */
    double *last_unit_demand_g;  /* vegetative demand of the last day before topping */
    double *last_set_share;      /* of flowers, yesterday */
    double *last_seeded;         /* potential mass by the pollen of flowers, yesterday */
    double *rgr_ring;            /* [VH_HISTORY][lane] growth over dry matter */
    double *mean_ring;           /* [VH_HISTORY][lane] degC */
    double *ratio_ring;          /* [VH_HISTORY][lane] r */
    double *sucker_area_m2;      /* leaves of the suckers left on this morning */
    /* [leaf][lane] */
    double *leaf_m2, *leaf_expanded; /* area; share of its potential reached this morning */
    double *leaf_want_m2;            /* of the day: area it would gain */
    double *leaf_lacking;            /* share of the stems that came too late to carry this leaf */
    double *sucker_g, *sucker_on;    /* of the axil's sucker: dry matter; share of stems with it */
    double *sucker_cd, *sucker_gain_g; /* degC d since the leaf opened; of the day: could gain */
    double *sucker_own;                /* of the day: share of its growth that it feeds itself */
    /* [truss][lane] */
    double *opened_d, *flowers, *set, *kept, *thin_stage, *thinned_d;
    /* share of the stems with the truss from its flower to its thinning; `kept` is of the average
     * stem */
    double *thin_share;
    double *seeded;      /* potential mass by the pollen of its flowers, share */
    double *stage_gain;  /* of the day; ripe-picked fruit */
    double *grown_share; /* the growth curve at `stage`, for the next day */
    double *stage, *age_d, *rad_sum, *rad_days, *log_rad, *temp_sum;
    double *age_cd, *young_cd; /* age on the bases of growth and of dropping, degC d */
    double *pace_sum; /* ripening rate at stage 1, standard light and truss, summed over its days */
    double *on_stems;  /* share of the stems that carry this truss */
    double *opened_on; /* share of the stems of its day on which it opened */
    double *weights;  /* position weights summed over the fruits */
    double *fruits;   /* set fruits as if none had been picked; falls by dropping and thinning */
    double *dm_g;     /* of the fruits still on */
    double *picked_share, *picked_mass_share; /* of fruits, of their mass, taken by picking */
    double *picked_n, *picked_dm_g, *picked_g;
    double *aborted, *ripe_first_d, *ripe_last_d;
    /* of the day: asked; share of the growth that thinning leaves */
    double *demand_g, *kept_of_growth;
    double *dm_content; /* of the day, g DM per g fresh; size-picked fruit */
};

/* Of a truss or leaf, from 1. */
static inline size_t vh_at(const struct vh_plant *p, int number, size_t lane)
{
    return (size_t)(number - 1) * p->lanes + lane;
}

/* Where the row of all lanes begins; a number of lanes that is known when a kernel is built makes
 * it shorter. */
VH_KERNEL size_t vh_row(int number, const size_t lanes)
{
    return (size_t)(number - 1) * lanes;
}

/* What one day works with, so that the parts of a step stay short; rows are by lane. */
struct vh_today {
    struct vh_plant *p;
    const struct vh_crop *crop;
    const struct vh_day *const *day; /* [lane] */
    const struct vh_acts *acts;      /* [lane] */
    struct vh_plant_day *out;        /* [lane] */
    VH_IN_LINE double mean_c[VH_LANES], dli_mol_m2_d[VH_LANES], sink_share[VH_LANES], young_cd[VH_LANES],
        growth_cd[VH_LANES], growth_decay[VH_LANES], std_rate_per_d[VH_LANES];
    double stems_m2[VH_LANES], light_factor[VH_LANES];
    double leaf_rate[VH_LANES]; /* leaf intervals passed today */
    double made[VH_LANES];      /* leaves made today; 0 after topping */
    double fruit_demand_g[VH_LANES], unit_demand_g[VH_LANES]; /* DM per stem */
    double sucker_demand_g[VH_LANES]; /* DM per stem, of what the stem gives */
    /* of fruits; of leaves, stem and root */
    double fruit_dm_start_g[VH_LANES], body_dm_start_g[VH_LANES];
    double assimilate_g_m2[VH_LANES], fed[VH_LANES], ratio[VH_LANES];
    double units_g[VH_LANES], leaf_dm_g[VH_LANES]; /* vegetative DM grown, per stem */
    double leaf_share[VH_LANES];                   /* of what units get */
    const bool *picks;                             /* [lane] of a pick */
    struct vh_picked *picked;                      /* [lane] */
};

/* A part of a step: written once for any number of lanes, built for one and for VH_LANES of them,
 * plainly and for wide registers; `static` may stand before it. Ends as a declaration that
 * says nothing new, so that a semicolon follows it. */
#define VH_LANED(name, kernel)                                                                     \
    void name(struct vh_today *y);                                                                 \
    static void name##_one(struct vh_today *y)                                                     \
    {                                                                                              \
        kernel(y, 1);                                                                              \
    }                                                                                              \
    static void name##_plain(struct vh_today *y)                                                   \
    {                                                                                              \
        kernel(y, VH_LANES);                                                                       \
    }                                                                                              \
    VH_WIDE static void name##_one_wide(struct vh_today *y)                                        \
    {                                                                                              \
        kernel(y, 1);                                                                              \
    }                                                                                              \
    VH_WIDE static void name##_wide(struct vh_today *y)                                            \
    {                                                                                              \
        kernel(y, VH_LANES);                                                                       \
    }                                                                                              \
    VH_WIDEST static void name##_widest(struct vh_today *y)                                        \
    {                                                                                              \
        kernel(y, VH_LANES);                                                                       \
    }                                                                                              \
    void name(struct vh_today *y)                                                                  \
    {                                                                                              \
        const enum vh_registers registers = y->p->registers;                                       \
        if (y->p->lanes == 1)                                                                      \
            (registers == VH_BY_ONE ? name##_one : name##_one_wide)(y);                            \
        else if (registers == VH_BY_EIGHT)                                                         \
            name##_widest(y);                                                                      \
        else                                                                                       \
            (registers == VH_BY_FOUR ? name##_wide : name##_plain)(y);                             \
    }                                                                                              \
    struct vh_today

/* Lowest and highest of a whole number over the lanes. */
VH_KERNEL int vh_lowest(const int *n, size_t lanes)
{
    int low = n[0];
    for (size_t l = 1; l < lanes; l++)
        low = n[l] < low ? n[l] : low;
    return low;
}
VH_KERNEL int vh_highest(const int *n, size_t lanes)
{
    int high = n[0];
    for (size_t l = 1; l < lanes; l++)
        high = n[l] > high ? n[l] : high;
    return high;
}

/* For each lane the mean of a ring from to_back to from_back days back; `fallback` while there are
 * none. A ring holds fewer days than that in a lane that is younger. */
VH_KERNEL void vh_ring_means(const struct vh_plant *p, const double *ring, size_t lanes,
                             int from_back, int to_back, const double *fallback,
                             double *restrict out)
{
    double sum[VH_LANES], n[VH_LANES];
    const int oldest = vh_highest(p->days, lanes);

    for (size_t l = 0; l < lanes; l++)
        sum[l] = n[l] = 0.0;
    for (int back = to_back < 1 ? 1 : to_back; back <= from_back && back <= oldest; back++) {
        const double *row = ring + (size_t)(p->turn - back) % VH_HISTORY * lanes;
        for (size_t l = 0; l < lanes; l++) {
            const bool known = back <= p->days[l]; /* 1: the last day done */
            sum[l] = vh_select(known, sum[l] + row[l], sum[l]);
            n[l] = vh_select(known, n[l] + 1.0, n[l]);
        }
    }
    for (size_t l = 0; l < lanes; l++)
        out[l] = vh_select(n[l] > 0.0, sum[l] / n[l], fallback[l]);
}

/* Share of the stems on which a truss still opens. Stems stand at different points between two
 * trusses, so the last one of a topped crop comes on a part of them, 1/2 at run_on from the clock;
 * without topping, on all. */
double vh_plant_opens_on(const struct vh_plant *p, size_t lane, int number);
/* The same by new stems that do not flower yet. */
double vh_plant_heads_on(const struct vh_plant *p, size_t lane, int number);
/* Leaf and flowering clocks; opens the trusses that the day passes. */
void vh_plant_run_clocks(struct vh_today *y);
/* Ages every truss by the day and sums what its fruits ask, if they are picked by size or ripe. */
void vh_plant_age_sized(struct vh_today *y);
void vh_plant_age_staged(struct vh_today *y);
/* Thinning falls into the day of truss i, after share `at` of it: what all its fruits ask until
 * then and what those that stay ask after. The fruits at the end of the truss go, and their share
 * of the growth (kept_of_growth) is lost. */
double vh_plant_thin(struct vh_plant *p, size_t lane, size_t i, double at, double before,
                     double after_all);
/* A day of leaf growth; leaf_dm_g: what leaves are offered today, afterwards what they take of it:
 * no more than makes them as thick as they get. */
void vh_plant_grow_leaves(struct vh_today *y);
void vh_plant_take_leaves(struct vh_plant *p, size_t lane, double count); /* the oldest first */
/* This morning's suckers: pulls, and tells of them. */
void vh_plant_pull_suckers(struct vh_today *y);
/* Opens the axils of new leaves; what suckers ask of the stem today; then their growth when each
 * sink gets `fed` of what it asks. */
void vh_plant_ask_suckers(struct vh_today *y);
void vh_plant_grow_suckers(struct vh_today *y);
/* Hungry plants drop young axil fruit. */
void vh_plant_drop_young(struct vh_today *y);
/* More heads, or fewer, by acts->heads_factor; leaf_rate: leaf intervals a day. */
void vh_plant_change_heads(struct vh_plant *p, size_t lane, const struct vh_acts *acts,
                           double leaf_rate);
/* Takes the size-picked fruits that have passed the mass or the age of the pick, in lanes that pick
 * today; `picked` is the sum. */
void vh_plant_pick_large(struct vh_today *y);
/* From which age on the pick looks at size-picked fruit, by the mass of the setup. */
void vh_plant_look_from(struct vh_plant *p);
/* The flowering clock: number of the truss now flowering. */
double vh_plant_flowering(const struct vh_plant *p, size_t lane);
/* How far in stage each further fruit of a truss is behind the one before, and how many fruits it
 * has where it hangs (at least 1). */
double vh_plant_behind(const struct vh_plant *p, size_t i);
double vh_plant_fruits_each(const struct vh_plant *p, size_t i);
/* Position weights of so many fruits (of the average stem) on truss i: they hang on the stems that
 * carry it, so on each of these there are more. */
double vh_plant_weights(const struct vh_plant *p, size_t i, double fruits);
/* g DM per g fresh of truss index i. */
double vh_plant_dm_content(const struct vh_plant *p, size_t i);
/* Lowest truss still to pick; real while its fruits go. */
double vh_plant_picking_truss(const struct vh_plant *p, size_t lane);

#endif
