/* [[planting]]: one crop, one set-out, so many plants. */
#include "scenario_parts.h"
#include "vh_due.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define CM2_PER_M2 1e4
#define LIST_BYTES 400

/* ---- crop ---- */

/* "cucumber" and "cucumbers" are of the kind of cucumber-long. */
static bool is_of_kind(const char *crop, const char *name)
{
    const size_t n = strcspn(crop, "-");

    return !name || (n > 0 && strncmp(crop, name, n) == 0);
}

/* "a, b and c": the crops of the kind of `name`, all where it is NULL; `last` stands before the
 * last. How many there are. */
static size_t known_crops(const struct vh_parameters *p, const char *name, const char *last,
                          char list[LIST_BYTES])
{
    size_t used = 0, all = 0, n = 0;

    list[0] = '\0';
    for (size_t i = 0; i < p->crops; i++)
        all += is_of_kind(p->crop[i].name, name);
    for (size_t i = 0; i < p->crops; i++) {
        if (!is_of_kind(p->crop[i].name, name))
            continue;
        const char *between = n == 0 ? "" : n + 1 < all ? ", " : last;
        n++;
        const int wrote =
            snprintf(list + used, LIST_BYTES - used, "%s%s", between, p->crop[i].name);
        if (wrote < 0 || (size_t)wrote >= LIST_BYTES - used)
            return all;
        used += (size_t)wrote;
    }
    return all;
}

static const char *nearest_crop(const struct vh_parameters *p, const char *name)
{
    const size_t enough = vh_near_enough(name);
    const char *best = NULL;
    size_t least = enough + 1;

    for (size_t i = 0; i < p->crops; i++) {
        const size_t d = vh_key_distance(p->crop[i].name, name, enough);
        if (d < least) {
            least = d;
            best = p->crop[i].name;
        }
    }
    return best;
}

/* "crops/tomato-large.csv" is a path; so is what begins with a point. */
static bool looks_like_path(const char *name)
{
    const size_t n = strlen(name);

    return strpbrk(name, "/\\:") || name[0] == '.' || (n > 4 && strcmp(name + n - 4, ".csv") == 0);
}

const struct vh_crop_file *vh_scenario_find_crop(struct vh_reading *r, const struct vh_given *crop)
{
    const struct vh_crop_file *found =
        looks_like_path(crop->text) ? NULL : vh_parameters_crop(r->parameters, crop->text);
    const struct vh_place place = vh_at_value(r, crop->at->value);
    char shown[VH_SHOWN_MOST + 4], list[LIST_BYTES], kinds[LIST_BYTES], kind[LIST_BYTES];

    if (found)
        return found;
    vh_shown(crop->text, shown);
    (void)known_crops(r->parameters, NULL, " and ", list);
    vh_parameters_crop_word(crop->text, kind, sizeof kind);
    const char *near = nearest_crop(r->parameters, crop->text);
    if (looks_like_path(crop->text))
        vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, place,
                            "\"%s\" is a path; write a crop's name, not a path: %s", shown, list));
    else if (near)
        vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, place,
                            "unknown crop \"%s\"; did you mean \"%s\"?", shown, near));
    else if (known_crops(r->parameters, kind, " or ", kinds) > 0)
        vh_spoil(r,
                 vh_fail(r->messages, VH_BAD_INPUT, place,
                         "unknown crop \"%s\"; did you mean %s? Known are %s", shown, kinds, list));
    else
        vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, place, "unknown crop \"%s\"; known are %s",
                            shown, list));
    return NULL;
}

/* ---- dates ---- */

bool vh_dates_in_order(struct vh_reading *r, const struct vh_given *before,
                       const struct vh_given *after, bool may_be_equal)
{
    if (!before->good || !after->good || before->day < after->day ||
        (may_be_equal && before->day == after->day))
        return true;
    char text[11];
    vh_date_format(before->day, text);
    vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_value(r, after->at->value),
                        "`%s` is %s `%s`, %s on line %lld; it must come after it", after->at->key,
                        before->day == after->day ? "the same day as" : "before", before->at->key,
                        text, (long long)before->at->line));
    return false;
}

bool vh_planting_is_dated(const struct vh_planting *p)
{
    return p->set_out != INT64_MIN && p->pull_out > p->set_out;
}

bool vh_date_in_season(struct vh_reading *r, const struct vh_given *date,
                       const struct vh_planting *p)
{
    char first[11], last[11], text[11];

    if (!date->good || !vh_planting_is_dated(p) ||
        ((date->day >= p->set_out || p->standing.given) && date->day <= p->pull_out))
        return true; /* what was done to a standing crop before it is seen is no mistake */
    vh_date_format(date->day, text);
    vh_date_format(p->set_out, first);
    vh_date_format(p->pull_out, last);
    vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_value(r, date->at->value),
                        "`%s` is %s, but the planting stands in the house from %s to %s; give a day"
                        " between",
                        date->at->key, text, first, last));
    return false;
}

static void check_season(struct vh_reading *r, const struct vh_raw_planting *raw,
                         struct vh_planting *p)
{
    const struct vh_given *first = raw->set_out.good ? &raw->set_out : &raw->sow;
    const struct vh_given *last = raw->pull_out.good ? &raw->pull_out : first;
    bool in_order = vh_dates_in_order(r, &raw->sow, &raw->set_out, false);

    in_order = vh_dates_in_order(r, &raw->set_out, &raw->pull_out, false) && in_order;
    if (!raw->set_out.good && raw->sow.good)
        in_order = vh_dates_in_order(r, &raw->sow, &raw->pull_out, false) && in_order;
    if (!in_order || !last->good)
        return;
    if (p->pull_out <= p->set_out)
        vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_value(r, last->at->value),
                            "the plants are pulled out before they stand in the house: sown, they"
                            " are set out %g days later; give a later pull_out",
                            p->crop ? p->crop->habit.nursery_d : 0.0));
    else if (p->pull_out - p->set_out > VH_SEASON_D_MOST)
        vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_value(r, last->at->value),
                            "the planting would stand for %lld days; at most %d (three years) are"
                            " reckoned",
                            (long long)(p->pull_out - p->set_out), VH_SEASON_D_MOST));
    else
        vh_date_in_season(r, &raw->first_flower, p);
}

/* A crop that stands already begins on the day it is seen; when it was set out no longer matters.
 */
static void fill_standing_dates(struct vh_reading *r, const struct vh_raw_planting *raw,
                                struct vh_planting *p)
{
    const struct vh_given *on = &raw->standing.on;
    const double season = p->crop ? p->crop->habit.standing_season_d : 0.0;

    if (!on->good)
        return;
    p->set_out = on->day;
    p->pull_out = raw->pull_out.good ? raw->pull_out.day : on->day + (int64_t)season;
    p->policy.last_on = p->pull_out;
    if (raw->set_out.good && raw->set_out.day > on->day)
        vh_dates_in_order(r, &raw->set_out, on, true);
    vh_scenario_fill_standing(r, &raw->standing, p);
    if (!vh_dates_in_order(r, on, &raw->pull_out, false))
        return;
    if (on->day > r->scenario->options.today)
        vh_warn(r->messages, vh_at_value(r, on->at->value),
                "the plants cannot have been seen on a day after today; give the day on which"
                " they were");
    if (p->pull_out - p->set_out > VH_SEASON_D_MOST)
        vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_value(r, raw->pull_out.at->value),
                            "the planting would stand for %lld days; at most %d (three years) are"
                            " reckoned",
                            (long long)(p->pull_out - p->set_out), VH_SEASON_D_MOST));
}

static void fill_dates(struct vh_reading *r, const struct vh_raw_planting *raw,
                       const struct vh_crop_file *file, struct vh_planting *p)
{
    const struct vh_param_set *rows = file ? vh_scenario_crop_rows(r->scenario, file) : NULL;
    const int64_t nursery = p->crop ? (int64_t)p->crop->habit.nursery_d : 0;
    const int64_t season = (int64_t)r->scenario->house_params.default_season_d;

    p->set_out = p->pull_out = INT64_MIN;
    if (raw->standing.table) {
        fill_standing_dates(r, raw, p);
        return;
    }
    if (!raw->set_out.at && !raw->sow.at) {
        vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_table(r, raw->table),
                            "[[planting]] has no `set_out` (transplanting); add it, as in set_out ="
                            " 2026-02-20, or give `sow`"));
        return;
    }
    if (raw->set_out.at ? !raw->set_out.good : !raw->sow.good)
        return;
    p->set_out = raw->set_out.good ? raw->set_out.day : raw->sow.day + nursery;
    p->pull_out = raw->pull_out.good ? raw->pull_out.day : p->set_out + season;
    p->policy.last_on = p->pull_out;
    p->has_first_flower = raw->first_flower.good;
    p->first_flower = raw->first_flower.day;
    if (raw->first_flower.good)
        p->first_flower_place = vh_at_value(r, raw->first_flower.at->value);
    if (!raw->set_out.at && rows)
        vh_default_used(r, "planting.set_out after sow", p, rows, "habit.nursery_d");
    if (!raw->pull_out.at)
        vh_default_used(r, "planting.pull_out after set_out", p, &r->scenario->house_rows,
                        "house.default_season_d");
    check_season(r, raw, p);
}

/* ---- density ---- */

static void fill_density(struct vh_reading *r, const struct vh_raw_planting *raw,
                         struct vh_planting *p)
{
    const struct vh_key *key = NULL;

    for (size_t i = 0; i < vh_planting_keys.keys; i++) {
        if (strcmp(vh_planting_keys.key[i].name, "plants_per_m2") == 0)
            key = &vh_planting_keys.key[i];
    }
    p->plants_apart_cm = raw->plants_apart_cm.good ? raw->plants_apart_cm.number : (double)NAN;
    p->plants_per_m2 = raw->plants_per_m2.good ? raw->plants_per_m2.number : (double)NAN;
    if (raw->plants_per_m2.at && raw->rows_apart_cm.at) {
        vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_key(r, raw->rows_apart_cm.at),
                            "`%s` and `%s` on line %lld say the same; keep one of them",
                            raw->rows_apart_cm.at->key, raw->plants_per_m2.at->key,
                            (long long)raw->plants_per_m2.at->line));
    } else if (!raw->plants_per_m2.at && !raw->rows_apart_cm.at) {
        vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_table(r, raw->table),
                            "[[planting]] has no density; add plants_per_m2, as in plants_per_m2 ="
                            " 2.5, or rows_apart_cm and plants_apart_cm"));
    } else if (raw->rows_apart_cm.at && !raw->plants_apart_cm.at) {
        vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_key(r, raw->rows_apart_cm.at),
                            "`%s` needs the distance in the row too; add plants_apart_cm",
                            raw->rows_apart_cm.at->key));
    } else if (raw->rows_apart_cm.good && raw->plants_apart_cm.good) {
        p->plants_per_m2 = CM2_PER_M2 / (raw->rows_apart_cm.number * raw->plants_apart_cm.number);
        if (key && !(p->plants_per_m2 >= key->low && p->plants_per_m2 <= key->high))
            vh_spoil(
                r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_value(r, raw->rows_apart_cm.at->value),
                           "these distances give %.3g plants per m2; it must lie between %g and"
                           " %g",
                           p->plants_per_m2, key->low, key->high));
    }
}

/* ---- one planting ---- */

static double number_or(struct vh_reading *r, const struct vh_given *g, const char *key,
                        const struct vh_planting *p, const struct vh_param_set *rows,
                        const char *row, double otherwise)
{
    if (g->good)
        return g->number;
    if (!g->at && rows)
        vh_default_used(r, key, p, rows, row);
    return otherwise;
}

static void fill_planting(struct vh_reading *r, const struct vh_raw_planting *raw,
                          struct vh_planting *p)
{
    const struct vh_crop_file *file = raw->crop.good ? vh_scenario_find_crop(r, &raw->crop) : NULL;
    const struct vh_param_set *rows = file ? vh_scenario_crop_rows(r->scenario, file) : NULL;

    p->place = vh_at_table(r, raw->table);
    p->name = vh_reading_copy(r, raw->name.good ? raw->name.text : "");
    p->crop_name = vh_reading_copy(r, file ? file->name : "");
    p->crop = file ? vh_scenario_crop(r->scenario, file) : NULL;
    p->plants = raw->plants.good ? raw->plants.number : 1.0;
    p->heads_per_plant = raw->heads_per_plant.good ? raw->heads_per_plant.number : 1.0;
    if (!raw->heads_per_plant.at)
        vh_default_word_used(r, "planting.heads_per_plant", p, "1", "common practice");
    fill_density(r, raw, p);
    fill_dates(r, raw, file, p);
    if (!p->crop)
        return;
    const struct vh_habit_params *habit = &p->crop->habit;
    p->seedling_leaves = number_or(r, &raw->seedling_leaves, "planting.seedling_leaves", p, rows,
                                   "habit.seedling_leaves", habit->seedling_leaves);
    p->usual_fruit_g = number_or(r, &raw->usual_fruit_g, "planting.usual_fruit_g", p, rows,
                                 "habit.usual_fruit_g", habit->usual_fruit_g);
    p->feed_ec_ms_cm = number_or(r, &raw->feed_ec_ms_cm, "planting.feed_ec_ms_cm", p, rows,
                                 "habit.feed_ec_ms_cm", habit->feed_ec_ms_cm);
    vh_scenario_fill_policy(r, raw, file, p);
    if (p->standing.given) {
        p->heads_per_plant = vh_policy_heads(&p->policy, p->heads_per_plant, p->set_out);
        if (p->policy.has_top && p->policy.top_on < p->set_out)
            p->policy.top_on = p->set_out;
    }
}

void vh_scenario_fill_plantings(struct vh_reading *r)
{
    struct vh_house *h = &r->scenario->house;
    const struct vh_given *given = &r->root.planting;
    const size_t n = vh_keys_items(given);
    struct vh_raw_planting *raw = vh_reading_room(r, n, sizeof *raw);

    h->planting = vh_reading_room(r, n, sizeof *h->planting);
    for (size_t i = 0; raw && h->planting && i < n; i++) {
        h->plantings = i + 1;
        vh_keys_read_item(r, &vh_planting_keys, given, i, &raw[i]);
        fill_planting(r, &raw[i], &h->planting[i]);
    }
    if (raw && h->planting)
        vh_scenario_check_plantings(r, raw);
    free(raw);
}
