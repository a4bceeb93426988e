/* How many flowers a truss has and fruits it keeps, and when a plant gets more heads. */
#include "scenario_parts.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "vh_number.h"

#define TRUSS_MOST 999 /* no stem makes more in three years */

/* ---- heads ---- */

static void put_in_date_order(struct vh_policy *policy, struct vh_head_change change)
{
    size_t at = policy->head_changes++;

    for (; at > 0 && policy->heads[at - 1].from > change.from; at--)
        policy->heads[at] = policy->heads[at - 1];
    policy->heads[at] = change;
}

/* Days of trusses that new stems carry; a side shoot is let grow some weeks before its first. */
static double stem_age_d(struct vh_reading *r, const struct vh_raw_extra_head *one,
                         const struct vh_param_set *rows, const struct vh_planting *p)
{
    const struct vh_param_row *row = vh_param_find(rows, "habit.shoot_flowers_d");
    char text[VH_SHOWN_MOST];

    if (one->new_stem_age_d.good)
        return one->new_stem_age_d.number;
    snprintf(text, sizeof text, "%g", -p->crop->habit.shoot_flowers_d);
    if (row && one->heads_per_plant.number > p->heads_per_plant)
        vh_default_row_used(r, "planting.extra_head.new_stem_age_d", p, row, text);
    return -p->crop->habit.shoot_flowers_d;
}

void vh_scenario_fill_heads(struct vh_reading *r, const struct vh_raw_planting *raw,
                            const struct vh_param_set *rows, struct vh_planting *p)
{
    const size_t n = vh_keys_items(&raw->extra_head);
    struct vh_policy *policy = &p->policy;

    policy->heads = vh_reading_room(r, n, sizeof *policy->heads);
    for (size_t i = 0; policy->heads && i < n; i++) {
        struct vh_raw_extra_head one = {0};
        vh_keys_read_item(r, &vh_extra_head_keys, &raw->extra_head, i, &one);
        if (!one.from.good || !one.heads_per_plant.good)
            continue;
        bool good = vh_date_in_season(r, &one.from, p);
        for (size_t k = 0; good && k < policy->head_changes; k++) {
            if (policy->heads[k].from != one.from.day)
                continue;
            vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_value(r, one.from.at->value),
                                "another [[planting.extra_head]] of this planting has the same"
                                " date; keep one of them"));
            good = false;
        }
        if (good)
            put_in_date_order(policy, (struct vh_head_change){
                                          .from = one.from.day,
                                          .heads_per_plant = one.heads_per_plant.number,
                                          .new_stem_age_d = stem_age_d(r, &one, rows, p),
                                      });
    }
}

/* ---- fruits ---- */

/* A whole number of 1 to TRUSS_MOST that fills n bytes. */
static bool truss_number(const char *text, size_t n, int *truss)
{
    double value;

    if (n == 0 || strspn(text, "0123456789") < n || !vh_number_parse(text, n, '.', &value) ||
        value < 1.0 || value > TRUSS_MOST)
        return false;
    *truss = (int)value;
    return true;
}

/* "1-2", "3-" (last 0: no end), "5" */
static bool read_trusses(const char *text, int *first, int *last)
{
    const char *dash = strchr(text, '-');
    const size_t n = dash ? (size_t)(dash - text) : strlen(text);

    *last = 0;
    if (!truss_number(text, n, first))
        return false;
    if (!dash)
        *last = *first;
    else if (dash[1] && (!truss_number(dash + 1, strlen(dash + 1), last) || *last < *first))
        return false;
    return true;
}

static bool read_rule(struct vh_reading *r, const struct vh_given *given, size_t i,
                      const struct vh_planting *p, struct vh_fruits_rule *rule, bool *has_trusses)
{
    static const enum vh_thin_stage stage[] = {VH_THIN_BUD, VH_THIN_PEA, VH_THIN_MARBLE};
    struct vh_raw_fruits_kept raw = {0};
    char shown[VH_SHOWN_MOST + 4];

    vh_keys_read_item(r, &vh_fruits_kept_keys, given, i, &raw);
    *rule = (struct vh_fruits_rule){
        .first_truss = 1,
        .fruits = raw.fruits.number,
        .at = stage[raw.at.good ? raw.at.word : p->crop->habit.thin_at],
        .from = raw.from.good ? raw.from.day : INT64_MIN,
        .until = raw.until.good ? raw.until.day : INT64_MAX,
    };
    *has_trusses = raw.trusses.at != NULL;
    vh_dates_in_order(r, &raw.from, &raw.until, true);
    if (raw.trusses.good &&
        !read_trusses(raw.trusses.text, &rule->first_truss, &rule->last_truss)) {
        vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_value(r, raw.trusses.at->value),
                            "\"%s\" names no trusses; write \"5\", \"1-2\", or \"3-\" for the third"
                            " and all later ones",
                            vh_shown(raw.trusses.text, shown)));
        return false;
    }
    return raw.fruits.good;
}

/* Has a row of the scenario replaced this one of the crop? */
static bool is_stated(const struct vh_param_set *rows, const struct vh_param_set *usual,
                      const char *name)
{
    const struct vh_param_row *own = vh_param_find(rows, name), *was = vh_param_find(usual, name);

    return own && was && strcmp(own->file, was->file) != 0;
}

/* A number of flowers or fruits as it goes with the fruit mass of the variety: a row of the
 * scenario holds as it stands. key: told among the defaults; NULL: the scenario says it. */
static double of_variety(struct vh_reading *r, const struct vh_crop_file *crop, const char *name,
                         double of_type, const char *key, const struct vh_planting *p)
{
    const struct vh_param_set *rows = vh_scenario_crop_rows(r->scenario, crop);
    const struct vh_param_row *row = vh_param_find(rows, name);
    const double mass_share = p->usual_fruit_g / p->crop->habit.usual_fruit_g;
    const double many =
        is_stated(rows, &crop->rows, name) ? 1.0 : vh_flower_many(&p->crop->flower, mass_share);
    char text[VH_SHOWN_MOST];

    snprintf(text, sizeof text, "%.3g", of_type * many);
    if (key && row)
        vh_default_row_used(r, key, p, row, many < 1.0 || many > 1.0 ? text : row->value_text);
    return of_type * many;
}

/* The habit of the crop holds wherever no rule of the scenario says otherwise. Its stripped nodes
 * stay stripped unless a rule names one of them; a rule without trusses begins above them. */
void vh_scenario_fill_fruits(struct vh_reading *r, const struct vh_raw_planting *raw,
                             const struct vh_crop_file *crop, struct vh_planting *p)
{
    const struct vh_habit_params *habit = &p->crop->habit;
    const char *key = raw->fruits_kept.at ? NULL : "planting.fruits_kept.fruits";
    const double kept = of_variety(r, crop, "habit.fruits_kept", habit->fruits_kept, key, p);
    static const enum vh_thin_stage stage[] = {VH_THIN_BUD, VH_THIN_PEA, VH_THIN_MARBLE};
    const int stripped = (int)floor(habit->stripped_nodes + 0.5);
    const size_t n = vh_keys_items(&raw->fruits_kept), defaults = 2;
    struct vh_fruits_rule *rule = vh_reading_room(r, n + defaults, sizeof *rule);
    bool *has_trusses = vh_reading_room(r, n, sizeof *has_trusses), names_stripped = false;
    size_t rules = defaults;

    p->flowers = of_variety(r, crop, "flower.flowers", p->crop->flower.flowers, NULL, p);
    for (size_t i = 0; rule && has_trusses && i < n; i++) {
        if (!read_rule(r, &raw->fruits_kept, i, p, &rule[rules], &has_trusses[rules - defaults]))
            continue;
        if (has_trusses[rules - defaults] && rule[rules].first_truss <= stripped)
            names_stripped = true;
        rules++;
    }
    p->policy.fruits = rule;
    if (rule && has_trusses) {
        rule[0] = (struct vh_fruits_rule){1, 0, kept, stage[habit->thin_at], INT64_MIN, INT64_MAX};
        rule[1] = (struct vh_fruits_rule){1, stripped, 0.0, VH_THIN_BUD, INT64_MIN, INT64_MAX};
        if (stripped < 1 || names_stripped) {
            rules--;
            memmove(&rule[1], &rule[2], (rules - 1) * sizeof *rule);
        } else {
            for (size_t i = defaults; i < rules; i++) {
                if (!has_trusses[i - defaults])
                    rule[i].first_truss = stripped + 1;
            }
        }
        p->policy.fruits_rules = rules;
    }
    free(has_trusses);
}
