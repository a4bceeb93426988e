/* vh_compare.h - the season of a house under one choice after the other, in the same futures.
 *
 * Draws depend only on (draw, member, day, purpose, planting), so member 7 has the same weather and
 * the same plants under every choice: what differs between two choices is the choice, not chance.
 * A season that no choice touches is run once.
 *
 *     margin = income - hours x labour.per_h - supplies - heating
 *
 * each as far as the scenario gives a price for it; without any price of fruit there is no margin.
 */
#ifndef VH_COMPARE_H
#define VH_COMPARE_H

#include "vh_ensemble.h"
#include "vh_floor.h"
#include "vh_lever.h"

/* What a planting has over the whole season in one future. */
enum vh_part {
    VH_PART_KG,
    VH_PART_FRUITS,
    VH_PART_MARKET_KG,
    VH_PART_INCOME,   /* NaN: no price */
    VH_PART_HOURS,    /* walking and cleaning for this planting alone included */
    VH_PART_SUPPLIES, /* money, as far as costs are given */
    VH_PART_SMALL,    /* income more for each 1 the price of the cheapest grade is multiplied by */
    VH_PART_SELLS,    /* the same of what sells at full price in a day */
    VH_PART_UNSTEADY, /* scatter of its weeks to come: standard deviation over mean */
    VH_PART_HEATING_KWH, /* its share of the house's, by floor; NaN: not known */
    VH_PARTS
};

/* All members of one run. */
struct vh_parts {
    size_t members, plantings;
    double *part;   /* [(member * plantings + planting) * VH_PARTS + part] */
    double *plants; /* [planting] */
};

struct vh_compare_request {
    const struct vh_scenario *scenario;
    size_t members;
    uint64_t draw;
    int threads;
    bool mean_run;                   /* one member: the mean run */
    const struct vh_member *factors; /* [member * plantings + planting]; NULL: the priors */
    vh_progress progress;            /* NULL: none */
    void *progress_context;
};

/* Runs the plan: every planting. VH_NO_MEMORY, VH_NO_NUMBER, VH_INTERRUPTED. The caller clears
 * `out` with vh_parts_clear. */
enum vh_status vh_parts_of_plan(const struct vh_compare_request *q, struct vh_parts *out,
                                struct vh_messages *m);
/* Runs a choice upon `planting` (or VH_ALL_PLANTINGS); what it does not touch is taken from plan.
 */
enum vh_status vh_parts_of_choice(const struct vh_compare_request *q, const struct vh_choice *c,
                                  size_t planting, const struct vh_parts *plan,
                                  struct vh_parts *out, struct vh_messages *m);
void vh_parts_clear(struct vh_parts *p);

/* When a choice needs floor that there is not; out: need_m2 NaN where there is room, where the plan
 * needs as much, or where no floor is given. VH_NO_MEMORY. */
enum vh_status vh_room_of_choice(const struct vh_compare_request *q, const struct vh_choice *c,
                                 size_t planting, struct vh_floor_short *out);

/* What people compare, in the order of choices.csv. */
enum vh_choice_value {
    VH_VALUE_FRUIT_G,
    VH_VALUE_KG_PER_PLANT,
    VH_VALUE_MARKET_KG,
    VH_VALUE_INCOME,
    VH_VALUE_HOURS,
    VH_VALUE_SUPPLIES_COST,
    VH_VALUE_HEATING_COST,
    VH_VALUE_MARGIN,
    VH_CHOICE_VALUES
};
/* Of a member and a planting, or of all plantings together; NaN: not known. */
void vh_choice_values(const struct vh_scenario *s, const struct vh_parts *p, size_t member,
                      size_t planting, double out[VH_CHOICE_VALUES]);
/* Is the money of these plantings known? Without it choices are held against the plan by the mass
 * for market. */
bool vh_margin_is_known(const struct vh_parts *p, size_t planting);

/* A value against the plan's. */
struct vh_difference {
    double mean, p10, p90; /* p10 and p90 NaN with one member */
};
struct vh_verdict {
    double mean[VH_CHOICE_VALUES];
    struct vh_difference diff[VH_CHOICE_VALUES];
    double better_chance; /* share of the members with more margin (market_kg); NaN: one member */
    bool is_plan;         /* nothing differs in any member */
};
/* c: the choice that was run; NULL: the plan. Ranges and chances also hold what plants may do
 * beyond the model under another habit (futures.choice_cv, drawn for each member, planting and
 * lever); means do not. VH_NO_MEMORY. */
enum vh_status vh_verdict_of(const struct vh_compare_request *q, const struct vh_choice *c,
                             const struct vh_parts *plan, const struct vh_parts *choice,
                             size_t planting, struct vh_verdict *out);

/* What a search for the best fruits to keep, by ranges of trusses, came to. */
struct vh_found {            /* of one planting */
    struct vh_choice choice; /* no ranges: nothing better than the plan */
    size_t seasons, members; /* run in the search: so many choices, each in so many futures */
    double most_tried; /* fruits: the choice has as many somewhere, and no more were tried; else 0 */
};
/* One range after the other is tried with a step more and a step less, from the plan on or from the
 * best of choices.lever[VH_LEVER_FRUITS_KEPT], as long as a step helps. In futures of its own (another draw, at most 60), so that the verdict upon what was
 * found, in those of the comparison, owes nothing to chance that the search picked out.
 * VH_NO_MEMORY, VH_NO_NUMBER, VH_INTERRUPTED. */
enum vh_status vh_search_fruits(const struct vh_compare_request *q, size_t planting,
                                enum vh_search what, double at_least_g, struct vh_found *out,
                                struct vh_messages *m);

#define VH_FLIPS_TEXT 160
/* The assumption that would turn the choice, with its break-even value: "labour at 12.30 an hour or
 * less"; "" where none within reach does. */
void vh_flips_if(const struct vh_scenario *s, const struct vh_parts *plan,
                 const struct vh_parts *choice, size_t planting, char text[VH_FLIPS_TEXT]);

#endif
