/* vh_learn.h - what the records of a house say of its plants: the prior futures moved towards them.
 */
#ifndef VH_LEARN_H
#define VH_LEARN_H

#include "vh_ensemble.h"

/* The posterior: to be run with .factors = factor, .log_offset_c = log_offset_c (vh_ensemble.h). */
struct vh_learned {
    size_t members, plantings;
    size_t values;            /* of the records that were used; 0: the priors stand */
    struct vh_member *factor; /* [member * plantings + planting] */
    double *log_offset_c;     /* [member] added to the log's own; 0 where no log is given */
    struct vh_table *table;   /* learned.csv */
};

/* Learns from the records the scenario has read, with its members, draw and threads. Without
 * records, or with fewer members than record.members_least: the priors, values 0, VH_OK. The
 * smoother runs every member as far as the records go, with its own weather on days that nobody
 * measured (vh_smoother.h); errors are those of params/records.csv. VH_NO_MEMORY, VH_NO_NUMBER,
 * VH_INTERRUPTED. The caller clears `out`.
 */
enum vh_status vh_learn(const struct vh_scenario *s, vh_progress progress, void *context,
                        struct vh_learned *out, struct vh_messages *m);
void vh_learned_clear(struct vh_learned *l);

#endif
