/* vh_spoil.h - which share of the fruit picked on a day cannot be sold, and why.
 *
 *     cracked    = crack_share (1 + crack_more max(0, r - crack_from)/crack_width), at most
 *                  crack_most; r supply over demand of the days before: more where few fruits hang
 *                  [roman2022 says so, numbers assumed]
 *     misshapen  = misshapen_share + misshapen_cold x cold nights + misshapen_bees x bees [cv268]
 *     end rot    = (rot_share + rot_per_k (hot + rot_dull_more x hot after dull))
 *                  x max(0, 1 + rot_per_ec (EC - rot_ec_ref)), at most rot_most
 *                  [weak: about two weeks after heat that follows dull days, more in strong feed]
 *     over-ripe  = share that hung on beyond red for longer than it may: fruits come to the pick's
 *                  colour evenly since the last pick, and the days L they may hang on are
 *                  log-normal: mean over u in 0..gap of P(L < u - wait for red)
 *     over-size  = share of the mass in fruits above largest_g, masses log-normal (vh_grade.h)
 *
 * All in all: 1 - product of (1 - share), as if the causes did not know of each other.
 */
#ifndef VH_SPOIL_H
#define VH_SPOIL_H

#include "vh_after_pick.h"

/* What the fruit of one pick went through. Unknown (NaN) leaves its cause at its usual share. */
struct vh_spoil_day {
    double ratio;            /* supply over demand, mean of the crack window, 1 */
    double cold_nights;      /* share of the nights of the cold window below cold_night_c, 0..1 */
    double bees;             /* 1: bees visit flowers that need none; 0 */
    double hot_k;            /* mean over the rot window of max(0, day's highest - rot_hot_c), K */
    double hot_after_dull_k; /* the same, each day times how much brighter than the days before
                              * it was (0..1), K */
    double feed_ec_ms_cm;
    double gap_d; /* days over which this pick's fruit came to its colour */
    /* days from the pick's colour to red on the vine; NaN: no colour. Of the last pick too that of
     * all others, though its greener part hangs longer: a little too much is told over-ripe */
    double red_wait_d;
    double mass_g, mass_cv; /* of a fruit; oversize is 0 where unknown */
    double largest_g;       /* endless: fruit of any size sells */
};

struct vh_spoil_shares {
    double cracked, misshapen, end_rot, overripe, oversize; /* each 0..1 */
};

void vh_spoil_shares_of(const struct vh_spoil_params *p, const struct vh_spoil_day *day,
                        struct vh_spoil_shares *out);
double vh_spoil_total(const struct vh_spoil_shares *s);

#endif
