/* What a day's picked fruit went through before it was picked: gathered for vh_spoil.h. */
#include "vh_season.h"

#include "vh_math.h"

/* Climate days first..last, both inclusive, cut to what the house knows; false: none is left. */
static bool days_known(const struct vh_climate *c, int64_t first, int64_t last, size_t *from,
                       size_t *to)
{
    const int64_t end = c->first_day + (int64_t)c->days;
    const int64_t a = first > c->first_day ? first : c->first_day;
    const int64_t b = last + 1 < end ? last + 1 : end;

    if (a >= b)
        return false;
    *from = (size_t)(a - c->first_day);
    *to = (size_t)(b - c->first_day);
    return true;
}

static double mean_ratio(const struct vh_season *s, size_t d, double window_d)
{
    const size_t days = window_d > 1.0 ? (size_t)window_d : 1;
    const size_t first = d + 1 > days ? d + 1 - days : 0;
    double sum = 0.0;

    for (size_t i = first; i <= d; i++)
        sum += s->day[i].plant.ratio;
    return sum / (double)(d + 1 - first);
}

/* How much brighter a day was than the days before it, 0..1. */
static double brighter(const struct vh_climate *c, size_t day, double dull_d)
{
    const size_t back = dull_d > 1.0 ? (size_t)dull_d : 1;
    const size_t first = day > back ? day - back : 0;
    double sum = 0.0;

    for (size_t i = first; i < day; i++)
        sum += c->dli_mol_m2_d[i];
    if (!(sum > 0.0))
        return 0.0;
    return vh_clamp(c->dli_mol_m2_d[day] * (double)(day - first) / sum - 1.0, 0.0, 1.0);
}

static void look_at_heat(const struct vh_climate *c, const struct vh_spoil_params *p, int64_t date,
                         struct vh_spoil_day *out)
{
    size_t from, to;

    if (!days_known(c, date - (int64_t)p->rot_from_d, date - (int64_t)p->rot_to_d, &from, &to))
        return;
    out->hot_k = out->hot_after_dull_k = 0.0;
    for (size_t i = from; i < to; i++) {
        if (c->tmax_c[i] <= p->rot_hot_c) /* most days: nothing comes of how dull it was */
            continue;
        const double k = (c->tmax_c[i] - p->rot_hot_c) / (double)(to - from);
        out->hot_k += k;
        out->hot_after_dull_k += k * brighter(c, i, p->rot_dull_d);
    }
}

/* The day on which the flower opened of what is picked on day d: that of the lowest truss still to
 * pick. false: not known. */
static bool flower_day(const struct vh_season *s, size_t d, int64_t *day)
{
    const double truss = s->day[d].plant.picking_truss;

    if (!(truss >= 1.0) || !(truss < (double)s->trusses + 1.0))
        return false;
    const double opened_d = s->truss[(size_t)truss - 1].opened_d;
    if (isnan(opened_d))
        return false;
    *day = s->first_day + (int64_t)floor(opened_d);
    return true;
}

/* Its own bees, or those that a neighbour's flowers brought, on the day of its flower. */
static bool bees_came(const struct vh_house *house, const struct vh_season *s, size_t d)
{
    int64_t flower = s->first_day + (int64_t)d;

    if (!vh_bees_spoil(s->planting->crop))
        return false;
    if (s->planting->policy.pollination == VH_POLLINATION_BEES)
        return true;
    flower_day(s, d, &flower); /* where it is not known, on the day of the pick */
    return vh_house_has_bees(house, flower);
}

static double cold_nights(const struct vh_climate *c, const struct vh_season *s, size_t d)
{
    const struct vh_spoil_params *p = &s->planting->crop->spoil;
    int64_t flower;
    size_t from, to, cold = 0;

    if (!flower_day(s, d, &flower))
        return VH_UNKNOWN;
    if (!days_known(c, flower - (int64_t)p->cold_from_d, flower - (int64_t)p->cold_to_d, &from,
                    &to))
        return VH_UNKNOWN;
    for (size_t i = from; i < to; i++)
        cold += c->tmin_c[i] < p->cold_night_c;
    return (double)cold / (double)(to - from);
}

/* Days since the last pick, at most as many as the first pick is given. */
static double gap_d(const struct vh_season *s, size_t d)
{
    const size_t most = 14; /* longer no grower waits: before it nothing was ripe */
    size_t back = 1;

    while (back < d && back < most && !s->day[d - back].pick_day)
        back++;
    return (double)back;
}

/* The truss that is being picked; once the last is through, that one. NULL: none was yet. */
static const struct vh_truss_view *picked_truss(const struct vh_season *s, size_t d)
{
    const double truss = s->day[d].plant.picking_truss;

    if (!(truss >= 1.0) || s->trusses == 0)
        return NULL;
    return &s->truss[(size_t)vh_min(truss, (double)s->trusses) - 1];
}

/* Colour: the days over which the fruit came to it, and from it to red on the vine. */
static void look_at_colour(const struct vh_house *house, const struct vh_season *s, size_t d,
                           struct vh_spoil_day *out)
{
    const struct vh_planting *p = s->planting;
    const struct vh_clock_params *clock = &p->crop->clock;
    const int64_t at = s->first_day + (int64_t)d - house->climate.first_day;
    const struct vh_truss_view *v = picked_truss(s, d);
    const double ripe = 1.0;

    if (p->crop->fruit.pick_by != VH_PICK_BY_STAGE || !(house->colours.red > 0.0))
        return;
    const double rate = vh_clock_rate_per_d(clock, ripe, house->climate.tmean_c[at],
                                            vh_log(clock->std_rad_mj_m2_d), clock->std_truss);
    out->gap_d = gap_d(s, d);
    if (p->policy.whole_truss && v) /* its first fruit waits for its last */
        out->gap_d += clock->last_fruit_d * vh_max(0.0, v->kept - 1.0);
    if (rate > 0.0)
        out->red_wait_d = (house->colours.red - p->policy.pick_stage) / rate;
}

static double mean_kept(const struct vh_season *s, size_t d)
{
    const struct vh_truss_view *v = picked_truss(s, d);

    return v ? v->kept : s->planting->crop->habit.fruits_kept;
}

struct vh_spoil_day vh_season_spoil_day(const struct vh_house *house, const struct vh_season *s,
                                        size_t d)
{
    const struct vh_planting *p = s->planting;
    const struct vh_crop *crop = p->crop;
    const struct vh_season_day *day = &s->day[d];
    struct vh_spoil_day out = {
        .ratio = mean_ratio(s, d, crop->spoil.crack_window_d),
        .cold_nights = cold_nights(&house->climate, s, d),
        .bees = bees_came(house, s, d),
        .hot_k = VH_UNKNOWN,
        .hot_after_dull_k = VH_UNKNOWN,
        .feed_ec_ms_cm = p->feed_ec_ms_cm,
        .gap_d = VH_UNKNOWN,
        .red_wait_d = VH_UNKNOWN,
        .mass_g = VH_UNKNOWN,
        .mass_cv = VH_UNKNOWN,
        .largest_g = VH_ENDLESS,
    };

    look_at_heat(&house->climate, &crop->spoil, s->first_day + (int64_t)d, &out);
    look_at_colour(house, s, d, &out);
    if (crop->fruit.pick_by == VH_PICK_BY_MASS) {
        out.largest_g = p->policy.largest_g;
        out.mass_cv = vh_fruit_mass_cv(&crop->fruit, mean_kept(s, d));
        if (day->picked.fruits > 0.0)
            out.mass_g = day->picked.fresh_g / day->picked.fruits;
    }
    return out;
}

void vh_season_spoil(const struct vh_house *house, const struct vh_season *s, size_t d,
                     struct vh_spoil_shares *out)
{
    const struct vh_spoil_day day = vh_season_spoil_day(house, s, d);

    vh_spoil_shares_of(&s->planting->crop->spoil, &day, out);
}
