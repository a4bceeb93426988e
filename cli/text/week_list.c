#include "vh_week_list.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "vh_late_cost.h"
#include "vh_task_words.h"
#include "vh_week_work.h"

enum { TEXT_COLUMNS = 45, DAYS_COLUMNS = 10, WAIT_COLUMNS = 8, TIME_COLUMNS = 11 };
enum { TASK_ROOM = 400, REST_COLUMNS = 75 };
enum { NAMED_MOST = 3 }; /* days of a task */

void vh_week_turns(double turns, char said[VH_SAY_ROOM])
{
    const double halves = round(2.0 * turns), whole = floor(halves / 2.0);
    const bool half = halves > 2.0 * whole;

    said[0] = 0;
    if (!isfinite(turns) || halves < 1.0)
        return;
    if (whole < 1.0)
        snprintf(said, VH_SAY_ROOM, "1/2 turn");
    else
        snprintf(said, VH_SAY_ROOM, "%.0f%s turn%s", whole, half ? " 1/2" : "",
                 halves > 2.0 ? "s" : "");
}

/* What she says for it. */
static const char *words_of(const char *task)
{
    static const struct {
        const char *task, *words;
    } list[] = {
        {"pollinate", "pollinate"},
        {"sucker", "suckers,"},
        {"clip", "clip"},
        {"thin", "thin"},
        {"support", "truss supports,"},
        {"leaf", "leaves off,"},
        {"lower", "lower"},
        {"pick", "pick"},
        {"top", "take the heads off,"},
        {"string", "hang strings,"},
        {"plant", "set out"},
        {"pull_out", "take out"},
        {"clean", "clean the blades"},
    };

    for (size_t i = 0; i < sizeof list / sizeof list[0]; i++)
        if (strcmp(task, list[i].task) == 0)
            return list[i].words;
    return task;
}

/* "30 to 33 cm", "30 cm" where both are said alike. */
static void say_span(const char *low, const char *high, char said[TASK_ROOM])
{
    const char *unit = strrchr(low, ' ');
    const bool same_unit = unit && strrchr(high, ' ') && strcmp(unit, strrchr(high, ' ')) == 0;

    if (strcmp(low, high) == 0)
        snprintf(said, TASK_ROOM, "%s", low);
    else
        snprintf(said, TASK_ROOM, "%.*s to %s", same_unit ? (int)(unit - low) : (int)strlen(low),
                 low, high);
}

/* " 27 cm, 1 1/2 turns"; " 30 to 33 cm, 1 1/2 to 2 turns" where the week has several visits. */
static void say_lowering(const struct vh_result *r, const struct vh_summary_facts *f,
                         const char *planting, char said[TASK_ROOM])
{
    const struct vh_table *t = vh_result_table_named(r, "lowering");
    double cm[2] = {HUGE_VAL, 0.0}, turns[2] = {HUGE_VAL, 0.0};
    char low[VH_SAY_ROOM], high[VH_SAY_ROOM], text[TASK_ROOM];

    said[0] = 0;
    for (size_t i = 0; t && i < vh_table_rows(t); i++) {
        const double day = vh_cell_number(t, i, "date") - (double)f->today;

        if (!(day >= 0.0 && day < VH_WEEK_DAYS) ||
            strcmp(vh_cell_text(t, i, "planting"), planting) != 0)
            continue;
        cm[0] = fmin(cm[0], vh_cell_number(t, i, "lower_cm"));
        cm[1] = fmax(cm[1], vh_cell_number(t, i, "lower_cm"));
        turns[0] = fmin(turns[0], vh_cell_number(t, i, "turns"));
        turns[1] = fmax(turns[1], vh_cell_number(t, i, "turns"));
    }
    if (!(cm[0] <= cm[1]))
        return;
    /* whole centimetres first, as the tasks and the sheet have them */
    vh_say_length(round(cm[0]), f->units, low);
    vh_say_length(round(cm[1]), f->units, high);
    say_span(low, high, text);
    snprintf(said, TASK_ROOM, " %.60s", text);
    vh_week_turns(turns[0], low);
    vh_week_turns(turns[1], high);
    if (!low[0] || !high[0])
        return;
    if (strcmp(low, high) != 0)
        *strstr(low, " turn") = 0; /* "1 to 2 turns" */
    say_span(low, high, text);
    snprintf(said + strlen(said), TASK_ROOM - strlen(said), ", %.60s", text);
}

static void add_cost(const struct vh_result *r, const struct vh_summary_facts *f, double cost,
                     char said[TASK_ROOM])
{
    const size_t n = strlen(said);
    char late[VH_LATE_ROOM];

    vh_late_cost(r, f->units, cost, late);
    if (late[0])
        snprintf(said + n, TASK_ROOM - n, "; %s", late);
}

/* The same stems visit after visit are told once: their number; else that of the whole week. */
static bool is_round(const struct vh_week_task *task, double *stems)
{
    int visits = 0;

    if (strcmp(task->unit, "stems") != 0)
        return false;
    for (int d = 0; d < VH_WEEK_DAYS; d++) {
        if (!task->on[d])
            continue;
        if (visits++ > 0 && task->count[d] != *stems)
            return false;
        *stems = task->count[d];
    }
    return visits > 1;
}

static void say_task(const struct vh_result *r, const struct vh_summary_facts *f,
                     const struct vh_week_task *task, bool how, char said[TASK_ROOM])
{
    char lowering[TASK_ROOM] = "", count[VH_SAY_ROOM] = "", note[TASK_ROOM], unit[VH_TASK_UNIT];

    if (strcmp(task->task, "lower") == 0)
        say_lowering(r, f, task->planting, lowering);
    if (!lowering[0])
        vh_say_pieces(task->total, count);
    snprintf(said, TASK_ROOM, "%s%s%s%s%.200s", words_of(task->task), task->planting[0] ? " " : "",
             task->planting, lowering[0] ? vh_say_name_end(task->planting) : "", lowering);
    size_t n = strlen(said);
    note[0] = 0;
    if (how || strcmp(task->task, "thin") == 0)
        vh_week_note(task, f->today, f->units, note, sizeof note);
    static const char proposed[] = "only proposed"; /* that it is not decided is no detail */
    if (!note[0] && strcmp(task->task, "top") == 0) {
        vh_week_note(task, f->today, f->units, note, sizeof note);
        note[strncmp(note, proposed, sizeof proposed - 1) == 0 ? sizeof proposed - 1 : 0] = '\0';
    }
    if (note[0] && !lowering[0])
        snprintf(said + n, TASK_ROOM - n, ": %.300s", note);
    else if (count[0] && task->unit[0] && task->total > 0.0) {
        double pieces = task->total;
        const bool each = is_round(task, &pieces);
        vh_say_pieces(pieces, count);
        vh_task_unit(pieces, task->unit, unit);
        snprintf(said + n, TASK_ROOM - n, " (%s %s%s)", count, unit, each ? " each time" : "");
    }
    add_cost(r, f, task->cost, said);
    n = strlen(said);
    const bool cannot_wait = task->may_wait_d < 1.0; /* that has its reason beside it, always */
    vh_say_measures_in(how || cannot_wait ? task->if_late : "", f->units, note, sizeof note);
    if (note[0])
        snprintf(said + n, TASK_ROOM - n, "; a week late %.200s", note);
}

/* "Tue Fri", "Tu Th Sa", "on 4 days", "daily"; no more than `most` are named. All shorter than
 * DAYS_COLUMNS. */
static void say_days(const struct vh_week_task *task, int64_t today, int most,
                     char said[VH_SAY_ROOM])
{
    static const char *const day[] = {"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"};
    int count = 0;

    for (int d = 0; d < VH_WEEK_DAYS; d++)
        count += task->on[d];
    said[0] = 0;
    if (count == VH_WEEK_DAYS)
        snprintf(said, VH_SAY_ROOM, "daily");
    else if (count > most)
        snprintf(said, VH_SAY_ROOM, "on %d days", count);
    for (int d = 0; d < VH_WEEK_DAYS && count <= most; d++)
        if (task->on[d])
            snprintf(said + strlen(said), VH_SAY_ROOM - strlen(said), "%s%.*s", said[0] ? " " : "",
                     count > 2 ? 2 : 3, day[vh_date_weekday(today + d)]);
}

static void say_wait(const struct vh_week_task *task, char said[VH_SAY_ROOM])
{
    const double days = floor(task->may_wait_d);

    said[0] = 0;
    if (days < 1.0)
        snprintf(said, VH_SAY_ROOM, "cannot");
    else if (isfinite(days))
        snprintf(said, VH_SAY_ROOM, "%.0f day%s", days, days < 2.0 ? "" : "s");
}

/* Bytes of `text` that fit into so many columns, cut at a blank. */
static size_t fitting(const char *text, size_t most)
{
    size_t columns = 0, n = 0, blank = 0;

    for (; text[n] && columns <= most; n++) {
        if (text[n] == ' ')
            blank = n;
        columns += ((unsigned char)text[n] & 0xC0) != 0x80;
    }
    if (!text[n] && columns <= most)
        return n;
    return blank > 0 ? blank : n - 1;
}

/* One task; what does not fit beside its day and time stands on the next lines. */
static void put_task(FILE *to, const char *number, const char *text, const char *days,
                     const char *wait, const char *time)
{
    char line[TASK_ROOM];
    const size_t n = fitting(text, TEXT_COLUMNS);

    snprintf(line, sizeof line, "%.*s", (int)n, text);
    fprintf(to, "%3s  ", number);
    vh_say_safely(to, line);
    const int days_columns = DAYS_COLUMNS + (wait[0] ? 0 : WAIT_COLUMNS);
    fprintf(to, "%*s%-*s%-*s%*s\n",
            (int)(TEXT_COLUMNS + 1 -
                  (vh_say_width(line) < TEXT_COLUMNS ? vh_say_width(line) : TEXT_COLUMNS)),
            "", days_columns, days, DAYS_COLUMNS + WAIT_COLUMNS - days_columns, wait, TIME_COLUMNS,
            time);
    for (const char *rest = text + n; *rest; rest += fitting(rest, REST_COLUMNS)) {
        rest += *rest == ' ';
        snprintf(line, sizeof line, "%.*s", (int)fitting(rest, REST_COLUMNS), rest);
        fputs("     ", to);
        vh_say_safely(to, line);
        fputc('\n', to);
    }
}

/* What the lines above do not show, and the sum of all. */
static void put_sum(FILE *to, const struct vh_week *week, int more, double more_min)
{
    char text[200] = "", time[VH_SAY_ROOM];

    vh_say_time(more_min, time);
    if (more > 0)
        snprintf(text, sizeof text, "%d more in tasks.csv%s%s", more, time[0] ? " " : "", time);
    vh_say_time(week->walking_min, time);
    if (time[0])
        snprintf(text + strlen(text), sizeof text - strlen(text), "%swalking %s",
                 text[0] ? ", " : "", time);
    snprintf(text + strlen(text), sizeof text - strlen(text), "%sin all", text[0] ? "; " : "");
    vh_say_time(week->total_min, time);
    fprintf(to, "%5s%-*s%*s\n", "", TEXT_COLUMNS + 1 + DAYS_COLUMNS + WAIT_COLUMNS, text,
            TIME_COLUMNS, time);
}

/* All picking on one line, where the most urgent of it stands: what is picked has a block of its
 * own. */
static void put_picks(FILE *to, const struct vh_result *r, const struct vh_summary_facts *f,
                      const struct vh_week_task *task, int n, int number)
{
    struct vh_week_task all = {.task = "pick", .may_wait_d = HUGE_VAL};
    char text[TASK_ROOM] = "pick", days[VH_SAY_ROOM], wait[VH_SAY_ROOM], time[VH_SAY_ROOM], no[12];

    for (int i = 0; i < n; i++) {
        if (strcmp(task[i].task, "pick") != 0)
            continue;
        all.cost += task[i].cost;
        all.minutes += task[i].minutes;
        if (task[i].may_wait_d < all.may_wait_d)
            all.may_wait_d = task[i].may_wait_d;
        for (int d = 0; d < VH_WEEK_DAYS; d++)
            all.on[d] = all.on[d] || task[i].on[d];
    }
    add_cost(r, f, all.cost, text);
    say_days(&all, f->today, NAMED_MOST, days);
    say_wait(&all, wait);
    vh_say_time(all.minutes, time);
    snprintf(no, sizeof no, "%d", number);
    put_task(to, no, text, days, wait, time);
}

void vh_week_list(FILE *to, const struct vh_result *result, const struct vh_summary_facts *facts,
                  int most, bool how)
{
    struct vh_week week;
    char text[TASK_ROOM], days[VH_SAY_ROOM], wait[VH_SAY_ROOM], time[VH_SAY_ROOM], number[12];
    int shown = 0, picks = 0, more = 0; /* picks: 1 once their line stands */

    vh_week_tasks(result, facts->today, &week);
    double more_min = week.beyond_min;
    if (week.tasks == 0) {
        vh_say_block(to, "DO FIRST", 11, "no work is planned in the coming seven days");
        return;
    }
    fprintf(to, "%-*s%-*s%-*s%*s\n", 5 + TEXT_COLUMNS + 1, "DO FIRST", DAYS_COLUMNS, "day",
            WAIT_COLUMNS, "can wait", TIME_COLUMNS, "time");
    for (int i = 0; i < week.tasks; i++) {
        const struct vh_week_task *task = &week.task[i];
        if (strcmp(task->task, "pick") == 0) {
            if (!picks)
                put_picks(to, result, facts, week.task, week.tasks, ++shown);
            picks = 1;
            continue;
        }
        if (shown - picks >= most) {
            more++;
            more_min += task->minutes;
            continue;
        }
        say_task(result, facts, task, how, text);
        say_days(task, facts->today, NAMED_MOST, days);
        say_wait(task, wait);
        vh_say_time(task->minutes, time);
        snprintf(number, sizeof number, "%d", ++shown);
        put_task(to, number, text, days, wait, time);
    }
    put_sum(to, &week, more, more_min);
}
