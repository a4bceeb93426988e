/* vh_plant.h - the average stem of one planting, and one day's step of it, for several members side
 * by side.
 *
 * A lane is a member; state lies as [number][lane], so that what happens to one truss in all lanes
 * is one row. A lane has the bits it would have alone. Masses are g dry matter per stem unless
 * named; the day's account is kept per m2 of floor: assimilate + reserve before = fruit_cost dF +
 * other_cost (dV + suckers) + maintenance paid + reserve after. Nothing is allocated in the step.
 * Order of a day: suckers pulled, light and maintenance, clocks, opening of trusses, demand and
 * sharing, growth, dropping and thinning, leaves and stem; picking follows by its own call and sees
 * the day's growth.
 */
#ifndef VH_PLANT_H
#define VH_PLANT_H

#include "vh_acts.h"
#include "vh_crop_tables.h"
#include "vh_wide.h"

/* Memory that one plant after another may use; zero at first, to be cleared at last. */
struct vh_plant_room {
    double *at;
    size_t numbers;
};
void vh_plant_room_clear(struct vh_plant_room *room);

/* What differs between plantings of one crop. */
struct vh_plant_setup {
    const struct vh_crop *crop;
    const struct vh_crop_tables *tables; /* of the crop; NULL: the plant makes its own */
    double plants_per_m2, heads_per_plant;
    double usual_fruit_g, feed_ec_ms_cm;
    double flowers; /* per truss or node; 0: those of the crop */
    double seedling_leaves;
    double pick_stage;  /* s at the pick; stage crops */
    double pick_from_g; /* size crops */
    bool whole_truss;
    double breaker_stage; /* from here heat keeps fruit from reddening */
    struct vh_plant_room *room; /* this plant's while it lives; NULL: it has its own */
};

/* Factors of one member, each 1 in the mean run. */
struct vh_factors {
    double light, truss_pace, fruit_pace, fruit_mass, set, stem_pace, sucker_pace;
};

/* The account of a day, per m2 of floor. */
struct vh_plant_day {
    double assimilate_g_m2, maintenance_g_m2, maintenance_unpaid_g_m2;
    double demand_g_m2; /* g CH2O */
    double ratio;       /* r: supply over demand */
    double reserve_g_m2;
    double fruit_dm_g_m2, leaf_dm_g_m2, stem_dm_g_m2; /* grown today */
    double balance_error;                             /* relative */
    double absorbed_mol_m2;                           /* light the canopy took */
    double lai, stem_cm, leaves, leaves_made, flowering_truss, picking_truss;
    double sucker_dm_g_m2;    /* grown today from what the stem gave */
    double suckers_off;       /* pulled this morning, per stem */
    double sucker_longest_cm; /* before that, of a stem that has any; NaN: none has */
    double sucker_pulled_cm;  /* mean of those pulled; NaN: none */
};

/* One truss or node; dates are real day counts from the planting's first day (start of it = 0). */
struct vh_truss_view {
    double opened_d, flowers, set, kept, aborted;
    double ripe_first_d, ripe_last_d; /* NaN while not reached */
    double thinned_d;                 /* NaN while the rest is still on */
    double thin_share; /* stems added since its flower do not carry it: set - kept times this is
                          what an average stem has to lose; set and kept are of those that do */
    double opened_on;  /* share of the stems of that day on which it opened */
    double fruits_on, dm_g, picked_fruits, picked_dm_g, picked_g;
    double stage;
    double seeded; /* potential mass of its fruit by their pollen, share: vh_flower_seeded_share */
};

struct vh_picked {
    double fruits, dm_g, fresh_g;
}; /* per stem */

struct vh_plant;

/* One member or VH_LANES of them, at most `days` days; setup[lanes], alike but for their
 * seedling_leaves, is copied, crop and tables must outlive the plant. NULL: no memory. */
struct vh_plant *vh_plant_create(const struct vh_plant_setup *setup,
                                 const struct vh_factors *factors, size_t lanes, size_t days);
void vh_plant_free(struct vh_plant *p);
/* Lane `lane` of p becomes a plant that was run alone so far, of the same setup and for no more
 * days. Before the first step of p. */
void vh_plant_take_in(struct vh_plant *p, size_t lane, const struct vh_plant *alone);

/* One day of all lanes; each has its own day, which may be the same, acts and account. */
void vh_plant_step_lanes(struct vh_plant *p, const struct vh_day *const *day,
                         const struct vh_acts *acts, struct vh_plant_day *out);
/* One day of a plant of one lane. */
void vh_plant_step(struct vh_plant *p, const struct vh_day *day, const struct vh_acts *acts,
                   struct vh_plant_day *out);
/* Takes what is ready today; call after the step. */
struct vh_picked vh_plant_pick(struct vh_plant *p); /* of a plant of one lane */
void vh_plant_pick_lanes(struct vh_plant *p, const bool *picks, struct vh_picked *picked);
/* The last pick before the plants come out: first what is ready, then what is past `stage` (a truss
 * that is picked whole: with its last fruit) or the mass from_g. `early` is of that rest, `picked`
 * of both. */
void vh_plant_pick_last(struct vh_plant *p, double stage, double from_g, const bool *picks,
                        struct vh_picked *picked, struct vh_picked *early);

/* From now on fruit of a stage crop is picked at another stage, in all lanes. */
void vh_plant_pick_at(struct vh_plant *p, double pick_stage);

/* An older stem to begin with: seedling_leaves of the setup were made, the lowest are gone, its
 * trusses are picked. */
void vh_plant_stand(struct vh_plant *p, size_t lane, double leaves_on_stem);
/* What is seen on the stem replaces what was reckoned. NaN and 0: not seen. fruits[k] on truss
 * picking + k. */
struct vh_plant_seen {
    double flowering_truss, picking_truss, stem_cm, leaves;
    const double *fruits;
    size_t trusses;
};
void vh_plant_correct(struct vh_plant *p, size_t lane, const struct vh_plant_seen *seen);

double vh_plant_leaves_on_stem(const struct vh_plant *p, size_t lane);
/* Number of the next truss to open, from 1. */
int vh_plant_next_truss(const struct vh_plant *p, size_t lane);
int vh_plant_trusses(const struct vh_plant *p, size_t lane); /* opened so far */
/* Leaves that must go so that the lowest left is the one above the truss being picked. */
double vh_plant_leaves_below_picking(const struct vh_plant *p, size_t lane);
struct vh_truss_view vh_plant_truss(const struct vh_plant *p, size_t lane, int number);
/* Fruits on the stem past a stage and not picked; 0 where fruit is picked by size. */
double vh_plant_fruits_past(const struct vh_plant *p, size_t lane, double stage);
double vh_plant_stems_m2(const struct vh_plant *p, size_t lane);
/* Fruits a stem can still give, with their dry matter. */
double vh_plant_fruit_dm(const struct vh_plant *p, size_t lane);
/* Leaf, stem-and-root dry matter, g per stem. */
double vh_plant_leaf_dm(const struct vh_plant *p, size_t lane);
double vh_plant_stem_dm(const struct vh_plant *p, size_t lane);

/* Trusses (nodes) that a stem makes in a day at its fastest: warm, bright, young. */
double vh_plant_most_trusses_per_d(const struct vh_crop *crop);
/* Days from open flower to the pick at their fewest, as warm: to a colour (pick_stage, s) or to a
 * mass (pick_from_g, g), whichever the crop is picked by. NaN: it never ripens. */
double vh_plant_least_pick_d(const struct vh_crop *crop, double pick_stage, double pick_from_g);
/* Leaf intervals since the first leaf when the flowering clock shows `truss`. */
double vh_plant_leaves_at_truss(const struct vh_crop *crop, double truss);
/* Leaves unfolded at set-out such that the first truss opens after `days` days of leaf rates
 * rate[0..days) (leaf d-1). */
double vh_plant_leaves_for_first_flower(const struct vh_crop *crop, const double *leaf_rate_per_d,
                                        size_t days);
/* Leaves (or nodes) unfolding on a day before the first flower, leaf d-1. */
double vh_plant_leaf_rate_per_d(const struct vh_crop *crop, const struct vh_day *day,
                                double light_factor, double flowering);

#endif
