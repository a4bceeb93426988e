/* vh_request.h - what a scenario asks to have compared: plain structs, filled by the scenario
 * reader.
 */
#ifndef VH_REQUEST_H
#define VH_REQUEST_H

#include <stdbool.h>
#include <stddef.h>

#include "vh_error.h"

/* What a grower can do otherwise. The order is that of the printed table, and draws are numbered by
 * it (compare_verdict.c): a new one comes last. */
enum vh_lever {
    VH_LEVER_FRUITS_KEPT,
    VH_LEVER_SUCKERS,
    VH_LEVER_LEAVES,
    VH_LEVER_LOWER,
    VH_LEVER_HEADS,
    VH_LEVER_POLLINATION,
    VH_LEVER_PICK_STAGE,
    VH_LEVER_TOP,
    VH_LEVER_PULL_OUT,
    VH_LEVER_SET_OUT,
    VH_LEVER_DENSITY,
    VH_LEVER_STRIPPED,
    VH_LEVERS
};

enum vh_search {
    VH_SEARCH_NONE,
    VH_SEARCH_MARGIN,
    VH_SEARCH_STEADY,
    VH_SEARCH_SIZE,
    VH_SEARCH_GAPS
};

enum { VH_CHOICES_MOST = 5000 }; /* runs of one comparison */

#define VH_ALL_PLANTINGS ((size_t)-1)

/* Values of a lever: numbers in our units, days as day numbers, colours by their place in
 * breaker|turning|pink|light-red|red. */
struct vh_lever_values {
    double *value; /* [values] */
    size_t values;
};

/* [compare] */
struct vh_choices {
    bool given;
    size_t planting; /* or VH_ALL_PLANTINGS */
    struct vh_lever_values lever[VH_LEVERS];
    bool all_combinations;
    enum vh_search search;
    double at_least_g;     /* in a search for size */
    struct vh_place place; /* of its header */
};

void vh_choices_clear(struct vh_choices *c);
/* Runs besides the plan: one for each value, or with all_combinations every value of a lever with
 * every one of the others; above VH_CHOICES_MOST no exact number. */
size_t vh_choices_count(const struct vh_choices *c);
/* Why a planting has no such lever ("is picked by its mass, not its colour"); NULL: it has it. */
struct vh_planting;
const char *vh_lever_unfit(const struct vh_planting *p, enum vh_lever lever);

#endif
