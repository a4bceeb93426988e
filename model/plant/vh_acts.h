/* vh_acts.h - what is done to the average stem on one day; filled by work/, obeyed by the plant. */
#ifndef VH_ACTS_H
#define VH_ACTS_H

#include <stdbool.h>

/* Trusses (nodes) that may open within one day at most. */
#define VH_OPEN_MOST 4

struct vh_acts {
    int kept_first;                  /* number of the truss that kept[0] belongs to */
    double kept[VH_OPEN_MOST];       /* fruits to leave on it */
    double thin_stage[VH_OPEN_MOST]; /* share of the way from flower to pick at which the rest comes
                                        off */
    double flowers_reached; /* share of open flowers that bees or hands reach today, 0..1 */
    bool by_bees;           /* then only in the hours in which bees fly */
    double suckers_pulled;  /* share of the suckers long enough that come off this morning, 0..1 */
    double leaves_off;      /* oldest leaves taken off today, per stem */
    double heads_factor; /* new heads over old; 1: no change. Above 1 the average stem is diluted */
    double
        new_stem_age_d; /* days of trusses that new stems carry; below 0: to their first flower */
    bool top;           /* the growing point is taken out today */
};

#endif
