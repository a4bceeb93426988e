/* The one row a planting has in the printed summary, and the row of the house. */
#include "vh_reach.h"
#include "vh_result.h"

#include "vh_math.h"

#define DAYS_PER_WEEK 7

struct totals {
    double kg, fruits, come_kg, come_fruits, week_kg, week_fruits;
    int64_t first_pick; /* INT64_MIN: none */
};

/* The first day of which a pick is written down; INT64_MAX: there is none. */
static int64_t first_written(const struct vh_house *house, size_t planting,
                             const struct vh_season *s)
{
    const struct vh_records *r = &house->records;
    const int64_t end = s->first_day + (int64_t)s->days;

    for (size_t i = 0; r->read && i < r->rows; i++) { /* in date order */
        const struct vh_record *a = &r->row[i];
        const bool is_pick = a->item == VH_RECORD_PICKED_KG || a->item == VH_RECORD_PICKED_FRUITS;
        if (a->planting == planting && is_pick && a->value > 0.0 && a->day >= s->first_day &&
            a->day < end && a->day <= house->today &&
            (vh_record_picked_kg(r, planting, a->day, a->day) > 0.0 ||
             vh_record_picked_fruits(r, planting, a->day, a->day) > 0.0))
            return a->day;
    }
    return INT64_MAX;
}

/* A first pick that was written down is one, however small; one before it that comes only from
 * laying that entry over the days since set-out was none. */
static int64_t first_pick(const struct vh_season *s, const struct vh_harvest_day *harvest,
                          int64_t foreseen, int64_t written)
{
    if (written == INT64_MAX ||
        (foreseen != INT64_MIN && foreseen < written && !harvest[foreseen - s->first_day].written))
        return foreseen;
    return written;
}

/* What is written down of today is no longer to come. */
static struct totals total(const struct vh_season *s, const struct vh_harvest_day *harvest,
                           int64_t today)
{
    const double worth_a_walk = 0.1; /* fruits a stem: what counts as the first pick */
    struct totals t = {.first_pick = INT64_MIN};

    for (size_t d = 0; d < s->days; d++) {
        const int64_t date = s->first_day + (int64_t)d;
        const double kg = harvest[d].picked.kg, fruits = harvest[d].picked.fruits;
        if (t.first_pick == INT64_MIN && fruits >= worth_a_walk * s->day[d].stems && fruits > 0.0)
            t.first_pick = date;
        t.kg += kg;
        t.fruits += fruits;
        if (date < today)
            continue;
        if (date < today + DAYS_PER_WEEK) {
            t.week_kg += kg;
            t.week_fruits += fruits;
        }
        if (harvest[d].written)
            continue;
        t.come_kg += kg;
        t.come_fruits += fruits;
    }
    return t;
}

struct peaks {
    int64_t monday;
    double kg, fruits;
};

/* Best week from the week of today on. */
static struct peaks find_peaks(const struct vh_season *s, const struct vh_harvest_day *harvest,
                               int64_t today)
{
    struct peaks p = {INT64_MIN, 0.0, 0.0};
    const int64_t this_monday = vh_date_monday(today);
    double kg = 0.0, fruits = 0.0;

    for (size_t d = 0; d < s->days; d++) {
        const int64_t date = s->first_day + (int64_t)d, monday = vh_date_monday(date);
        kg += harvest[d].picked.kg;
        fruits += harvest[d].picked.fruits;
        if (vh_date_weekday(date) + 1 != DAYS_PER_WEEK && d + 1 != s->days)
            continue;
        if (monday >= this_monday && kg > p.kg)
            p.monday = monday, p.kg = kg, p.fruits = fruits;
        kg = fruits = 0.0;
    }
    return p;
}

/* Lightest truss still to be picked; 0 if there is none. */
static int lightest_truss(const struct vh_season *s, int64_t today, double *fruit_g, double *mean_g)
{
    double g = 0.0, fruits = 0.0, low = VH_ENDLESS;
    int number = 0;

    for (size_t t = 0; t < s->trusses; t++) {
        const struct vh_truss_view *v = &s->truss[t];
        const double whole = 0.5; /* a truss half picked at the end says little */
        if (v->picked_fruits <= 0.0 || !(v->ripe_last_d >= (double)(today - s->first_day)))
            continue;
        g += v->picked_g;
        fruits += v->picked_fruits;
        if (v->picked_fruits < whole * (v->picked_fruits + v->fruits_on) ||
            v->picked_g / v->picked_fruits >= low)
            continue;
        low = v->picked_g / v->picked_fruits;
        number = (int)t + 1;
    }
    *fruit_g = number ? low : VH_UNKNOWN;
    *mean_g = fruits > 0.0 ? g / fruits : VH_UNKNOWN;
    return number;
}

static void set(struct vh_table *t, const char *name, double value)
{
    const int column = vh_table_find(t, name);
    if (column >= 0)
        vh_table_set_number(t, (size_t)column, value);
}

static enum vh_status set_text(struct vh_table *t, const char *name, const char *text)
{
    const int column = vh_table_find(t, name);
    return column >= 0 ? vh_table_set_text(t, (size_t)column, text) : VH_OK;
}

/* What the stem grew in the week that ended on day `at` of the season. */
static double stem_week_cm(const struct vh_season *s, int64_t at)
{
    return at < DAYS_PER_WEEK ? VH_UNKNOWN
                              : s->day[at].plant.stem_cm - s->day[at - DAYS_PER_WEEK].plant.stem_cm;
}

static void set_date(struct vh_table *t, const char *name, int64_t day)
{
    if (day != INT64_MIN)
        set(t, name, (double)day);
}

static const char *const path_word[] = {[VH_LOWER_STRAIGHT] = "straight",
                                        [VH_LOWER_ROW_END] = "row-end",
                                        [VH_LOWER_AROUND_CONTAINERS] = "around-containers"};

/* From where and how the vines hang, for drawings. */
static enum vh_status set_lower(struct vh_table *t, const struct vh_lower_policy *lower)
{
    if (!lower->given)
        return VH_OK;
    set(t, "wire_cm", lower->wire_cm);
    set(t, "laid_height_cm", lower->laid_height_cm);
    set(t, "fruit_floor_cm", lower->fruit_floor_cm);
    set(t, "truss_hang_cm", lower->truss_hang_cm);
    set(t, "flower_below_head_cm", lower->flower_below_head_cm);
    if (lower->path == VH_LOWER_AROUND_CONTAINERS)
        set(t, "container_cm", lower->container_cm);
    return set_text(t, "lay_path", path_word[lower->path]);
}

static enum vh_status set_reach(struct vh_table *t, const struct vh_season *s,
                                const struct vh_harvest *harvest,
                                const struct vh_house_params *doubt)
{
    const struct vh_reach reach = vh_reach_of_season(s, harvest, doubt->doubt_reach_peak_weeks);

    if (reach.word != VH_REACH_NOTHING) {
        set(t, "picking_weeks", reach.weeks);
        set(t, "reach_low_kg_m2", reach.low_kg_m2);
        set(t, "reach_high_kg_m2", reach.high_kg_m2);
        set(t, "reach_high_kg_plant", reach.high_kg_plant);
    }
    return set_text(t, "reach", vh_reach_said(reach.word));
}

/* What sells beside the orders, unknown where she did not say it; her pack. */
static void set_sells(struct vh_table *t, const struct vh_house *h, size_t planting)
{
    const struct vh_market *m = &h->market;

    if (!m->given || !m->good_of)
        return;
    const struct vh_good *g = &m->good[m->good_of[planting]];
    if (isfinite(g->sells_kg))
        set(t, "sells_kg", g->sells_kg);
    if (isfinite(g->sells_fruits))
        set(t, "sells_fruits", g->sells_fruits);
    if (g->sold_by == VH_SELL_PACK)
        set(t, "pack_g", g->pack_g);
    if (!isnan(g->pack_fruits))
        set(t, "pack_fruits", g->pack_fruits);
}

enum vh_status vh_result_add_summary(struct vh_table *t, const struct vh_run *run, size_t planting,
                                     const struct vh_house_params *doubt)
{
    const struct vh_house *house = run->house;
    const struct vh_season *s = &run->season[planting];
    const struct vh_harvest *harvest = &run->harvest[planting];
    const int64_t today = house->today;
    const struct vh_planting *p = s->planting;
    const bool by_fruit = vh_house_counts(house, &house->planting[planting]);
    const struct totals sum = total(s, harvest->day, today);
    const struct peaks peak = find_peaks(s, harvest->day, today);
    const int64_t last = s->first_day + (int64_t)s->days - 1;
    const int64_t at = today < s->first_day ? s->first_day : today > last ? last : today;
    const struct vh_plant_day *now = &s->day[at - s->first_day].plant,
                              *end = &s->day[s->days - 1].plant;
    double low_g, mean_g, leaves = 0.0;
    const int low_truss = lightest_truss(s, today, &low_g, &mean_g);

    if (vh_table_add_row(t) != VH_OK || set_text(t, "planting", p->name) != VH_OK ||
        set_text(t, "crop", p->crop_name) != VH_OK ||
        set_text(t, "unit_word", by_fruit ? "fruits" : "kg") != VH_OK ||
        set_text(t, "truss_word", p->crop->truss.clock_by == VH_CLOCK_BY_NODE ? "node" : "truss") !=
            VH_OK)
        return VH_NO_MEMORY;
    leaves = end->leaves_made;
    set_date(t, "first_pick",
             first_pick(s, harvest->day, sum.first_pick, first_written(house, planting, s)));
    set(t, "season_kg", sum.kg);
    set(t, "season_fruits", sum.fruits);
    set(t, "to_come_kg", sum.come_kg);
    set(t, "to_come_fruits", sum.come_fruits);
    set(t, "next_week_kg", sum.week_kg);
    set(t, "next_week_fruits", sum.week_fruits);
    set(t, "kg_per_plant", sum.kg / p->plants);
    set(t, "kg_m2", sum.kg * p->plants_per_m2 / p->plants);
    set_date(t, "peak_monday", peak.monday);
    set(t, "peak_kg", peak.kg);
    set(t, "peak_fruits", peak.fruits);
    set(t, "fruit_g", mean_g);
    set(t, "fruit_g_low", low_g);
    if (low_truss)
        set(t, "fruit_g_low_truss", low_truss);
    if (p->crop->fruit.pick_by == VH_PICK_BY_MASS) {
        set(t, "pick_from_g", p->policy.pick_from_g);
        set(t, "small_below_g", doubt->small_share * p->policy.pick_from_g);
    }
    if (today >= s->first_day) {
        set(t, "stem_cm", now->stem_cm);
        set(t, "stem_week_cm", stem_week_cm(s, at - s->first_day));
    }
    set(t, "stem_end_cm", end->stem_cm);
    set_date(t, "pull_out", last);
    if (today >= s->first_day)
        set(t, "flowering_truss", now->flowering_truss);
    set(t, "leaves_made", leaves);
    set(t, "trusses_made", (double)s->trusses);
    set_sells(t, house, planting);
    set(t, "plants_apart_cm", s->planting->plants_apart_cm);
    return set_lower(t, &p->policy.lower) == VH_OK ? set_reach(t, s, harvest, doubt) : VH_NO_MEMORY;
}

static bool has_entry(const struct vh_records *r, size_t planting, enum vh_record_item item)
{
    for (size_t i = 0; i < r->rows; i++)
        if (r->row[i].planting == planting && r->row[i].item == item)
            return true;
    return false;
}

static bool every_planting_has(const struct vh_house *h, enum vh_record_item item)
{
    for (size_t k = 0; k < h->plantings; k++)
        if (!has_entry(&h->records, k, item))
            return false;
    return true;
}

/* Picks tell of the light. */
static bool is_picked_from(const struct vh_records *r)
{
    for (size_t i = 0; i < r->rows; i++)
        if (vh_record_is_pick(r->row[i].item))
            return true;
    return false;
}

/* The assumption that weighs most, in her words; "": each that could weigh was counted. */
static const char *roughest(const struct vh_scenario *s)
{
    const struct vh_house *h = &s->house;
    const bool light_is_known = h->light_factor_given || is_picked_from(&h->records);

    if (!light_is_known && !h->climate.light_from_log)
        return "light: worked out from the weather, not measured; weighing a few picks would tell";
    if (!light_is_known)
        return "light at the crop: a sensor seldom sees what the leaves see; weighing a few picks "
               "would tell";
    if (!every_planting_has(h, VH_RECORD_FRUITS_SET))
        return "fruit set: count the set fruits of one truss on five plants";
    if (!every_planting_has(h, VH_RECORD_UNMARKETABLE_KG))
        return "what cannot be sold: weigh what you throw away (unmarketable_kg)";
    return "";
}

enum vh_status vh_result_add_house(struct vh_table *t, const struct vh_scenario *s)
{
    const struct vh_climate *c = &s->house.climate;
    double logged = 0.0;

    const size_t first = (size_t)(s->house.first_day - c->first_day);

    for (size_t d = first; d < c->days; d++)
        logged += c->hours_logged[d];
    if (vh_table_add_row(t) != VH_OK || set_text(t, "name", s->house.name) != VH_OK ||
        set_text(t, "roughest", roughest(s)) != VH_OK ||
        set_text(t, "currency", s->house.currency) != VH_OK)
        return VH_NO_MEMORY;
    set(t, "today", (double)s->house.today);
    set(t, "first_day", (double)s->house.first_day);
    set(t, "last_day", (double)s->house.last_day);
    set_date(t, "last_logged", c->last_logged_day);
    set(t, "hours_logged", logged);
    set(t, "hours_outlook", (double)(c->days - first) * VH_HOURS_PER_DAY - logged);
    set(t, "records_used", (double)s->house.records.rows);
    if (s->house.records.rows > 0)
        set_date(t, "records_until", s->house.records.last_day);
    set(t, "light_factor", vh_scenario_light_factor(s));
    set(t, "said_near_d", s->house_params.said_near_d);
    set(t, "members_least", s->parameters->record.members_least);
    set(t, "dull_week", vh_week_was_dull(s) ? 1.0 : 0.0);
    return VH_OK;
}
