/* vinehand compare: the season as planned, then each choice in the same futures. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "compare_parts.h"
#include "vh_math.h"
#include "vh_result.h"

/* The progress of one part of the work, told as a share of the whole. */
struct stretch {
    vh_progress progress;
    void *context;
    double from, to;
};

static bool tell(void *context, double share)
{
    const struct stretch *s = context;

    return !s->progress || s->progress(s->context, s->from + (s->to - s->from) * share);
}

struct comparing {
    const struct vh_scenario *s;
    struct vh_compare_request q;
    struct vh_parts plan;
    struct stretch stretch;
    struct vh_table *table, *found;
    double done, works; /* of which so much is done */
};

/* ---- which choices ---- */

/* Choice i of the list: one lever at a time, or with all_combinations one value of each. */
static void choice_at(const struct vh_choices *c, size_t i, struct vh_choice *out)
{
    *out = (struct vh_choice){0};
    for (int l = 0; l < VH_LEVERS; l++) {
        const struct vh_lever_values *values = &c->lever[l];
        if (values->values == 0)
            continue;
        if (c->all_combinations) {
            out->has[l] = true;
            out->value[l] = values->value[i % values->values];
            i /= values->values;
        } else if (i < values->values) {
            out->has[l] = true;
            out->value[l] = values->value[i];
            return;
        } else {
            i -= values->values;
        }
    }
}

static bool is_meant(const struct vh_choices *c, size_t planting)
{
    return c->planting == VH_ALL_PLANTINGS || c->planting == planting;
}

/* ---- rows ---- */

enum { CHOICE, PLANTING, FIRST_VALUE, BETTER = FIRST_VALUE + VH_CHOICE_VALUES };
enum { FLOOR_NEED = BETTER + 1, FLOOR_FROM, FLOOR_UNTIL, FIRST_DIFF };
enum { PER_DIFF = 3, FLIPS = FIRST_DIFF + PER_DIFF * VH_CHOICE_VALUES };

/* Are its fruits of several crops? Then a mean of their mass is nobody's. */
static bool is_mixed(const struct vh_house *house, size_t planting)
{
    for (size_t k = 1; planting == VH_ALL_PLANTINGS && k < house->plantings; k++)
        if (strcmp(house->planting[k].crop_name, house->planting[0].crop_name) != 0)
            return true;
    return false;
}

static enum vh_status add_row(const struct comparing *c, const struct vh_choice *choice,
                              const char *name, size_t planting, const struct vh_parts *parts)
{
    const bool is_plan = parts == &c->plan, mixed = is_mixed(&c->s->house, planting);
    struct vh_verdict v;
    struct vh_floor_short room = {.need_m2 = VH_UNKNOWN};
    char flips[VH_FLIPS_TEXT] = "";
    enum vh_status status = vh_verdict_of(&c->q, choice, &c->plan, parts, planting, &v);

    if (status == VH_OK && !is_plan && vh_margin_is_known(&c->plan, planting))
        vh_flips_if(c->s, &c->plan, parts, planting, flips);
    if (status == VH_OK && !is_plan)
        status = vh_room_of_choice(&c->q, choice, c->s->choices.planting, &room);
    if (status == VH_OK)
        status = vh_table_add_row(c->table);
    if (status == VH_OK)
        status = vh_table_set_text(c->table, CHOICE, name);
    if (status == VH_OK)
        status = vh_table_set_text(
            c->table, PLANTING,
            planting == VH_ALL_PLANTINGS ? "all" : c->s->house.planting[planting].name);
    if (status == VH_OK)
        status = vh_table_set_text(c->table, FLIPS, flips);
    if (status != VH_OK)
        return status;
    for (size_t i = 0; i < VH_CHOICE_VALUES; i++) {
        const size_t at = FIRST_DIFF + PER_DIFF * i;
        if (i == VH_VALUE_FRUIT_G && mixed)
            continue;
        vh_table_set_number(c->table, FIRST_VALUE + i, v.mean[i]);
        if (is_plan)
            continue;
        vh_table_set_number(c->table, at, v.diff[i].mean);
        vh_table_set_number(c->table, at + 1, v.diff[i].p10);
        vh_table_set_number(c->table, at + 2, v.diff[i].p90);
    }
    if (!is_plan)
        vh_table_set_number(c->table, BETTER, v.better_chance);
    if (!isnan(room.need_m2)) {
        vh_table_set_number(c->table, FLOOR_NEED, room.need_m2);
        vh_table_set_number(c->table, FLOOR_FROM, (double)room.from);
        vh_table_set_number(c->table, FLOOR_UNTIL, (double)room.until);
    }
    return VH_OK;
}

static enum vh_status add_rows(const struct comparing *c, const struct vh_choice *choice,
                               const char *name, const struct vh_parts *parts)
{
    const size_t n = c->s->house.plantings;
    enum vh_status status = VH_OK;

    for (size_t k = 0; k < n && status == VH_OK; k++)
        if (is_meant(&c->s->choices, k))
            status = add_row(c, choice, name, k, parts);
    if (status == VH_OK && n > 1)
        status = add_row(c, choice, name, VH_ALL_PLANTINGS, parts);
    return status;
}

/* ---- the run ---- */

/* The next piece of work, of so much weight. */
static void next_stretch(struct comparing *c, double weight)
{
    c->stretch.from = c->done / c->works;
    c->done += weight;
    c->stretch.to = c->done / c->works;
}

static enum vh_status run_choices(struct comparing *c, struct vh_messages *m)
{
    const struct vh_choices *choices = &c->s->choices;
    const size_t n = vh_choices_count(choices);
    enum vh_status status = VH_OK;

    for (size_t i = 0; i < n && status == VH_OK; i++) {
        struct vh_choice choice;
        struct vh_parts parts;
        char name[VH_CHOICE_NAME];
        choice_at(choices, i, &choice);
        vh_choice_name(&choice, name);
        next_stretch(c, 1.0);
        status = vh_parts_of_choice(&c->q, &choice, choices->planting, &c->plan, &parts, m);
        if (status != VH_OK)
            break;
        status = add_rows(c, &choice, name, &parts);
        vh_parts_clear(&parts);
    }
    return status;
}

/* ---- the search ---- */

enum { SEARCH_WORK = 6 }; /* of one planting, in runs of a choice: few futures, many seasons */

static const char *search_name(enum vh_search what)
{
    static const char *const name[] = {"", "margin", "steady", "size", "gaps"};

    return name[what];
}

static enum vh_status tell_found(const struct comparing *c, size_t k, const struct vh_found *f,
                                 const char *name, double steadier_pct, double chance)
{
    enum { OF, WHAT, FOUND, SEASONS, MEMBERS, AT_LEAST, STEADIER, CHANCE, MOST_TRIED };
    const struct vh_choices *choices = &c->s->choices;
    struct vh_table *t = c->found;

    if (vh_table_add_row(t) != VH_OK ||
        vh_table_set_text(t, OF, c->s->house.planting[k].name) != VH_OK ||
        vh_table_set_text(t, WHAT, search_name(choices->search)) != VH_OK ||
        vh_table_set_text(t, FOUND, name) != VH_OK)
        return VH_NO_MEMORY;
    vh_table_set_number(t, SEASONS, (double)f->seasons);
    vh_table_set_number(t, MEMBERS, (double)f->members);
    vh_table_set_number(t, AT_LEAST, choices->at_least_g);
    vh_table_set_number(t, STEADIER, steadier_pct);
    vh_table_set_number(t, CHANCE, chance);
    if (f->most_tried > 0.0)
        vh_table_set_number(t, MOST_TRIED, f->most_tried);
    return VH_OK;
}

/* What was found is run in the futures of the comparison, like any other choice. */
static enum vh_status judge_found(struct comparing *c, size_t k, const struct vh_found *f,
                                  struct vh_messages *m)
{
    const double percent = 100.0;
    struct vh_parts parts;
    char name[VH_CHOICE_NAME];
    enum vh_status status = vh_parts_of_choice(&c->q, &f->choice, k, &c->plan, &parts, m);

    if (status != VH_OK)
        return status;
    vh_choice_name(&f->choice, name);
    status = add_row(c, &f->choice, name, k, &parts);
    if (status == VH_OK && c->s->house.plantings > 1)
        status = add_row(c, &f->choice, name, VH_ALL_PLANTINGS, &parts);
    if (status == VH_OK)
        status = tell_found(
            c, k, f, name,
            percent * (vh_parts_unsteady(&parts, k) / vh_parts_unsteady(&c->plan, k) - 1.0),
            vh_parts_reached(&parts, &c->plan, k, c->s->choices.search, c->s->choices.at_least_g));
    vh_parts_clear(&parts);
    return status;
}

static enum vh_status search(struct comparing *c, struct vh_messages *m)
{
    const struct vh_choices *choices = &c->s->choices;
    enum vh_status status = VH_OK;

    if (choices->search == VH_SEARCH_NONE || choices->search == VH_SEARCH_GAPS)
        return VH_OK;
    for (size_t k = 0; k < c->s->house.plantings && status == VH_OK; k++) {
        struct vh_found f;
        if (!is_meant(choices, k))
            continue;
        next_stretch(c, SEARCH_WORK);
        status = vh_search_fruits(&c->q, k, choices->search, choices->at_least_g, &f, m);
        if (status != VH_OK)
            break;
        status = f.choice.ranges > 0 ? judge_found(c, k, &f, m)
                                     : tell_found(c, k, &f, "", VH_UNKNOWN, VH_UNKNOWN);
    }
    return status;
}

static enum vh_status compare(struct comparing *c, struct vh_messages *m)
{
    next_stretch(c, 1.0);
    enum vh_status status = vh_parts_of_plan(&c->q, &c->plan, m);

    if (status != VH_OK)
        return status;
    status = add_rows(c, NULL, "as planned", &c->plan);
    if (status == VH_OK)
        status = run_choices(c, m);
    if (status == VH_OK)
        status = search(c, m);
    vh_parts_clear(&c->plan);
    return status;
}

/* ---- what the summary says beside the rows ---- */

static void add_words(char *text, size_t room, const char *words)
{
    const size_t n = strlen(text);

    if (words[0])
        snprintf(text + n, room - n, "%s%s", n ? ", " : "", words);
}

/* What the plan has of every lever that is tried. */
static void say_plan(const struct vh_scenario *s, char *text, size_t room)
{
    const struct vh_choices *c = &s->choices;
    const size_t k = c->planting == VH_ALL_PLANTINGS ? 0 : c->planting;
    char name[VH_CHOICE_NAME];

    text[0] = '\0';
    for (int l = 0; l < VH_LEVERS; l++) {
        if (c->lever[l].values == 0 || (c->planting == VH_ALL_PLANTINGS && s->house.plantings > 1))
            continue;
        vh_lever_planned(s, k, (enum vh_lever)l, name);
        add_words(text, room, name);
    }
}

/* Parts of the money that no price is known of. */
static void say_uncounted(const struct vh_scenario *s, char *text, size_t room)
{
    const struct vh_house *h = &s->house;
    bool costs = !isnan(h->stock.cost_plant);

    for (int i = 0; i < VH_SUPPLIES; i++)
        costs = costs || !isnan(h->stock.cost_each[i]);
    text[0] = '\0';
    if (isnan(h->labour.per_h))
        add_words(text, room, "hours (labour.per_h is not given)");
    if (!costs)
        add_words(text, room, "supplies (stock.cost is not given)");
    if (isnan(h->climate_request.heat_loss_w_k))
        add_words(text, room, "heating (house.heat_loss_w_k is not given)");
    else if (isnan(h->fuel_per_kwh))
        add_words(text, room, "heating (house.fuel_per_kwh is not given)");
}

static bool is_pick_noted(const struct vh_records *r, size_t planting)
{
    for (size_t i = 0; i < r->rows; i++)
        if (r->row[i].planting == planting && vh_record_is_pick(r->row[i].item))
            return true;
    return false;
}

/* "yes", "noted" where picks are written down of the past that is changed, "" where none is. */
static const char *looks_back(const struct vh_scenario *s)
{
    const size_t n = vh_choices_count(&s->choices);
    const char *said = "";

    for (size_t i = 0; i < n; i++) {
        struct vh_choice choice;
        choice_at(&s->choices, i, &choice);
        for (size_t k = 0; k < s->house.plantings; k++)
            if (is_meant(&s->choices, k) && vh_choice_looks_back(s, &choice, k))
                said = said[0] == 'n' || is_pick_noted(&s->house.records, k) ? "noted" : "yes";
    }
    return said;
}

static enum vh_status add_facts(struct vh_result *r, const struct vh_scenario *s, bool is_priced)
{
    enum { OF, MEMBERS, CHOICES, DECIDES, PLAN, UNCOUNTED, BACK, CURRENCY, SEARCH };
    struct vh_table *t = vh_result_table_new(VH_TABLE_COMPARED);
    const size_t k = s->choices.planting;
    char plan[400], uncounted[400];

    r->table[VH_TABLE_COMPARED] = t;
    say_plan(s, plan, sizeof plan);
    say_uncounted(s, uncounted, sizeof uncounted);
    if (!t || vh_table_add_row(t) != VH_OK ||
        vh_table_set_text(t, OF, k == VH_ALL_PLANTINGS ? "" : s->house.planting[k].name) != VH_OK ||
        vh_table_set_text(t, DECIDES, is_priced ? "margin" : "market_kg") != VH_OK ||
        vh_table_set_text(t, PLAN, plan) != VH_OK ||
        vh_table_set_text(t, UNCOUNTED, uncounted) != VH_OK ||
        vh_table_set_text(t, SEARCH, search_name(s->choices.search)) != VH_OK ||
        vh_table_set_text(t, CURRENCY, s->house.currency ? s->house.currency : "") != VH_OK ||
        vh_table_set_text(t, BACK, looks_back(s)) != VH_OK)
        return VH_NO_MEMORY;
    vh_table_set_number(t, MEMBERS, s->options.members);
    vh_table_set_number(t, CHOICES, (double)vh_choices_count(&s->choices));
    return VH_OK;
}

/* ---- */

size_t vh_scenario_choices(const struct vh_scenario *s)
{
    const struct vh_choices *c = &s->choices;

    return vh_choices_count(c) + (c->search != VH_SEARCH_NONE);
}

enum vh_status vh_compare(const struct vh_scenario *s, vh_progress progress, void *context,
                          struct vh_result **out, struct vh_messages *m)
{
    const double tables = 3.0; /* a run with all its tables takes about as long as three without */
    struct vh_result *r = NULL;
    struct comparing c = {.s = s,
                          .stretch = {.progress = progress, .context = context},
                          .works = tables + 1.0 + (double)vh_choices_count(&s->choices) +
                                   SEARCH_WORK * (double)s->house.plantings};

    if (vh_scenario_choices(s) == 0)
        return vh_fail(
            m, VH_BAD_INPUT, s->choices.given ? s->choices.place : VH_NOWHERE,
            "nothing to compare; add a list to [compare], as in fruits_kept = [2, 3, 4]");
    c.q = (struct vh_compare_request){.scenario = s,
                                      .members = (size_t)s->options.members,
                                      .draw = s->options.draw,
                                      .threads = s->options.threads,
                                      .mean_run = s->options.members == 1,
                                      .progress = tell,
                                      .progress_context = &c.stretch};
    next_stretch(&c, tables);
    enum vh_status status = vh_forecast(s, tell, &c.stretch, &r, m);
    if (status != VH_OK)
        return status;
    status = vh_waiting_costs(s, r, m);
    c.table = r->table[VH_TABLE_CHOICES] = vh_result_table_new(VH_TABLE_CHOICES);
    c.found = r->table[VH_TABLE_FOUND] = vh_result_table_new(VH_TABLE_FOUND);
    if (status == VH_OK)
        status = c.table && c.found ? compare(&c, m) : VH_NO_MEMORY;
    if (status == VH_OK)
        status = add_facts(r, s,
                           vh_table_rows(c.table) > 0 &&
                               !isnan(vh_table_number(c.table, 0, FIRST_VALUE + VH_VALUE_MARGIN)));
    if (status == VH_OK)
        *out = r;
    else
        vh_result_free(r);
    return status;
}
