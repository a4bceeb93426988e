/* The first half of a truss's chain: when it flowers, how many set, how many stay. */
#include <stdio.h>

#include "chain_parts.h"
#include "vh_due.h"
#include "vh_math.h"

enum { POLLEN_DAYS = 32 };

/* What the flowers of one day of the season come to. */
struct flowers {
    double pollen_c, heat, reached, r, fed, set, seeded;
};

static double tmean_of(const struct vh_chain_truss *t, size_t d)
{
    const struct vh_climate *c = &t->house->climate;

    return c->tmean_c[(size_t)(t->season.first_day + (int64_t)d - c->first_day)];
}

static double pollen_c(const struct vh_chain_truss *t, size_t d)
{
    double mean_c[POLLEN_DAYS];
    size_t n = 0;

    while (n < POLLEN_DAYS && n <= d) {
        mean_c[n] = tmean_of(t, d - n);
        n++;
    }
    return vh_flower_pollen_mean_c(&t->planting->crop->flower, mean_c, n);
}

/* Mean of supply over demand on the days before the flower that count; 1 while there are none. */
static double mean_supply(const struct vh_chain_truss *t, size_t d)
{
    const struct vh_flower_params *f = &t->planting->crop->flower;
    double sum = 0.0;
    int n = 0;

    for (int back = (int)f->supply_to_d; back <= (int)f->supply_from_d; back++) {
        if (back < 1 || (size_t)back > d)
            continue;
        sum += t->season.day[d - (size_t)back].plant.ratio;
        n++;
    }
    return n ? sum / n : 1.0;
}

static struct flowers flowers_on(const struct vh_chain_truss *t, size_t d)
{
    const struct vh_planting *p = t->planting;
    const struct vh_flower_params *f = &p->crop->flower;
    const bool by_day = f->heat_by == VH_SET_HEAT_BY_DAY;
    struct vh_day day;
    struct flowers w;

    vh_season_day_of(&t->house->climate, p->crop, &t->fgp, t->season.first_day + (int64_t)d, &day);
    const double flying = p->policy.pollination == VH_POLLINATION_BEES ? day.bees_share : 1.0;
    const double visited = vh_policy_flowers_reached(&p->policy, p->crop, p->set_out,
                                                     t->season.first_day + (int64_t)d);
    w.pollen_c = by_day ? day.mean_c : pollen_c(t, d);
    w.heat =
        by_day ? vh_flower_day_share(f, day.mean_c) : vh_flower_temperature_share(f, w.pollen_c);
    w.reached = f->unvisited_share + (1.0 - f->unvisited_share) * visited * flying;
    w.r = mean_supply(t, d);
    w.fed = vh_flower_supply_share(f, w.r);
    w.set = vh_min(1.0, f->set_max * t->season.factors.set * w.heat * w.reached * w.fed);
    w.seeded = by_day ? 1.0 : vh_flower_seeded_share(f, w.heat, w.pollen_c);
    return w;
}

static double fraction_of(const struct vh_chain_truss *t)
{
    return t->season.truss[t->number - 1].opened_d - (double)t->opened;
}

static void add(struct vh_chain *c, const char *part, const char *what, double value,
                const char *unit, const char *equation, const char *worked, const char *parameters)
{
    vh_chain_add(
        c, &(struct vh_step){part, what, value, VH_UNKNOWN, unit, equation, worked, parameters});
}

/* ---- flower ---- */

static void add_clock(struct vh_chain *c, const struct vh_chain_truss *t)
{
    const struct vh_crop *crop = t->planting->crop;
    const bool per_node = crop->truss.clock_by == VH_CLOCK_BY_NODE;
    const int64_t date = t->season.first_day + (int64_t)t->opened;
    char worked[VH_CHAIN_TEXT];
    struct vh_day day;

    if (t->opened == 0)
        return;
    const double before = t->season.day[t->opened - 1].plant.flowering_truss;
    vh_season_day_of(&t->house->climate, crop, &t->fgp, date, &day);
    const double rate = vh_plant_leaf_rate_per_d(crop, &day, t->light_factor, before) /
                        crop->truss.leaves_per_truss * t->season.factors.truss_pace;
    add(c, "FLOWER", "clock on the evening before", before, per_node ? "nodes" : "trusses",
        "number of the truss in flower; stem.csv has it for every day", "", "");
    add(c, "FLOWER", "mean of that day", day.mean_c, "degC", "climate_days.csv", "", "");
    if (per_node) {
        snprintf(worked, sizeof worked, "light in the plant %.2f mol m-2 d-1, truss_pace %.4f",
                 day.dli_mol_m2_d * t->light_factor, t->season.factors.truss_pace);
        add(c, "FLOWER", "nodes that day", rate, "d-1",
            "level (1 + per_k (T - ref_c) + per_mol (light - ref_mol)), less in cold and heat, x"
            " truss_pace",
            worked, "node.level_per_d node.per_k node.ref_c node.per_mol node.ref_mol_m2_d");
        return;
    }
    snprintf(worked, sizeof worked, "(%g %+g x log %.3f %+g x %.3f) x %.4g x %.4f",
             crop->truss.a_per_d, crop->truss.b_per_d, day.mean_c, crop->truss.c_per_d_truss,
             vh_max(1.0, before), day.clock_share, t->season.factors.truss_pace);
    add(c, "FLOWER", "trusses that day", rate, "d-1",
        "(a + b log T + c x clock) x heat x truss_pace; T from low_c to high_c, beyond along the"
        " slope there",
        worked,
        "truss.a_per_d truss.b_per_d truss.c_per_d_truss truss.low_c truss.high_c clock.hot_slow");
}

static void add_opening(struct vh_chain *c, const struct vh_chain_truss *t)
{
    const struct vh_truss_view *v = &t->season.truss[t->number - 1];
    char worked[VH_CHAIN_TEXT];

    snprintf(worked, sizeof worked, "it passes %d when %.3f of the day is over", t->number,
             fraction_of(t));
    vh_chain_add(c, &(struct vh_step){"FLOWER", "first flower opens", fraction_of(t),
                                      (double)t->season.first_day + (double)t->opened, "of the day",
                                      t->opened ? "(number - clock)/rate of that day" : "", worked,
                                      ""});
    snprintf(worked, sizeof worked, "%g g usual here, %g g of the type", t->planting->usual_fruit_g,
             t->planting->crop->habit.usual_fruit_g);
    add(c, "FLOWER", "flowers", v->flowers, "",
        "of an average stem: flowers of the type x (usual fruit mass/the type's)^mass_exponent, if"
        " you give none; after topping the last truss comes on a part of them",
        worked, "flower.flowers flower.mass_exponent habit.usual_fruit_g");
}

/* ---- set ---- */

static const char *heat_rows(const struct vh_flower_params *f)
{
    return f->heat_by == VH_SET_HEAT_BY_DAY
               ? "flower.day_full_c flower.day_least_c flower.day_least"
               : "flower.t1_c flower.f1 flower.t2_c flower.f2 flower.t3_c flower.f3 flower.t4_c"
                 " flower.f4 flower.t5_c flower.f5";
}

static void add_two(struct vh_chain *c, const char *what, double today, double before,
                    const char *unit, const char *equation, const char *parameters)
{
    char worked[VH_CHAIN_TEXT];

    snprintf(worked, sizeof worked, "the day before %.5g", before);
    add(c, "SET", what, today, unit, equation, worked, parameters);
}

static void add_seeded(struct vh_chain *c, const struct vh_flower_params *f, double pollen_c,
                       double seeded)
{
    const bool is_hot = pollen_c > f->t3_c;

    add(c, "SET", "mass that its pollen allows", seeded, "",
        is_hot ? "1 at heat of seeded_full and more, straight to seeded_least at seeded_hot_from"
               : "1 at heat of seeded_full and more, straight to seeded_least at seeded_from",
        "",
        is_hot ? "flower.seeded_full flower.seeded_hot_from flower.seeded_least"
               : "flower.seeded_full flower.seeded_from flower.seeded_least");
}

static void add_set(struct vh_chain *c, struct vh_chain_truss *t)
{
    const struct vh_flower_params *f = &t->planting->crop->flower;
    const struct flowers now = flowers_on(t, t->opened);
    const struct flowers then = t->opened ? flowers_on(t, t->opened - 1) : now;
    const double part = fraction_of(t), set = then.set + part * (now.set - then.set);
    const bool by_day = f->heat_by == VH_SET_HEAT_BY_DAY;
    char worked[VH_CHAIN_TEXT], learnt[VH_CHAIN_TEXT];

    add_two(c, by_day ? "mean of the flower's day" : "temperature while pollen formed",
            now.pollen_c, then.pollen_c, "degC",
            by_day ? "climate_days.csv"
                   : "days before the flower weighted: most peak_d before, none from before_d"
                     " earlier and after_d later",
            by_day ? "" : "flower.peak_d flower.before_d flower.after_d flower.window_d");
    add_two(c, "heat", now.heat, then.heat, "", "straight between the corners t and f",
            heat_rows(f));
    add_two(c, "visited", now.reached, then.reached, "",
            "unvisited_share + (1 - unvisited_share) x share of flowers that hands or bees reach",
            "flower.unvisited_share flower.receptive_d");
    add_two(c, "supply over demand before", now.r, then.r, "",
            "mean of the days supply_from_d to supply_to_d before; plant_days.csv",
            "flower.supply_from_d flower.supply_to_d");
    add_two(c, "fed", now.fed, then.fed, "",
            f->set_by == VH_SET_BY_THRESHOLD
                ? "1/(1 + exp((set_threshold - supply over demand)/set_width))"
                : "supply over demand/supply_full, at most 1",
            f->set_by == VH_SET_BY_THRESHOLD ? "flower.set_threshold flower.set_width"
                                             : "flower.supply_full");
    snprintf(learnt, sizeof learnt, "set_max x heat x visited x fed x set (%.4f), at most 1",
             t->season.factors.set);
    add_two(c, "set on that day", now.set, then.set, "", learnt, "flower.set_max");
    snprintf(worked, sizeof worked, "%.5g + %.3f x (%.5g - %.5g)", then.set, part, now.set,
             then.set);
    add(c, "SET", "set of these flowers", set, "", "at their hour, between the two days", worked,
        "");
    t->seeded = then.seeded + part * (now.seeded - then.seeded);
    if (!by_day)
        add_seeded(c, f, now.pollen_c, t->seeded);
}

/* ---- kept ---- */

static void add_kept(struct vh_chain *c, const struct vh_chain_truss *t)
{
    static const char *const stage[] = {"at bud", "at pea size", "at marble size"};
    const struct vh_truss_view *v = &t->season.truss[t->number - 1];
    const bool per_node = t->planting->crop->truss.clock_by == VH_CLOCK_BY_NODE;
    enum vh_thin_stage at = VH_THIN_BUD;
    const double rule = vh_policy_fruits_kept(&t->planting->policy, t->number,
                                              t->season.first_day + (int64_t)t->opened, &at);
    char worked[VH_CHAIN_TEXT];

    snprintf(worked, sizeof worked, "%.4g x %.5g", v->flowers,
             v->flowers > 0.0 ? v->set / v->flowers : 0.0);
    add(c, "KEPT", "fruits set", v->set, "",
        per_node ? "flowers left by the rule x set" : "flowers x set", worked, "");
    if (isfinite(rule))
        add(c, "KEPT", "your rule", rule, "", "[[planting.fruits_kept]], the last that fits",
            stage[at], "");
    add(c, "KEPT", "fruits kept", v->kept, "",
        per_node ? "rule x set, less what drops" : "the smaller of set and rule, less what drops",
        "", "");
    if (v->set > v->kept && isfinite(v->thinned_d))
        vh_chain_add(c, &(struct vh_step){
                            "KEPT", "taken off", v->set - v->kept - v->aborted,
                            (double)t->season.first_day + floor(v->thinned_d), "fruits",
                            "the day its fruit is so large; done on the walk after it (tasks.csv)",
                            "", ""});
    if (v->aborted > 0.0005)
        add(c, "KEPT", "dropped young", v->aborted, "",
            "hazard abort_per_cd/(1 + exp((r - abort_mid)/abort_width)) a degree-day, r the mean"
            " of abort_window_d days",
            "", "flower.abort_per_cd flower.abort_mid flower.abort_width flower.abort_for_cd");
}

void vh_chain_flower(struct vh_chain *c, struct vh_chain_truss *t)
{
    t->seeded = 1.0;
    add_clock(c, t);
    add_opening(c, t);
    /* what a crop went through before it was first seen is not in the season's days */
    if (!t->planting->standing.given || (double)t->opened > t->planting->crop->flower.window_d)
        add_set(c, t);
    add_kept(c, t);
}
