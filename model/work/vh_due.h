/* vh_due.h - from what the grower has decided to what is done to the stem today. */
#ifndef VH_DUE_H
#define VH_DUE_H

#include "vh_plant.h"
#include "vh_policy.h"

/* Fruits that the rules leave on a truss that flowers on `day`, and when the rest comes off.
 * Without a rule that fits all that set stay: INFINITY. */
double vh_policy_fruits_kept(const struct vh_policy *policy, int truss, int64_t day,
                             enum vh_thin_stage *at);

/* Does a rule take off fruit that has set, so that what set can be counted before that alone? Where
 * buds of nodes are taken off, what sets is of the others. */
bool vh_policy_takes_set_fruit(const struct vh_policy *policy, const struct vh_crop *crop,
                               int truss, int64_t day, enum vh_thin_stage *at);

/* Share of the flowers of `day` that a visit reaches, in the hours in which bees fly. */
double vh_policy_flowers_reached(const struct vh_policy *policy, const struct vh_crop *crop,
                                 int64_t first_day, int64_t day);

/* What is done on `day`; heads_now: heads per plant before today's change. `first_day` starts every
 * rhythm. */
struct vh_acts vh_policy_acts(const struct vh_policy *policy, const struct vh_crop *crop,
                              const struct vh_plant *plant, size_t lane, int64_t first_day,
                              int64_t day, double heads_now);
/* The same where the flowers reached on that day are known: no future moves them. */
void vh_policy_acts_by(const struct vh_policy *policy, const struct vh_crop *crop,
                       const struct vh_plant *plant, size_t lane, int64_t first_day, int64_t day,
                       double heads_now, double flowers_reached, struct vh_acts *out);
/* The habits of leaves and colour at the pick that hold on `day`. */
const struct vh_policy *vh_policy_on(const struct vh_policy *policy, int64_t day);
/* Heads per plant after the changes up to and on `day`. */
double vh_policy_heads(const struct vh_policy *policy, double at_set_out, int64_t day);

#endif
