/* vh_crop.h - all parameters of one crop: the rows of params/crops/NAME.csv as one read-only
 * struct. */
#ifndef VH_CROP_H
#define VH_CROP_H

#include "vh_after_pick.h"
#include "vh_clock.h"
#include "vh_flower.h"
#include "vh_fruit.h"
#include "vh_hang.h"
#include "vh_leaf.h"
#include "vh_light.h"
#include "vh_param.h"
#include "vh_share.h"
#include "vh_stem.h"
#include "vh_sucker.h"
#include "vh_truss.h"

enum vh_sold_by { VH_SOLD_BY_KG, VH_SOLD_BY_FRUIT };

/* What growers of this crop usually do: defaults of the scenario. */
struct vh_habit_params {
    double usual_fruit_g;
    double fruits_kept;    /* per truss or node */
    double stripped_nodes; /* first nodes that keep nothing; 0 for tomato */
    double thin_stage_bud, thin_stage_pea,
        thin_stage_marble;  /* share of the way from flower to pick at which fruit is taken off */
    int thin_at;            /* 0 bud, 1 pea, 2 marble */
    double plants_per_m2;   /* of the floor, paths included: a first guess */
    double shoot_flowers_d; /* from the day a side shoot is let grow to its first flower */
    double nursery_d;       /* sowing to set-out */
    double seedling_leaves;
    double sucker_visit_d, suckers_overlooked; /* share of the shoots missed at a visit */
    double leaves_kept, leaf_visit_d, leaves_most;
    double pick_every_d;
    int pick_colour;               /* 0 breaker 1 turning 2 pink 3 light-red 4 red; stage crops */
    double pick_from_g, largest_g; /* size crops */
    double feed_ec_ms_cm;
    int sold_by;              /* enum vh_sold_by: what the printed summary counts in */
    double pollination_d;     /* between visits by hand */
    double standing_season_d; /* from the day a standing crop is seen to its pull-out */
    double warm_up_d;         /* days reckoned before a standing crop is seen */
    /* What houses reach, mean of all weeks of picking; beyond it a claim is questioned. */
    double reach_low_kg_m2_week, reach_high_kg_m2_week, reach_high_kg_stem_week;
    int bees; /* 0 no, 1 yes: pollinated by bees unless the scenario says otherwise */
};

struct vh_crop {
    struct vh_truss_params truss;
    struct vh_node_params node;
    struct vh_clock_params clock;
    struct vh_flower_params flower;
    struct vh_light_params light;
    struct vh_upkeep_params upkeep;
    struct vh_fruit_params fruit;
    struct vh_share_params share;
    struct vh_leaf_params leaf;
    struct vh_stem_params stem;
    struct vh_habit_params habit;
    struct vh_hang_params hang;
    struct vh_sucker_params sucker;
    struct vh_spoil_params spoil;
    struct vh_store_params store;
};

/* The one list that ties rows to fields. */
const struct vh_param_field *vh_crop_fields(size_t *count);
const struct vh_param_field *vh_colour_fields(size_t *count);

#endif
