#include "vh_summary.h"

#include <math.h>
#include <string.h>

#include "vh_by_now.h"
#include "vh_learnt_words.h"
#include "vh_market_lines.h"
#include "vh_season_work.h"
#include "vh_small_line.h"
#include "vh_to_come.h"

enum { INDENT = 11, LONGEST_NAME = 17, MOST_WARNINGS = 3, SENTENCE_ROOM = 4000 };

/* Sentences of one block; more than fits is cut, never overrun. */
struct sentence {
    char text[SENTENCE_ROOM];
    size_t n;
};

static void add(struct sentence *s, const char *text)
{
    const size_t n = strlen(text), free_bytes = sizeof s->text - 1 - s->n;

    memcpy(s->text + s->n, text, n < free_bytes ? n : free_bytes);
    s->n += n < free_bytes ? n : free_bytes;
    s->text[s->n] = 0;
}

static void say_sentence(FILE *to, const char *head, const struct sentence *s)
{
    if (s->n > 0)
        vh_say_block(to, head, INDENT, s->text);
}

/* The same for blocks with a line of its own for each planting: the head stands before the first.
 */
static void say_next(FILE *to, const char **head, struct sentence *s)
{
    say_sentence(to, *head, s);
    *head = "";
    *s = (struct sentence){.n = 0};
}

static const char *planting(const struct vh_table *t, size_t row)
{
    return vh_cell_text(t, row, "planting");
}

static bool sold_by_piece(const struct vh_table *t, size_t row)
{
    return strcmp(vh_cell_text(t, row, "unit_word"), "fruits") == 0;
}

static bool is_us(const struct vh_summary_facts *f)
{
    return f->units == VH_SAY_US;
}

/* kg as the person weighs them. */
static double weighed(const struct vh_summary_facts *f, double kg)
{
    return is_us(f) ? vh_say_lb(kg) : kg;
}

static void add_weight_unit(char *said, bool pieces, const struct vh_summary_facts *f)
{
    const size_t n = strlen(said);

    if (n > 0 && !pieces)
        snprintf(said + n, VH_SAY_ROOM - n, is_us(f) ? " lb" : " kg");
}

/* One planting's season in its own measure; NaN where unknown. */
struct amounts {
    double by_now, to_come, season, a_plant, an_area;
};

static double in_tens(double much)
{
    return much >= 100.0 ? 10.0 * round(much / 10.0) : much;
}

static struct amounts amounts_of(const struct vh_table *t, size_t row,
                                 const struct vh_summary_facts *f)
{
    const double kg = vh_cell_number(t, row, "season_kg");
    const double fruits = vh_cell_number(t, row, "season_fruits");
    const bool pieces = sold_by_piece(t, row);
    const double per_kg = pieces ? (kg > 0.0 ? fruits / kg : (double)NAN) : weighed(f, 1.0);
    const double area = is_us(f) ? vh_say_ft2(1.0) : 1.0;
    struct amounts a;

    a.season = pieces ? fruits : kg * per_kg;
    a.to_come = pieces ? vh_cell_number(t, row, "to_come_fruits")
                       : vh_cell_number(t, row, "to_come_kg") * per_kg;
    a.a_plant = vh_cell_number(t, row, "kg_per_plant") * per_kg;
    a.an_area = vh_cell_number(t, row, "kg_m2") * per_kg / area;
    /* Rounded parts add up to the sum. What is picked is said as in BY NOW; what is to come gives
     * way, or the sum where it is little. */
    a.by_now = in_tens(a.season - a.to_come);
    if (a.to_come >= 100.0) {
        a.season = in_tens(a.season);
        a.to_come = a.season - a.by_now;
    } else if (a.season >= 100.0) {
        a.season = a.by_now + a.to_come;
    }
    return a;
}

/* Adds a number in its column, its unit behind; pieces leave the unit's place empty. */
static void add_amount(struct sentence *line, int width, double value, bool whole, bool pieces,
                       const struct vh_summary_facts *f)
{
    char said[VH_SAY_ROOM], column[2 * VH_SAY_ROOM];

    if (whole)
        vh_say_much(value, pieces, said);
    else
        vh_say_amount(value, said);
    if (vh_say_is_none(said))
        snprintf(said, sizeof said, "none");
    else
        add_weight_unit(said, pieces, f);
    if (pieces)
        snprintf(column, sizeof column, "%*s   ", width - 3, said);
    else
        snprintf(column, sizeof column, "%*s", width, said);
    add(line, column);
}

static int name_width(const struct vh_table *t)
{
    size_t widest = 9;

    for (size_t i = 0; i < vh_table_rows(t); i++)
        if (vh_say_width(planting(t, i)) > widest)
            widest = vh_say_width(planting(t, i));
    return widest > LONGEST_NAME ? LONGEST_NAME : (int)widest;
}

/* A name in its column; a longer one has the line for itself. */
static void print_name(FILE *to, const char *name, int width)
{
    const int n = (int)vh_say_width(name);

    vh_say_safely(to, name);
    if (n > width)
        fprintf(to, "\n%*s", width, "");
    else
        fprintf(to, "%*s", width - n, "");
}

static void print_amounts(FILE *to, const struct vh_table *t, const struct vh_summary_facts *f)
{
    const int width = name_width(t);
    char first[VH_SAY_ROOM], column[2 * VH_SAY_ROOM];

    fprintf(to, "%*s  %-12s  %8s %9s %9s %8s %8s\n", width, "", "first pick", "by now", "to come",
            "season", "a plant", is_us(f) ? "a ft2" : "a m2");
    for (size_t i = 0; i < vh_table_rows(t); i++) {
        const struct amounts a = amounts_of(t, i, f);
        struct sentence line = {.n = 0};
        const bool pieces = sold_by_piece(t, i);

        vh_say_date(vh_cell_number(t, i, "first_pick"), first);
        print_name(to, planting(t, i), width);
        snprintf(column, sizeof column, "  %-12s", first[0] ? first : "none");
        add(&line, column);
        add_amount(&line, 10, a.by_now, true, pieces, f);
        add_amount(&line, 10, a.to_come, true, pieces, f);
        add_amount(&line, 10, a.season, true, pieces, f);
        add_amount(&line, 9, a.a_plant, false, pieces, f);
        add_amount(&line, 9, a.an_area, false, pieces, f);
        while (line.n > 0 && line.text[line.n - 1] == ' ')
            line.text[--line.n] = 0;
        fprintf(to, "%s\n", line.text);
    }
}

/* "about 46 kg", or "about 62" pieces; "" where unknown. */
static void say_amount(double kg, double pieces, bool by_piece, const struct vh_summary_facts *f,
                       char *said)
{
    char amount[VH_SAY_ROOM];

    vh_say_much(by_piece ? pieces : weighed(f, kg), by_piece, amount);
    if (vh_say_is_none(amount)) {
        snprintf(said, VH_SAY_ROOM, "none");
        return;
    }
    add_weight_unit(amount, by_piece, f);
    snprintf(said, VH_SAY_ROOM, "%s%.50s", amount[0] ? "about " : "", amount);
}

static void say_about(const struct vh_table *t, size_t row, const char *kg, const char *fruits,
                      const struct vh_summary_facts *f, char *said)
{
    const double pieces = vh_cell_number(t, row, fruits);

    say_amount(vh_cell_number(t, row, kg), pieces, sold_by_piece(t, row) && isfinite(pieces), f,
               said);
}

/* "24" and "29" of a column's _p10 and _p90, in tens from a hundred on where the sum beside
 * them is; false where it has none, or all is none. */
static bool say_ends(const struct vh_table *t, size_t row, const char *column, bool by_piece,
                     bool tens, const struct vh_summary_facts *f, char *from, char *to)
{
    char low[40], high[40];

    snprintf(low, sizeof low, "%s_p10", column);
    snprintf(high, sizeof high, "%s_p90", column);
    const double least = vh_cell_number(t, row, low), most = vh_cell_number(t, row, high);
    if (!isfinite(least) || !isfinite(most))
        return false;
    const double ends[] = {by_piece ? least : weighed(f, least),
                           by_piece ? most : weighed(f, most)};
    vh_say_much(tens ? in_tens(ends[0]) : ends[0], by_piece, from);
    vh_say_much(tens ? in_tens(ends[1]) : ends[1], by_piece, to);
    return !vh_say_is_none(to); /* none is none */
}

void vh_say_next_week_range(const struct vh_table *t, size_t row, bool by_piece,
                            const struct vh_summary_facts *f, char *said)
{
    char from[VH_SAY_ROOM], to[VH_SAY_ROOM];

    said[0] = 0;
    if (say_ends(t, row, by_piece ? "next_week_fruits" : "next_week_kg", by_piece, false, f, from,
                 to))
        snprintf(said, VH_SAY_ROOM, " (%.20s to %.20s)", from, to);
}

/* Begins the next planting's part of a sentence. */
static void add_planting(struct sentence *s, const struct vh_table *t, size_t row)
{
    add(s, s->n ? "; " : "");
    add(s, planting(t, row));
}

/* What is to come, and how far a range is to be trusted. */
static void say_ranges(FILE *to, const struct vh_table *t, const struct vh_summary_facts *f)
{
    struct sentence s = {.n = 0};
    char low[VH_SAY_ROOM], high[VH_SAY_ROOM];

    for (size_t i = 0; i < vh_table_rows(t); i++) {
        const bool pieces = sold_by_piece(t, i);
        if (!say_ends(t, i, pieces ? "to_come_fruits" : "to_come_kg", pieces, true, f, low, high))
            continue;
        add(&s, s.n ? "" : "to come: ");
        add(&s, s.n > strlen("to come: ") ? ", " : "");
        add(&s, planting(t, i));
        add(&s, vh_say_name_end(planting(t, i)));
        add(&s, " ");
        add(&s, low);
        add(&s, " to ");
        add_weight_unit(high, pieces, f);
        add(&s, high);
    }
    add(&s, s.n ? "; ranges hold four times in five" : "");
    say_sentence(to, "RANGE", &s);
}

static void say_seven_days(FILE *to, const struct vh_table *t, const struct vh_summary_facts *f)
{
    struct sentence s = {.n = 0};
    char amount[VH_SAY_ROOM];

    for (size_t i = 0; i < vh_table_rows(t); i++) {
        say_about(t, i, "next_week_kg", "next_week_fruits", f, amount);
        if (!amount[0])
            continue;
        add_planting(&s, t, i);
        add(&s, " ");
        add(&s, amount);
        vh_say_next_week_range(t, i, sold_by_piece(t, i), f, amount);
        add(&s, amount);
    }
    say_sentence(to, "7 DAYS", &s);
}

static void say_best_week(FILE *to, const struct vh_result *r, const struct vh_summary_facts *f)
{
    const struct vh_table *t = vh_result_table_named(r, "summary"),
                          *weeks = vh_result_table_named(r, "weeks");
    struct sentence s = {.n = 0};
    char date[VH_SAY_ROOM], amount[VH_SAY_ROOM];

    for (size_t i = 0; i < vh_table_rows(t); i++) {
        const bool pieces = sold_by_piece(t, i);
        const int row = vh_best_week_row(weeks, planting(t, i), pieces, f->today);
        if (row < 0)
            continue;
        vh_say_date(vh_cell_number(weeks, (size_t)row, "monday"), date);
        say_amount(vh_cell_number(weeks, (size_t)row, "kg"),
                   vh_cell_number(weeks, (size_t)row, "fruits"), pieces, f, amount);
        const bool first = s.n == 0;
        add_planting(&s, t, i);
        add(&s, first ? "" : vh_say_name_end(planting(t, i)));
        add(&s, first ? " in the week of " : " ");
        add(&s, date);
        add(&s, ", ");
        add(&s, amount);
    }
    say_sentence(to, "BEST WEEK", &s);
}

static void say_fruit(FILE *to, const struct vh_result *r, const struct vh_summary_facts *f)
{
    const struct vh_table *t = vh_result_table_named(r, "summary"),
                          *trusses = vh_result_table_named(r, "trusses");
    const char *head = "FRUIT";
    struct sentence s = {.n = 0};
    char mass[VH_SAY_ROOM], low[VH_SAY_ROOM], truss[VH_SAY_ROOM];

    for (size_t i = 0; i < vh_table_rows(t); i++) {
        const struct vh_fruit_to_come to_come = vh_fruit_to_come(trusses, planting(t, i));
        vh_say_fruit_mass(to_come.mean_g, f->units, mass);
        vh_say_fruit_mass(to_come.low_g, f->units, low);
        vh_say_pieces(to_come.low_truss, truss);
        if (!mass[0])
            continue;
        add_planting(&s, t, i);
        add(&s, " about ");
        add(&s, mass);
        if (low[0] && truss[0] && strcmp(low, mass) != 0) {
            const char *word = vh_cell_text(t, i, "truss_word"); /* "node" on some crops */
            add(&s, to_come.cut_is_smaller ? ", smallest ripe in time on " : ", smallest on ");
            add(&s, word[0] ? word : "truss");
            add(&s, " ");
            add(&s, truss);
            add(&s, ", ");
            add(&s, low);
        }
        say_next(to, &head, &s);
        char small[VH_SAY_TEXT] = "";
        if (vh_small_line(t, i, to_come.mean_g, f, small))
            vh_say_block(to, "", INDENT, small);
    }
}

static void say_vines(FILE *to, const struct vh_table *t, const struct vh_summary_facts *f)
{
    const char *head = "VINES";
    struct sentence s = {.n = 0};
    char now[VH_SAY_ROOM], end[VH_SAY_ROOM], out[VH_SAY_ROOM];

    for (size_t i = 0; i < vh_table_rows(t); i++) {
        vh_say_length(vh_cell_number(t, i, "stem_cm"), f->units, now);
        vh_say_length(vh_cell_number(t, i, "stem_end_cm"), f->units, end);
        vh_say_date(vh_cell_number(t, i, "pull_out"), out);
        if (!now[0] && !end[0])
            continue;
        add_planting(&s, t, i);
        if (now[0]) {
            add(&s, vh_say_name_end(planting(t, i)));
            add(&s, " ");
            add(&s, now);
        }
        if (end[0] && out[0]) {
            add(&s, now[0] ? ", " : " ");
            add(&s, end);
            add(&s, " when pulled out ");
            add(&s, out);
        }
        say_next(to, &head, &s);
    }
}

/* How the plants' asking stands to what the light feeds; bounds of wording only. */
static const char *load_word(double load)
{
    return load < 0.8     ? "the light feeds more than they ask"
           : load <= 1.05 ? "about what the light feeds"
           : load < 1.3   ? "they ask a little more than the light feeds"
                          : "they ask more than the light feeds";
}

static void say_load(FILE *to, const struct vh_result *r, const struct vh_summary_facts *f)
{
    const struct vh_table *t = vh_result_table_named(r, "summary"),
                          *weeks = vh_result_table_named(r, "weeks");
    const char *head = "LOAD";
    struct sentence s = {.n = 0};
    char number[VH_SAY_ROOM], date[VH_SAY_ROOM];

    for (size_t i = 0; i < vh_table_rows(t); i++) {
        int this_week;
        const int worst = vh_hungriest_week_row(weeks, planting(t, i), f->today, &this_week);

        if (worst < 0)
            continue;
        const double most = vh_cell_number(weeks, (size_t)worst, "load");
        vh_say_date(vh_cell_number(weeks, (size_t)worst, "monday"), date);
        add_planting(&s, t, i);
        const double now =
            this_week >= 0 ? vh_cell_number(weeks, (size_t)this_week, "load") : (double)NAN;
        if (this_week >= 0) {
            snprintf(number, sizeof number, " now %.1f: ", now);
            add(&s, number);
            add(&s, load_word(now));
        }
        if (round(10.0 * most) != round(10.0 * now)) { /* as they are said */
            snprintf(number, sizeof number, "%s most %.1f in the week of ",
                     this_week >= 0 ? "," : "", most);
            add(&s, number);
            add(&s, date);
        }
        say_next(to, &head, &s);
    }
}

static void say_house(FILE *to, const struct vh_table *house)
{
    const double logged = vh_cell_number(house, 0, "hours_logged");
    const double outlook = vh_cell_number(house, 0, "hours_outlook");
    struct sentence s = {.n = 0};
    char text[200], hours[VH_SAY_ROOM], date[VH_SAY_ROOM];

    if (isfinite(logged) && isfinite(outlook)) {
        vh_say_amount(logged, hours);
        vh_say_date(vh_cell_number(house, 0, "last_logged"), date);
        snprintf(text, sizeof text, "%s hours logged%s%s, ", logged > 0.0 ? hours : "no",
                 date[0] ? " to " : "", date);
        add(&s, text);
        vh_say_amount(outlook, hours);
        snprintf(text, sizeof text, "%s hours from the outlook", hours);
        add(&s, text);
        say_sentence(to, "CLIMATE", &s);
    }
    if (vh_cell_text(house, 0, "roughest")[0])
        vh_say_block(to, "ROUGH", INDENT, vh_cell_text(house, 0, "roughest"));
}

static void say_learnt(FILE *to, const struct vh_result *result, const struct vh_table *house,
                       enum vh_say_units units)
{
    const size_t most = 4; /* the rest stands in learned.csv */

    vh_learnt_block(to, vh_result_table_named(result, "learned"), units, INDENT, most,
                    house && vh_table_rows(house) > 0 ? vh_cell_number(house, 0, "records_until")
                                                      : (double)NAN);
}

/* The year is said where it is not this one. */
static void say_end(double day, int64_t today, char *said)
{
    char now[VH_SAY_ROOM];

    vh_say_date_with_year((double)today, now);
    vh_say_date_with_year(day, said);
    if (said[0] && strcmp(strrchr(now, ' '), strrchr(said, ' ')) == 0)
        vh_say_date(day, said);
}

static void say_head(FILE *to, const struct vh_table *house, bool ranges,
                     const struct vh_summary_facts *f)
{
    const char *dot = vh_say_is_utf8() ? "\xC2\xB7" : "-";
    char text[VH_SAY_TEXT] = "", today[VH_SAY_ROOM], last[VH_SAY_ROOM];

    vh_say_date_with_year((double)f->today, today);
    vh_say_add(text, "%s %s %s", f->name, dot, today);
    say_end(house ? vh_cell_number(house, 0, "last_day") : (double)NAN, f->today, last);
    if (last[0])
        vh_say_add(text, " %s season to %s", dot, last);
    if (f->kept)
        vh_say_add(text, " %s begins with %.200s", dot, f->kept);
    if (!ranges)
        vh_say_add(text, " %s one future, no ranges", dot);
    vh_say_block(to, "", 0, text);
    fputc('\n', to);
}

void vh_summary_season(FILE *to, const struct vh_result *result,
                       const struct vh_summary_facts *facts)
{
    const struct vh_table *t = vh_result_table_named(result, "summary");
    const struct vh_table *house = vh_result_table_named(result, "house");
    struct sentence s = {.n = 0};
    char text[80];

    say_head(to, house, t && vh_table_find(t, "next_week_kg_p10") >= 0, facts);
    if (t && vh_table_rows(t) > 0) {
        print_amounts(to, t, facts);
        fputc('\n', to);
        say_ranges(to, t, facts);
        say_seven_days(to, t, facts);
        vh_market_lines(to, result, facts, 2, VH_MARKET_ORDERS_MOST);
        vh_gap_lines(to, result, facts, 3);
        say_best_week(to, result, facts);
        say_fruit(to, result, facts);
        say_vines(to, t, facts);
        say_load(to, result, facts);
        vh_season_hours(to, result, facts, INDENT);
        vh_season_supplies(to, result, facts, INDENT);
        vh_summary_reach(to, t, facts->units, "REACH", INDENT);
    }
    say_learnt(to, result, house, facts->units);
    vh_say_warnings(to, "CARE", vh_result_table_named(result, "warnings"), facts, MOST_WARNINGS,
                    MOST_WARNINGS, true);
    if (house)
        say_house(to, house);
    vh_by_now_block(to, result, facts, INDENT);
    snprintf(text, sizeof text, "Wrote %zu files to ", facts->files);
    add(&s, text);
    add(&s, facts->out);
    add(&s, facts->out[0] && facts->out[strlen(facts->out) - 1] == '/' ? "" : "/");
    fputc('\n', to);
    vh_say_safely(to, s.text);
    fputs("\nLook at report.html there; hang up sheet.html; work.ics is for a calendar.\n", to);
}
