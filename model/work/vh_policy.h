/* vh_policy.h - what the grower has decided, and what that makes due on a day. */
#ifndef VH_POLICY_H
#define VH_POLICY_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* Either on weekdays or every so many days from the first day on. */
struct vh_rhythm {
    bool by_weekday;
    bool weekday[7];
    int every_d;
}; /* weekday[0] Monday */

/* True if a visit falls on `day`; `start` is the first day counted for every_d. */
bool vh_rhythm_due(const struct vh_rhythm *r, int64_t start, int64_t day);
/* Days between the visits that enclose `day` (the last on or before it, the first after); -1: there
 * is none before or after. */
int64_t vh_rhythm_between_d(const struct vh_rhythm *r, int64_t start, int64_t day);

enum vh_thin_stage { VH_THIN_BUD, VH_THIN_PEA, VH_THIN_MARBLE };

/* fruits kept on trusses first..last (last 0: no end) that flower from..until (INT64_MIN,
 * INT64_MAX: always). */
struct vh_fruits_rule {
    int first_truss, last_truss;
    double fruits;
    enum vh_thin_stage at;
    int64_t from, until;
};

struct vh_head_change {
    int64_t from;
    double heads_per_plant;
    double new_stem_age_d;
};

enum vh_pollination { VH_POLLINATION_BEES, VH_POLLINATION_HAND, VH_POLLINATION_NONE };

struct vh_policy {
    struct vh_fruits_rule *fruits;
    size_t fruits_rules; /* in file order: the last that fits holds */
    struct vh_head_change *heads;
    size_t head_changes; /* in date order */
    bool leaves_down_to_picking;
    double leaves_keep;
    struct vh_rhythm leaf_visit;
    double leaves_most_per_visit;
    struct vh_rhythm pick;
    bool whole_truss;
    double pick_stage;             /* s of the colour stage; stage crops */
    double pick_from_g, largest_g; /* size crops */
    bool has_top;
    int64_t top_on;
    enum vh_pollination pollination;
    struct vh_rhythm pollination_visit; /* by hand */
    double bees_share;                  /* of flowers that bees reach, 0..1 */
};

#endif
