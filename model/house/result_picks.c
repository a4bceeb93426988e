/* Rows of picks, how each pick is kept until its market day, and what goes wrong in store. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "vh_apart.h"
#include "vh_math.h"
#include "vh_sales.h"

#define G_PER_KG 1000.0
enum { TEXT = 300 };

/* ---- rows ---- */

/* Mass that cannot be sold, of what a future's own factor leaves. */
static double unmarketable_kg(const struct vh_run *run, size_t planting, size_t d, double kg)
{
    return kg * (1.0 - vh_run_marketable_frac(run, planting, d));
}

enum { KEEP_FIRST = 7, PICKED_FRUITS = 13, THROWN_KG }; /* columns from market_day on */

/* How the pick is kept; empty cells where no market day takes it. The mean run says it for all. */
static enum vh_status set_keep(struct vh_table *t, struct vh_apart *apart, size_t planting,
                               int64_t date)
{
    const double most_lost = 0.5; /* beyond it nobody keeps the fruit for that day */
    struct vh_keep k;
    int64_t day;

    if (!apart || !vh_apart_kept(apart, planting, date, &k, &day))
        return VH_OK;
    vh_table_set_number(t, KEEP_FIRST, (double)day);
    vh_table_set_number(t, KEEP_FIRST + 4, k.lost);
    if (k.lost > most_lost)
        return VH_OK;
    const char *names = vh_apart_names(apart, planting, day, &k);
    vh_table_set_number(t, KEEP_FIRST + 2, k.low_c);
    vh_table_set_number(t, KEEP_FIRST + 3, k.high_c);
    if (!names || vh_table_set_text(t, KEEP_FIRST + 1, vh_keep_colour_word(k.stage)) != VH_OK ||
        vh_table_set_text(t, KEEP_FIRST + 5, names) != VH_OK)
        return VH_NO_MEMORY;
    return VH_OK;
}

enum vh_status vh_result_add_picks(struct vh_table *t, const struct vh_run *run, size_t planting,
                                   struct vh_apart *apart)
{
    const struct vh_season *s = &run->season[planting];

    for (size_t d = 0; d < s->days; d++) {
        const struct vh_season_day *day = &s->day[d];
        const int64_t date = s->first_day + (int64_t)d;
        const double picked_kg = vh_record_picked_kg(&run->house->records, planting, date, date);
        const double picked_fruits =
            vh_record_picked_fruits(&run->house->records, planting, date, date);
        const double kg = day->picked.fresh_g * day->stems / G_PER_KG;
        if (!day->pick_day && isnan(picked_kg) && isnan(picked_fruits))
            continue;
        if (vh_table_add_row(t) != VH_OK || vh_table_set_lasting(t, 1, s->planting->name) != VH_OK)
            return VH_NO_MEMORY;
        vh_table_set_number(t, 0, (double)date);
        vh_table_set_number(t, 2, day->picked.fruits * day->stems);
        vh_table_set_number(t, 3, kg);
        vh_table_set_number(
            t, 4, day->picked.fruits > 0.0 ? day->picked.fresh_g / day->picked.fruits : VH_UNKNOWN);
        vh_table_set_number(t, 5, unmarketable_kg(run, planting, d, kg));
        vh_table_set_number(t, 6, picked_kg);
        vh_table_set_number(t, PICKED_FRUITS, picked_fruits);
        vh_table_set_number(t, THROWN_KG,
                            vh_record_thrown_kg(&run->house->records, planting, date));
        if (kg > 0.0 && set_keep(t, apart, planting, date) != VH_OK)
            return VH_NO_MEMORY;
    }
    return VH_OK;
}

/* Nothing but a crumb of arithmetic, in the middle and in nine futures of ten? */
static bool is_something(const struct vh_table *t, size_t row)
{
    const double a_fruit = 0.5; /* less of a whole planting rounds to none */
    static const char *const foreseen[] = {"fruits", "fruits_p90"};
    static const char *const written[] = {"picked_kg", "picked_fruits", "thrown_kg"};
    bool any = false;

    for (size_t i = 0; i < sizeof foreseen / sizeof foreseen[0]; i++)
        any = any || vh_cell_number(t, row, foreseen[i]) >= a_fruit;
    for (size_t i = 0; i < sizeof written / sizeof written[0]; i++)
        any = any || !isnan(vh_cell_number(t, row, written[i]));
    return any;
}

void vh_result_only_picks(struct vh_table *picks)
{
    vh_table_keep_rows(picks, is_something);
}

/* ---- warnings ---- */

/* Her store is too cold for the longest wait of a pick still to come. */
static enum vh_status warn_cold(struct vh_table *t, const struct vh_run *run, size_t planting)
{
    const double noticed = 0.05; /* share of the fruit */
    const struct vh_season *s = &run->season[planting];
    const struct vh_planting *p = s->planting;
    const struct vh_store_params *store = &p->crop->store;
    const double hold_c = p->policy.hold_c, bears_d = vh_keep_bears_cold_d(store, hold_c);
    char what[TEXT], why[TEXT], to_do[TEXT];
    int64_t day;

    if (isinf(bears_d) || isnan(hold_c))
        return VH_OK;
    for (size_t d = 0; d < s->days; d++) {
        const int64_t date = s->first_day + (int64_t)d;
        if (date < run->house->today || !s->day[d].pick_day || !(s->day[d].picked.fresh_g > 0.0) ||
            !vh_market_day_for(&run->house->market, date, &day) ||
            vh_store_chilled_frac(store, hold_c, (double)(day - date)) < noticed)
            continue;
        snprintf(what, sizeof what, "a store at %g C hurts them: half within %.0f days", hold_c,
                 vh_max(1.0, bears_d));
        snprintf(why, sizeof why, "store.chill_c: below %g C cold hurts, sooner the colder",
                 store->chill_c);
        snprintf(to_do, sizeof to_do, "keep them between %g and %.0f C", store->best_low_c,
                 store->best_high_c);
        return vh_result_warn(t, date, p->name, what, why, to_do, date);
    }
    return VH_OK;
}

/* From when on the fruit of both lies in store for a market day to come; INT64_MAX: never. */
static int64_t together_from(const struct vh_run *run, const struct vh_apart *apart, size_t giver,
                             size_t hurt)
{
    const struct vh_market *m = &run->house->market;

    for (size_t i = 0; vh_apart_must(apart, giver, hurt) && i < m->days; i++) {
        if (m->day[i] < run->house->today || !vh_apart_feeds(apart, giver, i) ||
            !vh_apart_feeds(apart, hurt, i))
            continue;
        const int64_t after = vh_market_day_before(m, m->day[i]);
        return after < run->house->today ? run->house->today : after;
    }
    return INT64_MAX;
}

/* One row of the planting, with the first few of those from which it must be kept. */
static enum vh_status warn_together(struct vh_table *t, const struct vh_run *run,
                                    const struct vh_apart *apart, size_t hurt)
{
    enum { NAMED_MOST = 3 };
    const char *name = run->season[hurt].planting->name, *giving[NAMED_MOST];
    int64_t from = INT64_MAX;
    char what[TEXT] = "must not lie beside ", why[TEXT];
    size_t named = 0;

    for (size_t giver = 0; giver < run->house->plantings && named <= NAMED_MOST; giver++) {
        const int64_t day = together_from(run, apart, giver, hurt);
        if (day == INT64_MAX)
            continue;
        from = day < from ? day : from;
        if (named < NAMED_MOST)
            giving[named] = run->season[giver].planting->name;
        named++;
    }
    if (named == 0)
        return VH_OK;
    for (size_t i = 0; i < named && i < NAMED_MOST; i++) {
        const size_t used = strlen(what);
        snprintf(what + used, sizeof what - used, "%s%.60s",
                 i == 0           ? ""
                 : i + 1 == named ? " or "
                                  : ", ",
                 giving[i]);
    }
    const size_t used = strlen(what);
    snprintf(what + used, sizeof what - used, "%s in store",
             named > NAMED_MOST ? " or others" : "");
    snprintf(why, sizeof why, "ripening fruit gives off ethylene, which harms %.80s", name);
    return vh_result_is_known(
        t, vh_result_warn(t, from, name, what, why, "two rooms, or two ends of an airy one", from));
}

enum vh_status vh_result_warn_store(struct vh_table *t, const struct vh_run *run,
                                    const struct vh_apart *apart)
{
    enum vh_status status = VH_OK;

    if (!run->is_mean || !run->house->market.given)
        return VH_OK;
    for (size_t k = 0; k < run->house->plantings && status == VH_OK; k++)
        status = warn_cold(t, run, k);
    for (size_t hurt = 0; hurt < run->house->plantings && status == VH_OK; hurt++)
        if (run->season[hurt].planting->crop->store.hurt_by_ethylene)
            status = warn_together(t, run, apart, hurt);
    return status;
}
