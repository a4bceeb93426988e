/* vh_lower.h - lean and lower: where head, hook, laid stem and lowest fruit are, and what each
 * visit lets out.
 *
 * Geometry of a stem that leaves the laid bundle at height b, leans at an angle phi from the floor
 * and hangs by its string from a hook on the wire at height H (model of plane geometry, ours):
 *     head height          b + (L - B) sin phi
 *     string in use        S = B + (H - b)/sin phi
 *     hook from the root   B + (H - b)/tan phi
 *     a truss at p along the stem hangs at b + max(0, p - B) sin phi - t
 * L stem length, B laid length, t how far a loaded truss hangs below its joint; all cm. The state
 * (B, phi) changes at visits only.
 */
#ifndef VH_LOWER_H
#define VH_LOWER_H

#include "vh_work_series.h"

struct vh_lower_state {
    double laid_cm;  /* B */
    double sin_lean; /* sin phi, above 0, at most 1 */
};

/* The string still wound is S less than what was wound, less the knots. */
double vh_lower_string_cm(const struct vh_lower_policy *p, struct vh_lower_state s);
double vh_lower_head_cm(const struct vh_lower_policy *p, struct vh_lower_state s, double stem_cm);
/* Would people see the head past the wire? */
bool vh_lower_is_past_wire(const struct vh_lower_policy *p, struct vh_lower_state s,
                           double stem_cm);
double vh_lower_hook_cm(const struct vh_lower_policy *p, struct vh_lower_state s);
double vh_lower_lean_deg(struct vh_lower_state s);
/* Height of the lowest point of a truss that joins the stem at joint_cm. */
double vh_lower_fruit_cm(const struct vh_lower_policy *p, struct vh_lower_state s, double joint_cm);
/* The state in which a stem of stem_cm has its head clearance_cm below the wire: upright, then
 * leaning, then laid. */
struct vh_lower_state vh_lower_state_for_stem(const struct vh_lower_policy *p, double stem_cm,
                                              double clearance_cm);
/* The state whose string in use is string_cm, at least wire - laid height. */
struct vh_lower_state vh_lower_state_for_string(const struct vh_lower_policy *p, double string_cm);

/* What a visit breaks, or nearly: bits. */
enum vh_lower_breach {
    VH_LOWER_STRING_SHORT = 1,   /* the string ends before the head is low enough */
    VH_LOWER_FRUIT_LOW = 2,      /* a fruit is under the floor height */
    VH_LOWER_HEAD_HIGH = 4,      /* the head passes the wire before the next visit */
    VH_LOWER_MORE_THAN_MOST = 8, /* more is let out than `most` */
    VH_LOWER_ZONE_LONG = 16,     /* the fruit floor keeps the head from being lowered enough */
    VH_LOWER_FIRST_PASS = 32     /* after a missed visit: the rest is let out the day after */
};

struct vh_lower_visit {
    size_t day; /* of the series */
    double let_out_cm;
    struct vh_lower_state state; /* after it */
    double stem_cm, hook_cm, hook_moves_cm, string_cm, string_left_cm;
    double lowest_fruit_cm; /* NaN: no fruit */
    double zone_cm;         /* of stem from the lowest fruit to the tip as it is at the next visit;
                               NaN: no fruit */
    double leaves_first;    /* leaves that would lie on the floor, per stem */
    unsigned breach;
    bool recorded; /* by the records, not by the plan */
};

struct vh_lower_plan {
    struct vh_lower_visit *visit; /* [visits], in date order */
    size_t visits;
    struct vh_lower_state *state; /* [days], in the evening */
    double *lowest_fruit_cm;      /* [days]; NaN: no fruit on the stem */
};

/* The visits of a season: at each, the state that keeps the head its clearance below the wire until
 * the next one. When limits clash: the string never runs below 0, then the fruit stays off the
 * floor, then the head stays below the wire, then `most`; whatever gives way is told as a breach of
 * that visit. After a visit that was left undone the string goes out in two passes on two days,
 * each of `most` where that is enough. VH_NO_MEMORY. Clear with vh_lower_plan_clear. */
enum vh_status vh_lower_plan(const struct vh_work_series *series, struct vh_lower_plan *out);
void vh_lower_plan_clear(struct vh_lower_plan *plan);

/* Height of the wire under which a stretch of stem from the lowest fruit to the tip has room at the
 * flattest lean: zone sin q + fruit floor + truss + head clearance. */
double vh_lower_wire_needed_cm(const struct vh_lower_policy *p, double zone_cm);
/* The lean at which it has room under the wire there is; NaN: at none of 15 degrees or more. */
double vh_lower_lean_needed_deg(const struct vh_lower_policy *p, double zone_cm);

/* Along the stem, cm, where truss i (from 0) joins it: as long as the stem was on the day the truss
 * opened, less the stem between that flower and the tip. A truss older than the first day of a
 * standing crop lies as far down as the stem grew since, at its pace of the first two weeks. */
double vh_lower_joint_cm(const struct vh_work_series *series, size_t truss);

#endif
