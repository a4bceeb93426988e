#include "vh_store.h"

#include "vh_clock.h"
#include "vh_math.h"

/* Share of a log-normal of this mean that is below x. */
static double below(double x, double mean, double cv)
{
    const double variance = vh_log(1.0 + cv * cv), s = sqrt(variance);

    if (!(x > 0.0))
        return 0.0;
    if (!(s > 0.0))
        return x < mean ? 0.0 : 1.0;
    return vh_normal_cdf((vh_log(x / mean) + 0.5 * variance) / s);
}

static double in_table(const struct vh_ripen_table *t, double temp_c)
{
    return vh_clamp(temp_c, t->temp_c[0], t->temp_c[t->temps - 1]);
}

static bool colours_on(const struct vh_store_params *p, const struct vh_ripen_table *ripen,
                       double stage)
{
    return p->ripens && ripen && ripen->temps > 0 && !isnan(stage);
}

double vh_store_days_to_red(const struct vh_store_params *p, const struct vh_ripen_table *ripen,
                            double stage, double hold_c)
{
    if (!colours_on(p, ripen, stage))
        return 0.0;
    return vh_ripen_days_to_red(ripen, stage, in_table(ripen, hold_c));
}

double vh_store_stage_after(const struct vh_store_params *p, const struct vh_ripen_table *ripen,
                            double stage, double hold_c, double days)
{
    if (!colours_on(p, ripen, stage))
        return stage;
    return vh_ripen_stage_after(ripen, stage, in_table(ripen, hold_c), days);
}

double vh_store_old_frac(const struct vh_store_params *p, const struct vh_ripen_table *ripen,
                         double stage, double hold_c, double days)
{
    const double per_step_k = 10.0;
    const double above_k = vh_max(0.0, hold_c - p->best_high_c);
    const double life_d = p->life_d * vh_pow(p->q10, -above_k / per_step_k);

    return below(days - vh_store_days_to_red(p, ripen, stage, hold_c), life_d, p->life_cv);
}

double vh_store_chilled_frac(const struct vh_store_params *p, double hold_c, double days)
{
    if (!(hold_c < p->chill_c))
        return 0.0;
    const double bears_d = p->chill_d * vh_pow(2.0, (hold_c - p->chill_c) / p->chill_halving_k);
    return below(days, bears_d, p->life_cv);
}

double vh_store_lost_frac(const struct vh_store_params *p, const struct vh_ripen_table *ripen,
                          double stage, double hold_c, double days)
{
    return 1.0 - (1.0 - vh_store_old_frac(p, ripen, stage, hold_c, days)) *
                     (1.0 - vh_store_chilled_frac(p, hold_c, days));
}

double vh_store_colour_of(const struct vh_colours *c, double s)
{
    const double at[VH_RIPEN_STAGES] = {c->breaker - (c->turning - c->breaker),
                                        c->breaker,
                                        c->turning,
                                        c->pink,
                                        c->light_red,
                                        c->red};
    int i = 0;

    if (isnan(s))
        return VH_UNKNOWN;
    while (i < VH_RIPEN_RED && at[i + 1] < s)
        i++;
    if (i == VH_RIPEN_RED)
        return VH_RIPEN_RED;
    return i + vh_clamp((s - at[i]) / (at[i + 1] - at[i]), 0.0, 1.0);
}
