/* explain PLANTING TRUSS: the season once more, with a look at one truss; and its size classes. */
#include "chain_parts.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "vh_math.h"

static enum vh_status no_planting(const struct vh_house *h, const char *name, struct vh_messages *m)
{
    char known[VH_CHAIN_TEXT] = "";

    for (size_t i = 0; i < h->plantings; i++) {
        const size_t n = strlen(known);
        snprintf(known + n, sizeof known - n, "%s%s", i ? ", " : "", h->planting[i].name);
    }
    return vh_fail(m, VH_BAD_INPUT, (struct vh_place){NULL, 0, 0, NULL},
                   "there is no planting called %.60s; there is %s", name, known);
}

static const char *word_of(const struct vh_planting *p)
{
    return p->crop->truss.clock_by == VH_CLOCK_BY_NODE ? "node" : "truss";
}

/* Runs the season and finds the days of the truss. */
static enum vh_status look(const struct vh_scenario *s, struct vh_chain_truss *t,
                           struct vh_messages *m)
{
    const struct vh_planting *p = t->planting;
    const size_t days = (size_t)(p->pull_out - p->set_out + 1);
    struct vh_truss_watch watch = {t->number, malloc(days * sizeof *t->look)};

    if (!watch.day)
        return VH_NO_MEMORY;
    for (size_t d = 0; d < days; d++)
        watch.day[d] = (struct vh_truss_view){.opened_d = VH_UNKNOWN};
    t->look = watch.day;
    enum vh_status status =
        vh_season_watch(t->house, p, vh_scenario_light_factor(s), s->parameters->colours.breaker,
                        &t->of->run->season[t->place].factors, &watch, &t->season);
    if (status == VH_OK)
        status = vh_fgp_init(p->crop, &t->fgp);
    if (status != VH_OK)
        return status;
    if ((size_t)t->number > t->season.trusses)
        return vh_fail(m, VH_BAD_INPUT, (struct vh_place){NULL, 0, 0, NULL},
                       "%s %d of %s never comes: by pull-out the last is %zu; ask for one up to it",
                       word_of(p), t->number, p->name, t->season.trusses);
    const double opened_d = t->season.truss[t->number - 1].opened_d;
    if (isnan(opened_d) || opened_d < 0.0)
        return vh_fail(m, VH_BAD_INPUT, (struct vh_place){NULL, 0, 0, NULL},
                       "%s %d of %s flowered before the crop was first seen; ask for a later one",
                       word_of(p), t->number, p->name);
    t->opened = (size_t)opened_d;
    t->last = t->opened;
    for (size_t d = t->opened; d < t->season.days; d++)
        if (d > 0 &&
            t->look[d].picked_fruits - t->look[d - 1].picked_fruits > VH_CHAIN_LEAST_FRUITS)
            t->last = d;
    if (t->last == t->opened)
        t->last = t->season.days - 1;
    return VH_OK;
}

/* ---- the forecast ---- */

static size_t row_of(const struct vh_table *t, const struct vh_chain_truss *truss)
{
    const size_t planting = (size_t)vh_table_find(t, "planting"),
                 number = (size_t)vh_table_find(t, "truss");
    size_t row = 0;

    while (row < vh_table_rows(t) &&
           (strcmp(vh_table_text(t, row, planting), truss->planting->name) != 0 ||
            vh_table_number(t, row, number) != (double)truss->number))
        row++;
    return row;
}

static double in_row(const struct vh_table *t, size_t row, const char *column, const char *end)
{
    char name[VH_CHAIN_TEXT / 4];

    snprintf(name, sizeof name, "%.40s%.10s", column, end);
    const int found = vh_table_find(t, name);
    return found < 0 ? VH_UNKNOWN : vh_table_number(t, row, (size_t)found);
}

/* The same numbers in trusses.csv: the mean of all futures, of which the chain has the average
 * plants. */
static void add_forecast(struct vh_chain *c, const struct vh_chain_truss *truss)
{
    const struct vh_truss_view *v = &truss->season.truss[truss->number - 1];
    const struct {
        const char *column, *what, *spread, *unit;
        double here;
    } row[] = {
        {"kept", "fruits kept", "of them by the spread", "", v->kept},
        {"fruit_g", "mean fruit", "of it by the spread", "g",
         v->picked_fruits > 0.0 ? v->picked_g / v->picked_fruits : VH_UNKNOWN},
    };
    const struct vh_table *t =
        truss->of->result ? vh_result_table_named(truss->of->result, "trusses") : NULL;
    const size_t at = t ? row_of(t, truss) : 0;
    char range[VH_CHAIN_TEXT];

    for (size_t i = 0; t && at < vh_table_rows(t) && i < sizeof row / sizeof row[0]; i++) {
        const double forecast = in_row(t, at, row[i].column, ""),
                     low = in_row(t, at, row[i].column, "_p10"),
                     high = in_row(t, at, row[i].column, "_p90");
        if (isnan(forecast) || isnan(row[i].here))
            continue;
        range[0] = '\0';
        if (!isnan(low))
            snprintf(range, sizeof range, "eight futures in ten have %.4g to %.4g", low, high);
        vh_chain_add(c,
                     &(struct vh_step){"FORECAST", row[i].what, forecast, VH_UNKNOWN, row[i].unit,
                                       "trusses.csv, mean of the futures", range, ""});
        vh_chain_add(c, &(struct vh_step){
                            "FORECAST", row[i].spread, forecast - row[i].here, VH_UNKNOWN,
                            row[i].unit, "what the futures have above the average plants", "", ""});
    }
}

enum vh_status vh_chain_of_truss(const struct vh_chain_run *run, const char *planting, int truss,
                                 struct vh_chain **out, struct vh_messages *m)
{
    const struct vh_scenario *s = run->run->scenario;
    const struct vh_house *h = run->run->house;
    struct vh_chain_truss t = {.of = run, .house = h, .number = truss};

    while (t.place < h->plantings && strcmp(h->planting[t.place].name, planting) != 0)
        t.place++;
    if (t.place == h->plantings)
        return no_planting(h, planting, m);
    t.planting = &h->planting[t.place];
    t.light_factor = run->run->light_factor[t.place];
    if (truss < 1)
        return vh_fail(m, VH_BAD_INPUT, (struct vh_place){NULL, 0, 0, NULL},
                       "%s %d is none; they are numbered from 1 at the bottom", word_of(t.planting),
                       truss);
    struct vh_chain *c = vh_chain_create(s);
    enum vh_status status = c ? look(s, &t, m) : VH_NO_MEMORY;
    if (status == VH_OK) {
        vh_chain_use(c, t.planting);
        vh_chain_add_learnt(c, run, t.place, "LEARNT");
        vh_chain_flower(c, &t);
        vh_chain_growth(c, &t);
        add_forecast(c, &t);
        status = c->status;
    }
    vh_season_clear(&t.season);
    free(t.look);
    if (status == VH_OK)
        *out = c;
    else
        vh_chain_free(c);
    return status;
}

void vh_chain_add_grades(struct vh_chain *c, const struct vh_planting *p, size_t planting,
                         double fruit_g, double cv)
{
    const struct vh_market *m = &c->scenario->house.market;
    const struct vh_grades *g = m->given ? m->good[m->good_of[planting]].grades : NULL;
    const struct vh_fruit_params *f = &p->crop->fruit;
    const struct vh_grade_fruit fruit = {fruit_g, cv, f->mass_a_g, f->mass_exponent};
    char worked[VH_CHAIN_TEXT];

    if (!g || !(fruit_g > 0.0))
        return;
    struct vh_grade_share *share = malloc((g->grades + 2) * sizeof *share);
    if (!share) {
        c->status = VH_NO_MEMORY;
        return;
    }
    const char *unit = g->measure == VH_GRADE_DIAMETER_MM ? "mm" : "g";
    vh_chain_add(c, &(struct vh_step){"GRADE", "scatter of fruit mass", cv, VH_UNKNOWN, "", "", "",
                                      "fruit.mass_cv fruit.mass_a_g fruit.mass_exponent"});
    vh_grade_shares(g, &fruit, share);
    for (size_t i = 0; i < g->grades; i++) {
        const double to = i + 1 < g->grades ? g->grade[i + 1].from : g->grade[i].to;
        if (isinf(to))
            snprintf(worked, sizeof worked, "from %g %s up", g->grade[i].from, unit);
        else
            snprintf(worked, sizeof worked, "from %g to %g %s", g->grade[i].from, to, unit);
        vh_chain_add(c, &(struct vh_step){"GRADE", g->grade[i].name, share[i].mass, VH_UNKNOWN, "",
                                          i ? ""
                                            : "share of the mass: log-normal about the fruit's"
                                              " mean, mass = a x diameter^exponent",
                                          worked, ""});
    }
    free(share);
}
