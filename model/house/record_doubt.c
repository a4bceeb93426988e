/* Which records cannot be: a value is held against its nearest neighbours of the same kind, two
 * before and two after, and doubted where most of them speak against it. So one slip is found, and
 * the good rows beside it are not. */
#include <math.h>
#include <stdio.h>

#include "record_parts.h"
#include "vh_math.h"
#include "vh_plant.h"

enum { SIDE = 2 }; /* neighbours on either side */

struct doubting {
    struct vh_records *r;
    const struct vh_house *house;
    const struct vh_record_params *p;
    const char *shown;
    struct vh_messages *m;
};

static bool same_kind(const struct vh_record *a, const struct vh_record *b)
{
    return a->item == b->item && a->planting == b->planting &&
           (a->item < VH_RECORD_MINUTES || a->task == b->task) &&
           (!vh_item_kind(a->item)->by_truss || a->truss == b->truss);
}

/* Could both be true? */
static bool agree(const struct doubting *d, const struct vh_record *a, const struct vh_record *b)
{
    const struct vh_item_kind *k = vh_item_kind(a->item);
    const bool far_above = b->value > 0.0 && a->value >= d->p->doubt_ratio * b->value;
    const bool far_below = a->value > 0.0 && b->value >= d->p->doubt_ratio * a->value;

    if (k->only_rises && a->day != b->day) {
        const struct vh_record *first = a->day < b->day ? a : b, *last = first == a ? b : a;
        const double rise = last->value - first->value, days = (double)(last->day - first->day);
        const double sd_a = vh_record_sd(d->p, a), sd_b = vh_record_sd(d->p, b);
        const double room =
            3.0 * sqrt(sd_a * sd_a + sd_b * sd_b); /* three in a thousand by chance */
        return rise >= -room && rise <= k->most_per_d * days + room;
    }
    if (k->only_rises)
        return !far_above && !far_below;
    return !far_above && (k->is_sum || !far_below);
}

/* How many of the nearest on one side there are, and how many speak against it. */
static void ask(const struct doubting *d, size_t i, int step, int *asked, int *against)
{
    const struct vh_record *a = &d->r->row[i];
    int found = 0;

    for (size_t k = i; found < SIDE;) {
        if (step < 0 ? k == 0 : k + 1 >= d->r->rows)
            return;
        k = step < 0 ? k - 1 : k + 1;
        const struct vh_record *b = &d->r->row[k];
        if (!same_kind(a, b) || (vh_item_kind(a->item)->is_sum && b->value <= 0.0))
            continue; /* nothing picked on a day says nothing of another day */
        found++;
        *asked += 1;
        *against += !agree(d, a, b);
    }
}

/* Trusses that can be in flower on the day of the record, of the fastest plant; infinite where the
 * crop is not known. */
static double trusses_by(const struct doubting *d, const struct vh_record *a)
{
    const struct vh_planting *p = &d->house->planting[a->planting];

    if (!p->crop)
        return HUGE_VAL;
    const double first = vh_max(1.0, p->standing.given ? p->standing.flowering_truss : 1.0);
    const double days = (double)(a->day - p->set_out);
    return floor(first + d->p->trusses_ahead + days * vh_plant_most_trusses_per_d(p->crop));
}

static bool above_all_bounds(const struct doubting *d, const struct vh_record *a, double *most)
{
    const struct vh_item_kind *k = vh_item_kind(a->item);

    *most = k->most * (k->of_planting ? d->house->planting[a->planting].plants : 1.0);
    if (a->item == VH_RECORD_FLOWERING_TRUSS || a->item == VH_RECORD_PICKING_TRUSS)
        *most = vh_min(*most, trusses_by(d, a));
    return *most > 0.0 && a->value > *most;
}

/* A count on a truss that cannot have flowered yet. */
static bool is_too_early(const struct doubting *d, struct vh_record *a)
{
    const double most = a->truss > 0 ? trusses_by(d, a) : HUGE_VAL;
    char item[64], date[11];

    if (a->truss <= most)
        return false;
    a->doubt = true;
    vh_item_say(a, item, sizeof item);
    vh_date_format(a->day, date);
    vh_warn(d->m, (struct vh_place){d->shown, a->line, 0, NULL},
            "%s of %s is of truss %d, but by %s it can have made %.0f at most; write the truss it "
            "was counted on",
            item, d->house->planting[a->planting].name, a->truss, date, most);
    return true;
}

static void doubt(const struct doubting *d, struct vh_record *a, const char *why)
{
    char item[64];

    a->doubt = true;
    vh_item_say(a, item, sizeof item);
    vh_warn(d->m, (struct vh_place){d->shown, a->line, 0, NULL},
            "%s of %s is %.6g, %s; kept with a wider error, mend it if it is a slip", item,
            d->house->planting[a->planting].name, a->value, why);
}

void vh_records_doubt(struct vh_records *r, const struct vh_house *house,
                      const struct vh_record_params *p, const char *shown, struct vh_messages *m)
{
    const struct doubting d = {r, house, p, shown, m};

    for (size_t i = 0; i < r->rows; i++) {
        struct vh_record *a = &r->row[i];
        char why[96];
        double most;
        int asked = 0, against = 0;
        if (a->item == VH_RECORD_DONE || is_too_early(&d, a))
            continue;
        if (above_all_bounds(&d, a, &most)) {
            snprintf(why, sizeof why, "more than the %.6g that can be", most);
            doubt(&d, a, why);
            continue;
        }
        ask(&d, i, -1, &asked, &against);
        ask(&d, i, 1, &asked, &against);
        if (2 * against <= asked)
            continue;
        if (vh_item_kind(a->item)->only_rises)
            snprintf(why, sizeof why, "which does not fit the entries before and after");
        else
            snprintf(why, sizeof why, "ten times its neighbours or a tenth of them");
        doubt(&d, a, why);
    }
}
