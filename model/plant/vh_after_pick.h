/* vh_after_pick.h - what of the picked fruit cannot be sold, and how long the rest keeps: a crop's
 * rows `spoil.*` and `store.*`. The equations stand in market/vh_spoil.h and market/vh_store.h. */
#ifndef VH_AFTER_PICK_H
#define VH_AFTER_PICK_H

struct vh_spoil_params {
    double crack_share; /* of the fruit, while supply over demand stays below crack_from */
    double crack_more, crack_from, crack_width, crack_most;
    double crack_window_d;  /* days before the pick whose supply counts */
    double misshapen_share; /* of the fruit, in mild weather */
    double misshapen_cold;  /* more, where all nights of the window below were cold */
    double cold_night_c, cold_from_d, cold_to_d; /* window: days before the flower */
    double misshapen_bees;                       /* more, where bees visit the flowers */
    double rot_share;                            /* blossom-end rot without heat, at rot_ec_ref */
    double rot_per_k, rot_hot_c;                 /* more per K of the day's highest above that */
    double rot_dull_more, rot_dull_d;            /* stronger after so many dull days */
    double rot_from_d, rot_to_d;                 /* window: days before the pick */
    double rot_per_ec, rot_ec_ref_ms_cm, rot_most;
    double hang_d, hang_cv; /* days that fruit may hang on beyond red, and their scatter */
};

struct vh_store_params {
    double best_low_c, best_high_c; /* temperatures at which ripe fruit keeps best */
    double life_d, life_cv;         /* at these, from red (or from the pick), and its scatter */
    double q10;                     /* life is shorter by this factor per 10 K above the best */
    double chill_c, chill_d;        /* below this temperature cold hurts after so many days */
    double chill_halving_k;         /* in half the time for each such step colder */
    int ripens;                     /* 0 no, 1 yes: colours on in store, as the off-vine table */
    int gives_ethylene, hurt_by_ethylene; /* 0 no, 1 yes: what lies beside it yellows; yellows */
    double ripen_low_c, ripen_high_c;     /* of the room in which fruit is left to colour */
};

#endif
