/* Visits for suckers, clips and label locks of a planting; [labour] and [stock]. */
#include "scenario_parts.h"

#include <string.h>

#include "vh_math.h"

static void fill_sprays(struct vh_reading *r, const struct vh_raw_planting *raw,
                        struct vh_planting *p)
{
    const size_t n = vh_keys_items(&raw->spray);
    struct vh_policy *policy = &p->policy;

    policy->spray = vh_reading_room(r, n, sizeof *policy->spray);
    for (size_t i = 0; policy->spray && i < n; i++) {
        struct vh_raw_spray one = {0};
        vh_keys_read_item(r, &vh_spray_keys, &raw->spray, i, &one);
        if (!one.no_entry_h.at && !one.no_pick_d.at)
            vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_table(r, one.table),
                                "[[planting.spray]] bars nothing; add what your label says:"
                                " no_entry_h, no_pick_d or both"));
        if (!one.on.good || !vh_date_in_season(r, &one.on, p))
            continue;
        policy->spray[policy->sprays++] =
            (struct vh_spray){.on = one.on.day,
                              .no_entry_h = one.no_entry_h.good ? one.no_entry_h.number : 0.0,
                              .no_pick_d = one.no_pick_d.good ? one.no_pick_d.number : 0.0};
    }
}

void vh_scenario_fill_visits(struct vh_reading *r, const struct vh_raw_planting *raw,
                             const struct vh_param_set *rows, struct vh_planting *p)
{
    const struct vh_raw_suckers *suckers = &raw->suckers;
    const struct vh_habit_params *habit = &p->crop->habit;
    struct vh_policy *policy = &p->policy;

    vh_rhythm_check(r, "planting.suckers", &suckers->every_d, &suckers->days);
    vh_rhythm_fill(&suckers->every_d, &suckers->days, habit->sucker_visit_d,
                   &policy->suckers.visit);
    policy->suckers.overlooked =
        suckers->overlooked.good ? suckers->overlooked.number : habit->suckers_overlooked;
    const bool none = p->crop->sucker.start_g <= 0.0;
    const struct vh_given *told = suckers->every_d.at ? &suckers->every_d : &suckers->days;
    if (none && told->at)
        vh_warn(r->messages, vh_at_key(r, told->at),
                "%s is reckoned without suckers; these visits change nothing", p->crop_name);
    if (!none && !told->at)
        vh_default_used(r, "planting.suckers.every_d", p, rows, "habit.sucker_visit_d");
    if (!none && !suckers->overlooked.at)
        vh_default_used(r, "planting.suckers.overlooked", p, rows, "habit.suckers_overlooked");
    policy->clips.every_cm =
        raw->clips.every_cm.good ? raw->clips.every_cm.number : r->parameters->work.clip_every_cm;
    policy->clips.reuse = raw->clips.reuse.good && raw->clips.reuse.truth;
    if (!raw->clips.every_cm.at)
        vh_default_used(r, "planting.clips.every_cm", p, &r->parameters->work_rows,
                        "work.clip_every_cm");
    policy->free_by_h = r->parameters->work.free_by_h;
    policy->missed_d = r->parameters->work.missed_d;
    policy->recover_leaves_most = r->parameters->work.recover_leaves_most;
    policy->idle_d = r->parameters->work.idle_d;
    fill_sprays(r, raw, p);
}

/* ---- hours and stock ---- */

static const char *nearest_task(const char *name)
{
    const char *best = NULL;
    size_t least = vh_near_enough(name) + 1;

    for (int t = 0; t < VH_TASKS; t++) {
        const size_t d = vh_key_distance(name, vh_task_name((enum vh_task)t), least);
        if (d < least) {
            least = d;
            best = vh_task_name((enum vh_task)t);
        }
    }
    return best;
}

static void fill_seconds(struct vh_reading *r, const struct vh_given *given,
                         struct vh_labour *labour)
{
    char shown[VH_SHOWN_MOST + 4];

    for (const struct vh_toml_entry *entry = given->good ? given->at->value->first : NULL; entry;
         entry = entry->next) {
        const int task = vh_task_of_name(entry->key);
        const char *near = nearest_task(entry->key);
        if (task >= 0)
            labour->seconds[task] = entry->value->number;
        else if (near)
            vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_key(r, entry),
                                "there is no task `%s`; did you mean `%s`?",
                                vh_shown(entry->key, shown), near));
        else
            vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_key(r, entry),
                                "there is no task `%s`; known are pollinate, sucker, clip, thin, "
                                "support, leaf, lower, pick, top, string, plant, pull_out, clean "
                                "and walk",
                                vh_shown(entry->key, shown)));
    }
}

static double given_or(const struct vh_given *given, double otherwise)
{
    return given->good ? given->number : otherwise;
}

static void fill_labour(struct vh_reading *r, struct vh_labour *labour)
{
    const struct vh_raw_labour *raw = &r->root.labour;
    const size_t n = vh_keys_items(&raw->other_work);

    labour->per_h = given_or(&raw->per_h, VH_UNKNOWN);
    labour->hours_per_week = given_or(&raw->hours_per_week, VH_UNKNOWN);
    for (int t = 0; t < VH_TASKS; t++)
        labour->seconds[t] = VH_UNKNOWN;
    fill_seconds(r, &raw->seconds, labour);
    labour->other = vh_reading_room(r, n, sizeof *labour->other);
    for (size_t i = 0; labour->other && i < n; i++) {
        struct vh_raw_other_work one = {0};
        vh_keys_read_item(r, &vh_other_work_keys, &raw->other_work, i, &one);
        if (!one.what.good)
            continue;
        struct vh_other_work *to = &labour->other[labour->others++];
        to->what = vh_reading_copy(r, one.what.text);
        to->hours_per_week = given_or(&one.hours_per_week, 0.0);
    }
}

void vh_scenario_fill_work(struct vh_reading *r)
{
    const struct vh_raw_stock *raw = &r->root.stock;
    struct vh_stock *stock = &r->scenario->house.stock;

    fill_labour(r, &r->scenario->house.labour);
    stock->have[VH_SUPPLY_CLIPS] = given_or(&raw->clips, VH_UNKNOWN);
    stock->have[VH_SUPPLY_STRING] = given_or(&raw->string_m, VH_UNKNOWN);
    stock->have[VH_SUPPLY_HOOKS] = given_or(&raw->hooks, VH_UNKNOWN);
    stock->have[VH_SUPPLY_SUPPORTS] = given_or(&raw->truss_supports, VH_UNKNOWN);
    stock->delivery_d = given_or(&raw->delivery_d, r->parameters->work.delivery_d);
    stock->cost_each[VH_SUPPLY_CLIPS] = given_or(&raw->cost.clip, VH_UNKNOWN);
    stock->cost_each[VH_SUPPLY_STRING] = given_or(&raw->cost.string_per_m, VH_UNKNOWN);
    stock->cost_each[VH_SUPPLY_HOOKS] = given_or(&raw->cost.hook, VH_UNKNOWN);
    stock->cost_each[VH_SUPPLY_SUPPORTS] = given_or(&raw->cost.truss_support, VH_UNKNOWN);
    stock->cost_plant = given_or(&raw->cost.plant, VH_UNKNOWN);
    if (raw->table && !raw->delivery_d.at)
        vh_default_used(r, "stock.delivery_d", NULL, &r->parameters->work_rows, "work.delivery_d");
}
