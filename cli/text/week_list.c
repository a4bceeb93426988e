#include "vh_week_list.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "vh_her_hours.h"
#include "vh_late_cost.h"
#include "vh_task_words.h"
#include "vh_week_work.h"

enum { TEXT_COLUMNS = 45, DAYS_COLUMNS = 10, WAIT_COLUMNS = 8, TIME_COLUMNS = 11 };
enum { TASK_ROOM = 400, REST_COLUMNS = 75 };
enum { NAMED_MOST = 3 }; /* days of a task */
enum { PRESSING_D = 3 }; /* what waits for fewer days than that presses */

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

/* "27 cm" and "1 1/2 turns"; "30 to 33 cm" and "1 1/2 to 2 turns" where the week has several
 * visits; "" where unknown. */
static void say_lowering(const struct vh_result *r, const struct vh_summary_facts *f,
                         const char *planting, char said_cm[TASK_ROOM], char said_turns[TASK_ROOM])
{
    const struct vh_table *t = vh_result_table_named(r, "lowering");
    double cm[2] = {HUGE_VAL, 0.0}, turns[2] = {HUGE_VAL, 0.0};
    char low[VH_SAY_ROOM], high[VH_SAY_ROOM];

    said_cm[0] = said_turns[0] = 0;
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
    say_span(low, high, said_cm);
    vh_week_turns(turns[0], low);
    vh_week_turns(turns[1], high);
    if (!low[0] || !high[0])
        return;
    if (strcmp(low, high) != 0)
        *strstr(low, " turn") = 0; /* "1 to 2 turns" */
    say_span(low, high, said_turns);
}

/* "; a week late costs 15 USD"; once that was said in a list that is short of room "; late 3 USD".
 */
static void add_cost(const struct vh_result *r, const struct vh_summary_facts *f, double cost,
                     bool again, char said[TASK_ROOM])
{
    static const char in_full[] = "a week late costs ";
    const size_t n = strlen(said);
    char late[VH_LATE_ROOM];

    vh_late_cost(r, f->units, cost, late);
    if (again && strncmp(late, in_full, strlen(in_full)) == 0)
        snprintf(said + n, TASK_ROOM - n, "; late %s", late + strlen(in_full));
    else if (late[0])
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

/* "Tue Fri", "Tu Th Sa", "on 4 days", "daily"; no more than `most` are named. All shorter than
 * DAYS_COLUMNS. */
static void say_days(const bool on[VH_WEEK_DAYS], int64_t today, int most, char said[VH_SAY_ROOM])
{
    static const char *const day[] = {"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"};
    int count = 0;

    for (int d = 0; d < VH_WEEK_DAYS; d++)
        count += on[d];
    said[0] = 0;
    if (count == VH_WEEK_DAYS)
        snprintf(said, VH_SAY_ROOM, "daily");
    else if (count > most)
        snprintf(said, VH_SAY_ROOM, "on %d days", count);
    for (int d = 0; d < VH_WEEK_DAYS && count <= most; d++)
        if (on[d])
            snprintf(said + strlen(said), VH_SAY_ROOM - strlen(said), "%s%.*s", said[0] ? " " : "",
                     count > 2 ? 2 : 3, day[vh_date_weekday(today + d)]);
}

/* Are all plantings of the line visited on the same days? */
static bool same_days(const struct vh_week_line *line)
{
    for (int i = 0; i < line->tasks; i++)
        if (memcmp(line->task[i]->on, line->on, sizeof line->on) != 0)
            return false;
    return true;
}

/* " slicers and plums"; " slicers Fri and plums Tue Fri" where their days differ; " slicers 21 cm
 * and plums 22 cm, 1 turn" of a lowering. */
static void add_plantings(const struct vh_result *r, const struct vh_summary_facts *f,
                          const struct vh_week_line *line, bool days_too, char said[TASK_ROOM])
{
    const bool same = !days_too || line->tasks > NAMED_MOST || same_days(line);
    const bool lower = strcmp(line->task[0]->task, "lower") == 0;
    char days[VH_SAY_ROOM] = "", cm[TASK_ROOM] = "", turns[TASK_ROOM] = "", next[TASK_ROOM];

    for (int i = 0; i < line->tasks; i++) {
        const char *planting = line->task[i]->planting;
        size_t n = strlen(said);
        if (!planting[0])
            continue;
        if (!same)
            say_days(line->task[i]->on, f->today, NAMED_MOST, days);
        if (lower)
            say_lowering(r, f, planting, cm, turns);
        snprintf(said + n, TASK_ROOM - n, "%s %.60s%s%s%s%s%.60s",
                 i == 0                 ? ""
                 : i == line->tasks - 1 ? " and"
                                        : ",",
                 planting, days[0] || cm[0] ? vh_say_name_end(planting) : "", days[0] ? " " : "",
                 days, cm[0] ? " " : "", cm);
        if (lower && i + 1 < line->tasks) /* where all have as many, once behind the last */
            say_lowering(r, f, line->task[i + 1]->planting, cm, next);
        n = strlen(said);
        if (turns[0] && (i + 1 == line->tasks || strcmp(turns, next) != 0))
            snprintf(said + n, TASK_ROOM - n, ", %.60s", turns);
    }
}

/* How it is done, or of how much; that a topping is not decided is no detail. */
static void add_how(const struct vh_summary_facts *f, const struct vh_week_task *task, bool how,
                    bool counted, char said[TASK_ROOM])
{
    static const char proposed[] = "only proposed";
    const size_t n = strlen(said);
    char count[VH_SAY_ROOM], note[TASK_ROOM] = "", unit[VH_TASK_UNIT];

    if (how || strcmp(task->task, "thin") == 0)
        vh_week_note(task, f->today, f->units, note, sizeof note);
    if (!note[0] && strcmp(task->task, "top") == 0) {
        vh_week_note(task, f->today, f->units, note, sizeof note);
        note[strncmp(note, proposed, sizeof proposed - 1) == 0 ? sizeof proposed - 1 : 0] = '\0';
    }
    if (note[0]) {
        snprintf(said + n, TASK_ROOM - n, ": %.300s", note);
    } else if (counted && task->unit[0] && task->total > 0.0) {
        double pieces = task->total;
        const bool each = is_round(task, &pieces);
        vh_say_pieces(pieces, count);
        vh_task_unit(pieces, task->unit, unit);
        if (count[0])
            snprintf(said + n, TASK_ROOM - n, " (%s %s%s)", count, unit, each ? " each time" : "");
    }
}

/* What waiting brings is said where it is the same in all plantings of the line. */
static const char *if_late(const struct vh_week_line *line)
{
    for (int i = 1; i < line->tasks; i++)
        if (strcmp(line->task[i]->if_late, line->task[0]->if_late) != 0)
            return "";
    return line->task[0]->if_late;
}

static void say_line(const struct vh_result *r, const struct vh_summary_facts *f,
                     const struct vh_week_line *line, enum vh_week_detail detail, bool cost_again,
                     char said[TASK_ROOM])
{
    const struct vh_week_task *task = line->task[0];
    const bool how = detail == VH_WEEK_HOW;
    char note[TASK_ROOM];

    snprintf(said, TASK_ROOM, "%s", words_of(task->task));
    add_plantings(r, f, line, detail != VH_WEEK_NAMES, said);
    if (strcmp(task->task, "lower") != 0)
        add_how(f, task, how, line->tasks == 1, said);
    add_cost(r, f, line->cost, cost_again && !how, said);
    const size_t n = strlen(said);
    const bool cannot_wait = line->may_wait_d < 1.0; /* that has its reason beside it, always */
    vh_say_measures_in(how || cannot_wait ? if_late(line) : "", f->units, note, sizeof note);
    if (note[0])
        snprintf(said + n, TASK_ROOM - n, "; a week late %.200s", note);
}

static void say_wait(double may_wait_d, char said[VH_SAY_ROOM])
{
    const double days = floor(may_wait_d);

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

/* What the lines above do not show, and the sum of all beside the hours she has. */
static void put_sum(FILE *to, const struct vh_result *r, const struct vh_summary_facts *f,
                    const struct vh_week *week, int more, double more_min)
{
    const double min_per_h = 60.0;
    const int room = TEXT_COLUMNS + 1 + DAYS_COLUMNS + WAIT_COLUMNS;
    struct vh_her_hours h;
    char text[200] = "", all[VH_SAY_ROOM], time[VH_SAY_ROOM], hers[VH_HOURS_TEXT];

    vh_say_time(more_min, time);
    if (more > 0)
        snprintf(text, sizeof text, "%d more in tasks.csv%s%s", more, time[0] ? " " : "", time);
    vh_say_time(week->walking_min, time);
    if (time[0])
        snprintf(text + strlen(text), sizeof text - strlen(text), "%swalking %s",
                 text[0] ? ", " : "", time);
    vh_her_hours(vh_result_table_named(r, "hours"), f->today, &h);
    vh_hours_has(&h, week->total_min / min_per_h, hers);
    snprintf(all, sizeof all, "in all%.40s", hers);
    vh_say_time(week->total_min, time);
    if (text[0] && vh_say_width(text) + vh_say_width("; ") + vh_say_width(all) > (size_t)room) {
        fprintf(to, "%5s%s;\n", "", text);
        text[0] = '\0';
    }
    if (text[0])
        snprintf(text + strlen(text), sizeof text - strlen(text), "; ");
    fprintf(to, "%5s%s%-*s%*s\n", "", text, room - (int)vh_say_width(text), all, TIME_COLUMNS,
            time);
}

static void put_line(FILE *to, const struct vh_summary_facts *f, const struct vh_week_line *line,
                     const char *text, int number)
{
    char days[VH_SAY_ROOM], wait[VH_SAY_ROOM], time[VH_SAY_ROOM], no[12];

    say_days(line->on, f->today, NAMED_MOST, days);
    say_wait(line->may_wait_d, wait);
    vh_say_time(line->minutes, time);
    snprintf(no, sizeof no, "%d", number);
    put_task(to, no, text, days, wait, time);
}

/* All picking on one line, where the most urgent of it stands: what is picked has a block of its
 * own. */
static void put_picks(FILE *to, const struct vh_result *r, const struct vh_summary_facts *f,
                      const struct vh_week *week, bool cost_again, int number, char text[TASK_ROOM])
{
    struct vh_week_line all = {.may_wait_d = HUGE_VAL};

    for (int i = 0; i < week->tasks; i++) {
        const struct vh_week_task *task = &week->task[i];
        if (!vh_week_is_pick(task))
            continue;
        all.cost += task->cost;
        all.minutes += task->minutes;
        if (task->may_wait_d < all.may_wait_d)
            all.may_wait_d = task->may_wait_d;
        for (int d = 0; d < VH_WEEK_DAYS; d++)
            all.on[d] = all.on[d] || task->on[d];
    }
    snprintf(text, TASK_ROOM, "pick");
    add_cost(r, f, all.cost, cost_again, text);
    put_line(to, f, &all, text, number);
}

static bool presses(const struct vh_week_line *line)
{
    return line->may_wait_d < PRESSING_D;
}

/* 2: it cannot wait for a day, which not all costs money: heads above the wire break; 1: not for
 * days. */
static int press_of(const struct vh_week_line *line)
{
    return line->may_wait_d < 1.0 ? 2 : presses(line) ? 1 : 0;
}

/* Of lines that are shown the one to leave out: what presses most stays, then what it costs most to
 * put off, then what comes first. -1: there is none. */
static int least_of(const struct vh_week_line *line, int n, const bool *shown)
{
    int least = -1;

    for (int i = 0; i < n; i++) {
        if (!shown[i])
            continue;
        if (least < 0 || press_of(&line[i]) < press_of(&line[least]) ||
            (press_of(&line[i]) == press_of(&line[least]) && line[i].cost <= line[least].cost))
            least = i;
    }
    return least;
}

static void put_lines(FILE *to, const struct vh_result *r, const struct vh_summary_facts *f,
                      const struct vh_week *week, const struct vh_week_line *line, int n, int most,
                      enum vh_week_detail detail)
{
    bool shown[VH_WEEK_TASKS_MOST], picks = false;
    char text[TASK_ROOM];
    int kept = 0, number = 0;
    double more_min = week->beyond_min;

    for (int i = 0; i < n; i++)
        kept += shown[i] = !vh_week_is_pick(line[i].task[0]);
    const int more = kept > most ? kept - most : 0;
    for (int k = 0; k < more; k++) {
        const int out = least_of(line, n, shown);
        shown[out] = false;
        more_min += line[out].minutes;
    }
    bool cost_said = false;
    for (int i = 0; i < n; i++) {
        if (shown[i]) {
            say_line(r, f, &line[i], detail, cost_said, text);
            put_line(to, f, &line[i], text, ++number);
        } else if (vh_week_is_pick(line[i].task[0]) && !picks) {
            picks = true;
            put_picks(to, r, f, week, cost_said && detail != VH_WEEK_HOW, ++number, text);
        } else {
            continue;
        }
        cost_said = cost_said || strstr(text, "a week late costs");
    }
    put_sum(to, r, f, week, more, more_min);
}

int vh_week_pressing(const struct vh_result *result, int64_t today)
{
    struct vh_week week;
    struct vh_week_line line[VH_WEEK_TASKS_MOST];
    int count = 0;

    vh_week_tasks(result, today, &week);
    for (int i = 0, n = vh_week_lines(&week, true, line); i < n; i++)
        count += !vh_week_is_pick(line[i].task[0]) && presses(&line[i]);
    return count;
}

void vh_week_list(FILE *to, const struct vh_result *result, const struct vh_summary_facts *facts,
                  int most, enum vh_week_detail detail)
{
    struct vh_week week;
    struct vh_week_line line[VH_WEEK_TASKS_MOST];

    vh_week_tasks(result, facts->today, &week);
    if (week.tasks == 0) {
        vh_say_block(to, "DO FIRST", 11, "no work is planned in the coming seven days");
    } else {
        fprintf(to, "%-*s%-*s%-*s%*s\n", 5 + TEXT_COLUMNS + 1, "DO FIRST", DAYS_COLUMNS, "day",
                WAIT_COLUMNS, "can wait", TIME_COLUMNS, "time");
        put_lines(to, result, facts, &week, line, vh_week_lines(&week, detail != VH_WEEK_HOW, line),
                  most, detail);
    }
}
