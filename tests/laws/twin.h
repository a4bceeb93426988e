/* twin.h - houses whose factors are known: drawn from the prior, run, and their records written
 * with the errors that params/records.csv and params/futures.csv state, straying picks among them.
 *
 * VINEHAND_TWINS=200 runs so many, with 200 futures each; without it 24 with 60 futures (whose
 * chance makes ranges too narrow: 0.70, 0.76, 0.76 of 200 twins were held so), and 2 under
 * sanitizers, where each costs ten times as much and its numbers are those of the Release run.
 *
 * Every second node keeps a fruit: where every node does, the plants are so hungry that what they
 * drop evens out the picks, and a count has next to nothing to tell of the market day.
 */
#ifndef VH_TWIN_H
#define VH_TWIN_H

#include <criterion/criterion.h>
#include <criterion/new/assert.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "vh_ensemble.h"
#include "vh_learn.h"
#include "vh_random.h"
#include "vh_result.h"
#include "vh_stray.h"

#ifdef __SANITIZE_ADDRESS__
#define TWINS 2
#else
#define TWINS 24
#endif
enum { MEMBERS_USUAL = 60, MEMBERS_MOST = 200, ROOM = 60000, FIRST_DRAW = 1000, WEEKS = 20 };

static const char text[] =
    "[house]\nname = \"twin\"\nlatitude_deg = 45\nutc_offset_h = 0\n"
    "[climate.roughly]\nwarmest_high_c = 27\nwarmest_low_c = 17\ncoldest_high_c = 4\n"
    "coldest_low_c = -4\nsky = \"mixed\"\n"
    "[futures]\ntemperature_sd_c = 0\nclearness_sd = 0\nvisit_delay_d = 0\n"
    "[[planting]]\nname = \"a\"\ncrop = \"cucumber-long\"\nplants = 100\nplants_per_m2 = 2\n"
    "set_out = 2026-05-01\npull_out = 2026-09-20\n"
    "[[planting.fruits_kept]]\nfruits = 0.5\n[planting.pick]\ndays = [\"mon\", \"thu\"]\n"
    "[records]\nfile = \"records.csv\"\n";

static struct vh_parameters *params;
static struct vh_messages *messages;
static int64_t set_out;
static size_t members;

static double twins_asked(void)
{
    const char *asked = getenv("VINEHAND_TWINS");

    return asked ? strtod(asked, NULL) : TWINS;
}

static void begin(void)
{
    members = twins_asked() > TWINS ? MEMBERS_MOST : MEMBERS_USUAL;
    messages = vh_messages_create();
    cr_assert(ge(int, vh_parameters_read(VINEHAND_PARAMS, &params, messages), VH_OK));
    cr_assert(eq(int, vh_date_parse("2026-05-01", &set_out), VH_OK));
}

static void end(void)
{
    vh_parameters_free(params);
    vh_messages_free(messages);
}

static struct vh_scenario *twin_house(int64_t today, const char *records)
{
    const struct vh_run_options o = {
        .today = today, .members = (int)members, .draw = 1, .no_records = true};
    struct vh_scenario *s = NULL;

    cr_assert(
        ge(int,
           vh_scenario_parse(text, strlen(text), "twin.toml", "/tmp", params, &o, &s, messages),
           VH_OK),
        "%s", vh_messages_count(messages) ? vh_messages_at(messages, 0)->text : "");
    if (records) {
        if (!s->house.records.file.shown)
            s->house.records.file.shown = strdup("records.csv");
        cr_assert(ge(
            int,
            vh_records_read_memory(&s->house, &params->record, records, strlen(records), messages),
            VH_OK));
    }
    return s;
}

/* ---- what she would have written ---- */

struct twin {
    uint64_t draw;
    struct vh_member truth;
    struct vh_season season;
    double *plain_kg; /* [days] what the plants give, before it strays */
    char *records;
    size_t n;
    uint32_t drawn; /* errors so far */
};

static double off(struct twin *t, double sd)
{
    return sd * vh_normal(t->draw, t->drawn++, 0, 77, 0);
}

static void note_on(struct twin *t, int64_t day, enum vh_record_item item, double value, int truss,
                    int of)
{
    const struct vh_record r = {.item = item, .value = value, .of = of};
    const double model = vh_record_model_sd(&params->record, item, value);
    const double sd = vh_record_sd(&params->record, &r);
    const bool is_pick = item == VH_RECORD_PICKED_KG || item == VH_RECORD_PICKED_FRUITS;
    double written = value + off(t, sd) + (is_pick ? 0.0 : off(t, model)); /* picks: have strayed */
    char date[11], count[12] = "", on[12] = "";

    written = written > 0.0 ? written : 0.0;
    vh_date_format(day, date);
    if (of > 0)
        snprintf(count, sizeof count, "%d", of);
    if (truss > 0)
        snprintf(on, sizeof on, "%d", truss);
    t->n += (size_t)snprintf(t->records + t->n, ROOM - t->n, "%s,a,%s,%.2f,%s,%s\n", date,
                             vh_record_item_name(item), written, on, count);
}

static void note(struct twin *t, int64_t day, enum vh_record_item item, double value, int of)
{
    note_on(t, day, item, value, 0, of);
}

/* What is the same in all counts of a kind. */
struct biases {
    double leaves, flowering, picking, mm;
};

static struct biases draw_biases(struct twin *t)
{
    const struct vh_record_params *p = &params->record;

    return (struct biases){off(t, vh_record_bias_sd(p, VH_RECORD_LEAVES_MADE, 0.0)),
                           off(t, vh_record_bias_sd(p, VH_RECORD_FLOWERING_TRUSS, 0.0)),
                           off(t, vh_record_bias_sd(p, VH_RECORD_PICKING_TRUSS, 0.0)),
                           off(t, vh_record_bias_sd(p, VH_RECORD_FRUIT_MM, 1.0))};
}

/* How thick the lowest fruit that is not ripe has become. */
static void note_mm(struct twin *t, int64_t date, const struct vh_look *l, double bias)
{
    const struct vh_fruit_params *f = &t->season.planting->crop->fruit;

    for (size_t k = 0; k < l->trusses; k++) {
        const struct vh_truss_view *v = &l->truss[k];
        if (!isnan(v->ripe_first_d) || !(v->fruits_on > 0.0))
            continue;
        const double mm = vh_fruit_diameter_mm(f, v->dm_g / (v->fruits_on * f->dm_content_20));
        note_on(t, date, VH_RECORD_FRUIT_MM, mm * (1.0 + bias), (int)k + 1, 5);
        return;
    }
}

/* Set fruits of the highest node that has flowered for ten days. */
static void note_set(struct twin *t, int64_t date, const struct vh_look *l, double today_d)
{
    for (size_t k = l->trusses; k-- > 0;)
        if (l->truss[k].opened_d <= today_d - 10.0) {
            note_on(t, date, VH_RECORD_FRUITS_SET, l->truss[k].set, (int)k + 1, 10);
            return;
        }
}

/* The ten minutes of a week. */
static void note_check(struct twin *t, size_t d, const struct biases *b)
{
    const struct vh_plant_day *plant = &t->season.day[d].plant;
    const struct vh_look *l = &t->season.look[d / 7];
    const int64_t date = t->season.first_day + (int64_t)d;

    note(t, date, VH_RECORD_LEAVES_MADE, plant->leaves_made + b->leaves, 5);
    note(t, date, VH_RECORD_FLOWERING_TRUSS,
         vh_record_counted_truss(plant->flowering_truss) + b->flowering, 5);
    if (plant->picking_truss > 1.0)
        note(t, date, VH_RECORD_PICKING_TRUSS, plant->picking_truss + b->picking, 5);
    if (d >= 7)
        note(t, date, VH_RECORD_STEM_GROWTH_CM, plant->stem_cm - t->season.day[d - 7].plant.stem_cm,
             5);
    note_mm(t, date, l, b->mm);
    note_set(t, date, l, (double)d);
}

static void write_records(struct twin *t, bool counts)
{
    const double grams = 1000.0, few = 1.0;
    const struct biases b = draw_biases(t);

    t->records = calloc(ROOM, 1);
    t->n = (size_t)snprintf(t->records, ROOM, "date,planting,item,value,truss,of\n");
    for (size_t d = 0; d + 1 < t->season.days; d++) {
        const struct vh_season_day *day = &t->season.day[d];
        const int64_t date = t->season.first_day + (int64_t)d;
        const double fruits = day->picked.fruits * day->stems;
        if (day->pick_day && fruits > few) {
            note(t, date, VH_RECORD_PICKED_KG, day->picked.fresh_g * day->stems / grams, 0);
            if (counts)
                note(t, date, VH_RECORD_PICKED_FRUITS, fruits, 0);
        }
        if (counts && d % 7 == 6)
            note_check(t, d, &b);
    }
}

static void make(struct twin *t, uint64_t draw, bool counts)
{
    int64_t look[WEEKS];
    struct vh_scenario *s = twin_house(set_out, NULL);
    struct vh_planting *p = &s->house.planting[0];

    *t = (struct twin){.draw = draw, .truth = vh_member_draw(s, draw, 0, 0)};
    const double far = t->truth.unsteady;
    const struct vh_stray way = {.sd = far * params->futures.stray_sd,
                                 .days = params->futures.stray_d,
                                 .flush =
                                     far * params->record.error[VH_RECORD_PICKED_KG].model_share,
                                 .draw = draw};
    for (int w = 0; w < WEEKS; w++)
        look[w] = set_out + 6 + 7 * w;
    p->look = look;
    p->looks = WEEKS;
    cr_assert(eq(int,
                 vh_season_run(&s->house, p, vh_scenario_light_factor(s), params->colours.breaker,
                               &t->truth.plant, &t->season),
                 VH_OK));
    t->plain_kg = calloc(t->season.days, sizeof *t->plain_kg);
    for (size_t d = 0; d < t->season.days; d++)
        t->plain_kg[d] = t->season.day[d].picked.fresh_g * t->season.day[d].stems / 1000.0;
    vh_stray_apply(&way, t->truth.stray, set_out - 1, &t->season);
    write_records(t, counts);
    p->look = NULL;
    vh_scenario_free(s);
}

static void twin_clear(struct twin *t)
{
    vh_season_clear(&t->season);
    free(t->plain_kg);
    free(t->records);
}

#endif
