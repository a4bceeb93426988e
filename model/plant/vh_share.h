/* vh_share.h - who gets how much: every sink the same share of what it asks [heuvelink1997 via
 * tap2000].
 *
 * Hungry plants make thin stems: the stem's part of a unit asks x min(1, r)^stem_hunger, r the mean
 * supply over demand of the last hunger_window_d days; its leaves ask in full (form assumed; stems
 * thinned from 10 to 6 mm as the load rose and light fell, kubota2024). */
#ifndef VH_SHARE_H
#define VH_SHARE_H

struct vh_share_params {
    double unit_g; /* a vegetative unit (leaves and stem between two trusses, or one node) asks, g
                      DM */
    double stem_hunger, hunger_window_d;
    double thickening; /* share of the last vegetative demand that goes on after topping */
    double cold_from_c,
        cold_width_k;  /* below cold_from_c every sink x clamp((T - (from - width))/width, 0, 1) */
    double ratio_most; /* r at most */
    double load_most;
    double fgp_low_c, fgp_high_c; /* FGP(T) is tabulated between these and held outside */
    double fgp_ref_c;
};

#endif
