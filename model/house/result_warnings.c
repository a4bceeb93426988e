/* Rows of warnings and climate_days. */
#include "vh_result.h"

#include <stdio.h>

#include "vh_math.h"
#include "vh_visits.h"

enum { MATTER = 6 }; /* column */

enum vh_status vh_result_warn(struct vh_table *t, int64_t date, const char *planting,
                              const char *what, const char *why, const char *what_to_do,
                              int64_t act_by)
{
    if (vh_table_add_row(t) != VH_OK || vh_table_set_text(t, 1, planting) != VH_OK ||
        vh_table_set_text(t, 2, what) != VH_OK || vh_table_set_text(t, 3, why) != VH_OK ||
        vh_table_set_text(t, 4, what_to_do) != VH_OK)
        return VH_NO_MEMORY;
    vh_table_set_number(t, 0, (double)date);
    vh_table_set_number(t, 5, (double)act_by);
    return vh_table_set_lasting(t, MATTER, "do");
}

enum vh_status vh_result_is_harm(struct vh_table *t, enum vh_status warned)
{
    return warned == VH_OK ? vh_table_set_lasting(t, MATTER, "harm") : warned;
}

enum vh_status vh_result_is_known(struct vh_table *t, enum vh_status warned)
{
    return warned == VH_OK ? vh_table_set_lasting(t, MATTER, "know") : warned;
}

/* Of a truss that opens so late that a visit brings nothing more neither is asked. */
struct poor {
    bool set, small; /* sets less than half of what the crop does at best; its fruit stays small */
};

static struct poor poor_of(const struct vh_season *s, const struct vh_house_params *doubt, size_t k)
{
    const struct vh_truss_view *v = &s->truss[k];
    const double half = 0.5 * s->planting->crop->flower.set_max;
    const int64_t opened =
        isnan(v->opened_d) ? INT64_MIN : s->first_day + (int64_t)floor(v->opened_d);

    if (vh_visit_is_idle(&s->planting->policy, VH_TASK_POLLINATE, opened))
        return (struct poor){false, false};
    return (struct poor){v->set < half * v->flowers, v->seeded < doubt->doubt_small_share};
}

/* Trusses that set badly or whose few seeds make small fruit: one warning a run of them. */
static enum vh_status warn_set(struct vh_table *t, const struct vh_season *s, int64_t today,
                               const struct vh_house_params *doubt)
{
    if (s->planting->crop->truss.clock_by != VH_CLOCK_BY_TRUSS)
        return VH_OK;
    for (size_t k = 0, next; k < s->trusses; k = next) {
        const struct poor poor = poor_of(s, doubt, k);
        double least = s->truss[k].seeded;
        char what[96], why[192], small[64] = "";
        next = k + 1;
        if (isnan(s->truss[k].opened_d) || !(poor.set || poor.small))
            continue;
        for (; next < s->trusses; next++) {
            const struct poor other = poor_of(s, doubt, next);
            if (isnan(s->truss[next].opened_d) || other.set != poor.set ||
                other.small != poor.small)
                break;
            least = vh_min(least, s->truss[next].seeded);
        }
        const char *may = poor.set
                              ? poor.small ? "may set badly, with small fruit" : "may set badly"
                              : "may have small fruit";
        if (next > k + 1)
            snprintf(what, sizeof what, "trusses %zu to %zu %s", k + 1, next, may);
        else
            snprintf(what, sizeof what, "truss %zu %s", k + 1, may);
        if (poor.small)
            snprintf(small, sizeof small, "few seeds: fruit to %.0f %% of its mass", 100.0 * least);
        if (poor.set)
            snprintf(why, sizeof why,
                     "heat, cold or hunger in the two weeks before: about %.0f of %.0f flowers set"
                     "%s%s",
                     s->truss[k].set, s->truss[k].flowers, small[0] ? "; " : "", small);
        else
            snprintf(why, sizeof why, "heat or cold in the two weeks before: %s", small);
        const int64_t date = s->first_day + (int64_t)floor(s->truss[k].opened_d);
        if (date >= today && vh_result_warn(t, date, s->planting->name, what, why,
                                            "shade and air early; pollinate before the heat; "
                                            "leave all that set",
                                            date) != VH_OK)
            return VH_NO_MEMORY;
    }
    return VH_OK;
}

/* Upkeep unpaid for three days running: the light does not carry the plants. */
static enum vh_status warn_hunger(struct vh_table *t, const struct vh_season *s,
                                  const struct vh_house_params *doubt)
{
    const int patience_d = (int)doubt->doubt_hunger_d;
    const double nothing_g = 1e-9;
    int run = 0;
    char why[64];

    snprintf(why, sizeof why, "their upkeep was not met on %d days running", patience_d);

    for (size_t d = 0; d < s->days; d++) {
        run = s->day[d].plant.maintenance_unpaid_g_m2 > nothing_g ? run + 1 : 0;
        if (run != patience_d)
            continue;
        const int64_t date = s->first_day + (int64_t)d;
        if (vh_result_warn(t, date, s->planting->name, "too dark for the plants to keep themselves",
                           why, "cooler nights, fewer fruits, clean the cover", date) != VH_OK)
            return VH_NO_MEMORY;
    }
    return VH_OK;
}

/* Dry matter made per MJ of PAR the canopy took, outside what crops are known to reach. */
static enum vh_status warn_light_use(struct vh_table *t, const struct vh_season *s,
                                     const struct vh_climate *c,
                                     const struct vh_house_params *doubt)
{
    const double low = doubt->doubt_use_low_g_mj, umol_per_j = doubt->par_umol_per_j;
    double dm = 0.0, mol = 0.0, ppm = 0.0;
    char why[96];

    for (size_t d = 0; d < s->days; d++) {
        const struct vh_plant_day *p = &s->day[d].plant;
        dm += p->fruit_dm_g_m2 + p->leaf_dm_g_m2 + p->stem_dm_g_m2;
        mol += p->absorbed_mol_m2;
        ppm += c->co2_day_ppm[s->first_day - c->first_day + (int64_t)d] / (double)s->days;
    }
    const double g_mj = mol > 0.0 ? dm * umol_per_j / mol : low;
    const bool rich = ppm > doubt->doubt_rich_ppm;
    if (g_mj >= low && g_mj <= (rich ? doubt->doubt_use_rich_g_mj : doubt->doubt_use_high_g_mj))
        return VH_OK;
    snprintf(
        why, sizeof why,
        "%.1f g of dry matter per MJ of light taken; crops reach %.1f to %.1f, %.1f with much CO2",
        g_mj, low, doubt->doubt_use_high_g_mj, doubt->doubt_use_rich_g_mj);
    return vh_result_warn(t, s->first_day, s->planting->name, "growth and light do not fit", why,
                          "check the units of light, co2_ppm and light_factor", s->first_day);
}

enum vh_status vh_result_add_warnings(struct vh_table *t, const struct vh_season *s,
                                      const struct vh_climate *c, int64_t today,
                                      const struct vh_house_params *doubt)
{
    enum vh_status status = warn_set(t, s, today, doubt);
    if (status == VH_OK)
        status = warn_hunger(t, s, doubt);
    if (status == VH_OK)
        status = warn_light_use(t, s, c, doubt);
    return status;
}

enum vh_status vh_result_add_climate(struct vh_table *t, const struct vh_climate *c,
                                     int64_t first_day)
{
    for (size_t d = (size_t)(first_day - c->first_day); d < c->days; d++) {
        if (vh_table_add_row(t) != VH_OK)
            return VH_NO_MEMORY;
        const double number_of[] = {(double)(c->first_day + (int64_t)d),
                                    c->tmean_c[d],
                                    c->tmin_c[d],
                                    c->tmax_c[d],
                                    c->dli_mol_m2_d[d],
                                    c->co2_day_ppm[d],
                                    c->degree_days_c_d[d],
                                    c->hours_above_hot[d],
                                    c->heating_kwh[d],
                                    c->hours_logged[d],
                                    VH_HOURS_PER_DAY - c->hours_logged[d]};
        for (size_t k = 0; k < sizeof number_of / sizeof number_of[0]; k++)
            vh_table_set_number(t, k, number_of[k]);
    }
    return VH_OK;
}
