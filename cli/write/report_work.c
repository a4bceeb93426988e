/* This week's work, most urgent first, and what to be careful about. */
#include "vh_report.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "vh_careful.h"
#include "vh_cautions.h"
#include "vh_hot_day.h"
#include "vh_her_hours.h"
#include "vh_late_cost.h"
#include "vh_task_words.h"
#include "vh_week_work.h"

enum { SHOWN_MOST = 9, WARNED_MOST = 4, LAST_ROOM = 80 };
static const double strip_width = 152.0, strip_height = 20.0, day_step = 21.0, first_day_x = 13.0;
static const double tick_top = 14.0, tick_bottom = 18.0, mark_y = 9.0, dot_radius = 4.0;
static const char *const weekday[] = {"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"};

/* Days as dots, and a line to the last day that the last of them may wait to. */
static void draw_strip(struct vh_page *p, const struct vh_week_line *line)
{
    struct vh_svg svg;
    int last = 0;

    vh_svg_open_hidden(&svg, p->out, strip_width, strip_height, "");
    for (int d = 0; d < VH_WEEK_DAYS; d++) {
        const double x = first_day_x + day_step * d;
        vh_svg_line(&svg, x, tick_top, x, tick_bottom, "axis");
        if (line->on[d])
            last = d;
    }
    if (isfinite(line->may_wait_d) && line->may_wait_d > 0.0) {
        const double x = first_day_x + day_step * last;
        vh_svg_line(&svg, x, mark_y, fmin(x + day_step * line->may_wait_d, strip_width), mark_y,
                    "kline");
    }
    for (int d = 0; d < VH_WEEK_DAYS; d++)
        if (line->on[d])
            vh_svg_circle(&svg, first_day_x + day_step * d, mark_y, dot_radius, "known");
    vh_svg_close(&svg);
}

static void say_days(const struct vh_page *p, const bool on[VH_WEEK_DAYS], char *said, size_t room)
{
    said[0] = 0;
    for (int d = 0; d < VH_WEEK_DAYS; d++)
        if (on[d])
            snprintf(said + strlen(said), room - strlen(said), "%s%s", said[0] ? " " : "",
                     weekday[vh_date_weekday(p->today + d)]);
}

/* "cannot wait", "can wait 3 days" */
static void say_wait(double may_wait_d, char *said, size_t room)
{
    const double days = floor(may_wait_d);

    said[0] = 0;
    if (!isfinite(may_wait_d))
        return;
    if (days < 1.0)
        snprintf(said, room, "cannot wait");
    else
        snprintf(said, room, "can wait %.0f day%s", days, days < 2.0 ? "" : "s");
}

/* ": it cannot wait", ", within 3 days"; nothing where it is not known. */
static void say_within(double may_wait_d, char *said, size_t room)
{
    const double days = floor(may_wait_d);

    if (days < 1.0)
        snprintf(said, room, ": it cannot wait");
    else if (isfinite(days))
        snprintf(said, room, ", within %.0f day%s", days, days < 2.0 ? "" : "s");
    else
        said[0] = 0;
}

/* "Pull suckers", without the comma that plantings follow. */
static const char *words_of(const struct vh_week_line *line)
{
    const struct vh_task_words *words = vh_task_words(line->task[0]->task);

    return words ? words->alone : line->task[0]->task;
}

/* "Pull suckers, slicers and plums" */
static void say_what(const struct vh_week_line *line, char *said, size_t room)
{
    const struct vh_task_words *words = vh_task_words(line->task[0]->task);

    char name[VH_PAGE_SHORT];

    snprintf(said, room, "%s", words ? words->verb : line->task[0]->task);
    for (int i = 0; i < line->tasks; i++)
        if (line->task[i]->planting[0])
            snprintf(said + strlen(said), room - strlen(said), "%s %.60s",
                     i == 0                 ? ""
                     : i == line->tasks - 1 ? " and"
                                            : ",",
                     vh_page_short(line->task[i]->planting, name));
}

/* " (Fri the last pick: all goes from breaker on)": on a planting's last day, where more goes. */
static void add_last(const struct vh_page *p, const struct vh_week_task *task, char *said,
                     size_t room)
{
    char words[LAST_ROOM];

    for (int d = 0; d < VH_WEEK_DAYS; d++) {
        const char *last = task->on[d] ? strstr(task->note[d], "the last pick: ") : NULL;
        if (!last)
            continue;
        vh_say_measures_in(last, p->units, words, sizeof words);
        snprintf(said + strlen(said), room - strlen(said), " (%s %s)",
                 weekday[vh_date_weekday(p->today + d)], words);
    }
}

/* "Tue 15, Fri 14 kg slicers" of each planting. */
static void say_picks(const struct vh_page *p, const struct vh_week_line *line, char *said,
                      size_t room)
{
    said[0] = 0;
    for (int i = 0; i < line->tasks; i++) {
        const struct vh_week_task *task = line->task[i];
        const bool kg = !strcmp(task->unit, "kg");
        char amount[VH_SAY_ROOM], name[VH_PAGE_SHORT];
        bool any = false;
        for (int d = 0; d < VH_WEEK_DAYS; d++) {
            if (!task->on[d])
                continue;
            if (kg)
                vh_say_amount(vh_page_weight(p, task->count[d]), amount);
            else
                vh_say_pieces(task->count[d], amount);
            snprintf(said + strlen(said), room - strlen(said), "%s%s %s",
                     any       ? ", "
                     : said[0] ? "; "
                               : "",
                     weekday[vh_date_weekday(p->today + d)], amount);
            any = true;
        }
        snprintf(said + strlen(said), room - strlen(said), "%s%s%s%.60s", kg ? " " : "",
                 kg ? vh_page_weight_unit(p) : "", line->tasks > 1 ? " " : "",
                 line->tasks > 1 ? vh_page_short(task->planting, name) : "");
        add_last(p, task, said, room);
    }
}

static void add_cost(struct vh_page *p, double cost)
{
    char late[VH_LATE_ROOM];

    vh_late_cost(p->facts->result, p->units, cost, late);
    vh_page_add(p, late[0] ? "; " : "");
    vh_page_say(p, late);
}

static void add_line(struct vh_page *p, const struct vh_week_line *line, int number)
{
    char text[700];

    snprintf(text, sizeof text, "<li><span class=\"no\">%d</span><span><b>", number);
    vh_page_add(p, text);
    say_what(line, text, sizeof text);
    vh_page_say_first(p, text);
    vh_page_add(p, "</b> ");
    if (vh_week_is_pick(line->task[0]))
        say_picks(p, line, text, sizeof text);
    else
        vh_week_note(line->task[0], p->today, p->units, text, sizeof text);
    vh_page_say(p, text);
    add_cost(p, line->cost);
    vh_say_measures_in(line->task[0]->if_late, p->units, text, sizeof text);
    if (text[0]) {
        vh_page_add(p, "<span class=\"late\">; a week late ");
        vh_page_say(p, text);
        vh_page_add(p, "</span>");
    }
    vh_page_add(p, "</span><span class=\"wait\">");
    draw_strip(p, line);
    vh_page_add(p, "<span><span class=\"days\">");
    say_days(p, line->on, text, sizeof text);
    vh_page_say(p, text);
    vh_page_add(p, line->may_wait_d >= 0.0 ? ", </span><span" : "</span><span");
    say_wait(line->may_wait_d, text, sizeof text);
    if (!strcmp(text, "cannot wait"))
        vh_page_add(p, " class=\"urgent\"");
    vh_page_add(p, ">");
    vh_page_say(p, text);
    vh_say_time(line->minutes, text);
    vh_page_add(p, "</span></span></span><span class=\"h\">");
    vh_page_say(p, text);
    vh_page_add(p, "</span></li>");
}

/* Letters of the days over their ticks. */
static void add_list_head(struct vh_page *p)
{
    struct vh_svg svg;

    vh_page_add(p, "<div class=\"weekhead\" aria-hidden=\"true\"><span></span><span>What</span>");
    vh_svg_open_hidden(&svg, p->out, strip_width, strip_height, "");
    for (int d = 0; d < VH_WEEK_DAYS; d++) {
        char two[3] = "";
        memcpy(two, weekday[vh_date_weekday(p->today + d)], 2);
        vh_svg_text(&svg, first_day_x + day_step * d, tick_top, VH_SVG_MIDDLE, "t", two);
    }
    vh_svg_close(&svg);
    vh_page_add(p, "<span>Time</span></div>");
}

/* "All together 2 h 30 min, 12 min of it walking, 5 min of it in 2 more on the sheet." */
static void say_sum(const struct vh_week *week, int more, double more_min, char *said, size_t room)
{
    char time[VH_SAY_ROOM];

    vh_say_time(week->total_min, time);
    snprintf(said, room, "All together %s", time);
    vh_say_time(week->walking_min, time);
    if (time[0])
        snprintf(said + strlen(said), room - strlen(said), ", %s of it walking", time);
    vh_say_time(more_min, time);
    if (more > 0)
        snprintf(said + strlen(said), room - strlen(said), ", %s of it in %d more on the sheet",
                 time, more);
    snprintf(said + strlen(said), room - strlen(said), ".");
}

/* " That is from 14 to 20 July, 3.1 of your 12 hours; lettuce (9 h) not counted in." */
static void add_hers(struct vh_page *p, const struct vh_week *week)
{
    const double min_per_h = 60.0;
    struct vh_her_hours h;
    char hers[VH_HOURS_TEXT], from[VH_SAY_ROOM], until[VH_SAY_ROOM], text[2 * VH_HOURS_TEXT];

    vh_her_hours(vh_page_table(p, "hours"), p->today, &h);
    vh_hours_of_hers(vh_page_table(p, "hours"), &h, week->total_min / min_per_h, hers);
    vh_say_date((double)p->today, from);
    vh_say_date((double)(p->today + VH_WEEK_DAYS - 1), until);
    snprintf(text, sizeof text, " That is from %s to %s%s%s.", from, until, hers[0] ? ", " : "",
             hers);
    vh_page_say(p, text);
}

static void add_list(struct vh_page *p, const struct vh_week *week, const struct vh_week_line *line,
                     int n)
{
    double more_min = week->beyond_min;
    int shown = 0;
    char text[160];

    add_list_head(p);
    vh_page_add(p, "<ol class=\"work\">");
    for (int i = 0; i < n; i++) {
        if (shown < SHOWN_MOST || vh_week_is_pick(line[i].task[0]))
            add_line(p, &line[i], ++shown);
        else
            more_min += line[i].minutes;
    }
    vh_page_add(p,
                "</ol><p class=\"key\"><b>Dot</b>: the day to do it. <b>Line</b>: how long it may "
                "wait. ");
    say_sum(week, n - shown, more_min, text, sizeof text);
    vh_page_say(p, text);
    add_hers(p, week);
    vh_page_add(p, "</p>");
}

static void add_warning(struct vh_page *p, const struct vh_table *t, size_t row)
{
    char text[400];

    vh_say_date(vh_cell_number(t, row, "date"), text);
    vh_page_add(p, "<li><b>");
    vh_page_say(p, text);
    if (vh_cell_text(t, row, "planting")[0])
        vh_page_say(p, ", ");
    vh_page_say(p, vh_cell_text(t, row, "planting"));
    vh_page_add(p, ":</b> ");
    vh_say_measures_in(vh_cell_text(t, row, "what"), p->units, text, sizeof text);
    vh_page_say(p, text);
    vh_page_add(p, ". ");
    vh_say_measures_in(vh_cell_text(t, row, "what_to_do"), p->units, text, sizeof text);
    vh_page_say_first(p, text);
    vh_page_add(p, ".</li>");
}

static void add_careful(struct vh_page *p)
{
    const struct vh_table *t = vh_page_table(p, "warnings");
    size_t cautions;
    const struct vh_caution *caution = vh_cautions(&cautions);
    struct vh_careful careful;
    char hot[VH_HOT_ROOM];
    const bool is_hot =
        vh_hot_days(vh_page_table(p, "climate_days"), p->today, p->units, "\xC2\xB0", hot);

    vh_careful(t, p->today, &careful);
    const int shown = careful.rows < WARNED_MOST ? careful.rows : WARNED_MOST;
    vh_page_part(p, "careful", "Careful",
                 shown || is_hot ? "What is foreseen, and what can hurt" : "What can hurt");
    if (shown || is_hot) {
        vh_page_add(p, "<ul class=\"care\">");
        if (is_hot) {
            vh_page_add(p, "<li>");
            vh_page_say_first(p, hot);
            vh_page_add(p, ".</li>");
        }
        for (int i = 0; i < shown; i++)
            add_warning(p, t, careful.row[i]);
        vh_page_add(p, "</ul>");
    }
    vh_page_add(p, "<ul class=\"hurts\">");
    for (size_t i = 0; i < cautions; i++) {
        vh_page_add(p, "<li>");
        vh_page_say(p, caution[i].brief);
        vh_page_add(p, ".</li>");
    }
    vh_page_add(p, "</ul><p class=\"soft small\">");
    vh_page_say(p, vh_cautions_end());
    vh_page_add(p, "</p>");
    vh_page_part_end(p);
}

void vh_report_work(struct vh_page *p)
{
    struct vh_week week;
    struct vh_week_line *line = calloc(VH_WEEK_TASKS_MOST, sizeof *line);
    char finding[300], wait[40];

    if (!line) {
        p->out->failed = true;
        return;
    }
    vh_week_tasks(p->facts->result, p->today, &week);
    const int n = vh_week_lines(&week, false, line);
    vh_page_add(p, "<div class=\"cols\">");
    if (n == 0) {
        vh_page_empty(p, "work", "This week", "No work is planned in the coming seven days.");
    } else {
        say_within(line[0].may_wait_d, wait, sizeof wait);
        say_what(&line[0], finding, sizeof finding - sizeof wait);
        if (line[0].tasks > 1) /* which plantings stands in the list */
            snprintf(finding, sizeof finding, "%.40s", words_of(&line[0]));
        snprintf(finding + strlen(finding), sizeof finding - strlen(finding), " first%s", wait);
        vh_page_part(p, "work", "This week, most urgent first", finding);
        add_list(p, &week, line, n);
        vh_page_part_end(p);
    }
    add_careful(p);
    vh_page_add(p, "</div>");
    free(line);
}
