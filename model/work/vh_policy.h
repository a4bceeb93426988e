/* vh_policy.h - what the grower has decided, and what that makes due on a day. */
#ifndef VH_POLICY_H
#define VH_POLICY_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

enum { VH_DAYS_PER_WEEK = 7 };

/* Either on weekdays or every so many days from the first day on. */
struct vh_rhythm {
    bool by_weekday;
    bool weekday[VH_DAYS_PER_WEEK];
    int every_d;
    int late_d;                     /* every visit comes so many days later; usually 0 */
    int64_t also;                   /* a day more, for what was left undone; 0: none */
    const struct vh_rhythm *before; /* until the day before `from`; NULL: there is no other */
    int64_t from;
}; /* weekday[0] Monday */

/* True if a visit falls on `day`; `start` is the first day counted for every_d. */
bool vh_rhythm_due(const struct vh_rhythm *r, int64_t start, int64_t day);
/* The last day on which it falls, up to `day`; oldest - 1 where there is none from `oldest` on. */
int64_t vh_rhythm_last_due(const struct vh_rhythm *r, int64_t start, int64_t day, int64_t oldest);
/* Days between the visits that enclose `day` (the last on or before it, the first after); -1: there
 * is none before or after. */
int64_t vh_rhythm_between_d(const struct vh_rhythm *r, int64_t start, int64_t day);

/* Visits that come late, as they do: from the day `from` on each by a number of days of its own,
 * on average mean_d (geometric). Zeroed: none is late. */
struct vh_delays; /* vh_visits.h */
struct vh_lateness {
    double mean_d;
    uint64_t draw;
    uint32_t member, row; /* row: which planting */
    int64_t from;
    struct vh_delays *known; /* drawn before, of this member, row and rhythm of each kind of visit;
                                NULL: each is drawn anew */
};

/* What the random delay is of; never renumbered. */
enum vh_visit { VH_VISIT_LEAVES = 200, VH_VISIT_SUCKERS = 201, VH_VISIT_LOWER = 202 };

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

struct vh_done;

enum vh_pollination { VH_POLLINATION_BEES, VH_POLLINATION_HAND, VH_POLLINATION_NONE };

/* Pulling of suckers (side shoots). */
struct vh_sucker_policy {
    struct vh_rhythm visit;
    double overlooked; /* share missed at a visit, 0..1 */
};

enum vh_lower_path { VH_LOWER_STRAIGHT, VH_LOWER_ROW_END, VH_LOWER_AROUND_CONTAINERS };

/* Leaning and lowering; lengths in cm (model.md section 7). */
struct vh_lower_policy {
    bool given; /* false: this planting has no wire to lower from (no house.wire_height_m) */
    struct vh_rhythm visit;
    bool when_head_at_wire; /* instead of a rhythm: on the day the head would pass the wire */
    double wire_cm, head_clearance_cm, laid_height_cm;
    double lean_deg; /* least angle of the hanging stem from the floor, 15..90 */
    double least_cm, most_cm;
    double fruit_floor_cm, truss_hang_cm;
    double string_cm; /* wound on one hook */
    double turn_cm;
    enum vh_lower_path path;
    double container_cm, bend_least_cm, shoulder_cm;
    double row_length_cm, row_gap_cm; /* NaN: not given */
    double knots_cm;                  /* of string, in knots and on the hook */
    double flower_below_head_cm;      /* along the stem, from the tip to the truss in flower */
    double abreast_most;              /* laid stems side by side that turn at a row's end */
    double container_clearance_cm;    /* between the container and the stems led around it */
};

struct vh_clip_policy {
    double every_cm;
    bool reuse;
};

/* Label lock: no entry and no pick after it. */
struct vh_spray {
    int64_t on;
    double no_entry_h, no_pick_d;
};

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
    /* at the last pick, on the day of pull-out, fruit of this colour, or from this mass on, goes
     * too; a run that is cut short before that day comes to none */
    bool has_last;
    int64_t last_on;
    double last_stage, last_from_g;
    const char *last_colour; /* the name of last_stage; NULL: picked by size, or not given */
    double hold_c;           /* of the store; NaN: not given */
    bool has_top;
    int64_t top_on;
    enum vh_pollination pollination;
    struct vh_rhythm pollination_visit; /* by hand */
    double bees_share;                  /* of flowers that bees reach, 0..1 */
    struct vh_sucker_policy suckers;
    struct vh_lower_policy lower;
    struct vh_clip_policy clips;
    struct vh_spray *spray;
    size_t sprays;
    double free_by_h; /* see vh_visits.h */
    double missed_d;  /* so many days without a visit: leaves come off in steps; 0: never */
    double recover_leaves_most; /* of them at a visit then */
    double idle_d;              /* before last_on: visits but picks bring nothing more; 0: all do */
    struct vh_lateness late;    /* of the visits to leaves and suckers */
    /* until the day before `from` as many leaves are kept and fruit is picked at the colour as
     * there; NULL: there is no other */
    const struct vh_policy *before;
    int64_t from;
    const struct vh_done *done; /* what the records say was done; NULL: nothing */
};

#endif
