/* Rows of picks, how each pick is kept until its market day, and what goes wrong in store. */
#include <stdio.h>
#include <string.h>

#include "vh_math.h"
#include "vh_sales.h"
#include "vh_storeroom.h"

#define G_PER_KG 1000.0
enum { NAMES_ROOM = 300, TEXT = 300 };

/* ---- what must not lie together ---- */

/* Does the planting bring fruit to market day `day` by picks after `after`, some of it kept at a
 * temperature of `like` (NULL: at any)? */
static bool feeds(const struct vh_run *run, size_t planting, int64_t after, int64_t day,
                  const struct vh_keep *like)
{
    const struct vh_season *s = &run->season[planting];
    struct vh_keep k;

    for (size_t d = 0; d < s->days; d++) {
        const int64_t date = s->first_day + (int64_t)d;
        if (date <= after || date > day || !s->day[d].pick_day || !(s->day[d].picked.fresh_g > 0.0))
            continue;
        if (!like || (vh_storeroom_keep(run->house, s->planting, date, &k) &&
                      k.low_c <= like->high_c && like->low_c <= k.high_c))
            return true;
    }
    return false;
}

static int64_t market_day_before(const struct vh_market *m, int64_t day)
{
    int64_t before = INT64_MIN;

    for (size_t i = 0; i < m->days && m->day[i] < day; i++)
        before = m->day[i];
    return before;
}

static bool must_part(const struct vh_run *run, size_t one, size_t other)
{
    return one != other && vh_keep_apart(&run->season[one].planting->crop->store,
                                         &run->season[other].planting->crop->store);
}

/* "cucumbers, peppers": the plantings beside whose fruit this one's, kept as k says, must not lie
 * before that day. */
static void say_apart(const struct vh_run *run, size_t planting, int64_t day,
                      const struct vh_keep *k, char names[NAMES_ROOM])
{
    const int64_t after = market_day_before(&run->house->market, day);
    size_t n = 0;

    names[0] = '\0';
    for (size_t other = 0; other < run->house->plantings && n < NAMES_ROOM; other++)
        if (must_part(run, planting, other) && feeds(run, other, after, day, k))
            n += (size_t)snprintf(names + n, NAMES_ROOM - n, "%s%s", n ? ", " : "",
                                  run->season[other].planting->name);
}

/* ---- rows ---- */

/* Mass that cannot be sold, of what a future's own factor leaves. */
static double unmarketable_kg(const struct vh_run *run, size_t planting, size_t d, double kg)
{
    return kg * (1.0 - vh_run_marketable_frac(run, planting, d));
}

enum { KEEP_FIRST = 7, PICKED_FRUITS = 13 }; /* columns from market_day on */

/* How the pick is kept; empty cells where no market day takes it. The mean run says it for all. */
static enum vh_status set_keep(struct vh_table *t, const struct vh_run *run, size_t planting,
                               int64_t date)
{
    const double most_lost = 0.5; /* beyond it nobody keeps the fruit for that day */
    char names[NAMES_ROOM];
    struct vh_keep k;
    int64_t day;

    if (!run->is_mean || !vh_storeroom_keep(run->house, run->season[planting].planting, date, &k) ||
        !vh_market_day_for(&run->house->market, date, &day))
        return VH_OK;
    vh_table_set_number(t, KEEP_FIRST, (double)day);
    vh_table_set_number(t, KEEP_FIRST + 4, k.lost);
    if (k.lost > most_lost)
        return VH_OK;
    say_apart(run, planting, day, &k, names);
    vh_table_set_number(t, KEEP_FIRST + 2, k.low_c);
    vh_table_set_number(t, KEEP_FIRST + 3, k.high_c);
    if (vh_table_set_text(t, KEEP_FIRST + 1, vh_keep_colour_word(k.stage)) != VH_OK ||
        vh_table_set_text(t, KEEP_FIRST + 5, names) != VH_OK)
        return VH_NO_MEMORY;
    return VH_OK;
}

enum vh_status vh_result_add_picks(struct vh_table *t, const struct vh_run *run, size_t planting)
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
        if (kg > 0.0 && set_keep(t, run, planting, date) != VH_OK)
            return VH_NO_MEMORY;
    }
    return VH_OK;
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

/* The first market day to come for which the fruit of both lies in store. */
static enum vh_status warn_together(struct vh_table *t, const struct vh_run *run, size_t giver,
                                    size_t hurt)
{
    const struct vh_market *m = &run->house->market;
    const char *name = run->season[hurt].planting->name;
    char what[TEXT], why[TEXT];

    for (size_t i = 0; i < m->days; i++) {
        const int64_t after = market_day_before(m, m->day[i]);
        if (m->day[i] < run->house->today || !must_part(run, giver, hurt) ||
            !feeds(run, giver, after, m->day[i], NULL) || !feeds(run, hurt, after, m->day[i], NULL))
            continue;
        const int64_t from = after < run->house->today ? run->house->today : after;
        snprintf(what, sizeof what, "must not lie beside %.80s in store",
                 run->season[giver].planting->name);
        snprintf(why, sizeof why,
                 "ripening fruit gives off ethylene, in which %.80s yellow and age", name);
        return vh_result_warn(t, from, name, what, why, "two rooms, or two ends of an airy one",
                              from);
    }
    return VH_OK;
}

enum vh_status vh_result_warn_store(struct vh_table *t, const struct vh_run *run)
{
    enum vh_status status = VH_OK;

    if (!run->is_mean || !run->house->market.given)
        return VH_OK;
    for (size_t k = 0; k < run->house->plantings && status == VH_OK; k++)
        status = warn_cold(t, run, k);
    for (size_t hurt = 0; hurt < run->house->plantings; hurt++) {
        bool is_warned = false; /* once a planting, whatever many it must be kept from */
        for (size_t giver = 0; giver < run->house->plantings && status == VH_OK; giver++) {
            const size_t rows = vh_table_rows(t);
            if (!is_warned && run->season[hurt].planting->crop->store.hurt_by_ethylene)
                status = warn_together(t, run, giver, hurt);
            is_warned = is_warned || vh_table_rows(t) > rows;
        }
    }
    return status;
}
