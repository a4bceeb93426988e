/* Does topping pay? What is proposed by the trusses that still ripen is tried in the futures. */
#include <stdio.h>
#include <string.h>

#include "vh_compare.h"
#include "vh_date.h"
#include "vh_math.h"
#include "vh_result.h"
#include "waiting_parts.h"

enum { NOTE = 300 };

struct trying {
    struct vh_compare_request q;
    struct vh_parts plan;
};

/* The best of the days to top a planting. */
struct best {
    int64_t day;
    double gain; /* mean of the futures; 0: no such day */
};

/* A planting with a day of its own has no proposal; one for a day far off waits. */
static size_t proposed_for(const struct vh_scenario *s, const struct vh_table *t, size_t row)
{
    const struct vh_house *h = &s->house;

    const double day = vh_cell_number(t, row, "date");

    if (strcmp(vh_cell_text(t, row, "task"), vh_task_name(VH_TASK_TOP)) != 0 ||
        !(day >= (double)h->today && day <= (double)h->today + s->parameters->work.top_near_d))
        return h->plantings;
    for (size_t k = 0; k < h->plantings; k++)
        if (strcmp(h->planting[k].name, vh_cell_text(t, row, "planting")) == 0)
            return h->planting[k].policy.has_top ? h->plantings : k;
    return h->plantings;
}

/* What a day's topping brings in the first `members` futures. */
static enum vh_status try_day(const struct trying *w, size_t k, int64_t day, size_t members,
                              struct vh_verdict *v, struct vh_messages *m)
{
    struct vh_compare_request q = w->q;
    struct vh_parts plan = w->plan, parts; /* member after member: the first ones alone */
    struct vh_choice choice = {0};

    q.members = plan.members = members;
    choice.has[VH_LEVER_TOP] = true;
    choice.value[VH_LEVER_TOP] = (double)day;
    enum vh_status status = vh_parts_of_choice(&q, &choice, k, &plan, &parts, m);
    if (status != VH_OK)
        return status;
    status = vh_verdict_of(&q, &choice, &plan, &parts, k, v);
    vh_parts_clear(&parts);
    return status;
}

/* Few futures find the day: each differs from its own plan, so its mean wins little by more. All of
 * them say whether that day is sure enough: what plants may do beyond the model
 * (futures.choice_cv) is the same for each day, so the day that pays most is the surest too. */
static enum vh_status find_best(const struct trying *w, size_t k, int64_t first, struct best *best,
                                struct vh_messages *m)
{
    const struct vh_work_params *book = &w->q.scenario->parameters->work;
    const enum vh_choice_value decides =
        vh_margin_is_known(&w->plan, k) ? VH_VALUE_MARGIN : VH_VALUE_MARKET_KG;
    const size_t few = (size_t)vh_min(book->top_futures_first, (double)w->q.members);
    struct vh_verdict v = {0};
    enum vh_status status = VH_OK;

    *best = (struct best){.day = first};
    for (int i = 0; i < (int)book->top_days_tried && status == VH_OK; i++) {
        const int64_t day = first + i * (int64_t)book->top_step_d;
        if (day >= w->q.scenario->house.planting[k].pull_out)
            break;
        status = try_day(w, k, day, few, &v, m);
        if (status == VH_OK && v.diff[decides].mean > best->gain)
            *best = (struct best){day, v.diff[decides].mean};
    }
    if (status == VH_OK && best->gain > 0.0)
        status = try_day(w, k, best->day, w->q.members, &v, m);
    if (status == VH_OK && (v.better_chance < book->top_sure || !(v.diff[decides].mean > 0.0)))
        best->gain = 0.0;
    return status;
}

/* From the day that the trusses would have it, a week later each time; where none is sure enough to
 * pay the row loses its date. */
static enum vh_status judge(const struct trying *w, struct vh_table *t, size_t row, size_t k,
                            struct vh_messages *m)
{
    const int64_t first = (int64_t)vh_cell_number(t, row, "date");
    const size_t date = (size_t)vh_table_find(t, "date"), note = (size_t)vh_table_find(t, "note");
    struct best best;
    const enum vh_status status = find_best(w, k, first, &best, m);
    char text[NOTE], iso[11];

    if (status != VH_OK)
        return status;
    if (!(best.gain > 0.0)) {
        vh_table_put_number(t, row, date, VH_UNKNOWN);
        return VH_OK;
    }
    vh_date_format(first, iso);
    snprintf(text, sizeof text,
             "%s; %s%s%sof the days tried it pays most, and is sure enough to",
             vh_cell_text(t, row, "note"), best.day > first ? "to end there the tips go on " : "",
             best.day > first ? iso : "", best.day > first ? ", but " : "");
    vh_table_put_number(t, row, date, (double)best.day);
    return vh_table_put_text(t, row, note, text);
}

static bool has_date(const struct vh_table *t, size_t row)
{
    return !isnan(vh_cell_number(t, row, "date"));
}

enum vh_status vh_topping_judge(const struct vh_scenario *s, struct vh_result *r,
                                struct vh_messages *m)
{
    const size_t asked = (size_t)s->options.members,
                 most = (size_t)s->parameters->work.top_futures;
    struct vh_table *t = r->table[VH_TABLE_TASKS];
    struct trying w = {.q = {.scenario = s,
                             .members = asked < most ? asked : most,
                             .draw = s->options.draw,
                             .threads = s->options.threads,
                             .mean_run = asked == 1}};
    enum vh_status status = VH_OK;

    for (size_t i = 0; i < vh_table_rows(t) && status == VH_OK; i++) {
        const size_t k = proposed_for(s, t, i);
        if (k >= s->house.plantings)
            continue;
        if (!w.plan.part)
            status = vh_parts_of_plan(&w.q, &w.plan, m);
        if (status == VH_OK)
            status = judge(&w, t, i, k, m);
    }
    const bool any = w.plan.part != NULL;
    vh_parts_clear(&w.plan);
    if (status != VH_OK || !any)
        return status;
    vh_table_keep_rows(t, has_date);
    return vh_result_in_date_order(r);
}
