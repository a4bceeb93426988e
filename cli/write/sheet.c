/* sheet.html: the week on paper, in walking order, with boxes that are the records. */
#include "vh_page.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "vh_cautions.h"
#include "vh_week_work.h"

static const double hot_c = 30.0, min_per_h = 60.0;
static const char *const weekday[] = {"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"};

/* What a task is called on paper, and what is written into its third box. */
static const struct {
    const char *task, *shown, *blank;
} known[] = {
    {"pollinate", "Pollinate", "other number"},
    {"sucker", "Suckers", "longest, cm"},
    {"clip", "Clips", "clips"},
    {"thin", "Thin", "fruits left"},
    {"support", "Support trusses", "other number"},
    {"leaf", "Leaves", "leaves"},
    {"lower", "Lower", "cm lowered"},
    {"pick", "Pick", "kg"},
    {"top", "Top", "other number"},
    {"string", "String", "other number"},
    {"plant", "Set out", "plants"},
    {"pull_out", "Pull out", "plants"},
    {"clean", "Clean blades", "other number"},
};

static const char *shown_task(const char *task, const char **blank)
{
    for (size_t i = 0; i < sizeof known / sizeof known[0]; i++)
        if (!strcmp(known[i].task, task)) {
            *blank = known[i].blank;
            return known[i].shown;
        }
    *blank = "other number";
    return task;
}

static void add_days(struct vh_page *p, const struct vh_week_task *task)
{
    bool any = false;

    for (int d = 0; d < VH_WEEK_DAYS; d++) {
        if (!task->on[d])
            continue;
        vh_page_add(p, any ? ", " : "");
        vh_page_add(p, weekday[vh_date_weekday(p->today + d)]);
        any = true;
    }
}

static void add_task(struct vh_page *p, const struct vh_week_task *task)
{
    const char *blank, *shown = shown_task(task->task, &blank);
    char text[60], note[200];

    vh_page_add(p, "<li class=\"task\"><div><b>");
    vh_page_say(p, shown);
    vh_page_add(p, "</b> <span class=\"wh\">");
    add_days(p, task);
    vh_page_add(p, "</span> ");
    if (isfinite(task->may_wait_d) && task->may_wait_d < 1.0)
        vh_page_add(p, "<span class=\"urg\">cannot wait</span>");
    else if (isfinite(task->may_wait_d)) {
        snprintf(text, sizeof text, "<span class=\"mw\">can wait %.0f day%s</span>",
                 floor(task->may_wait_d), task->may_wait_d < 2.0 ? "" : "s");
        vh_page_add(p, text);
    }
    vh_page_add(p, "<small>");
    vh_say_measures_in(task->note, p->units, note, sizeof note);
    vh_page_say(p, note);
    snprintf(text, sizeof text, "%s%.1f h</small></div>", task->note[0] ? "; " : "",
             task->minutes / min_per_h);
    vh_page_add(p, text);
    vh_page_add(p, "<div class=\"boxes\"><div><span class=\"bx\"></span>done</div><div>"
                   "<span class=\"bx\"></span>not done</div><div><span class=\"bl\"></span>");
    vh_page_say(p, !strcmp(blank, "kg") && vh_page_by_piece(p, task->planting) ? "fruits" : blank);
    vh_page_add(p, "</div></div></li>");
}

/* Youngest first: the planting whose first pick is last. */
static int walking_order(const struct vh_page *p, int order[VH_PAGE_PLANTINGS_MOST])
{
    const struct vh_table *t = vh_page_table(p, "summary");
    double pick[VH_PAGE_PLANTINGS_MOST];

    for (int i = 0; i < p->plantings; i++) {
        const double first = vh_cell_number(t, (size_t)i, "first_pick");
        const double key = isfinite(first) ? first : HUGE_VAL;
        int at = i;
        for (; at > 0 && pick[at - 1] < key; at--) {
            pick[at] = pick[at - 1];
            order[at] = order[at - 1];
        }
        pick[at] = key;
        order[at] = i;
    }
    return p->plantings;
}

/* Days of the week that are foreseen to be hot; the hottest hour of each. */
static int hot_days(const struct vh_page *p, double hottest_c[VH_WEEK_DAYS])
{
    const struct vh_table *t = vh_page_table(p, "climate_days");
    int n = 0;

    for (int d = 0; d < VH_WEEK_DAYS; d++)
        hottest_c[d] = 0.0;
    for (size_t i = 0; t && i < vh_table_rows(t); i++) {
        const double day = vh_cell_number(t, i, "date") - (double)p->today;
        const double most = vh_cell_number(t, i, "tmax_c");
        if (!(day >= 0.0 && day < VH_WEEK_DAYS) || !(most > hot_c))
            continue;
        hottest_c[(int)day] = most;
        n++;
    }
    return n;
}

static void add_degrees(struct vh_page *p, const char *day, double c)
{
    const bool us = p->units == VH_SAY_US;
    char text[80];

    snprintf(text, sizeof text, "%s %.0f \xC2\xB0%s", day, us ? c * 1.8 + 32.0 : c, us ? "F" : "C");
    vh_page_add(p, text);
}

static void add_heat(struct vh_page *p)
{
    double hottest_c[VH_WEEK_DAYS], most = 0.0;
    const int n = hot_days(p, hottest_c);
    bool any = false;

    if (n == 0)
        return;
    vh_page_add(p, "<div class=\"care\"><p><b>");
    for (int d = 0; d < VH_WEEK_DAYS; d++) {
        most = fmax(most, hottest_c[d]);
        if (n == VH_WEEK_DAYS || hottest_c[d] == 0.0)
            continue;
        vh_page_add(p, any ? ", " : "");
        add_degrees(p, weekday[vh_date_weekday(p->today + d)], hottest_c[d]);
        any = true;
    }
    if (n == VH_WEEK_DAYS)
        add_degrees(p, "Every day up to", most);
    vh_page_add(p, ".</b> Begin at dawn. Out by 9. Drink often, shade on. Dizzy, sick or confused: "
                   "stop, get cool, call for help.</p></div>");
}

static void add_blank(struct vh_page *p, const char *name)
{
    vh_page_add(p, "<div class=\"f\"><i></i>");
    vh_page_say(p, name);
    vh_page_add(p, "</div>");
}

/* One line to write on: what, what is expected, the record's own word, and three blanks. */
static void add_record(struct vh_page *p, const char *planting, const char *what,
                       const char *expected, const char *item, const char *const blank[3])
{
    vh_page_add(p, "<div class=\"rec\"><div>");
    vh_page_say(p, planting);
    vh_page_add(p, ": ");
    vh_page_say(p, what);
    vh_page_add(p, "<small>");
    vh_page_say(p, expected);
    vh_page_add(p, expected[0] ? " &#183; <code>" : "<code>");
    vh_page_say(p, item);
    vh_page_add(p, "</code></small></div>");
    for (int i = 0; i < 3; i++) {
        if (blank[i][0])
            add_blank(p, blank[i]);
        else
            vh_page_add(p, "<div class=\"gapf\"></div>");
    }
    vh_page_add(p, "</div>");
}

static double today_number(const struct vh_page *p, const char *planting, const char *column)
{
    const struct vh_table *t = vh_page_table(p, "stem");

    for (size_t i = 0; t && i < vh_table_rows(t); i++)
        if (vh_cell_number(t, i, "date") == (double)p->today &&
            !strcmp(vh_cell_text(t, i, "planting"), planting))
            return vh_cell_number(t, i, column);
    return (double)NAN;
}

static void add_records(struct vh_page *p, const char *planting)
{
    static const char *const picks[] = {"first", "second", "third"};
    static const char *const means[] = {"", "mean", "of plants"};
    const double truss = today_number(p, planting, "flowering_truss");
    char expected[60] = "";

    add_record(p, planting, "picked", "each pick",
               vh_page_by_piece(p, planting) ? "picked_fruits" : "picked_kg", picks);
    add_record(p, planting, "thrown away", "cracked, rotten, misshapen", "unmarketable_kg", picks);
    if (isfinite(truss))
        snprintf(expected, sizeof expected, "expected %.1f", truss);
    add_record(p, planting, "truss or node in flower", expected, "flowering_truss", means);
    add_record(p, planting, "stem grown since the last look", "cm", "stem_growth_cm", means);
}

static void add_head(struct vh_page *p)
{
    char from[VH_SAY_ROOM], until[VH_SAY_ROOM], title[VH_SAY_ROOM + 16];

    vh_say_date((double)p->today, from);
    vh_say_date_with_year((double)(p->today + VH_WEEK_DAYS - 1), until);
    snprintf(title, sizeof title, "work from %s", from);
    vh_page_head(p, title, false, vh_page_sheet_style);
    vh_page_add(p, "<header><h1>");
    vh_page_say(p, p->name);
    vh_page_add(p, "</h1><p>");
    vh_page_say(p, from);
    vh_page_add(p, " to ");
    vh_page_say(p, until);
    vh_page_add(p, "</p></header>\n");
}

static void add_plantings(struct vh_page *p, const int *order, const struct vh_week_task *task,
                          int tasks)
{
    char text[40];

    for (int k = 0; k < p->plantings; k++) {
        const char *planting = p->planting[order[k]];
        snprintf(text, sizeof text, "<h2>%d ", k + 1);
        vh_page_add(p, text);
        vh_page_say(p, planting);
        vh_page_add(p, k == 0 ? " <span>youngest first</span></h2><ul>" : "</h2><ul>");
        for (int i = 0; i < tasks; i++)
            if (!strcmp(task[i].planting, planting) && strcmp(task[i].task, "clean") != 0)
                add_task(p, &task[i]);
        vh_page_add(p, "</ul><p class=\"wash\">Wash hands, change gloves, clean the blade.</p>");
    }
}

static void add_cautions(struct vh_page *p)
{
    size_t n;
    const struct vh_caution *caution = vh_cautions(&n);

    vh_page_add(p, "<h2>Careful</h2><ul class=\"cau\">");
    for (size_t i = 0; i < n; i++) {
        vh_page_add(p, "<li>");
        vh_page_say(p, caution[i].hazard);
        vh_page_add(p, " ");
        vh_page_say(p, caution[i].what_to_do);
        vh_page_add(p, "</li>");
    }
    vh_page_add(p, "</ul>");
}

void vh_sheet_page(struct vh_draft *out, const struct vh_result *result, const char *name,
                   int64_t today, enum vh_say_units units)
{
    struct vh_page p = {.out = out, .result = result, .name = name, .today = today, .units = units};
    struct vh_week_task task[VH_WEEK_TASKS_MOST];
    const int tasks = vh_week_tasks(result, today, task);
    int order[VH_PAGE_PLANTINGS_MOST];

    vh_page_plantings(&p);
    walking_order(&p, order);
    add_head(&p);
    add_heat(&p);
    add_plantings(&p, order, task, tasks);
    add_cautions(&p);
    vh_page_add(&p, "<h2 class=\"pb\">Write down <span>the words below are those of "
                    "records.csv</span></h2>");
    for (int k = 0; k < p.plantings; k++)
        add_records(&p, p.planting[order[k]]);
    vh_page_add(&p, "<p class=\"small\">Date: ____________ &nbsp; One number to type in: "
                    "<code>vinehand note PLANTING flowering_truss 14.4 --of 5</code></p>"
                    "<p class=\"small\">");
    vh_page_say(&p, "Local rules, the label and licensed advice come before this sheet.");
    vh_page_add(&p, "</p></div></body></html>\n");
}
