/* vh_share.h - who gets how much: every sink the same share of what it asks [heuvelink1997 via
 * tap2000]. */
#ifndef VH_SHARE_H
#define VH_SHARE_H

struct vh_share_params {
    double unit_g; /* a vegetative unit (leaves and stem between two trusses, or one node) asks, g
                      DM */
    double thickening; /* share of the last vegetative demand that goes on after topping */
    double cold_from_c,
        cold_width_k;  /* below cold_from_c every sink x clamp((T - (from - width))/width, 0, 1) */
    double ratio_most; /* r at most */
    double load_most;
    double fgp_low_c, fgp_high_c; /* FGP(T) is tabulated between these and held outside */
    double fgp_ref_c;
};

#endif
