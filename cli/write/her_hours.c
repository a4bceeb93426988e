#include "vh_her_hours.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "vh_say_numbers.h"
#include "vh_task_words.h"

static const double days_per_week = 7.0, tenths = 10.0;

/* In tenths, without a tenth that is none: "9", "9.5". */
static void say_hours(double hours, char said[VH_SAY_ROOM])
{
    snprintf(said, VH_SAY_ROOM, "%.10g", round(tenths * hours) / tenths);
}

void vh_her_hours(const struct vh_table *t, int64_t today, struct vh_her_hours *h)
{
    double left = (double)NAN;

    *h = (struct vh_her_hours){.has = (double)NAN, .worst = -1};
    for (size_t i = 0; t && i < vh_table_rows(t); i++) {
        const double monday = vh_cell_number(t, i, "monday");
        if (!vh_task_words(vh_cell_text(t, i, "task")))
            continue; /* other work of her week: hours_left leaves it out too */
        if (h->n == 0 || h->monday[h->n - 1] < monday) {
            if (h->n == VH_HOURS_WEEKS_MOST)
                break;
            h->monday[h->n] = monday;
            h->total[h->n++] = 0.0;
            left = vh_cell_number(t, i, "hours_left");
        }
        h->total[h->n - 1] += vh_cell_number(t, i, "hours");
        if (isfinite(left))
            h->has = h->total[h->n - 1] + left;
    }
    for (int k = 0; k < h->n; k++)
        if (h->monday[k] + days_per_week > (double)today &&
            (h->worst < 0 || h->total[k] > h->total[h->worst]))
            h->worst = k;
}

/* "; lettuce (9 h) not counted in": the rest of her week, by the first week that has it. */
static void add_others(const struct vh_table *t, char said[VH_HOURS_TEXT])
{
    double monday = (double)NAN;
    char hours[VH_SAY_ROOM];
    int n = 0;

    for (size_t i = 0; t && i < vh_table_rows(t); i++) {
        const char *what = vh_cell_text(t, i, "task");
        if (vh_task_words(what) || (n > 0 && vh_cell_number(t, i, "monday") != monday))
            continue;
        monday = vh_cell_number(t, i, "monday");
        say_hours(vh_cell_number(t, i, "hours"), hours);
        snprintf(said + strlen(said), VH_HOURS_TEXT - strlen(said), "%s %.40s (%s h)",
                 n++ == 0 ? ";" : ",", what, hours);
    }
    if (n > 0)
        snprintf(said + strlen(said), VH_HOURS_TEXT - strlen(said), " not counted in");
}

bool vh_hours_are_short(const struct vh_her_hours *h, double hours)
{
    return round(tenths * hours) > round(tenths * h->has); /* NaN: no */
}

void vh_hours_has(const struct vh_her_hours *h, double hours, char said[VH_HOURS_TEXT])
{
    char has[VH_SAY_ROOM];

    said[0] = 0;
    if (!isfinite(h->has) || !isfinite(hours))
        return;
    say_hours(h->has, has);
    snprintf(said, VH_HOURS_TEXT,
             vh_hours_are_short(h, hours) ? ", you have %s h" : " of your %s h", has);
}

void vh_hours_of_hers(const struct vh_table *t, const struct vh_her_hours *h, double hours,
                      char said[VH_HOURS_TEXT])
{
    char has[VH_HOURS_TEXT];

    vh_hours_has(h, hours, has);
    said[0] = 0;
    if (!has[0])
        return;
    snprintf(said, VH_HOURS_TEXT, "%.1f%s%.60s", hours, vh_hours_are_short(h, hours) ? " h" : "",
             has);
    add_others(t, said);
}
