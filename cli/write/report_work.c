/* This week's work, most urgent first, and what to be careful about. */
#include "vh_page.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "vh_cautions.h"
#include "vh_week_work.h"

enum { SHOWN_MOST = 14 };
static const double strip_width = 128.0, strip_height = 20.0, day_step = 18.0, first_day_x = 10.0;
static const double tick_top = 14.0, tick_bottom = 18.0, mark_y = 9.0, dot_radius = 4.0;
static const double min_per_h = 60.0;
static const char *const weekday[] = {"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"};

/* Days as dots, and a line to the last day that the last of them may wait to. */
static void draw_strip(struct vh_page *p, const struct vh_week_task *task)
{
    struct vh_svg svg;
    int last = 0;

    vh_svg_open_hidden(&svg, p->out, strip_width, strip_height, "");
    for (int d = 0; d < VH_WEEK_DAYS; d++) {
        const double x = first_day_x + day_step * d;
        vh_svg_line(&svg, x, tick_top, x, tick_bottom, "axis");
        if (task->on[d])
            last = d;
    }
    if (isfinite(task->may_wait_d) && task->may_wait_d > 0.0) {
        const double x = first_day_x + day_step * last;
        vh_svg_line(&svg, x, mark_y, fmin(x + day_step * task->may_wait_d, strip_width), mark_y,
                    "kline");
    }
    for (int d = 0; d < VH_WEEK_DAYS; d++)
        if (task->on[d])
            vh_svg_circle(&svg, first_day_x + day_step * d, mark_y, dot_radius, "known");
    vh_svg_close(&svg);
}

static void say_days(const struct vh_page *p, const struct vh_week_task *task, char *said,
                     size_t room)
{
    said[0] = 0;
    for (int d = 0; d < VH_WEEK_DAYS; d++)
        if (task->on[d])
            snprintf(said + strlen(said), room - strlen(said), "%s%s", said[0] ? " " : "",
                     weekday[vh_date_weekday(p->today + d)]);
}

/* "cannot wait", "can wait 3 days" */
static void say_wait(const struct vh_week_task *task, char *said, size_t room)
{
    said[0] = 0;
    if (!isfinite(task->may_wait_d))
        return;
    const double days = floor(task->may_wait_d);
    if (days < 1.0)
        snprintf(said, room, "cannot wait");
    else
        snprintf(said, room, "can wait %.0f day%s", days, days < 2.0 ? "" : "s");
}

static void add_task(struct vh_page *p, const struct vh_week_task *task, int number)
{
    char text[120], note[200];

    snprintf(text, sizeof text, "<li><span class=\"no\">%d</span><span><b>", number);
    vh_page_add(p, text);
    vh_page_say(p, task->task);
    if (task->planting[0]) {
        vh_page_say(p, ", ");
        vh_page_say(p, task->planting);
    }
    vh_page_add(p, "</b> ");
    vh_say_measures_in(task->note, p->units, note, sizeof note);
    vh_page_say(p, note);
    vh_page_add(p, "</span><span class=\"wait\">");
    draw_strip(p, task);
    vh_page_add(p, "<span>");
    say_days(p, task, text, sizeof text);
    vh_page_say(p, text);
    vh_page_add(p, "<br><span");
    say_wait(task, text, sizeof text);
    if (!strcmp(text, "cannot wait"))
        vh_page_add(p, " class=\"urgent\"");
    vh_page_add(p, ">");
    vh_page_say(p, text);
    snprintf(text, sizeof text, "</span></span></span><span class=\"h\">%.1f h</span></li>",
             task->minutes / min_per_h);
    vh_page_add(p, text);
}

static void add_list(struct vh_page *p, const struct vh_week_task *task, int n)
{
    double hours = 0.0;
    char text[160];

    vh_page_add(p, "<ol class=\"work\">");
    for (int i = 0; i < n; i++) {
        hours += task[i].minutes / min_per_h;
        if (i < SHOWN_MOST)
            add_task(p, &task[i], i + 1);
    }
    vh_page_add(p,
                "</ol><p class=\"key\"><b>Dot</b>: the day to do it. <b>Line</b>: how long it may "
                "wait.</p>");
    snprintf(text, sizeof text, "All together %.1f hours, walking apart%s.", hours,
             n > SHOWN_MOST ? "; the calendar has the rest of the list" : "");
    vh_page_add(p, "<p class=\"soft\">");
    vh_page_say(p, text);
    vh_page_add(p, "</p>");
}

static void add_careful(struct vh_page *p)
{
    const struct vh_table *t = vh_page_table(p, "warnings");
    size_t cautions, shown = 0;
    const struct vh_caution *caution = vh_cautions(&cautions);
    char date[VH_SAY_ROOM];

    vh_page_part(p, "careful", "Careful",
                 t ? "What is foreseen, and what can hurt" : "What can hurt");
    vh_page_add(p, "<ul class=\"care\">");
    for (size_t i = 0; t && i < vh_table_rows(t) && shown < 6; i++) {
        const double on = vh_cell_number(t, i, "date"), by = vh_cell_number(t, i, "act_by");
        if (!(fmax(on, isfinite(by) ? by : on) >= (double)p->today))
            continue;
        vh_say_date(on, date);
        vh_page_add(p, "<li><b>");
        vh_page_say(p, date);
        vh_page_say(p, " ");
        vh_page_say(p, vh_cell_text(t, i, "planting"));
        vh_page_add(p, "</b> ");
        vh_page_say(p, vh_cell_text(t, i, "what"));
        vh_page_say(p, ". ");
        vh_page_say(p, vh_cell_text(t, i, "what_to_do"));
        vh_page_add(p, "</li>");
        shown++;
    }
    for (size_t i = 0; i < cautions; i++) {
        vh_page_add(p, "<li><b>");
        vh_page_say(p, caution[i].hazard);
        vh_page_add(p, "</b> ");
        vh_page_say(p, caution[i].what_to_do);
        vh_page_add(p, "</li>");
    }
    vh_page_add(p, "</ul><p class=\"soft small\">");
    vh_page_say(p, vh_cautions_end());
    vh_page_add(p, "</p>");
    vh_page_part_end(p);
}

void vh_report_work(struct vh_page *p)
{
    struct vh_week_task task[VH_WEEK_TASKS_MOST];
    const int n = vh_week_tasks(p->result, p->today, task);
    char finding[200], wait[40];

    vh_page_add(p, "<div class=\"cols\">");
    if (n == 0) {
        vh_page_empty(p, "work", "This week", "No work is planned in the coming seven days.");
    } else {
        say_wait(&task[0], wait, sizeof wait);
        snprintf(finding, sizeof finding, "First: %.30s, %.60s%s%s", task[0].task, task[0].planting,
                 wait[0] ? "; " : "", wait);
        vh_page_part(p, "work", "This week, most urgent first", finding);
        add_list(p, task, n);
        vh_page_part_end(p);
    }
    add_careful(p);
    vh_page_add(p, "</div>");
}
