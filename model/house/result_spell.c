/* The echo of weather she expects: picks that come sooner, set that is lost, thin days weeks later.
 * Each number is the difference of two seasons, one with the spell and one without. */
#include "vh_result.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "vh_date.h"
#include "vh_math.h"

#define G_PER_KG 1000.0
#define DAYS_PER_WEEK 7
#define SPELLS_MOST 6 /* each costs a run of the season and a reading of the files */

enum { TEXT = 200, SPAN = 64, LISTED_MOST = 4 };

/* Smaller changes than these are not told: they drown in what no forecast knows. */
static const double told_share = 0.05; /* of what would have been picked or would have set */
static const double told_thin = 0.10;  /* of a market day */
static const double told_kg = 0.1;

/* One planting with the spell and without it. */
struct echo {
    struct vh_table *warnings;
    const struct vh_house *house;
    const struct vh_spell *spell;
    const char *kind; /* "hot days", "cold days" */
    const struct vh_season *with;
    struct vh_season without;
};

static void say_day(int64_t day, char text[24])
{
    const struct vh_civil c = vh_civil_from_day(day);

    snprintf(text, 24, "%d %s", c.day, vh_month_name(c.month));
}

/* "15 to 18 July", "29 July to 2 August" */
static void say_span(int64_t from, int64_t until, char text[SPAN])
{
    const struct vh_civil a = vh_civil_from_day(from), b = vh_civil_from_day(until);
    char first[24], last[24];

    say_day(from, first);
    say_day(until, last);
    if (from == until)
        snprintf(text, SPAN, "%s", first);
    else if (a.month == b.month && a.year == b.year)
        snprintf(text, SPAN, "%d to %s", a.day, last);
    else
        snprintf(text, SPAN, "%s to %s", first, last);
}

static double kg_of(const struct vh_season *s, size_t d)
{
    return s->day[d].picked.fresh_g * s->day[d].stems / G_PER_KG;
}

/* kg from one day to another, both inclusive; outside the season nothing. */
static double kg_between(const struct vh_season *s, int64_t from, int64_t until)
{
    const int64_t end = s->first_day + (int64_t)s->days;
    double kg = 0.0;

    for (int64_t day = from > s->first_day ? from : s->first_day; day <= until && day < end; day++)
        kg += kg_of(s, (size_t)(day - s->first_day));
    return kg;
}

static enum vh_status warn(const struct echo *e, int64_t date, const char *what,
                           const char *what_to_do, int64_t act_by)
{
    char why[TEXT], span[SPAN];

    say_span(e->spell->from, e->spell->until, span);
    snprintf(why, sizeof why, "the %s you expect %s: the season was run with them and without",
             e->kind, span);
    return vh_result_warn(e->warnings, date, e->with->planting->name, what, why, what_to_do,
                          act_by);
}

/* ---- picks now ---- */

/* A run of pick days over which the picks come ahead (or fall behind). */
struct stretch {
    int64_t first, last; /* last INT64_MIN: none */
    double kg;
};

/* The stretch from day `from` to where the picks are furthest ahead; sign -1: behind. */
static struct stretch furthest(const struct echo *e, int64_t from, int64_t until, double sign)
{
    struct stretch s = {INT64_MIN, INT64_MIN, 0.0};
    double ahead = 0.0;

    for (size_t d = 0; d < e->with->days; d++) {
        const int64_t day = e->with->first_day + (int64_t)d;
        if (day < from || day > until || !e->with->day[d].pick_day)
            continue;
        s.first = s.first == INT64_MIN ? day : s.first;
        ahead += kg_of(e->with, d) - kg_of(&e->without, d);
        if (sign * ahead <= s.kg)
            continue;
        s.kg = sign * ahead;
        s.last = day;
    }
    return s;
}

static bool is_told(const struct echo *e, const struct stretch *s)
{
    return s->last != INT64_MIN && s->kg >= told_kg &&
           s->kg >= told_share * kg_between(&e->without, s->first, s->last);
}

static enum vh_status warn_stretch(const struct echo *e, const struct stretch *s, bool more)
{
    char what[TEXT], span[SPAN];

    if (!is_told(e, s))
        return VH_OK;
    say_span(s->first, s->last, span);
    const double whole_from_kg = 10.0;
    snprintf(what, sizeof what, "about %.*f kg %s to pick %s than without the %s",
             s->kg < whole_from_kg ? 1 : 0, s->kg, more ? "more" : "less", span, e->kind);
    return warn(e, s->first, what,
                more ? "pick no day late and keep it cool; offer it now, later days lack it"
                     : "promise less for these days; most of it comes later",
                s->first);
}

/* Warmth brings picks forward; cold holds them back, and so does heat in which no fruit turns red:
 * then they come after it. *until: the day from which on the echo is looked for. */
static enum vh_status warn_now(const struct echo *e, int64_t *until)
{
    const int64_t end = e->spell->until + 2 * DAYS_PER_WEEK;
    const int64_t from = e->spell->from > e->house->today ? e->spell->from : e->house->today;
    struct stretch less = furthest(e, from, end, -1.0), more = furthest(e, from, end, 1.0);
    enum vh_status status = VH_OK;

    if (less.last != INT64_MIN && more.last != INT64_MIN && more.last < less.last)
        less.last = INT64_MIN; /* behind at the end: that is the echo itself */
    if (is_told(e, &less)) {
        status = warn_stretch(e, &less, false);
        more = furthest(e, less.last + 1, end, 1.0);
    }
    if (status == VH_OK)
        status = warn_stretch(e, &more, true);
    *until = is_told(e, &more) ? more.last : is_told(e, &less) ? less.last : e->spell->until;
    return status;
}

/* ---- set ---- */

/* How much less of a truss sets, as a share; 0 where nothing would have set. */
static double set_lost(const struct echo *e, size_t truss)
{
    const struct vh_truss_view *with = &e->with->truss[truss], *without = &e->without.truss[truss];

    if (!(without->set > 0.0) || !(with->flowers > 0.0) || !(without->flowers > 0.0))
        return 0.0;
    return 1.0 - with->set / with->flowers / (without->set / without->flowers);
}

static enum vh_status warn_set(const struct echo *e)
{
    const size_t n = e->with->trusses < e->without.trusses ? e->with->trusses : e->without.trusses;
    const bool by_node = e->with->planting->crop->truss.clock_by == VH_CLOCK_BY_NODE;
    const int64_t start = e->with->first_day;
    size_t first = n, last = n, trusses = 0;
    double lost = 0.0;
    char what[TEXT], which[SPAN], span[SPAN];

    for (size_t t = 0; t < n; t++) {
        if (isnan(e->with->truss[t].opened_d) || set_lost(e, t) < told_share)
            continue;
        first = first == n ? t : first;
        last = t;
        lost += set_lost(e, t);
        trusses++;
    }
    if (trusses == 0)
        return VH_OK;
    const int64_t opens = start + (int64_t)floor(e->with->truss[first].opened_d);
    const int64_t closes = start + (int64_t)floor(e->with->truss[last].opened_d);
    if (closes < e->house->today)
        return VH_OK;
    if (first == last)
        snprintf(which, sizeof which, "%s %zu", by_node ? "node" : "truss", first + 1);
    else
        snprintf(which, sizeof which, "%s %zu to %zu", by_node ? "nodes" : "trusses", first + 1,
                 last + 1);
    say_span(opens, closes, span);
    snprintf(what, sizeof what, "%s, in flower %s: about %.0f %% of the set is lost", which, span,
             100.0 * lost / (double)trusses);
    return warn(e, opens, what,
                "shade and air before it; pollinate in the cool of the morning; leave all that "
                "set",
                e->spell->from);
}

/* ---- thin days weeks later ---- */

struct thin {
    int64_t day[LISTED_MOST];
    size_t days; /* all of them, more than are listed */
    double with, without;
};

static void take_thin(struct thin *t, int64_t day, double with, double without)
{
    if (without - with < told_kg || without - with < told_thin * without)
        return;
    if (t->days < LISTED_MOST)
        t->day[t->days] = day;
    t->days++;
    t->with += with;
    t->without += without;
}

/* What is picked since the market day before; without a market each Sunday closes a week. */
static void find_thin(const struct echo *e, int64_t after, struct thin *t)
{
    const struct vh_market *m = &e->house->market;
    const int64_t last = e->with->first_day + (int64_t)e->with->days - 1;
    int64_t before = after;

    for (size_t i = 0; m->given && i < m->days; i++) {
        if (m->day[i] <= after || m->day[i] > last)
            continue;
        take_thin(t, m->day[i], kg_between(e->with, before + 1, m->day[i]),
                  kg_between(&e->without, before + 1, m->day[i]));
        before = m->day[i];
    }
    for (int64_t day = after + 1; !m->given && day <= last; day++) {
        const int64_t monday = day - (DAYS_PER_WEEK - 1);
        if (vh_date_weekday(day) == DAYS_PER_WEEK - 1 && monday > after)
            take_thin(t, monday, kg_between(e->with, monday, day),
                      kg_between(&e->without, monday, day));
    }
}

/* "29 August, 5 and 12 September": the month where it changes. */
static void list_days(const struct thin *t, char list[TEXT / 2])
{
    const size_t listed = t->days < LISTED_MOST ? t->days : LISTED_MOST;

    list[0] = '\0';
    for (size_t i = 0; i < listed; i++) {
        const struct vh_civil c = vh_civil_from_day(t->day[i]);
        const bool is_last = i + 1 == listed;
        const bool same_month = !is_last && vh_civil_from_day(t->day[i + 1]).month == c.month;
        const size_t n = strlen(list);
        snprintf(list + n, TEXT / 2 - n, "%s%d%s%s",
                 i == 0                         ? ""
                 : is_last && t->days == listed ? " and "
                                                : ", ",
                 c.day, same_month ? "" : " ", same_month ? "" : vh_month_name(c.month));
    }
}

static enum vh_status warn_thin(const struct echo *e, int64_t after)
{
    struct thin t = {.days = 0};
    char list[TEXT / 2], what[TEXT];

    find_thin(e, after, &t);
    if (t.days == 0)
        return VH_OK;
    list_days(&t, list);
    if (t.days > LISTED_MOST)
        snprintf(what, sizeof what, "thin %s %s and %zu more: about %.0f %% less, %.1f kg in all",
                 e->house->market.given ? "market days" : "weeks from", list, t.days - LISTED_MOST,
                 100.0 * (1.0 - t.with / t.without), t.without - t.with);
    else
        snprintf(what, sizeof what, "thin %s %s: about %.0f %% less, %.1f kg in all",
                 e->house->market.given ? t.days == 1 ? "market day" : "market days"
                 : t.days == 1          ? "week from"
                                        : "weeks from",
                 list, 100.0 * (1.0 - t.with / t.without), t.without - t.with);
    return warn(e, t.day[0], what, "tell customers in time and promise less for these days",
                t.day[0]);
}

/* ---- */

static enum vh_status warn_planting(const struct vh_run *run, size_t planting, struct echo *e,
                                    const struct vh_house *calm)
{
    const double light = vh_scenario_light_factor(run->scenario);
    const double breaker = run->scenario->parameters->colours.breaker;
    const struct vh_season *season = &run->season[planting];
    struct vh_season with = {0}; /* again: without the way its picks stray */
    const int64_t last = season->first_day + (int64_t)season->days - 1;
    int64_t now_until = 0;

    if (e->spell->until < season->first_day || e->spell->from > last)
        return VH_OK;
    e->with = &with;
    enum vh_status status =
        vh_season_run(run->house, season->planting, light, breaker, &season->factors, &with);
    if (status == VH_OK)
        status =
            vh_season_run(calm, season->planting, light, breaker, &season->factors, &e->without);
    if (status != VH_OK) {
        e->with = NULL;
        vh_season_clear(&with);
        return status == VH_NO_MEMORY ? status : VH_OK; /* fruit that only ripens with the spell */
    }
    status = warn_now(e, &now_until);
    if (status == VH_OK)
        status = warn_set(e);
    if (status == VH_OK)
        status = warn_thin(e, now_until);
    e->with = NULL;
    vh_season_clear(&with);
    vh_season_clear(&e->without);
    return status;
}

/* Warmer or colder than without it; else only another sky. */
static const char *kind_of(const struct vh_spell *spell, const struct vh_climate *with,
                           const struct vh_climate *without)
{
    const double clear_k = 0.5;
    double k = 0.0, days = 0.0;

    for (size_t d = 0; d < with->days; d++) {
        const int64_t day = with->first_day + (int64_t)d;
        if (day < spell->from || day > spell->until)
            continue;
        k += with->tmean_c[d] - without->tmean_c[d];
        days += 1.0;
    }
    return days > 0.0 && k / days > clear_k    ? "hot days"
           : days > 0.0 && k / days < -clear_k ? "cold days"
                                               : "days";
}

static enum vh_status warn_spell(struct vh_table *t, const struct vh_run *run, size_t spell)
{
    const struct vh_climate_request *asked = &run->scenario->house.climate_request;
    struct vh_climate_request calm = *asked;
    struct vh_house house = *run->house;
    struct vh_climate climate;
    struct echo e = {.warnings = t, .house = run->house, .spell = &asked->spell[spell]};

    calm.spell = calloc(asked->spells, sizeof *calm.spell);
    if (!calm.spell)
        return VH_NO_MEMORY;
    calm.spells = 0;
    for (size_t i = 0; i < asked->spells; i++)
        if (i != spell)
            calm.spell[calm.spells++] = asked->spell[i];
    enum vh_status status =
        vh_climate_read(&calm, &run->scenario->house_params, NULL, &climate, NULL);
    free(calm.spell);
    if (status < 0)
        return status == VH_NO_MEMORY ? status : VH_OK; /* a file has gone since it was read */
    status = VH_OK;
    house.climate = climate;
    e.kind = kind_of(e.spell, &run->house->climate, &climate);
    for (size_t k = 0; k < house.plantings && status == VH_OK; k++)
        status = warn_planting(run, k, &e, &house);
    vh_climate_clear(&climate);
    return status;
}

enum vh_status vh_result_warn_spells(struct vh_table *t, const struct vh_run *run)
{
    const struct vh_climate_request *asked = &run->scenario->house.climate_request;
    enum vh_status status = VH_OK;
    size_t done = 0;

    for (size_t i = 0; i < asked->spells && status == VH_OK && done < SPELLS_MOST; i++) {
        if (asked->spell[i].until < run->house->today)
            continue;
        done++;
        status = warn_spell(t, run, i);
    }
    return status;
}
