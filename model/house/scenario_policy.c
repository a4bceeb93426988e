/* What the grower does to a planting: leaves, picks, topping. */
#include "scenario_parts.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* A logistic fruit comes to its cap only in the limit: beyond this share of it a fruit would hang
 * on and on (model.md section 6). */
#define PICK_SHARE_OF_CAP 0.85

void vh_rhythm_check(struct vh_reading *r, const char *what, const struct vh_given *every_d,
                     const struct vh_given *days)
{
    if (every_d->at && days->at)
        vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_key(r, days->at),
                            "[%s] has `days` and, on line %lld, `every_d`; keep one of them", what,
                            (long long)every_d->at->line));
}

void vh_rhythm_fill(const struct vh_given *every_d, const struct vh_given *days, double otherwise_d,
                    struct vh_rhythm *rhythm)
{
    *rhythm = (struct vh_rhythm){.every_d = (int)floor(otherwise_d + 0.5)};
    if (every_d->good)
        rhythm->every_d = (int)every_d->number;
    if (rhythm->every_d < 1)
        rhythm->every_d = 1;
    if (!days->good)
        return;
    rhythm->by_weekday = true;
    for (size_t i = 0; i < days->at->value->items; i++) {
        const int weekday =
            vh_word_index("mon|tue|wed|thu|fri|sat|sun", days->at->value->item[i]->text);
        if (weekday >= 0)
            rhythm->weekday[weekday] = true;
    }
}

/* ---- leaves ---- */

static void fill_leaves(struct vh_reading *r, const struct vh_raw_leaves *raw,
                        const struct vh_param_set *rows, struct vh_planting *p)
{
    const struct vh_habit_params *habit = &p->crop->habit;
    struct vh_policy *policy = &p->policy;

    policy->leaves_down_to_picking = raw->down_to.good;
    policy->leaves_keep = raw->keep.good ? raw->keep.number : habit->leaves_kept;
    policy->leaves_most_per_visit =
        raw->most_per_visit.good ? raw->most_per_visit.number : habit->leaves_most;
    vh_rhythm_check(r, "planting.leaves", &raw->every_d, &raw->days);
    vh_rhythm_fill(&raw->every_d, &raw->days, habit->leaf_visit_d, &policy->leaf_visit);
    if (!raw->keep.at && !raw->down_to.at)
        vh_default_used(r, "planting.leaves.keep", p, rows, "habit.leaves_kept");
    if (!raw->most_per_visit.at)
        vh_default_used(r, "planting.leaves.most_per_visit", p, rows, "habit.leaves_most");
    if (!raw->every_d.at && !raw->days.at)
        vh_default_used(r, "planting.leaves.every_d", p, rows, "habit.leaf_visit_d");
    if (raw->keep.at && raw->down_to.at)
        vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_key(r, raw->down_to.at),
                            "[planting.leaves] has `down_to` and, on line %lld, `keep`; keep one of"
                            " them",
                            (long long)raw->keep.at->line));
    else if (raw->keep.good && raw->most_per_visit.good &&
             raw->most_per_visit.number > raw->keep.number)
        vh_spoil(r,
                 vh_fail(r->messages, VH_BAD_INPUT, vh_at_value(r, raw->most_per_visit.at->value),
                         "`most_per_visit` is more than the %g leaves to `keep` on line %lld; a"
                         " visit takes off a few",
                         raw->keep.number, (long long)raw->keep.at->line));
}

/* ---- picks ---- */

static void fill_stage(struct vh_reading *r, const struct vh_raw_pick *raw,
                       const struct vh_param_set *rows, struct vh_planting *p)
{
    const struct vh_colours *c = &r->parameters->colours;
    const double stage[] = {c->breaker, c->turning, c->pink, c->light_red, c->red};
    static const char *const colour_word[] = {"breaker", "turning", "pink", "light-red", "red"};
    static const char *const said[] = {"breaker", "turning", "pink", "light red", "red"};
    const struct vh_given *mass = raw->from_g.at      ? &raw->from_g
                                  : raw->largest_g.at ? &raw->largest_g
                                                      : &raw->last_from_g;
    const int colour = raw->stage.good ? raw->stage.word : p->crop->habit.pick_colour;

    p->policy.pick_stage = stage[colour];
    p->policy.has_last = raw->last_stage.good;
    p->policy.last_colour = raw->last_stage.good ? said[raw->last_stage.word] : NULL;
    p->policy.last_stage = raw->last_stage.good ? stage[raw->last_stage.word] : stage[colour];
    if (!raw->stage.at)
        vh_default_used(r, "planting.pick.stage", p, rows, "habit.pick_colour");
    if (raw->last_stage.good && raw->stage.good == (raw->stage.at != NULL) &&
        raw->last_stage.word > colour)
        vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_value(r, raw->last_stage.at->value),
                            "the last pick takes what others leave: `last_stage` cannot be riper"
                            " than the %s of `stage`%s",
                            colour_word[colour], raw->stage.at ? "" : ", the default"));
    if (mass->at)
        vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_key(r, mass->at),
                            "%s is picked by its colour; give `%s` instead of `%s`", p->crop_name,
                            mass == &raw->last_from_g ? "last_stage" : "stage", mass->at->key));
}

/* In the keys that she wrote, and their unit. */
static void tell_last_heavier(struct vh_reading *r, const struct vh_raw_pick *raw, double from_g)
{
    const struct vh_toml_entry *last = raw->last_from_g.at, *from = raw->from_g.at;
    const char *const lead = "the last pick takes what others leave:";
    struct vh_unit_pair unit = {1.0, 0.0};

    vh_units_match("last_from_g", last->key, false, &unit);
    if (from)
        vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_value(r, last->value),
                            "%s `%s` cannot be more than `%s` on line %lld", lead, last->key,
                            from->key, (long long)from->line));
    else
        vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_value(r, last->value),
                            "%s `%s` cannot be more than the %.4g %s that fruit is picked from by"
                            " default",
                            lead, last->key, from_g / unit.scale, strrchr(last->key, '_') + 1));
}

static void fill_mass(struct vh_reading *r, const struct vh_raw_pick *raw,
                      const struct vh_param_set *rows, struct vh_planting *p)
{
    struct vh_policy *policy = &p->policy;
    const double cap_g = p->crop->fruit.cap_g;
    const struct vh_given *told = raw->from_g.good ? &raw->from_g : &raw->largest_g;
    const struct vh_given *colour = raw->stage.at ? &raw->stage : &raw->last_stage;

    struct vh_unit_pair unit = {1.0, 0.0}; /* masses are told in the one she wrote */
    const char *in = told->at ? strrchr(told->at->key, '_') + 1 : "g";

    if (told->at)
        vh_units_match(told == &raw->from_g ? "from_g" : "largest_g", told->at->key, false, &unit);
    policy->has_last = raw->last_from_g.good;
    policy->last_from_g = raw->last_from_g.good ? raw->last_from_g.number : policy->pick_from_g;
    if (!raw->from_g.at)
        vh_default_used(r, "planting.pick.from_g", p, rows, "habit.pick_from_g");
    if (!raw->largest_g.at)
        vh_default_used(r, "planting.pick.largest_g", p, rows, "habit.largest_g");
    if (colour->at)
        vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_key(r, colour->at),
                            "%s is picked by its mass; give `%s` instead of `%s`", p->crop_name,
                            raw->stage.at ? "from_g" : "last_from_g", colour->at->key));
    if (raw->last_from_g.good && raw->from_g.good == (raw->from_g.at != NULL) &&
        policy->last_from_g > policy->pick_from_g)
        tell_last_heavier(r, raw, policy->pick_from_g);
    if (raw->whole_truss.good && raw->whole_truss.truth)
        vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_value(r, raw->whole_truss.at->value),
                            "%s is picked fruit by fruit; take `whole_truss` out", p->crop_name));
    if (raw->from_g.good && policy->pick_from_g > PICK_SHARE_OF_CAP * cap_g)
        vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_value(r, raw->from_g.at->value),
                            "fruit picked from %.6g %s would be more than %g of the %.6g %s at"
                            " which it stops growing (fruit.cap_g of %s); give at most %.6g %s",
                            policy->pick_from_g / unit.scale, in, PICK_SHARE_OF_CAP,
                            cap_g / unit.scale, in, p->crop_name,
                            PICK_SHARE_OF_CAP * cap_g / unit.scale, in));
    else if (told->good && policy->pick_from_g >= policy->largest_g)
        vh_spoil(r,
                 vh_fail(r->messages, VH_BAD_INPUT, vh_at_value(r, told->at->value),
                         "fruit is picked from %.6g %s on, but above %.6g %s (%s%s) it cannot be"
                         " sold; %s must be the smaller one",
                         policy->pick_from_g / unit.scale, in, policy->largest_g / unit.scale, in,
                         raw->largest_g.at ? raw->largest_g.at->key : "largest_g",
                         raw->largest_g.at ? "" : ", the default",
                         raw->from_g.at ? raw->from_g.at->key : "from_g"));
}

/* Fruit that is picked by its mass grows alike whatever is usual: the pick decides. */
static void doubt_usual(struct vh_reading *r, const struct vh_given *usual,
                        const struct vh_raw_pick *raw, const struct vh_planting *p)
{
    const struct vh_policy *policy = &p->policy;
    const bool us = r->scenario->house.us_units;
    const char *unit = us ? "oz" : "g";

    if (p->crop->fruit.pick_by != VH_PICK_BY_MASS || !usual->good || raw->from_g.at ||
        (usual->number >= policy->pick_from_g && usual->number <= policy->largest_g))
        return;
    vh_warn(r->messages, vh_at_value(r, usual->at->value),
            "%s is picked from %g %s on, whatever is usual; give from_%s in [planting.pick] for"
            " your variety",
            p->crop_name,
            us ? vh_round_digits(policy->pick_from_g / vh_g_per_oz, 3) : policy->pick_from_g, unit,
            unit);
}

static void fill_pick(struct vh_reading *r, const struct vh_raw_pick *raw,
                      const struct vh_param_set *rows, struct vh_planting *p)
{
    const struct vh_habit_params *habit = &p->crop->habit;
    struct vh_policy *policy = &p->policy;

    vh_rhythm_check(r, "planting.pick", &raw->every_d, &raw->days);
    vh_rhythm_fill(&raw->every_d, &raw->days, habit->pick_every_d, &policy->pick);
    if (!raw->every_d.at && !raw->days.at)
        vh_default_used(r, "planting.pick.every_d", p, rows, "habit.pick_every_d");
    policy->whole_truss = raw->whole_truss.good && raw->whole_truss.truth;
    policy->hold_c = raw->hold_c.good ? raw->hold_c.number : (double)NAN;
    policy->pick_stage = 1.0;
    policy->pick_from_g = raw->from_g.good ? raw->from_g.number : habit->pick_from_g;
    policy->largest_g = raw->largest_g.good ? raw->largest_g.number : habit->largest_g;
    if (p->crop->fruit.pick_by == VH_PICK_BY_MASS)
        fill_mass(r, raw, rows, p);
    else
        fill_stage(r, raw, rows, p);
}

/* ---- the rest ---- */

static void fill_top(struct vh_reading *r, const struct vh_raw_planting *raw, struct vh_planting *p)
{
    const struct vh_given *on = &raw->top.on;

    p->policy.has_top = on->good;
    p->policy.top_on = on->day;
    vh_date_in_season(r, on, p);
}

void vh_scenario_fill_policy(struct vh_reading *r, const struct vh_raw_planting *raw,
                             const struct vh_crop_file *crop, struct vh_planting *p)
{
    const struct vh_param_set *rows = vh_scenario_crop_rows(r->scenario, crop);

    vh_scenario_fill_heads(r, raw, rows, p);
    vh_scenario_fill_fruits(r, raw, crop, p);
    fill_leaves(r, &raw->leaves, rows, p);
    vh_scenario_fill_pollination(r, &raw->pollination, rows, p);
    fill_top(r, raw, p);
    fill_pick(r, &raw->pick, rows, p);
    doubt_usual(r, &raw->usual_fruit_g, &raw->pick, p);
    vh_scenario_fill_visits(r, raw, rows, p);
    vh_scenario_fill_lower(r, &raw->lower, rows, p);
}
