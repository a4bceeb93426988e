/* vh_plant_state.h - the arrays behind vh_plant.h; for the files of plant/ only. */
#ifndef VH_PLANT_STATE_H
#define VH_PLANT_STATE_H

#include "vh_plant.h"
#include "vh_wide.h"

/* Days of history kept: temperature for pollen, supply for set and dropping. */
#define VH_HISTORY 32

struct vh_plant {
    struct vh_plant_setup setup;
    const struct vh_crop_tables *tables; /* of the setup, or own */
    struct vh_crop_tables *own;
    bool wide; /* the machine has wide registers (vh_wide.h); the bits are the same without */
    size_t lanes, trusses_most, leaves_most;
    double pick_from_cd; /* no size-picked fruit reaches the lightest mass picked before this age */
    double *block;       /* all arrays below lie in it */
    struct vh_factors *factors;    /* [lane] */
    int *trusses, *days;           /* [lane] opened so far; days done */
    int *first_on;                 /* [lane] lowest truss that may still carry fruit, from 1 */
    int *first_leaf_growing;       /* [lane] lowest leaf still expanding, from 1 */
    int *first_sucker, *last_axil; /* [lane] lowest axil not cleared, last one open, from 1 */
    bool *topped;                  /* [lane] */
    /* [lane] */
    double *plastochron; /* leaf intervals since the first leaf; equals leaves made until topping */
    double *leaves_made, *leaves_gone;
    double *flowering_most; /* the flowering clock stops here (topping) */
    double *heads;
    double *leaf_area_m2, *leaf_dm_g, *stem_dm_g, *stem_cm;
    double *reserve_g_m2;
    double *last_unit_demand_g; /* vegetative demand of the last day before topping */
    double *last_set_share;     /* of flowers, yesterday */
    double *last_seeded;        /* potential mass by the pollen of flowers, yesterday */
    double *rgr_ring;           /* [VH_HISTORY][lane] growth over dry matter */
    double *mean_ring;          /* [VH_HISTORY][lane] degC */
    double *ratio_ring;         /* [VH_HISTORY][lane] r */
    double *sucker_area_m2;     /* leaves of the suckers left on this morning */
    /* [leaf][lane] */
    double *leaf_m2, *leaf_expanded; /* area; share of its potential reached this morning */
    double *leaf_lacking;            /* share of the stems that came too late to carry this leaf */
    double *sucker_g,
        *sucker_on; /* dry matter of the axil's sucker; share of the stems that have it */
    double *sucker_cd, *sucker_gain_g; /* degC d since the leaf opened; of the day: could gain */
    double *sucker_own;                /* of the day: share of its growth that it feeds itself */
    /* [truss][lane] */
    double *opened_d, *flowers, *set, *kept, *thin_stage, *thinned_d;
    double *seeded;      /* potential mass by the pollen of its flowers, share */
    double *stage_gain;  /* of the day; ripe-picked fruit */
    double *grown_share; /* the growth curve at `stage`, for the next day */
    double *stage, *age_d, *rad_sum, *rad_days, *log_rad, *temp_sum;
    double *age_cd, *young_cd; /* age on the bases of growth and of dropping, degC d */
    double *pace_sum; /* ripening rate at stage 1, standard light and truss, summed over its days */
    double *on_stems; /* share of the stems that carry this truss */
    double *weights;  /* position weights summed over the fruits */
    double *fruits;   /* set fruits as if none had been picked; falls by dropping and thinning */
    double *dm_g;     /* of the fruits still on */
    double *picked_share,
        *picked_mass_share; /* of the fruits, and of their mass, taken by picking */
    double *picked_n, *picked_dm_g, *picked_g;
    double *aborted, *ripe_first_d, *ripe_last_d;
    double *demand_g,
        *kept_of_growth; /* of the day: asked; share of the growth that thinning leaves */
    double *dm_content;  /* of the day, g DM per g fresh; size-picked fruit */
};

static inline size_t vh_at(const struct vh_plant *p, int number,
                           size_t lane) /* truss or leaf, from 1 */
{
    return (size_t)(number - 1) * p->lanes + lane;
}

/* Wide registers that n trusses or leaves of a lane fill, where they lie side by side; there is
 * room behind the last. */
static inline size_t vh_turns(size_t n)
{
    return (n + VH_SIDE - 1) / VH_SIDE;
}

/* Mean of the last `n` values of a ring after `done` days, offset days back; `fallback` while there
 * are none. */
double vh_ring_mean(const struct vh_plant *p, const double *ring, size_t lane, int done,
                    int from_back, int to_back, double fallback);

/* What flowers of today come to, before anyone thins. */
struct vh_flowers_today {
    double set;    /* share that sets */
    double seeded; /* potential mass of their fruit by their pollen, share */
};
struct vh_flowers_today vh_plant_flowers_today(const struct vh_plant *p, size_t lane,
                                               const struct vh_day *day,
                                               const struct vh_acts *acts);

/* Ages the size-picked trusses that are on by the day, side by side where they lie so; demand_g:
 * what their fruits would grow by if none were thinned, g DM. */
void vh_plant_age_sized(struct vh_plant *p, size_t lane, const struct vh_day *day);
/* Ages the ripe-picked trusses that are on by the day, but for their stage, which stays that of
 * this morning; stage_gain: what they gain. */
void vh_plant_age_staged(struct vh_plant *p, size_t lane, const struct vh_day *day,
                         double light_factor);
/* A day of leaf growth; leaf_dm is what leaves are offered today. Returns what they take, g DM: no
 * more than makes them as thick as they get. */
double vh_plant_grow_leaves(struct vh_plant *p, size_t lane, double leaf_dm);
void vh_plant_take_leaves(struct vh_plant *p, size_t lane, double count); /* the oldest first */
/* This morning's suckers: pulls, and fills what `out` tells of them. */
void vh_plant_pull_suckers(struct vh_plant *p, size_t lane, const struct vh_acts *acts,
                           struct vh_plant_day *out);
/* Opens the axils of new leaves; what suckers ask of the stem today, g DM per stem; then their
 * growth when each sink gets `fed` of what it asks. */
double vh_plant_ask_suckers(struct vh_plant *p, size_t lane, const struct vh_day *day,
                            double leaf_rate);
void vh_plant_grow_suckers(struct vh_plant *p, size_t lane, double fed);
/* More heads, or fewer, by acts->heads_factor; leaf_rate: leaf intervals passed today. */
void vh_plant_change_heads(struct vh_plant *p, size_t lane, const struct vh_acts *acts,
                           double leaf_rate);
/* Size-picked: shares of number and mass of the fruits of n nodes from index `at` on that have
 * passed the mass or the age of the pick. */
enum { VH_LARGE_MOST = 4 * VH_SIDE };
struct vh_large {
    double number, mass;
};
void vh_plant_large(const struct vh_plant *p, size_t at, size_t n, struct vh_large *out);
double vh_plant_flowering(const struct vh_plant *p,
                          size_t lane); /* the flowering clock: number of the truss now flowering */
/* How far in stage each further fruit of a truss is behind the one before, and how many fruits it
 * has where it hangs (at least 1). */
double vh_plant_behind(const struct vh_plant *p, size_t i);
double vh_plant_fruits_each(const struct vh_plant *p, size_t i);
double vh_plant_dm_content(const struct vh_plant *p,
                           size_t i); /* g DM per g fresh of truss index i */
double vh_plant_picking_truss(
    const struct vh_plant *p,
    size_t lane); /* lowest truss still to pick; real while its fruits go */

#endif
