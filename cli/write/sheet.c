/* sheet.html: the week on paper, in walking order, with boxes that are the records. */
#include "vh_page.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "vh_cautions.h"
#include "vh_hot_day.h"
#include "vh_sheet.h"
#include "vh_task_words.h"
#include "vh_week_work.h"

static const char *const weekday[] = {"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"};

/* The plants of a week and its heat: what every task of the sheet looks at. */
struct week {
    struct vh_week work;
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

/* Two boxes and a line to write on; day: the visit they are of, "" where one place is enough. */
static void add_place(struct vh_page *p, const char *blank, const char *day)
{
    char unit[40];

    vh_page_add(p, "<div><span class=\"bx\"></span>done</div><div><span class=\"bx\"></span>"
                   "not done</div><div><span class=\"bl\"></span>");
    vh_page_say(p, in_unit(p, blank, unit, sizeof unit));
    vh_page_add(p, day[0] ? ", " : "");
    vh_page_add(p, day);
    vh_page_add(p, "</div>");
}

/* The leaves left are asked for once: by the plant check where it looks at them. */
static bool is_looked_at(const struct vh_page *p, const struct vh_week_task *task,
                         const struct vh_task_words *words)
{
    const struct vh_table *t = vh_page_table(p, "plant_check");

    for (size_t i = 0; words && words->item && t && i < vh_table_rows(t); i++)
        if (strcmp(vh_cell_text(t, i, "item"), words->item) == 0 &&
            strcmp(vh_cell_text(t, i, "planting"), task->planting) == 0)
            return true;
    return false;
}

/* Visits of the week. */
static int days_of(const struct vh_week_task *task)
{
    int n = 0;

    for (int d = 0; d < VH_WEEK_DAYS; d++)
        n += task->on[d];
    return n;
}

/* Each visit is written down by itself, so each has its own place; of work that comes more often
 * than every other day one entry tells enough, but of a pick. */
static void add_boxes(struct vh_page *p, const struct vh_week_task *task,
                      const struct vh_task_words *words)
{
    const bool pick = !strcmp(task->task, "pick");
    const int places_most = 4, days = days_of(task);
    const bool by_day = pick || (days > 1 && days <= places_most);
    const bool pieces = pick && strcmp(task->unit, "kg") != 0;
    const bool has_own = words && !is_looked_at(p, task, words);
    const char *blank = pieces                                 ? "fruits"
                        : !has_own                             ? "share"
                        : by_day && strstr(words->blank, "cm") ? "cm" /* the day needs the room */
                                                               : words->blank;
    const char *item = pieces ? "picked_fruits" : has_own ? words->item : NULL;
    char unit[40];

    vh_page_add(p, "<div class=\"boxes\">");
    for (int d = 0; by_day && d < VH_WEEK_DAYS; d++)
        if (task->on[d])
            add_place(p, blank, weekday[vh_date_weekday(p->today + d)]);
    if (!by_day)
        add_place(p, blank, "");
    vh_page_add(p, "<code class=\"it\">done_");
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
    char text[80], note[400];

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
    vh_week_note(task, p->today, p->units, note, sizeof note);
    vh_page_say_first(p, note);
    vh_say_time(task->minutes, text);
    vh_page_add(p, note[0] && text[0] ? "; " : "");
    vh_page_add(p, text);
    if (task->may_wait_d < 1.0 && task->if_late[0]) {
        vh_page_add(p, "; a week late ");
        vh_say_measures_in(task->if_late, p->units, note, sizeof note);
        vh_page_say(p, note);
    }
    vh_page_add(p, ".");
    add_hot(p, task, week);
    vh_page_add(p, "</small>");
    if (!strcmp(task->task, "pick"))
        vh_sheet_pick(p, task);
    vh_page_add(p, "</div>");
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

/* Does it stand on a day of the week, or is work planned in it? */
static bool is_there(const struct vh_page *p, const char *planting, const struct vh_week *work)
{
    const struct vh_table *t = vh_page_table(p, "stem");
    bool there = false;

    for (int i = 0; i < work->tasks; i++)
        there = there || !strcmp(work->task[i].planting, planting);
    for (size_t i = 0; t && i < vh_table_rows(t) && !there; i++) {
        const double day = vh_cell_number(t, i, "date") - (double)p->today;
        there =
            day >= 0.0 && day < VH_WEEK_DAYS && !strcmp(vh_cell_text(t, i, "planting"), planting);
    }
    return there;
}

/* Youngest first, the planting that was set out last, of those that stand this week. */
struct walk {
    int order[VH_PAGE_PLANTINGS_MOST];
    int n;
};

static void walking_order(const struct vh_page *p, const struct vh_week *work, struct walk *w)
{
    double from[VH_PAGE_PLANTINGS_MOST];
    int *order = w->order;

    w->n = 0;
    for (int i = 0; i < p->plantings; i++) {
        if (!is_there(p, p->planting[i], work))
            continue;
        const double key = stands_from(p, p->planting[i]);
        int at = w->n++;
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
        const double most = vh_hot_day_c(t, i);
        if (!(day >= 0.0 && day < VH_WEEK_DAYS) || isnan(most))
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
        add_degrees(p, "Every day", most);
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
struct line {
    const char *what, *expected, *item;
    const char *const *blank; /* [3] */
};

static void add_record(struct vh_page *p, const char *planting, const struct line *l)
{
    const bool two = !l->blank[0][0];

    vh_page_add(p, two ? "<div class=\"rec two\"><div>" : "<div class=\"rec\"><div>");
    vh_page_say_first(p, planting);
    vh_page_add(p, ": ");
    vh_page_say(p, l->what);
    vh_page_add(p, "<small>");
    vh_page_say(p, l->expected);
    vh_page_add(p, l->expected[0] ? " &#183; <code>" : "<code>");
    vh_page_say(p, l->item);
    vh_page_add(p, "</code></small></div>");
    for (int i = two; i < 3; i++)
        add_blank(p, l->blank[i]);
    vh_page_add(p, "</div>");
}

static void add_records(struct vh_page *p, const char *planting, bool with_picks)
{
    static const char *const picks[] = {"first", "second", "third"};
    const bool pieces = vh_page_by_piece(p, planting), us = p->units == VH_SAY_US;
    const struct line picked = {"picked", pieces ? "fruits of each pick" : "weight of each pick",
                                pieces ? "picked_fruits"
                                : us   ? "picked_lb"
                                       : "picked_kg",
                                picks},
                      thrown = {"thrown away", "", us ? "unmarketable_lb" : "unmarketable_kg",
                                picks};

    if (with_picks)
        add_record(p, planting, &picked);
    add_record(p, planting, &thrown);
}

/* ---- the ten-minute plant check ---- */

static const struct check {
    const char *item, *what, *what_of_node;
    const char *item_us; /* NULL: the same */
    int digits;
} checks[] = {
    {"flowering_truss", "truss in flower", "node in flower", NULL, 1},
    {"stem_growth_cm", "stem grown in a week", "stem grown in a week", "stem_growth_in", 0},
    {"stem_mm", "stem thickness, 15 cm (6 in) below the tip",
     "stem thickness, 15 cm (6 in) below the tip", NULL, 1},
    {"fruits_set", "fruits set, none taken off yet", "fruits set, none taken off yet", NULL, 1},
    {"fruits_left", "fruits on it after thinning", "fruits on it after thinning", NULL, 1},
    {"leaves_on_stem", "leaves on a stem", "leaves on a stem", NULL, 0},
};

static const struct check *check_of(const char *item)
{
    for (size_t i = 0; i < sizeof checks / sizeof checks[0]; i++)
        if (strcmp(checks[i].item, item) == 0)
            return &checks[i];
    return NULL;
}

/* "truss 9: expected 4.8, usual 4.1 to 5.5 cm" */
static void say_expected(const struct vh_page *p, const struct vh_table *t, size_t row,
                         const struct check *c, char *said, size_t room)
{
    const bool is_cm = strcmp(vh_cell_text(t, row, "unit"), "cm") == 0;
    const bool is_in = is_cm && p->units == VH_SAY_US;
    const bool is_length = is_cm || strcmp(vh_cell_text(t, row, "unit"), "mm") == 0;
    const double truss = vh_cell_number(t, row, "truss");
    const char *names[] = {"expect", "low", "high"};
    double value[3];
    int n = 0;

    for (int i = 0; i < 3; i++) {
        value[i] = vh_cell_number(t, row, names[i]);
        value[i] = is_in ? vh_say_in(value[i]) : value[i];
    }
    if (isfinite(truss))
        n = snprintf(said, room, "%s %.0f: ",
                     vh_page_by_node(p, vh_cell_text(t, row, "planting")) ? "node" : "truss",
                     truss);
    snprintf(said + n, room - (size_t)n, "expected %.*f, usual %.*f to %.*f%s%s", c->digits,
             value[0], c->digits, value[1], c->digits, value[2], is_length ? " " : "",
             is_in       ? "in"
             : is_length ? vh_cell_text(t, row, "unit")
                         : "");
}

/* The looks of this week on a few stems, each with what is usual. */
static void add_plant_check(struct vh_page *p, const char *planting)
{
    static const char *const means[] = {"", "mean", "of"}, *const trusses[] = {"truss", "mean",
                                                                               "of"};
    const struct vh_table *t = vh_page_table(p, "plant_check");
    char expected[160];

    for (size_t i = 0; t && i < vh_table_rows(t); i++) {
        const struct check *c = check_of(vh_cell_text(t, i, "item"));
        if (!c || strcmp(vh_cell_text(t, i, "planting"), planting) != 0)
            continue;
        say_expected(p, t, i, c, expected, sizeof expected);
        const struct line line = {vh_page_by_node(p, planting) ? c->what_of_node : c->what,
                                  expected,
                                  p->units == VH_SAY_US && c->item_us ? c->item_us : c->item,
                                  isfinite(vh_cell_number(t, i, "truss")) ? trusses : means};
        add_record(p, planting, &line);
    }
}

/* What may be behind a count that lies outside, once for all plantings. */
static void add_outside(struct vh_page *p)
{
    const struct vh_table *t = vh_page_table(p, "plant_check");

    for (size_t c = 0; c < sizeof checks / sizeof checks[0]; c++) {
        size_t row = 0;
        while (t && row < vh_table_rows(t) &&
               strcmp(vh_cell_text(t, row, "item"), checks[c].item) != 0)
            row++;
        if (!t || row == vh_table_rows(t))
            continue;
        vh_page_add(p, "<li><b>");
        vh_page_say_first(p, checks[c].what);
        vh_page_add(p, "</b> lower: ");
        vh_page_say(p, vh_cell_text(t, row, "if_lower"));
        vh_page_add(p, ". Higher: ");
        vh_page_say(p, vh_cell_text(t, row, "if_higher"));
        vh_page_add(p, ".</li>");
    }
}

/* "2 h 30 min in all, 12 min of it walking, 8 min cleaning blades." */
static void add_times(struct vh_page *p, const struct vh_week *work)
{
    char time[VH_SAY_ROOM];
    double blades = 0.0;

    for (int i = 0; i < work->tasks; i++)
        if (!strcmp(work->task[i].task, "clean"))
            blades += work->task[i].minutes;
    vh_say_time(work->total_min, time);
    if (!time[0])
        return;
    vh_page_add(p, "<p>");
    vh_page_add(p, time);
    vh_page_add(p, " in all");
    vh_say_time(work->walking_min, time);
    vh_page_add(p, time[0] ? ", " : "");
    vh_page_add(p, time);
    vh_page_add(p, time[0] ? " of it walking" : "");
    vh_say_time(blades, time);
    vh_page_add(p, time[0] ? ", " : "");
    vh_page_add(p, time);
    vh_page_add(p, time[0] ? " cleaning blades.</p>" : ".</p>");
}

static void add_head(struct vh_page *p, const struct vh_week *work)
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
    vh_page_add(p, "</p>");
    add_times(p, work);
    vh_page_add(p, "</header>\n");
}

static void add_planting(struct vh_page *p, const char *planting, int number, int of,
                         const struct week *week)
{
    char text[60];
    bool any = false;

    snprintf(text, sizeof text, "<section class=\"pl\"><h2><div><b>%d ", number);
    vh_page_add(p, text);
    vh_page_say_first(p, planting);
    vh_page_add(p, number == 1 && of > 1 ? "</b> <span>youngest first</span></div></h2>"
                                         : "</b></div></h2>");
    vh_sheet_harm(p, planting);
    for (int i = 0; i < week->work.tasks; i++) {
        const struct vh_week_task *task = &week->work.task[i];
        if (strcmp(task->planting, planting) != 0 || !strcmp(task->task, "clean"))
            continue;
        if (!any)
            vh_page_add(p, "<ul>");
        any = true;
        add_task(p, task, week);
    }
    vh_page_add(p, any ? "</ul></section>" : "<p>Nothing is planned here this week.</p></section>");
}

static void add_plantings(struct vh_page *p, const struct walk *walk, const struct week *week)
{
    if (walk->n == 0)
        vh_page_add(p, "<p>Nothing stands in the house this week.</p>");
    for (int k = 0; k < walk->n; k++) {
        add_planting(p, p->planting[walk->order[k]], k + 1, walk->n, week);
        vh_page_add(p, "<p class=\"wash\">Wash hands, change gloves, clean the blade.");
        if (k + 1 < walk->n) {
            vh_page_add(p, " Then the ");
            vh_page_say(p, p->planting[walk->order[k + 1]]);
            vh_page_add(p, ".");
        }
        vh_page_add(p, "</p>");
    }
}

static void add_cautions(struct vh_page *p)
{
    size_t n;
    const struct vh_caution *caution = vh_cautions(&n);

    vh_page_add(p, "<section class=\"careful\"><h2><div><b>Careful</b></div></h2>"
                   "<ul class=\"cau\">");
    for (size_t i = 0; i < n; i++) {
        vh_page_add(p, "<li>");
        vh_page_say(p, caution[i].hazard);
        vh_page_add(p, " ");
        vh_page_say(p, caution[i].what_to_do);
        vh_page_add(p, "</li>");
    }
    vh_page_add(p, "</ul></section>");
}

/* Each pick of the week has a place beside its task. */
static bool has_place_for_picks(const struct vh_week *work, const char *planting)
{
    for (int i = 0; i < work->tasks; i++)
        if (!strcmp(work->task[i].task, "pick") && !strcmp(work->task[i].planting, planting))
            return true;
    return false;
}

static void add_writing(struct vh_page *p, const struct walk *walk, const struct vh_week *work)
{
    vh_page_add(
        p, "<section class=\"write\"><h2><div><b>Write down</b> <span>small words: item of "
           "records.csv</span></div></h2>"
           "<p class=\"small\">Date of the look: ____________ &nbsp; <code>value</code>: mean of "
           "the stems looked at, <code>of</code>: how many stems. First, second, third: each "
           "with its day. A ticked box is 1 for done, 0 for not done. Thrown away: weigh what is "
           "cracked, rotten or misshapen of that day's pick; of a day without one, since the last "
           "such entry.</p>");
    for (int k = 0; k < walk->n; k++) {
        vh_page_add(p, "<section>");
        const char *planting = p->planting[walk->order[k]];
        add_records(p, planting, !has_place_for_picks(work, planting));
        vh_page_add(p, "</section>");
    }
    vh_page_add(p, "</section>");
    vh_page_add(p, "<h2><div><b>Plant check</b> <span>ten minutes, the same five stems of each "
                   "every week</span></div></h2>");
    for (int k = 0; k < walk->n; k++) {
        vh_page_add(p, "<section>");
        add_plant_check(p, p->planting[walk->order[k]]);
        vh_page_add(p, "</section>");
    }
    vh_page_add(p, "<p class=\"small outside\"><b>Outside what is usual</b></p><ul class=\"cau\">");
    add_outside(p);
    vh_page_add(p, "</ul>");
    vh_page_add(
        p, "<p class=\"small end\">One number to type in: "
           "<code>vinehand note PLANTING flowering_truss 14.4 --of 5</code></p>"
           "<p class=\"small end\">Local rules, the label and licensed advice come before this "
           "sheet.</p>");
}

void vh_sheet_page(struct vh_draft *out, const struct vh_page_facts *facts)
{
    struct vh_page p = vh_page_of(out, facts);
    struct week week = {.hot_days = 0};
    struct walk walk;

    vh_week_tasks(facts->result, facts->today, &week.work);
    read_heat(&p, &week);
    walking_order(&p, &week.work, &walk);
    add_head(&p, &week.work);
    add_heat(&p, &week);
    add_plantings(&p, &walk, &week);
    add_cautions(&p);
    add_writing(&p, &walk, &week.work);
    vh_page_add(&p, "</div></body></html>\n");
}
