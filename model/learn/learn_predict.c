/* What a season says where the records have a number. */
#include "learn_parts.h"
#include "vh_math.h"

#define G_PER_KG 1000.0

/* Index of a day of the season; VH_LEARN_NONE outside of it. */
static size_t at(const struct vh_season *s, int64_t day)
{
    const int64_t d = day - s->first_day;

    return d < 0 || d >= (int64_t)s->days ? VH_LEARN_NONE : (size_t)d;
}

static size_t at_or_after(const struct vh_season *s, int64_t day)
{
    return day < s->first_day ? 0 : at(s, day);
}

struct sum {
    double fruits, kg; /* of the planting */
};

static struct sum picked(const struct vh_season *s, int64_t from, int64_t until)
{
    struct sum sum = {0.0, 0.0};

    for (size_t d = at_or_after(s, from); d < s->days && s->first_day + (int64_t)d <= until; d++) {
        sum.fruits += s->day[d].picked.fruits * s->day[d].stems;
        sum.kg += s->day[d].picked.fresh_g * s->day[d].stems / G_PER_KG;
    }
    return sum;
}

static double fruit_g(const struct vh_season *s, int64_t from, int64_t until)
{
    const struct sum sum = picked(s, from, until);
    const double few = 1e-6; /* of a fruit: no mass can be told of so little */

    return sum.fruits > few ? sum.kg * G_PER_KG / sum.fruits : VH_UNKNOWN;
}

static double stem_cm(const struct vh_season *s, int64_t day)
{
    const size_t d = at(s, day);

    return d == VH_LEARN_NONE ? 0.0 : s->day[d].plant.stem_cm;
}

static double longest_pulled_cm(const struct vh_season *s, int64_t from, int64_t until)
{
    double cm = VH_UNKNOWN;

    for (size_t d = at_or_after(s, from); d < s->days && s->first_day + (int64_t)d <= until; d++)
        if (!isnan(s->day[d].plant.sucker_pulled_cm))
            cm = s->day[d].plant.sucker_pulled_cm;
    return cm;
}

/* Of the fruits on it now, dry matter as at 20 degC. */
static double diameter_mm(const struct vh_fruit_params *f, const struct vh_truss_view *t)
{
    return t->fruits_on > 0.0 && t->dm_g > 0.0
               ? vh_fruit_diameter_mm(f, t->dm_g / (t->fruits_on * f->dm_content_20))
               : VH_UNKNOWN;
}

/* Of the truss that last became ripe. */
static double flower_to_pick_d(const struct vh_look *l, double day)
{
    double days = VH_UNKNOWN;

    for (size_t t = 0; t < l->trusses; t++)
        if (l->truss[t].ripe_first_d <= day)
            days = l->truss[t].ripe_first_d - l->truss[t].opened_d;
    return days;
}

/* What a count gives: all that set, until the rest came off. Behind that day a count that is,
 * within its error, what was to be left may be just that, whatever had set; one that is not tells
 * what set: with fewer nothing came off, and more hang there alone before. */
static double countable_set(const struct vh_learn_value *v, const struct vh_truss_view *t)
{
    const bool is_thinned = !isnan(t->thinned_d) && t->kept < t->set;

    return is_thinned && t->kept > 0.0 && fabs(v->value - t->kept) <= v->entry_sd ? t->kept
                                                                                  : t->set;
}

static double seen(const struct vh_learn_value *v, const struct vh_season *s)
{
    const struct vh_look *l = &s->look[v->look];
    const struct vh_truss_view *t =
        v->truss > 0 && (size_t)v->truss <= l->trusses ? &l->truss[v->truss - 1] : NULL;

    if (!l->truss)
        return VH_UNKNOWN;
    if (v->item == VH_RECORD_BREAKER_FRUITS)
        return l->breaker_fruits;
    if (v->item == VH_RECORD_TURNING_FRUITS)
        return l->turning_fruits;
    if (v->item == VH_RECORD_FLOWER_TO_PICK_D)
        return flower_to_pick_d(l, (double)(v->until - s->first_day + 1));
    if (v->item == VH_RECORD_FRUITS_SET)
        return t ? countable_set(v, t) : 0.0;
    return t ? diameter_mm(&s->planting->crop->fruit, t) : VH_UNKNOWN;
}

/* Picked, but not for sale; of a pick that she weighed that share of her weight. */
static double unmarketable_kg(const struct vh_learn_value *v, const struct vh_house *house,
                              const struct vh_season *s, double marketable)
{
    const double picked_kg = picked(s, v->from, v->until).kg;
    double sum = 0.0;

    for (size_t d = at_or_after(s, v->from); d < s->days && s->first_day + (int64_t)d <= v->until;
         d++) {
        const double kg = s->day[d].picked.fresh_g * s->day[d].stems / G_PER_KG;
        struct vh_spoil_shares shares;
        if (!(kg > 0.0))
            continue;
        vh_season_spoil(house, s, d, &shares);
        sum += kg * (1.0 - vh_min(1.0, (1.0 - vh_spoil_total(&shares)) * marketable));
    }
    return v->of_kg > 0.0 && picked_kg > 0.0 ? sum * v->of_kg / picked_kg : sum;
}

double vh_learn_predict(const struct vh_learn_value *v, const struct vh_house *house,
                        const struct vh_season *s, double marketable)
{
    const size_t d = at(s, v->until);

    if (v->look != VH_LEARN_NONE)
        return seen(v, s);
    if (v->item == VH_RECORD_PICKED_KG)
        return picked(s, v->from, v->until).kg;
    if (v->item == VH_RECORD_PICKED_FRUITS)
        return picked(s, v->from, v->until).fruits;
    if (v->item == VH_RECORD_FRUIT_G)
        return fruit_g(s, v->from, v->until);
    if (v->item == VH_RECORD_UNMARKETABLE_KG)
        return unmarketable_kg(v, house, s, marketable);
    if (v->item == VH_RECORD_PULLED_SUCKER_CM)
        return longest_pulled_cm(s, v->from, v->until);
    if (d == VH_LEARN_NONE)
        return VH_UNKNOWN;
    const struct vh_plant_day *plant = &s->day[d].plant;
    if (v->item == VH_RECORD_FLOWERING_TRUSS)
        return vh_record_counted_truss(plant->flowering_truss);
    if (v->item == VH_RECORD_PICKING_TRUSS)
        return plant->picking_truss;
    if (v->item == VH_RECORD_LEAVES_ON_STEM)
        return plant->leaves;
    if (v->item == VH_RECORD_LEAVES_MADE)
        return plant->leaves_made;
    if (v->item == VH_RECORD_STEM_CM)
        return plant->stem_cm;
    if (v->item == VH_RECORD_STEM_GROWTH_CM)
        return plant->stem_cm - stem_cm(s, v->from);
    return VH_UNKNOWN;
}
