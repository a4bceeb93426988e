/* Warnings of the work: locks, silence, hours, supplies. */
#include "vh_result.h"

#include <stdio.h>
#include <string.h>

#include "vh_date.h"
#include "vh_math.h"
#include "vh_visits.h"

#define DAYS_PER_WEEK 7
enum { TEXT = 200 };

static int64_t later_of(int64_t one, int64_t other)
{
    return one > other ? one : other;
}

static void say_day(int64_t day, char text[24])
{
    const struct vh_civil c = vh_civil_from_day(day);

    snprintf(text, 24, "%d %s", c.day, vh_month_name(c.month));
}

/* ---- one planting ---- */

/* What a spray moves: entry and picks, each to its first free day. */
static enum vh_status warn_spray(struct vh_table *t, const struct vh_work_series *s,
                                 const struct vh_spray *spray)
{
    const struct vh_policy *p = s->policy;
    const int64_t entry = vh_entry_free(p, spray->on), pick = vh_pick_free(p, spray->on);
    const int64_t last = s->first_day + (int64_t)s->days - 1;
    bool moves_pick = false;
    char what[TEXT], why[TEXT], first[24], then[24];

    if (pick <= s->today)
        return VH_OK;
    for (int64_t d = spray->on; d < pick && d <= last; d++)
        moves_pick = moves_pick || vh_rhythm_due(&p->pick, s->first_day, d);
    say_day(entry, first);
    say_day(pick, then);
    if (pick > last)
        snprintf(what, sizeof what, "no pick any more before pull-out, and entry from %s on",
                 first);
    else
        snprintf(what, sizeof what, "no entry before %s, no pick before %s%s", first, then,
                 moves_pick ? ", to which the picks between are moved" : "");
    snprintf(why, sizeof why, "your label: %g hours without entry, %g days without picks",
             spray->no_entry_h, spray->no_pick_d);
    return vh_result_is_harm(
        t, vh_result_warn(t, spray->on, s->planting, what, why,
                          "pick what is ripe before the spray; the label holds, not this list",
                          spray->on));
}

/* first_noted: of anything in the house. Who wrote nothing down yet has only begun. */
static enum vh_status warn_silence(struct vh_table *t, const struct vh_task_request *r,
                                   int64_t first_noted)
{
    const struct vh_work_series *s = r->series;
    const bool any = s->done && s->done->any;
    const int64_t from = any                          ? s->done->last_day
                         : first_noted > s->first_day ? first_noted
                                                      : s->first_day;
    char why[TEXT], last[24];

    if (s->today < s->first_day || s->today >= s->first_day + (int64_t)s->days ||
        (double)(s->today - from) <= r->book->silent_d)
        return VH_OK;
    say_day(from, last);
    if (any)
        snprintf(why, sizeof why, "the last entry is of %s", last);
    else
        snprintf(why, sizeof why, "there is no entry for it yet");
    return vh_result_warn(
        t, s->today, s->planting,
        any ? "nothing was written down for a while: all work is taken as done"
            : "nothing is written down yet: all work is taken as done",
        why, "note what was left undone, as in done_sucker 0; the forecast mends itself", s->today);
}

/* After a fortnight without a visit: how to catch up without hurting the plants. */
static enum vh_status warn_behind(struct vh_table *t, const struct vh_task_request *r,
                                  enum vh_task task, const struct vh_rhythm *visit,
                                  const char *what, const char *what_to_do)
{
    const struct vh_work_series *s = r->series;
    int64_t next = s->today;
    char why[TEXT], date[24];

    if (!s->done || s->today < s->first_day || s->today >= s->first_day + (int64_t)s->days)
        return VH_OK;
    while (next < s->first_day + (int64_t)s->days &&
           !(vh_visit_share(s->policy, task, visit, s->first_day, next) > 0.0))
        next++;
    const int64_t gap = vh_visit_gap_d(s->policy, task, visit, s->first_day, next);
    if (gap == next - s->first_day ||
        !vh_visit_is_behind(s->policy, task, visit, s->first_day, next))
        return VH_OK;
    say_day(next - gap, date);
    snprintf(why, sizeof why, "by your records the last visit was on %s", date);
    return vh_result_warn(t, next, s->planting, what, why, what_to_do, next);
}

/* By the same season with all visits made. */
static enum vh_status warn_cost(struct vh_table *t, const struct vh_work_series *s,
                                double undone_kg)
{
    /* the last digit that is told, and more than a grower can see in her season */
    const double told_kg = 0.1, seen_share = 0.005;
    double season_kg = 0.0;
    char what[TEXT];

    for (size_t d = 0; d < s->days; d++)
        season_kg += s->day[d].picked_kg;
    if (!(fabs(undone_kg) >= vh_max(told_kg, seen_share * season_kg)) ||
        s->today >= s->first_day + (int64_t)s->days)
        return VH_OK; /* little, or the planting is over: nothing to make good */
    snprintf(what, sizeof what, "work left undone %s about %.1f kg of the season",
             undone_kg > 0.0 ? "costs" : "has not cost but won", fabs(undone_kg));
    return vh_result_is_known(
        t, vh_result_warn(t, s->today, s->planting, what,
                          "the season by your records against one with every visit made",
                          "a missed visit is made good soonest in steps; note what was done",
                          s->today));
}

enum vh_status vh_result_warn_work(struct vh_table *t, const struct vh_task_request *r,
                                   int64_t first_noted, double undone_kg)
{
    const struct vh_work_series *s = r->series;
    const struct vh_policy *p = s->policy;
    char suckers[TEXT], leaves[TEXT];
    enum vh_status status = warn_silence(t, r, first_noted);

    if (status == VH_OK)
        status = warn_cost(t, s, undone_kg);

    snprintf(suckers, sizeof suckers,
             "pinch the tips of those over %g cm, pull half now and half at the next visit",
             r->book->sucker_pinch_cm);
    snprintf(leaves, sizeof leaves, "at most %g leaves a stem at each visit until it is made good",
             r->book->recover_leaves_most);
    for (size_t i = 0; i < p->sprays && status == VH_OK; i++)
        status = warn_spray(t, s, &p->spray[i]);
    if (status == VH_OK)
        status = warn_behind(t, r, VH_TASK_SUCKER, &p->suckers.visit,
                             "suckers are a fortnight behind", suckers);
    if (status == VH_OK)
        status = warn_behind(t, r, VH_TASK_LEAF, &p->leaf_visit, "leaves are a fortnight behind",
                             leaves);
    if (status == VH_OK && p->lower.given && !p->lower.when_head_at_wire)
        status = warn_behind(t, r, VH_TASK_LOWER, &p->lower.visit, "lowering is a fortnight behind",
                             "let down in two passes, slowly, so that no stem kinks");
    return status;
}

/* ---- the house ---- */

/* "lower, pollinate, sucker": tasks of a week by what may wait least. */
static void say_order(const struct vh_hours_week *week, const struct vh_work_params *book,
                      char text[TEXT])
{
    bool told[VH_TASKS] = {false};
    const char *comma = "";

    told[VH_TASK_WALK] = told[VH_TASK_CLEAN] = true;
    snprintf(text, TEXT, "in this order:");
    for (;;) {
        int next = -1;
        for (int k = 0; k < VH_TASKS; k++)
            if (!told[k] && week->hours[k] > 0.0 &&
                (next < 0 || book->may_wait_d[k] < book->may_wait_d[next]))
                next = k;
        if (next < 0)
            return;
        told[next] = true;
        snprintf(text + strlen(text), TEXT - strlen(text), "%s %s", comma,
                 vh_task_name((enum vh_task)next));
        comma = ",";
    }
}

static const char hours_short[] = "hours do not suffice";

bool vh_result_is_of_hours(const char *what)
{
    return strncmp(what, hours_short, sizeof hours_short - 1) == 0;
}

/* Is more asked than she has, as both are said, in tenths? */
static bool is_short(const struct vh_hours_week *week, const struct vh_labour *labour)
{
    const double tenths = 10.0;

    return round(tenths * (labour->hours_per_week - week->left_h)) >
           round(tenths * labour->hours_per_week);
}

/* Weeks to come with more work than hours: one warning a run of them. */
enum vh_status vh_result_warn_hours(struct vh_table *t, const struct vh_hours *h,
                                    const struct vh_labour *labour,
                                    const struct vh_work_params *book, int64_t today)
{
    char what[TEXT], why[TEXT], order[TEXT];

    for (size_t w = 0; w < h->weeks; w++) {
        size_t fullest = w, last = w;
        if (!is_short(&h->week[w], labour) || h->week[w].monday + DAYS_PER_WEEK <= today)
            continue;
        for (; last < h->weeks && is_short(&h->week[last], labour); last++)
            if (h->week[last].left_h < h->week[fullest].left_h)
                fullest = last;
        snprintf(what, sizeof what, "%s in %zu week%s", hours_short, last - w,
                 last - w > 1 ? "s" : "");
        snprintf(why, sizeof why, "the fullest asks %.1f h, you have %.1f%s",
                 labour->hours_per_week - h->week[fullest].left_h, labour->hours_per_week,
                 labour->others ? "; your other work is not in it" : "");
        say_order(&h->week[w], book, order);
        const int64_t from = later_of(h->week[w].monday, today);
        if (vh_result_warn(t, from, "", what, why, order, from) != VH_OK)
            return VH_NO_MEMORY;
        w = last;
    }
    return VH_OK;
}

static void say_runs_out(int item, char what[TEXT])
{
    snprintf(what, TEXT, "%s run%s out", vh_supply_name((enum vh_supply)item),
             item == VH_SUPPLY_STRING ? "s" : "");
}

static void say_order_by(int item, int64_t order, int64_t today, char to_do[TEXT])
{
    static const char *const need[VH_SUPPLIES] = {
        "a crop without clips topples within a week", "new stems need it at once",
        "new stems need them at once", "trusses without one bend in low light"};
    char by[24];

    say_day(order, by);
    if (order < today)
        snprintf(to_do, TEXT, "order at once, it was due by %s; %s", by, need[item]);
    else
        snprintf(to_do, TEXT, "order by %s; %s", by, need[item]);
}

/* The row of the week of a day, or the first after it; the number of rows: none. */
static size_t supply_row(const struct vh_table *supplies, int item, int64_t today)
{
    const char *name = vh_supply_name((enum vh_supply)item);
    size_t row = 0;

    while (row < vh_table_rows(supplies) &&
           (strcmp(vh_cell_text(supplies, row, "item"), name) != 0 ||
            vh_cell_number(supplies, row, "monday") + DAYS_PER_WEEK <= (double)today))
        row++;
    return row;
}

/* Most futures run out of it, though the average plants do not. */
static enum vh_status warn_of_row(struct vh_table *warnings, const struct vh_table *supplies,
                                  int item, size_t row, const char *what, int64_t today)
{
    const int64_t out = (int64_t)vh_cell_number(supplies, row, "runs_out"),
                  order = (int64_t)vh_cell_number(supplies, row, "order_by");
    char to_do[TEXT];

    say_order_by(item, order, today, to_do);
    return vh_result_is_harm(
        warnings, vh_result_warn(warnings, out, "", what,
                                 "in most futures more is needed to the end of the season", to_do,
                                 later_of(order, today)));
}

enum vh_status vh_result_supplies_said(struct vh_table *warnings, const struct vh_table *supplies,
                                       int64_t today)
{
    const size_t date = (size_t)vh_table_find(warnings, "date"),
                 act_by = (size_t)vh_table_find(warnings, "act_by"),
                 to_do = (size_t)vh_table_find(warnings, "what_to_do");
    enum vh_status status = VH_OK;

    for (int item = 0; item < VH_SUPPLIES; item++) {
        const size_t row = supply_row(supplies, item, today);
        const size_t before = vh_table_rows(warnings);
        char what[TEXT], said[TEXT];
        bool is_told = false;
        if (row == vh_table_rows(supplies) || !isfinite(vh_cell_number(supplies, row, "order_by")))
            continue;
        const int64_t order = (int64_t)vh_cell_number(supplies, row, "order_by");
        say_runs_out(item, what);
        say_order_by(item, order, today, said);
        for (size_t i = 0; i < before && status == VH_OK; i++) {
            if (strcmp(vh_cell_text(warnings, i, "what"), what) != 0)
                continue;
            is_told = true;
            vh_table_put_number(warnings, i, date, vh_cell_number(supplies, row, "runs_out"));
            vh_table_put_number(warnings, i, act_by, (double)later_of(order, today));
            status = vh_table_put_text(warnings, i, to_do, said);
        }
        if (status == VH_OK && !is_told)
            status = warn_of_row(warnings, supplies, item, row, what, today);
    }
    return status;
}

enum vh_status vh_result_warn_supplies(struct vh_table *t, const struct vh_supply_plan *plan,
                                       int64_t today)
{
    for (int item = 0; item < VH_SUPPLIES; item++) {
        char what[TEXT], why[TEXT], to_do[TEXT];
        const int64_t out = plan->runs_out[item], order = plan->order_by[item];
        if (out == INT64_MAX)
            continue;
        say_runs_out(item, what);
        snprintf(why, sizeof why, "%.0f%s beyond your stock are needed to the end of the season",
                 ceil(-plan->left[item]), item == VH_SUPPLY_STRING ? " m" : "");
        say_order_by(item, order, today, to_do);
        if (vh_result_is_harm(
                t, vh_result_warn(t, out, "", what, why, to_do, later_of(order, today))) != VH_OK)
            return VH_NO_MEMORY;
    }
    return VH_OK;
}
