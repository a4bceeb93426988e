#include "vh_waiting_words.h"

#include <stdio.h>

#include "vh_date.h"
#include "vh_math.h"

enum { WEEK_D = 7 };

/* Day of the series, at most the last. */
static size_t day_of(const struct vh_work_series *s, int64_t date)
{
    const int64_t day = date - s->first_day, last = (int64_t)s->days - 1;

    return (size_t)(day < 0 ? 0 : day > last ? last : day);
}

/* Heads as they would stand if no string were let out from today until a week after `date`; nothing
 * where they stay below the wire, for then nothing is lost. */
static void say_heads(const struct vh_work_series *s, const struct vh_lower_plan *plan,
                      int64_t date, char said[VH_LATE_ROOM])
{
    const struct vh_lower_policy *p = &s->policy->lower;
    const size_t first = day_of(s, date), last = day_of(s, date + WEEK_D),
                 today = day_of(s, s->today < date ? s->today : date);
    const struct vh_lower_state before = plan->state[first > 0 ? first - 1 : 0];
    size_t passes = last + 1;
    double over_cm = 0.0;

    for (size_t d = last + 1; d-- > today;) {
        over_cm = vh_max(over_cm, vh_lower_head_cm(p, before, s->day[d].stem_cm) - p->wire_cm);
        if (vh_lower_is_past_wire(p, before, s->day[d].stem_cm))
            passes = d;
    }
    if (passes > last)
        return;
    if (passes == today) {
        snprintf(said, VH_LATE_ROOM,
                 "heads, above the wire already, stand %.0f cm over it: they bend and break",
                 over_cm);
        return;
    }
    const struct vh_civil day = vh_civil_from_day(s->first_day + (int64_t)passes);
    snprintf(said, VH_LATE_ROOM,
             "heads grow above the wire on %d %s, in the end by %.0f cm: they bend and break",
             day.day, vh_month_name(day.month), over_cm);
}

static void say_clips(const struct vh_work_series *s, int64_t date, char said[VH_LATE_ROOM])
{
    const double grows_cm =
        s->day[day_of(s, date + WEEK_D)].stem_cm - s->day[day_of(s, date)].stem_cm;

    snprintf(said, VH_LATE_ROOM, "%.0f cm of stem more without hold: heads topple and kink",
             vh_max(0.0, grows_cm));
}

void vh_waiting_words(const struct vh_work_series *series, const struct vh_lower_plan *plan,
                      enum vh_task task, int64_t date, char said[VH_LATE_ROOM])
{
    said[0] = '\0';
    if (task == VH_TASK_LOWER && plan->state)
        say_heads(series, plan, date, said);
    else if (task == VH_TASK_CLIP)
        say_clips(series, date, said);
    else if (task == VH_TASK_SUPPORT)
        snprintf(said, VH_LATE_ROOM, "the stalk is stiff by then and kinks under its fruit");
}
