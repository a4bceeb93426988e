/* vh_hang.h - how a crop is usually hung, leaned and lowered: defaults of [planting.lower]. */
#ifndef VH_HANG_H
#define VH_HANG_H

struct vh_hang_params {
    double lower_d;              /* days between two visits */
    double least_cm, most_cm;    /* of string let out at a visit */
    double head_clearance_cm;    /* of the tip below the wire */
    double laid_height_cm;       /* of the laid stems and the stem's base */
    double lean_deg;             /* least angle of the hanging stem from the floor */
    double fruit_floor_cm;       /* least height of the lowest fruit */
    double truss_hang_cm;        /* a loaded truss below its joint */
    double flower_below_head_cm; /* along the stem, from the tip to the truss in flower */
    double string_m;             /* wound on one hook */
    double knots_cm;             /* of it, in knots and on the hook */
    double turn_cm;              /* let out by one turn of the hook */
    double bend_least_cm;        /* tightest radius of a bend */
    double container_cm, container_clearance_cm; /* led around containers: width, room */
    double abreast_most;     /* laid stems side by side that still turn at a row's end */
    double shoulder_cm;      /* height above which arms tire */
    double green_dm_content; /* of leaves and stems, g DM per g fresh */
    double low_wire_m;       /* a lower wire does this crop no good when lowered; 0: none known */
};

#endif
