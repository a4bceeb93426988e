/* The second half of a truss's chain: how it ripens and grows, day by day, and what is picked. */
#include <stdio.h>

#include "chain_parts.h"
#include "vh_due.h"
#include "vh_math.h"

#define G_PER_KG 1000.0

static void add(struct vh_chain *c, const char *part, const char *what, double value,
                const char *unit, const char *equation, const char *worked, const char *parameters)
{
    vh_chain_add(
        c, &(struct vh_step){part, what, value, VH_UNKNOWN, unit, equation, worked, parameters});
}

/* Sums over the days of the truss. */
struct going {
    double rad_mj, rad_days, temp, days; /* since the flower */
    double load, light_mol;
    double warm_days; /* of the means: days until ripe */
    struct vh_growth_curve curve;
    double seeded, mean_c;
};

static double all_fruits(const struct vh_truss_view *v)
{
    return v->fruits_on + v->picked_fruits;
}

/* The truss on the evening before day d; before it opens, the fruits with which it opens. */
static struct vh_truss_view evening_before(const struct vh_chain_truss *t, size_t d)
{
    struct vh_truss_view v = t->look[d];

    if (d > t->opened)
        return t->look[d - 1];
    v.stage = v.dm_g = v.picked_fruits = v.picked_dm_g = v.picked_g = 0.0;
    return v;
}

static double open_share(const struct vh_chain_truss *t, size_t d)
{
    const double opened_d = t->season.truss[t->number - 1].opened_d;

    return d == t->opened ? 1.0 - (opened_d - (double)t->opened) : 1.0;
}

static void take_light(struct going *g, const struct vh_chain_truss *t, const struct vh_day *day,
                       double open)
{
    const struct vh_clock_params *k = &t->planting->crop->clock;
    const double counted = vh_min(open, k->rad_window_d - g->rad_days);

    if (counted <= 0.0)
        return;
    g->rad_mj += counted * day->dli_mol_m2_d * t->light_factor / k->mol_per_mj;
    g->rad_days += counted;
}

/* A day of a truss that is picked by its colour. */
static struct vh_chain_day staged_day(const struct vh_chain_truss *t, struct going *g, size_t d,
                                      const struct vh_day *day, double open)
{
    const struct vh_crop *crop = t->planting->crop;
    const struct vh_truss_view was = evening_before(t, d), *is = &t->look[d];
    const double rad = vh_max(g->rad_mj / vh_max(g->rad_days, 1e-9), crop->clock.rad_least_mj_m2_d);
    const double rate =
        vh_clock_rate_per_d(&crop->clock, was.stage, day->mean_c + crop->clock.fruit_over_air_k,
                            vh_log(rad), t->number) *
        t->season.factors.fruit_pace;
    const double s0 = vh_fruit_curve_at(&g->curve, was.stage),
                 s1 = vh_fruit_curve_at(&g->curve, is->stage), n = all_fruits(&was);
    const double left = n > 0.0 ? was.fruits_on / n : 0.0, warm = day->fgp_share * day->sink_share;
    const double potential = crop->fruit.mass_factor * t->planting->usual_fruit_g *
                             crop->fruit.dm_content_20 * g->seeded * t->season.factors.fruit_mass;

    return (struct vh_chain_day){
        .light_mj = rad,
        .rate_per_d = rate,
        .heat_share = rate > 0.0 ? (is->stage - was.stage) / (rate * open) : VH_UNKNOWN,
        .stage = is->stage,
        .grown_share = s1,
        .warm = warm,
        .asked_g = potential * warm * vh_fruit_weights_sum(&crop->fruit, n) * left * (s1 - s0),
    };
}

/* A day of a node whose fruit is picked by its mass. */
static struct vh_chain_day sized_day(const struct vh_chain_truss *t, const struct going *g,
                                     size_t d, const struct vh_day *day, double open)
{
    const struct vh_fruit_params *f = &t->planting->crop->fruit;
    const struct vh_truss_view was = evening_before(t, d), *is = &t->look[d];
    const double content = vh_fruit_dm_content(f, g->mean_c, t->planting->feed_ec_ms_cm);
    const double w = was.fruits_on > 0.0 ? was.dm_g / (was.fruits_on * content) : 0.0;
    const double to = vh_fruit_logistic_g(f, vh_max(w, f->start_g), day->growth_decay);

    return (struct vh_chain_day){
        .light_mj = VH_UNKNOWN,
        .rate_per_d = day->growth_cd,
        .heat_share = VH_UNKNOWN,
        .stage = is->fruits_on > 0.0 ? is->dm_g / (is->fruits_on * content) : VH_UNKNOWN,
        .grown_share = VH_UNKNOWN,
        .warm = day->sink_share,
        .asked_g =
            vh_max(0.0, to - w) * content * was.fruits_on * open * t->season.factors.fruit_mass,
    };
}

static void add_day(struct vh_chain *c, const struct vh_chain_truss *t, struct going *g, size_t d)
{
    const bool by_mass = t->planting->crop->fruit.pick_by == VH_PICK_BY_MASS;
    const double open = open_share(t, d);
    const int64_t date = t->season.first_day + (int64_t)d;
    const struct vh_truss_view *v = &t->look[d];
    struct vh_day day;

    vh_season_day_of(&t->house->climate, t->planting->crop, &t->fgp, date, &day);
    take_light(g, t, &day, open);
    g->temp += open * day.mean_c;
    g->days += open;
    g->mean_c = g->days > 0.0 ? g->temp / g->days : day.mean_c;
    struct vh_chain_day row =
        by_mass ? sized_day(t, g, d, &day, open) : staged_day(t, g, d, &day, open);
    row.date = date;
    row.t_c = day.mean_c;
    row.fed = vh_min(1.0, t->season.day[d].plant.ratio);
    row.dm_g = v->dm_g + v->picked_dm_g;
    row.fruits = all_fruits(v);
    vh_chain_add_day(c, &row);
    const double ripe_d = t->season.truss[t->number - 1].ripe_first_d;
    if (isnan(ripe_d) || (double)d <= ripe_d) {
        g->load += vh_season_load(&t->season, d);
        g->light_mol += day.dli_mol_m2_d * t->light_factor;
        g->warm_days += 1.0;
    }
}

/* ---- picks ---- */

static double add_pick(struct vh_chain *c, const struct vh_chain_truss *t, const struct going *g,
                       size_t d)
{
    const struct vh_planting *p = t->planting;
    const struct vh_truss_view was = evening_before(t, d), *is = &t->look[d];
    const double fruits = is->picked_fruits - was.picked_fruits,
                 g_stem = is->picked_g - was.picked_g, stems = t->season.day[d].stems,
                 stray = t->of->stray[t->place][d];
    const bool by_mass = p->crop->fruit.pick_by == VH_PICK_BY_MASS;
    const struct vh_chain_pick pick = {
        .planting = p->name,
        .on = t->season.first_day + (int64_t)d,
        .stage = by_mass ? VH_UNKNOWN : is->stage,
        .ripe_share = is->picked_fruits / all_fruits(is),
        .fruits_stem = fruits,
        .dm_g = (is->picked_dm_g - was.picked_dm_g) / fruits,
        .mean_c = g->mean_c,
        .dm_content = vh_fruit_dm_content(&p->crop->fruit, g->mean_c, p->feed_ec_ms_cm),
        .fruit_g = g_stem / fruits,
        .stems = stems,
        .stray = stray,
        .fruits = fruits * stems * stray,
        .kg = g_stem * stems * stray / G_PER_KG,
        .for_sale = t->of->run->marketable[t->place],
    };

    return vh_chain_add_pick(c, t->house, &t->season, d, &pick);
}

/* ---- steps ---- */

static void add_ripening(struct vh_chain *c, const struct vh_chain_truss *t, const struct going *g)
{
    const struct vh_truss_view *v = &t->season.truss[t->number - 1];
    const struct vh_planting *p = t->planting;
    const bool by_mass = p->crop->fruit.pick_by == VH_PICK_BY_MASS;
    char worked[VH_CHAIN_TEXT];
    const double ripe = v->ripe_first_d;

    snprintf(worked, sizeof worked, by_mass ? "half of the fruits weigh %.4g g" : "stage %.4g",
             by_mass ? p->policy.pick_from_g : p->policy.pick_stage);
    vh_chain_add(
        c, &(struct vh_step){
               "RIPE", by_mass ? "ready to pick" : "first fruit ready to pick", ripe - v->opened_d,
               isnan(ripe) ? VH_UNKNOWN : (double)t->season.first_day + floor(ripe),
               "d after the flower",
               by_mass ? "see DAY BY DAY: mass by degree-days"
                       : "see DAY BY DAY: stage = sum of rate x heat; rate = fruit_pace x (a + rad"
                         " x log light + truss x number + log(T/ref_c) (c0 + c1 s + c2 s^2 +"
                         " c3 s^3))",
               isnan(ripe) ? "not before pull-out" : worked,
               by_mass ? "fruit.growth_base_c fruit.oldest_cd habit.pick_from_g"
                       : "clock.a_per_d clock.rad_per_d clock.truss_per_d clock.ref_c"
                         " clock.c0_per_d clock.c1_per_d clock.c2_per_d clock.c3_per_d"});
    if (!by_mass && isfinite(v->ripe_last_d))
        vh_chain_add(c, &(struct vh_step){"RIPE", "last fruit ready to pick",
                                          v->ripe_last_d - v->opened_d,
                                          (double)t->season.first_day + floor(v->ripe_last_d),
                                          "d after the flower",
                                          "each further fruit last_fruit_d later at the pace of"
                                          " 8 MJ and truss 5",
                                          "", "clock.last_fruit_d"});
    add(c, "RIPE", "mean temperature until then", g->mean_c, "degC", "from the flower on", "", "");
    add(c, "RIPE", "mean light in the plant", g->light_mol / g->warm_days, "mol m-2 d-1",
        "light above the crop x light_factor x light, as learnt", "", "");
    add(c, "RIPE", "mean load", g->load / g->warm_days, "",
        "what all plants ask over what the light feeds; plant_days.csv", "", "share.load_most");
}

static void add_growth(struct vh_chain *c, const struct vh_chain_truss *t, const struct going *g)
{
    const struct vh_fruit_params *f = &t->planting->crop->fruit;
    const struct vh_truss_view *v = &t->season.truss[t->number - 1];
    char worked[VH_CHAIN_TEXT];

    if (f->pick_by == VH_PICK_BY_MASS) {
        snprintf(worked, sizeof worked, "fruit_mass %.4f", t->season.factors.fruit_mass);
        add(c, "GROWTH", "largest fruit", f->cap_g, "g",
            "asked = (W' - W) x dry matter content x fruits x fruit_mass; W' = cap/(1 + (cap/W - 1)"
            " exp(-k x)), x degree-days, W at least start_g",
            worked, "fruit.cap_g fruit.growth_per_cd fruit.growth_base_c fruit.start_g");
    } else {
        snprintf(worked, sizeof worked, "%g x %g x %g x %.4g x %.4f", f->mass_factor,
                 t->planting->usual_fruit_g, f->dm_content_20, g->seeded,
                 t->season.factors.fruit_mass);
        add(c, "GROWTH", "a fruit could grow",
            f->mass_factor * t->planting->usual_fruit_g * f->dm_content_20 * g->seeded *
                t->season.factors.fruit_mass,
            "g dry",
            "mass_factor x usual_fruit_g of the planting x dm_content_20 x mass that its pollen"
            " allows x fruit_mass",
            worked, "fruit.mass_factor fruit.dm_content_20");
        add(c, "GROWTH", "weights of its positions", vh_fruit_weights_sum(f, v->kept), "",
            "1 at the first, straight to knot1 and knot2; sum over the fruits kept, of a mean of 1"
            " over weight_norm fruits",
            "",
            "fruit.knot1_position fruit.knot1_weight fruit.knot2_position fruit.knot2_weight"
            " fruit.weight_norm");
        add(c, "GROWTH", "asked on a day", VH_UNKNOWN, "",
            "a fruit could grow x warm x weights x what is still on x (grown today - yesterday);"
            " grown = exp(-exp(-curve_b (stage - curve_s0)))",
            "", "fruit.curve_b fruit.curve_s0");
    }
    add(c, "GROWTH", "dry matter of the truss", v->dm_g + v->picked_dm_g, "g a stem",
        "sum over the days of asked x fed", "", "");
}

static void add_mass(struct vh_chain *c, const struct vh_chain_truss *t)
{
    const struct vh_fruit_params *f = &t->planting->crop->fruit;
    const struct vh_truss_view *v = &t->season.truss[t->number - 1];
    const double fruit_g = v->picked_fruits > 0.0 ? v->picked_g / v->picked_fruits : VH_UNKNOWN;
    char worked[VH_CHAIN_TEXT];

    add(c, "MASS", "fruits picked", v->picked_fruits, "a stem", "sum of the picks below", "", "");
    snprintf(worked, sizeof worked, "%.4g g dry on %.4g fruits", v->picked_dm_g, v->picked_fruits);
    add(c, "MASS", "mean fruit", fruit_g, "g",
        "dry matter a fruit/content; content = dm_content_20 (1 + dm_content_per_k (mean T - 20)"
        " + dm_content_cool_per_k min(0, mean T - dm_content_cool_c))"
        " (1 + dm_content_per_ec (feed - ec_ref))",
        worked,
        "fruit.dm_content_20 fruit.dm_content_per_k fruit.dm_content_cool_c"
        " fruit.dm_content_cool_per_k fruit.dm_content_low fruit.dm_content_high"
        " fruit.dm_content_per_ec fruit.ec_ref_ms_cm");
    vh_chain_add_small(c, t->planting, "MASS", fruit_g);
    if (fruit_g > 0.0)
        add(c, "MASS", "diameter", vh_fruit_diameter_mm(f, fruit_g), "mm",
            "(mass/mass_a_g)^(1/mass_exponent)", "", "fruit.mass_a_g fruit.mass_exponent");
    vh_chain_add_grades(c, t->planting, t->place, fruit_g, vh_fruit_mass_cv(f, v->kept));
}

void vh_chain_growth(struct vh_chain *c, const struct vh_chain_truss *t)
{
    struct going g = {.seeded = t->seeded};
    double table_kg = 0.0;
    struct going at_ripe = g;

    vh_fruit_curve_init(&t->planting->crop->fruit, &g.curve);
    for (size_t d = t->opened; d <= t->last && c->status == VH_OK; d++) {
        add_day(c, t, &g, d);
        const double ripe_d = t->season.truss[t->number - 1].ripe_first_d;
        if (isnan(ripe_d) || (double)d <= ripe_d)
            at_ripe = g;
        if (t->look[d].picked_fruits - evening_before(t, d).picked_fruits > VH_CHAIN_LEAST_FRUITS) {
            const double kg = add_pick(c, t, &g, d);
            table_kg += isnan(kg) ? 0.0 : kg;
        }
    }
    add_ripening(c, t, &at_ripe);
    add_growth(c, t, &g);
    add_mass(c, t);
    if (t->house->market.given)
        add(c, "STORE", "for the market days", table_kg, "kg of the planting",
            "picks: kg x (1 - cracked)(1 - misshapen)(1 - end rot)(1 - over-ripe)(1 - too large)"
            " x share for sale, as learnt x (1 - lost in store)",
            "",
            "spoil.crack_share spoil.misshapen_share spoil.rot_share spoil.rot_per_k spoil.hang_d"
            " store.life_d store.life_cv store.q10");
}
