/* What was learnt, kept by the scenario for every run that follows. */
#include <stdlib.h>

#include "vh_learn.h"
#include "vh_table.h"

enum vh_status vh_scenario_learn(struct vh_scenario *s, vh_progress progress, void *context,
                                 struct vh_messages *m)
{
    struct vh_learned l;
    struct vh_posterior *posterior = NULL;
    const enum vh_status status = vh_learn(s, progress, context, &l, m);

    if (status != VH_OK)
        return status;
    if (l.values > 0) {
        posterior = vh_posterior_create(l.members, l.plantings, l.factor, l.log_offset_c);
        if (!posterior) {
            vh_learned_clear(&l);
            return VH_NO_MEMORY;
        }
        posterior->values = l.values;
    }
    free(s->posterior);
    vh_table_free(s->learned);
    s->posterior = posterior;
    s->learned = l.table;
    l.table = NULL;
    vh_learned_clear(&l);
    return VH_OK;
}

const struct vh_table *vh_scenario_learned(const struct vh_scenario *s)
{
    return s->learned;
}
