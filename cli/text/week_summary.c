/* What `week` prints: the coming seven days on one screen, the most urgent first. */
#include "vh_week_summary.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "vh_cautions.h"
#include "vh_complain.h"
#include "vh_hot_day.h"
#include "vh_market_lines.h"
#include "vh_measure_lines.h"
#include "vh_week_list.h"
#include "vh_week_much.h"
#include "vh_week_picks.h"
#include "vh_week_work.h"

enum { INDENT = 11, LINES_MOST = 40, ORDER_AHEAD_D = 60, LOOKS_KEPT = 3, URGENT_KEPT = 2 };
/* Lines of the list on a full screen: at least, of a long and of a short list. */
enum { PRESSING_LEAST = 2, TASKS_IN_FULL = 9, TASKS_KEPT = 5 };

/* Only where they were learnt from: a forecast that does not heed them should not name them. */
static void add_records(char text[VH_SAY_TEXT], const struct vh_result *r,
                        const struct vh_table *house)
{
    const struct vh_table *learned = vh_result_table_named(r, "learned");
    char last[VH_SAY_ROOM] = "";

    if (house && vh_table_rows(house) > 0 && learned && vh_table_rows(learned) > 0)
        vh_say_date(vh_cell_number(house, 0, "records_until"), last);
    if (last[0])
        vh_say_add(text, " \xC2\xB7 records to %s", last);
}

static void say_head(FILE *to, const struct vh_result *r, const struct vh_summary_facts *f)
{
    static const char *const day_name[] = {"Monday", "Tuesday",  "Wednesday", "Thursday",
                                           "Friday", "Saturday", "Sunday"};
    const struct vh_table *house = vh_result_table_named(r, "house");
    char text[VH_SAY_TEXT] = "", date[VH_SAY_ROOM], last[VH_SAY_ROOM] = "";

    vh_say_date((double)f->today, date);
    if (house && vh_table_rows(house) > 0)
        vh_say_date(vh_cell_number(house, 0, "last_logged"), last);
    vh_say_add(text, "%s \xC2\xB7 %s %s \xC2\xB7 ", f->name, day_name[vh_date_weekday(f->today)],
               date);
    vh_say_add(text, last[0] ? "thermometer to %s" : "no thermometer%s", last);
    add_records(text, r, house);
    vh_say_block(to, "", 0, text);
    fputc('\n', to);
}

/* false: there is nothing to say */
static bool say_likely(FILE *to, const struct vh_table *t, const struct vh_summary_facts *f)
{
    char text[VH_SAY_TEXT] = "", much[VH_WEEK_MUCH_ROOM];

    for (size_t i = 0; t && i < vh_table_rows(t); i++) {
        const bool pieces = strcmp(vh_cell_text(t, i, "unit_word"), "fruits") == 0;

        vh_week_much(f, vh_cell_number(t, i, "next_week_kg"),
                     vh_cell_number(t, i, "next_week_fruits"), pieces, much);
        if (!much[0])
            continue;
        const char *planting = vh_cell_text(t, i, "planting");
        vh_say_add(text, "%s%s%s %s", text[0] ? ", " : "", planting, vh_say_name_end(planting),
                   much);
        vh_say_next_week_range(t, i, pieces, f, much);
        vh_say_add(text, "%s", much);
    }
    if (text[0]) {
        vh_say_add(text, " likely");
        vh_say_block(to, "7 DAYS", INDENT, text);
    }
    return text[0] != '\0';
}

static void say_order(FILE *to, const struct vh_result *r, const struct vh_summary_facts *f)
{
    const struct vh_table *t = vh_result_table_named(r, "supplies");
    char text[VH_SAY_TEXT] = "", by[VH_SAY_ROOM], gone[VH_SAY_ROOM], left[VH_SAY_ROOM];
    const char *said[4] = {"", "", "", ""};
    int count = 0;

    for (size_t i = 0; t && i < vh_table_rows(t) && count < 4; i++) {
        const char *item = vh_cell_text(t, i, "item");
        const double order_by = vh_cell_number(t, i, "order_by");
        bool known = vh_cell_number(t, i, "monday") < (double)f->today - 6.0;

        for (int k = 0; k < count; k++)
            known = known || strcmp(said[k], item) == 0;
        if (known)
            continue;
        said[count++] = item; /* its first row from this week on tells */
        if (!(order_by <= (double)f->today + ORDER_AHEAD_D))
            continue;
        vh_say_date(fmax(order_by, (double)f->today), by);
        vh_say_date(vh_cell_number(t, i, "runs_out"), gone);
        left[0] = 0; /* of this week: a later row tells of its own */
        if (vh_cell_number(t, i, "monday") <= (double)f->today)
            vh_say_amount(floor(fmax(0.0, vh_cell_number(t, i, "stock_left"))), left);
        vh_say_add(text, "%s%s by %s", text[0] ? "; " : "", item, by);
        if (left[0] && gone[0])
            vh_say_add(text, " (%s left after this week, gone %s)", left, gone);
        else if (gone[0])
            vh_say_add(text, " (gone %s)", gone);
    }
    if (text[0])
        vh_say_block(to, "ORDER", INDENT, text);
}

/* How many of each at most. */
struct room {
    int tasks, warnings, urgent, after, orders, gaps, looks;
    int pressing; /* of the tasks: those that cannot wait for days, and two at least */
    enum vh_week_detail detail;
    bool cautions; /* in full */
    bool picks;    /* by planting */
};

/* The cautions, or where the screen is short, how to come by them. */
static void add_cautions(char text[VH_SAY_TEXT], bool in_full)
{
    size_t n;
    const struct vh_caution *caution = vh_cautions(&n);

    text[0] = 0;
    if (!in_full)
        vh_say_add(text, "Blades cut, hooks hang high, baskets are heavy, floors slip, burners "
                         "make carbon monoxide, heat fells: sheet.html says how to go about it. ");
    for (size_t i = 0; in_full && i < n; i++)
        vh_say_add(text, "%s. ", caution[i].brief);
    vh_say_add(text, "%s", vh_cautions_end());
}

/* Is any work planned in the seven days? Without it nothing can hurt. */
static bool is_work(const struct vh_result *r, int64_t today)
{
    const struct vh_table *t = vh_result_table_named(r, "tasks");

    for (size_t i = 0; t && i < vh_table_rows(t); i++) {
        const double day = vh_cell_number(t, i, "date") - (double)today;
        if (day >= 0.0 && day < VH_WEEK_DAYS)
            return true;
    }
    return false;
}

static void say_care(FILE *to, const struct vh_result *r, const struct vh_summary_facts *f,
                     const struct room *most)
{
    const char *head = "CARE";
    char text[VH_SAY_TEXT], hot[VH_HOT_ROOM];

    if (vh_hot_days(vh_result_table_named(r, "climate_days"), f->today, f->units, "", hot)) {
        vh_say_block(to, head, INDENT, hot);
        head = "";
    }
    head = vh_say_warnings(to, head, vh_result_table_named(r, "warnings"), f, most->warnings,
                           most->urgent, false);
    if (!is_work(r, f->today))
        return;
    add_cautions(text, most->cautions);
    vh_say_block(to, head, INDENT, text);
}

/* The truss in flower: the count that tells most for the least time. */
static void say_look(FILE *to, const struct vh_table *summary, const struct vh_table *check,
                     int most)
{
    char text[VH_SAY_TEXT] = "";
    int shown = 0, more = 0;

    for (size_t i = 0; check && i < vh_table_rows(check); i++) {
        const char *planting = vh_cell_text(check, i, "planting");
        const char *word = "truss";

        if (strcmp(vh_cell_text(check, i, "item"), "flowering_truss") != 0 ||
            vh_cell_number(check, i, "high") < 1.0) /* none flowers yet */
            continue;
        if (shown++ >= most) {
            more++;
            continue;
        }
        for (size_t k = 0; summary && k < vh_table_rows(summary); k++)
            if (strcmp(vh_cell_text(summary, k, "planting"), planting) == 0)
                word = vh_cell_text(summary, k, "truss_word");
        vh_say_add(text, "%s%s %s %.1f, usual %.1f to %.1f",
                   text[0] ? "; " : "which is in flower, on 5 plants (expect ", planting, word,
                   vh_cell_number(check, i, "expect"), vh_cell_number(check, i, "low"),
                   vh_cell_number(check, i, "high"));
    }
    if (text[0] && more > 0)
        vh_say_add(text, "; %d more in sheet.html", more);
    if (text[0])
        vh_say_add(text, ")");
    if (text[0])
        vh_say_block(to, "LOOK", INDENT, text);
}

/* The count that is worth it; where none is and nothing was ever written down, the scale. */
static void say_measure(FILE *to, const struct vh_result *r, const struct vh_summary_facts *f)
{
    const struct vh_table *house = vh_result_table_named(r, "house"),
                          *summary = vh_result_table_named(r, "summary");
    char much[VH_WEEK_MUCH_ROOM];
    bool picks = false;

    for (size_t i = 0; summary && i < vh_table_rows(summary); i++) {
        vh_week_much(f, vh_cell_number(summary, i, "next_week_kg"), 0.0, false, much);
        picks = picks || much[0];
    }
    if (!vh_measure_line(to, r, INDENT) && picks && house &&
        vh_cell_number(house, 0, "records_used") == 0.0)
        vh_say_block(to, "MEASURE", INDENT,
                     f->units == VH_SAY_US
                         ? "weigh each pick and note it (picked_lb): it tells more than any count"
                         : "weigh each pick and note it (picked_kg): it tells more than any count");
}

/* One line less: far warnings first, then the cautions in full, then how each task is done (the
 * sheet has both), then counts and far market days, then tasks that may wait; what is picked and
 * where it is kept stays until only what presses stands before it. False: nothing is left to leave
 * out. */
static bool shrink(struct room *most)
{
    const struct room before = *most;

    if (most->warnings > 1)
        most->warnings--;
    else if (most->cautions && most->tasks <= TASKS_IN_FULL)
        most->cautions = false;
    else if (most->detail == VH_WEEK_HOW && most->tasks <= TASKS_IN_FULL)
        most->detail = VH_WEEK_DAYS_TOO;
    else if (most->gaps > 1)
        most->gaps--;
    else if (most->looks > LOOKS_KEPT)
        most->looks--;
    else if (most->after > 1)
        most->after--;
    else if (most->looks > 1)
        most->looks--;
    else if (most->detail == VH_WEEK_DAYS_TOO && most->tasks <= TASKS_IN_FULL)
        most->detail = VH_WEEK_NAMES;
    else if (most->tasks > TASKS_KEPT)
        most->tasks--;
    else if (most->tasks > most->pressing)
        most->tasks--;
    else if (most->after > 0)
        most->after--;
    else if (most->orders > 1)
        most->orders--;
    else if (most->picks && most->looks > 0)
        most->looks--;
    else if (most->picks) /* in few lines: what gave way for it may come back */
        *most = (struct room){.tasks = TASKS_KEPT,
                              .warnings = before.warnings,
                              .urgent = before.urgent,
                              .after = 1,
                              .orders = 1,
                              .gaps = before.gaps,
                              .detail = VH_WEEK_NAMES,
                              .looks = LOOKS_KEPT,
                              .pressing = before.pressing};
    else if (most->urgent > URGENT_KEPT)
        most->urgent--;
    else
        most->tasks--;
    return most->tasks > 0;
}

/* Before the first day and after the last there is nothing to plan, and that is said before the
 * empty list. false: the season is on. */
static bool say_out_of_season(FILE *to, const struct vh_result *r, const struct vh_summary_facts *f)
{
    const struct vh_table *house = vh_result_table_named(r, "house");
    const double first = house ? vh_cell_number(house, 0, "first_day") : (double)NAN,
                 last = house ? vh_cell_number(house, 0, "last_day") : (double)NAN;
    char date[VH_SAY_ROOM], text[VH_SAY_TEXT] = "";

    if (last < (double)f->today && !vh_market_is_to_come(r, f)) {
        vh_say_date_with_year(last, date);
        vh_say_add(text,
                   "the last day of this scenario was %s; for the next season keep what it taught "
                   "(vinehand learn SCENARIO --save kept.csv, then file = \"kept.csv\" under "
                   "[parameters]) and give it new dates",
                   date);
        vh_say_block(to, "OVER", INDENT, text);
    } else if (first > (double)f->today) {
        vh_say_date_with_year(first, date);
        vh_say_add(text, "the season on %s, in %.0f day%s", date, first - (double)f->today,
                   first - (double)f->today < 2.0 ? "" : "s");
        vh_say_block(to, "BEGINS", INDENT, text);
    }
    return text[0] != '\0';
}

static void say_all(FILE *to, const struct vh_result *r, const struct vh_summary_facts *f,
                    const struct room *most)
{
    const struct vh_table *summary = vh_result_table_named(r, "summary");

    say_head(to, r, f);
    bool said = say_out_of_season(to, r, f);
    if (vh_market_is_to_come(r, f)) {
        vh_market_lines(to, r, f, most->after, most->orders);
        vh_gap_lines(to, r, f, vh_gaps_to_sow(r, most->gaps));
        said = true;
    } else if (say_likely(to, summary, f)) {
        said = true;
    }
    if (said)
        fputc('\n', to);
    vh_week_list(to, r, f, most->tasks, most->detail);
    vh_week_picks(to, r, f, INDENT, most->picks);
    say_order(to, r, f);
    say_care(to, r, f, most);
    say_look(to, summary, vh_result_table_named(r, "plant_check"), most->looks);
    say_measure(to, r, f);
    fprintf(to, "\nThe whole list: tasks.csv, work.ics in %s\n", f->out);
}

/* Where the locale is not UTF-8 the dot of the head becomes -, every other letter beyond ASCII ?.
 */
static void put_out(FILE *to, const char *text)
{
    const bool utf8 = vh_say_is_utf8();

    for (const unsigned char *p = (const unsigned char *)text; *p; p++) {
        if (utf8 || *p < 0x80)
            fputc(*p, to);
        else if ((*p & 0xC0) == 0xC0)
            fputc(p[0] == 0xC2 && p[1] == 0xB7 ? '-' : '?', to);
    }
}

static int lines_of(const char *text)
{
    int lines = 0;

    for (; *text; text++)
        lines += *text == '\n';
    return lines;
}

void vh_summary_week(FILE *to, const struct vh_result *result, const struct vh_summary_facts *facts)
{
    struct room most = {.tasks = 12,
                        .pressing =
                            (int)fmax(PRESSING_LEAST, vh_week_pressing(result, facts->today)),
                        .warnings = 4,
                        .urgent = 4,
                        .after = 3,
                        .orders = VH_MARKET_ORDERS_MOST,
                        .gaps = 2,
                        .looks = 99,
                        .detail = VH_WEEK_HOW,
                        .cautions = true,
                        .picks = true};

    do {
        char *text = NULL;
        size_t n = 0;
        FILE *draft = open_memstream(&text, &n);

        if (draft)
            say_all(draft, result, facts, &most);
        if (!draft || fclose(draft) != 0) {
            free(text);
            vh_complain("there is not enough memory to fit the week to one screen; it is longer");
            say_all(to, result, facts, &most);
            return;
        }
        const bool fits = lines_of(text) <= LINES_MOST;
        if (fits)
            put_out(to, text);
        free(text);
        if (fits)
            return;
    } while (shrink(&most));
    /* it fits in no way: then nothing that presses is left out for it */
    most.tasks = most.pressing;
    say_all(to, result, facts, &most);
}
