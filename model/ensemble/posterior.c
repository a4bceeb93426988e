#include <stddef.h>
#include <stdlib.h>
#include <string.h>

#include "vh_ensemble.h"

static void add(struct vh_member *sum, const struct vh_member *m)
{
    sum->plant.light += m->plant.light;
    sum->plant.truss_pace += m->plant.truss_pace;
    sum->plant.fruit_pace += m->plant.fruit_pace;
    sum->plant.fruit_mass += m->plant.fruit_mass;
    sum->plant.set += m->plant.set;
    sum->plant.stem_pace += m->plant.stem_pace;
    sum->plant.sucker_pace += m->plant.sucker_pace;
    sum->marketable += m->marketable;
    sum->stray += m->stray;
    sum->unsteady += m->unsteady;
}

static void divide(struct vh_member *sum, double by)
{
    sum->plant.light /= by;
    sum->plant.truss_pace /= by;
    sum->plant.fruit_pace /= by;
    sum->plant.fruit_mass /= by;
    sum->plant.set /= by;
    sum->plant.stem_pace /= by;
    sum->plant.sucker_pace /= by;
    sum->marketable /= by;
    sum->stray /= by;
    sum->unsteady /= by;
}

/* The overlooked share is not learnt: the mean run keeps the grower's own. */
static void means(struct vh_posterior *p)
{
    for (size_t k = 0; k < p->plantings; k++) {
        struct vh_member sum = {.overlooked = 1.0};
        for (size_t j = 0; j < p->members; j++)
            add(&sum, &p->factor[j * p->plantings + k]);
        divide(&sum, (double)p->members);
        p->mean[k] = sum;
    }
    for (size_t j = 0; j < p->members; j++)
        p->mean_log_offset_c += p->log_offset_c[j] / (double)p->members;
}

struct vh_posterior *vh_posterior_create(size_t members, size_t plantings,
                                         const struct vh_member *factor, const double *log_offset_c)
{
    const size_t factors = members * plantings;
    const size_t bytes = sizeof(struct vh_posterior) +
                         (factors + plantings) * sizeof(struct vh_member) +
                         members * sizeof(double);
    struct vh_posterior *p = calloc(1, bytes);

    if (!p)
        return NULL;
    p->members = members;
    p->plantings = plantings;
    p->factor = (struct vh_member *)(p + 1);
    p->mean = p->factor + factors;
    p->log_offset_c = (double *)(p->mean + plantings);
    memcpy(p->factor, factor, factors * sizeof *factor);
    memcpy(p->log_offset_c, log_offset_c, members * sizeof *log_offset_c);
    means(p);
    return p;
}
