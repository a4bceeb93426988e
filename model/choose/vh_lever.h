/* vh_lever.h - a choice of the grower laid upon her scenario.
 *
 * Habits change on the day of the run, or at set-out where that is later: what is past stays as it
 * was. Set-out and density hold for the whole season; where the plants stand already, such a choice
 * looks back. Another density is one of the same floor: the number of plants goes with it.
 */
#ifndef VH_LEVER_H
#define VH_LEVER_H

#include "vh_scenario.h"

/* Fruits kept on trusses first..last (last 0: no end). */
struct vh_truss_range {
    int first, last;
    double fruits;
};
enum { VH_RANGES_MOST = 3 };

/* One value of some levers, and fruits kept by truss ranges, which are stronger. */
struct vh_choice {
    bool has[VH_LEVERS];
    double value[VH_LEVERS]; /* as in struct vh_lever_values */
    struct vh_truss_range range[VH_RANGES_MOST];
    size_t ranges;
    bool by_node; /* the crop counts nodes, not trusses: for the words */
};

/* A scenario with other plantings; everything else is the first one's, which must live as long. */
struct vh_changed {
    struct vh_scenario scenario;
    bool *touched;                /* [planting] */
    struct vh_fruits_rule **rule; /* [planting] own rules; NULL: none */
    struct vh_head_change **head;
    int64_t *market_day; /* of these plantings; NULL: the scenario's */
};

/* A copy that no choice has changed yet. VH_NO_MEMORY. Clear with vh_changed_clear. */
enum vh_status vh_changed_init(const struct vh_scenario *s, struct vh_changed *out);
/* Lays the choice upon a planting: levers that it does not have are passed over. VH_NO_MEMORY. */
enum vh_status vh_lever_apply(const struct vh_scenario *s, const struct vh_choice *c,
                              size_t planting, struct vh_changed *out);
void vh_changed_clear(struct vh_changed *c);

#define VH_CHOICE_NAME 200
/* "leave 3, suckers every 14 days", "leave 2 on trusses 5 to 9, 3 from truss 10 on"; without any
 * lever "as planned". */
void vh_choice_name(const struct vh_choice *c, char name[VH_CHOICE_NAME]);
/* What the plan has of a lever, in the same words ("leave 4"); "" where it has no one value. */
void vh_lever_planned(const struct vh_scenario *s, size_t planting, enum vh_lever lever,
                      char name[VH_CHOICE_NAME]);
/* How many first trusses (nodes) the plan strips of a stem that flowers about `day`. */
int vh_stripped_planned(const struct vh_policy *policy, int64_t day);
/* Does the choice change what lies before the day of the run? */
bool vh_choice_looks_back(const struct vh_scenario *s, const struct vh_choice *c, size_t planting);

#endif
