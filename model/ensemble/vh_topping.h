/* vh_topping.h - when to take the growing tips out, by all futures together.
 *
 * Proposed is the last truss that ripens before pull-out in a share work.top_sure of the futures,
 * on the day that the mean run's stem carries the leaves that stay above it.
 */
#ifndef VH_TOPPING_H
#define VH_TOPPING_H

#include "vh_result.h"

/* Adds the proposals to r's table of tasks, which is that of all futures. last: [member * plantings
 * + planting] by vh_topping_last. VH_NO_MEMORY, VH_NO_NUMBER. */
enum vh_status vh_topping_propose(const struct vh_scenario *s, const int *last, size_t members,
                                  struct vh_result *r, struct vh_messages *m);

#endif
