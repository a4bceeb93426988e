/* sheet.html: the week on paper, in walking order, with boxes that are the records. */
#include "vh_page.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "vh_cautions.h"
#include "vh_task_words.h"
#include "vh_week_work.h"

static const double hot_c = 30.0, min_per_h = 60.0;
static const char *const weekday[] = {"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"};

/* The plants of a week and its heat: what every task of the sheet looks at. */
struct week {
    struct vh_week_task task[VH_WEEK_TASKS_MOST];
    int tasks;
    double hottest_c[VH_WEEK_DAYS]; /* 0: not hot */
    int hot_days;
};

static void say_amount_of(const struct vh_page *p, const struct vh_week_task *task, int day,
                          char *said)
{
    if (!strcmp(task->unit, "kg"))
        vh_say_amount(vh_page_weight(p, task->count[day]), said);
    else
        vh_say_pieces(task->count[day], said);
}

/* "Tue, Fri"; of a pick also how much: "Tue 15, Fri 14 kg". */
static void add_days(struct vh_page *p, const struct vh_week_task *task)
{
    const bool pick = !strcmp(task->task, "pick");
    char amount[VH_SAY_ROOM];
    bool any = false;

    for (int d = 0; d < VH_WEEK_DAYS; d++) {
        if (!task->on[d])
            continue;
        vh_page_add(p, any ? ", " : "");
        vh_page_add(p, weekday[vh_date_weekday(p->today + d)]);
        any = true;
        if (!pick)
            continue;
        say_amount_of(p, task, d, amount);
        vh_page_add(p, " ");
        vh_page_say(p, amount);
    }
    if (pick)
        vh_page_add(p, strcmp(task->unit, "kg") != 0 ? " fruits"
                       : p->units == VH_SAY_US       ? " lb"
                                                     : " kg");
}

/* "lowered_cm" and "kg" as a reader of US units writes them: "lowered_in", "lb". */
static const char *in_unit(const struct vh_page *p, const char *word, char *said, size_t room)
{
    static const struct {
        const char *metric, *us;
    } unit[] = {{"cm", "in"}, {"kg", "lb"}};

    for (size_t i = 0; p->units == VH_SAY_US && i < sizeof unit / sizeof unit[0]; i++) {
        const char *at = strstr(word, unit[i].metric);
        if (!at || (at > word && at[-1] != '_' && at[-1] != ' '))
            continue;
        snprintf(said, room, "%.*s%s%.20s", (int)(at - word), word, unit[i].us, at + 2);
        return said;
    }
    return word;
}

static void add_boxes(struct vh_page *p, const struct vh_week_task *task,
                      const struct vh_task_words *words)
{
    const bool pieces = !strcmp(task->task, "pick") && strcmp(task->unit, "kg") != 0;
    const char *blank = pieces ? "fruits" : words ? words->blank : "share done";
    const char *item = pieces ? "picked_fruits" : words ? words->item : NULL;
    char unit[40];

    vh_page_add(p, "<div class=\"boxes\"><div><span class=\"bx\"></span>done</div><div>"
                   "<span class=\"bx\"></span>not done</div><div><span class=\"bl\"></span>");
    vh_page_say(p, in_unit(p, blank, unit, sizeof unit));
    vh_page_add(p, "</div><code class=\"it\">done_");
    vh_page_say(p, task->task);
    vh_page_add(p, "</code><code class=\"it\">");
    vh_page_say(p, item ? in_unit(p, item, unit, sizeof unit) : "0 to 1");
    vh_page_add(p, "</code></div>");
}

/* On hot days of the task: before what hour. */
static void add_hot(struct vh_page *p, const struct vh_week_task *task, const struct week *week)
{
    bool any = false;

    if (week->hot_days == VH_WEEK_DAYS)
        return; /* said once for all */
    for (int d = 0; d < VH_WEEK_DAYS; d++) {
        if (!task->on[d] || week->hottest_c[d] == 0.0)
            continue;
        vh_page_add(p, any ? ", " : " On ");
        vh_page_add(p, weekday[vh_date_weekday(p->today + d)]);
        any = true;
    }
    if (any)
        vh_page_add(p, " from dawn, done by 9.");
}

static void add_task(struct vh_page *p, const struct vh_week_task *task, const struct week *week)
{
    const struct vh_task_words *words = vh_task_words(task->task);
    char text[80], note[200];

    vh_page_add(p, "<li class=\"task\"><div><b>");
    vh_page_say_first(p, words ? words->title : task->task);
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
    vh_page_say_first(p, note);
    snprintf(text, sizeof text, "%s%.1f h.", task->note[0] ? "; " : "", task->minutes / min_per_h);
    vh_page_add(p, text);
    add_hot(p, task, week);
    vh_page_add(p, "</small></div>");
    add_boxes(p, task, words);
    vh_page_add(p, "</li>");
}

/* The first day that a planting stands, by table "stem". */
static double stands_from(const struct vh_page *p, const char *planting)
{
    const struct vh_table *t = vh_page_table(p, "stem");

    for (size_t i = 0; t && i < vh_table_rows(t); i++)
        if (!strcmp(vh_cell_text(t, i, "planting"), planting))
            return vh_cell_number(t, i, "date");
    return HUGE_VAL;
}

/* Youngest first: the planting that was set out last. */
static void walking_order(const struct vh_page *p, int order[VH_PAGE_PLANTINGS_MOST])
{
    double from[VH_PAGE_PLANTINGS_MOST];

    for (int i = 0; i < p->plantings; i++) {
        const double key = stands_from(p, p->planting[i]);
        int at = i;
        for (; at > 0 && from[at - 1] < key; at--) {
            from[at] = from[at - 1];
            order[at] = order[at - 1];
        }
        from[at] = key;
        order[at] = i;
    }
}

/* Days of the week that are foreseen to be hot; the hottest hour of each. */
static void read_heat(const struct vh_page *p, struct week *week)
{
    const struct vh_table *t = vh_page_table(p, "climate_days");

    for (size_t i = 0; t && i < vh_table_rows(t); i++) {
        const double day = vh_cell_number(t, i, "date") - (double)p->today;
        const double most = vh_cell_number(t, i, "tmax_c");
        if (!(day >= 0.0 && day < VH_WEEK_DAYS) || !(most > hot_c))
            continue;
        week->hottest_c[(int)day] = most;
        week->hot_days++;
    }
}

static void add_degrees(struct vh_page *p, const char *day, double c)
{
    char said[VH_SAY_ROOM];

    vh_say_degrees(c, p->units, "\xC2\xB0", said);
    vh_page_add(p, day);
    vh_page_add(p, " ");
    vh_page_say(p, said);
}

static void add_heat(struct vh_page *p, const struct week *week)
{
    double most = 0.0;
    bool any = false;

    if (week->hot_days == 0)
        return;
    vh_page_add(p, "<div class=\"care\"><p><b>");
    for (int d = 0; d < VH_WEEK_DAYS; d++) {
        most = fmax(most, week->hottest_c[d]);
        if (week->hot_days == VH_WEEK_DAYS || week->hottest_c[d] == 0.0)
            continue;
        vh_page_add(p, any ? ", " : "");
        add_degrees(p, weekday[vh_date_weekday(p->today + d)], week->hottest_c[d]);
        any = true;
    }
    if (week->hot_days == VH_WEEK_DAYS)
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

/* One line to write on: what, what is expected, the record's own item, and three blanks. */
static void add_record(struct vh_page *p, const char *planting, const char *what,
                       const char *expected, const char *item, const char *const blank[3])
{
    vh_page_add(p, "<div class=\"rec\"><div>");
    vh_page_say_first(p, planting);
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

/* A number of table "stem" on a day from today on, or before it. */
static double stem_number(const struct vh_page *p, const char *planting, int64_t day,
                          const char *column)
{
    const struct vh_table *t = vh_page_table(p, "stem");

    for (size_t i = 0; t && i < vh_table_rows(t); i++)
        if (vh_cell_number(t, i, "date") == (double)day &&
            !strcmp(vh_cell_text(t, i, "planting"), planting))
            return vh_cell_number(t, i, column);
    return (double)NAN;
}

static void add_records(struct vh_page *p, const char *planting)
{
    static const char *const picks[] = {"first", "second", "third"};
    static const char *const means[] = {"", "value", "of"};
    static const char *const trusses[] = {"truss", "value", "of"};
    const double truss = stem_number(p, planting, p->today, "flowering_truss");
    const bool pieces = vh_page_by_piece(p, planting), node = vh_page_by_node(p, planting);
    const double low = stem_number(p, planting, p->today, "flowering_truss_p10");
    const double high = stem_number(p, planting, p->today, "flowering_truss_p90");
    const double grown = stem_number(p, planting, p->today, "stem_cm") -
                         stem_number(p, planting, p->today - VH_WEEK_DAYS, "stem_cm");
    char expected[80] = "", cm[VH_SAY_ROOM];

    add_record(p, planting, "picked", pieces ? "fruits of each pick" : "weight of each pick",
               pieces                  ? "picked_fruits"
               : p->units == VH_SAY_US ? "picked_lb"
                                       : "picked_kg",
               picks);
    add_record(p, planting, "thrown away", "cracked, rotten, misshapen",
               p->units == VH_SAY_US ? "unmarketable_lb" : "unmarketable_kg", picks);
    if (isfinite(low))
        snprintf(expected, sizeof expected, "expected %.1f, usual %.1f to %.1f", truss, low, high);
    else if (isfinite(truss))
        snprintf(expected, sizeof expected, "expected %.1f", truss);
    add_record(p, planting, node ? "node in flower" : "truss in flower", expected,
               "flowering_truss", means);
    vh_say_length(grown, p->units, cm);
    expected[0] = 0;
    if (cm[0])
        snprintf(expected, sizeof expected, "expected %.20s in a week", cm);
    add_record(p, planting, "stem grown since the last look", expected,
               p->units == VH_SAY_US ? "stem_growth_in" : "stem_growth_cm", means);
    add_record(p, planting, node ? "fruits set on a node" : "fruits set on a truss",
               "before any are taken off", "fruits_set", trusses);
}

/* The looks of this week that tell most, where something was learnt from records. */
static bool add_plant_check(struct vh_page *p, const char *planting)
{
    static const char *const blank[] = {"truss", "value", "of"};
    const struct vh_table *t = vh_page_table(p, "plant_check");
    bool any = false;
    char expected[160], low[40], high[40];

    for (size_t i = 0; t && i < vh_table_rows(t); i++) {
        if (strcmp(vh_cell_text(t, i, "planting"), planting) != 0)
            continue;
        const double value = vh_cell_number(t, i, "expected");
        expected[0] = low[0] = high[0] = 0;
        if (isfinite(value))
            snprintf(expected, sizeof expected, "expected %.1f", value);
        if (isfinite(vh_cell_number(t, i, "low"))) {
            snprintf(low, sizeof low, "%.1f", vh_cell_number(t, i, "low"));
            snprintf(high, sizeof high, "%.1f", vh_cell_number(t, i, "high"));
            snprintf(expected + strlen(expected), sizeof expected - strlen(expected),
                     ", usual %s to %s", low, high);
        }
        add_record(p, planting, vh_cell_text(t, i, "what"), expected, vh_cell_text(t, i, "item"),
                   blank);
        any = true;
    }
    return any;
}

static void add_head(struct vh_page *p)
{
    char from[VH_SAY_ROOM], until[VH_SAY_ROOM], title[VH_SAY_ROOM + 16];

    vh_say_date((double)p->today, from);
    vh_say_date_with_year((double)(p->today + VH_WEEK_DAYS - 1), until);
    snprintf(title, sizeof title, "work from %s", from);
    vh_page_head(p, title, false, vh_page_sheet_style);
    vh_page_add(p, "<header><h1>");
    vh_page_say(p, p->facts->name);
    vh_page_add(p, "</h1><p>");
    vh_page_add(p, weekday[vh_date_weekday(p->today)]);
    vh_page_add(p, " ");
    vh_page_say(p, from);
    vh_page_add(p, " to ");
    vh_page_add(p, weekday[vh_date_weekday(p->today + VH_WEEK_DAYS - 1)]);
    vh_page_add(p, " ");
    vh_page_say(p, until);
    vh_page_add(p, "</p></header>\n");
}

static void add_planting(struct vh_page *p, const char *planting, int number,
                         const struct week *week)
{
    char text[40];
    bool any = false;

    snprintf(text, sizeof text, "<h2><b>%d ", number);
    vh_page_add(p, text);
    vh_page_say_first(p, planting);
    vh_page_add(p, number == 1 && p->plantings > 1 ? "</b> <span>youngest first</span></h2>"
                                                   : "</b></h2>");
    for (int i = 0; i < week->tasks; i++) {
        const struct vh_week_task *task = &week->task[i];
        if (strcmp(task->planting, planting) != 0 || !strcmp(task->task, "clean"))
            continue;
        if (!any)
            vh_page_add(p, "<ul>");
        any = true;
        add_task(p, task, week);
    }
    vh_page_add(p, any ? "</ul>" : "<p>Nothing is planned here this week.</p>");
}

static void add_plantings(struct vh_page *p, const int *order, const struct week *week)
{
    for (int k = 0; k < p->plantings; k++) {
        add_planting(p, p->planting[order[k]], k + 1, week);
        vh_page_add(p, "<p class=\"wash\">Wash hands, change gloves, clean the blade.");
        if (k + 1 < p->plantings) {
            vh_page_add(p, " Then the ");
            vh_page_say(p, p->planting[order[k + 1]]);
            vh_page_add(p, ".");
        }
        vh_page_add(p, "</p>");
    }
}

static void add_cautions(struct vh_page *p)
{
    size_t n;
    const struct vh_caution *caution = vh_cautions(&n);

    vh_page_add(p, "<section><h2><b>Careful</b></h2><ul class=\"cau\">");
    for (size_t i = 0; i < n; i++) {
        vh_page_add(p, "<li>");
        vh_page_say(p, caution[i].hazard);
        vh_page_add(p, " ");
        vh_page_say(p, caution[i].what_to_do);
        vh_page_add(p, "</li>");
    }
    vh_page_add(p, "</ul></section>");
}

static void add_writing(struct vh_page *p, const int *order)
{
    vh_page_add(
        p, "<h2><b>Write down</b> <span>small words: item of records.csv</span></h2>"
           "<p class=\"small\">Date of the look: ____________ &nbsp; <code>value</code>: mean of "
           "the stems looked at, <code>of</code>: how many stems. First, second, third: each "
           "with its day. A ticked box is 1 for done, 0 for not done.</p>");
    for (int k = 0; k < p->plantings; k++) {
        vh_page_add(p, "<section>");
        add_records(p, p->planting[order[k]]);
        add_plant_check(p, p->planting[order[k]]);
        vh_page_add(p, "</section>");
    }
    vh_page_add(p, "<p class=\"small\">One number to type in: "
                   "<code>vinehand note PLANTING flowering_truss 14.4 --of 5</code></p>"
                   "<p class=\"small\">Local rules, the label and licensed advice come before this "
                   "sheet.</p>");
}

void vh_sheet_page(struct vh_draft *out, const struct vh_page_facts *facts)
{
    struct vh_page p = vh_page_of(out, facts);
    struct week week = {.tasks = 0};
    int order[VH_PAGE_PLANTINGS_MOST];

    week.tasks = vh_week_tasks(facts->result, facts->today, week.task);
    read_heat(&p, &week);
    walking_order(&p, order);
    add_head(&p);
    add_heat(&p, &week);
    add_plantings(&p, order, &week);
    add_cautions(&p);
    add_writing(&p, order);
    vh_page_add(&p, "</div></body></html>\n");
}
