/* A crop that stands already: what is seen on it on a day. */
#include "scenario_parts.h"

#include <math.h>
#include <stdlib.h>

#include "vh_plant.h"

static double seen_or(const struct vh_given *g, double otherwise)
{
    return g->good ? g->number : otherwise;
}

static void fill_seen_fruits(struct vh_reading *r, const struct vh_given *given,
                             struct vh_standing *s)
{
    if (!given->good)
        return;
    const struct vh_toml_value *list = given->at->value;
    s->fruits = vh_reading_room(r, list->items, sizeof *s->fruits);
    for (size_t i = 0; s->fruits && i < list->items; i++) {
        s->fruits[i] = list->item[i]->number;
        s->trusses = i + 1;
    }
}

/* Trusses (nodes) that a stem can carry from the one being picked to the one in flower: as many as
 * it makes in the longest time a fruit hangs, at its fastest. */
static double most_trusses(const struct vh_crop *crop)
{
    return ceil(vh_plant_most_trusses_per_d(crop) * crop->habit.warm_up_d);
}

void vh_scenario_fill_standing(struct vh_reading *r, const struct vh_raw_standing *raw,
                               struct vh_planting *p)
{
    struct vh_standing *s = &p->standing;

    if (!raw->table)
        return;
    *s = (struct vh_standing){
        .given = raw->on.good && raw->flowering_truss.good,
        .flowering_truss = seen_or(&raw->flowering_truss, 0.0),
        .picking_truss = seen_or(&raw->picking_truss, 0.0),
        .stem_cm = seen_or(&raw->stem_cm, 0.0),
        .leaves = seen_or(&raw->leaves, 0.0),
    };
    fill_seen_fruits(r, &raw->fruits_on_trusses, s);
    if (raw->picking_truss.good && raw->flowering_truss.good &&
        raw->picking_truss.number > raw->flowering_truss.number)
        vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_value(r, raw->picking_truss.at->value),
                            "picking_truss %g is above flowering_truss %g on line %lld; the truss"
                            " being picked is the lower one",
                            raw->picking_truss.number, raw->flowering_truss.number,
                            (long long)raw->flowering_truss.at->line));
    else if (p->crop && s->given && raw->picking_truss.good && s->picking_truss > 0.0 &&
             s->flowering_truss - s->picking_truss > most_trusses(p->crop))
        vh_spoil(r,
                 vh_fail(r->messages, VH_BAD_INPUT, vh_at_value(r, raw->flowering_truss.at->value),
                         "%g trusses or nodes between picking_truss %g and flowering_truss %g; a"
                         " stem of %s carries at most about %g, so count again",
                         s->flowering_truss - s->picking_truss, s->picking_truss,
                         s->flowering_truss, p->crop_name, most_trusses(p->crop)));
    else if (s->trusses && !raw->picking_truss.at)
        vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_key(r, raw->fruits_on_trusses.at),
                            "fruits_on_trusses counts from the truss being picked up; add"
                            " picking_truss"));
    else if (s->trusses &&
             (double)s->trusses > floor(s->flowering_truss) - floor(s->picking_truss) + 1.0)
        vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT,
                            vh_at_value(r, raw->fruits_on_trusses.at->value),
                            "%zu numbers of fruits for the %g trusses from %g to %g; give one a"
                            " truss, from the picking truss up",
                            s->trusses, floor(s->flowering_truss) - floor(s->picking_truss) + 1.0,
                            s->picking_truss, s->flowering_truss));
}
