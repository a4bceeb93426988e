/* What `compare` prints: each choice against the plan, what is sure of it, what would turn it. */
#include <math.h>
#include <string.h>

#include "vh_compare_found.h"

enum { INDENT = 11, NAME_MOST = 23, RANGE = 29, LISTED_MOST = 12 };

static void add(char text[VH_COMPARE_TEXT], const char *more)
{
    const size_t n = strlen(text);

    snprintf(text + n, VH_COMPARE_TEXT - n, "%s", more);
}

static bool is_shown(const struct vh_compare_view *v, size_t row)
{
    return strcmp(vh_cell_text(v->t, row, "planting"), v->planting) == 0;
}

static void say_grams(const struct vh_compare_view *v, double g, bool is_difference,
                      char said[VH_SAY_ROOM])
{
    const double tenths = round(10.0 * vh_say_oz(g)); /* a nothing has no sign */
    const double hundredths = round(100.0 * vh_say_oz(g));

    said[0] = 0;
    if (!isfinite(g))
        return;
    if (v->f->units == VH_SAY_US && is_difference && hundredths != 0.0)
        snprintf(said, VH_SAY_ROOM, tenths == 0.0 ? "%+.2f" : "%+.1f",
                 tenths == 0.0 ? hundredths / 100.0 : tenths / 10.0);
    else if (v->f->units == VH_SAY_US)
        snprintf(said, VH_SAY_ROOM, tenths == 0.0 ? "%.0f" : "%.1f", fabs(tenths) / 10.0);
    else if (is_difference)
        vh_say_signed(g, said);
    else
        vh_say_pieces(g, said);
}

/* What rounds to nothing is not worth a word. */
static bool is_worth_saying(const struct vh_compare_view *v, size_t row, const char *column)
{
    const double least =
        strcmp(column, "hours") == 0 ? 0.5 : 0.01 * vh_compare_number(v, v->plan, column, "");

    return fabs(vh_compare_number(v, row, column, "_diff")) >= least;
}

static bool is_unsure(const struct vh_compare_view *v, size_t row)
{
    return v->has_range && vh_compare_sure_side(v, row, v->decides) == 0;
}

/* The choice comes to the plan itself. */
static bool is_same(const struct vh_compare_view *v, size_t row)
{
    static const char *const value[] = {"fruit_g", "market_kg", "hours", "supplies_cost", "margin"};

    for (size_t i = 0; i < sizeof value / sizeof value[0]; i++)
        for (int end = 0; end < 3; end++) {
            static const char *const ending[] = {"_diff", "_diff_p10", "_diff_p90"};
            const double d = vh_compare_number(v, row, value[i], ending[end]);
            if (isfinite(d) && d != 0.0)
                return false;
        }
    return true;
}

/* ---- the table ---- */

static void put_name(FILE *to, const char *name)
{
    const int n = (int)vh_say_width(name);

    vh_say_safely(to, name);
    if (n >= NAME_MOST)
        fprintf(to, "\n%*s", NAME_MOST, "");
    else
        fprintf(to, "%*s", NAME_MOST - n, "");
}

/* Blanks at the end of a line are left away. */
static void put_line(FILE *to, char line[VH_COMPARE_TEXT])
{
    size_t n = strlen(line);

    while (n > 0 && line[n - 1] == ' ')
        line[--n] = 0;
    fprintf(to, "%s\n", line);
}

static void put_head(FILE *to, const struct vh_compare_view *v)
{
    const bool grams = isfinite(vh_compare_number(v, v->plan, "fruit_g", "")); /* of one crop */
    char line[VH_COMPARE_TEXT], what[80];

    if (v->by_margin)
        snprintf(what, sizeof what, "the season%s%s", v->money[0] ? ", " : "", v->money);
    else
        snprintf(what, sizeof what, "the season, %s", v->f->units == VH_SAY_US ? "lb" : "kg");
    snprintf(line, sizeof line, "%*s%-7s%-*s%5s  %s", NAME_MOST, "", grams ? "fruit" : "", RANGE,
             v->by_margin ? "money left over" : "for market", "hours",
             v->has_range ? "better than" : "");
    put_line(to, line);
    snprintf(line, sizeof line, "%*s%-7s%-*s%5s  %s", NAME_MOST, "",
             !grams                     ? ""
             : v->f->units == VH_SAY_US ? "oz"
                                        : "grams",
             RANGE, what, "", v->has_range ? "the plan" : "");
    put_line(to, line);
}

static void put_plan(FILE *to, const struct vh_compare_view *v, const char *plan)
{
    char line[VH_COMPARE_TEXT], name[VH_COMPARE_TEXT] = "as planned", grams[VH_SAY_ROOM],
                                much[VH_SAY_ROOM], hours[VH_SAY_ROOM];

    if (plan[0] && !strchr(plan, ',') && strlen(plan) + 13 < NAME_MOST)
        snprintf(name, sizeof name, "as planned (%.20s)", plan);
    say_grams(v, vh_compare_number(v, v->plan, "fruit_g", ""), false, grams);
    vh_say_pieces(vh_compare_decided(v, v->plan, ""), much);
    vh_say_pieces(vh_compare_number(v, v->plan, "hours", ""), hours);
    put_name(to, name);
    snprintf(line, sizeof line, "%-7s%-*s%5s", grams, RANGE, much, hours);
    put_line(to, line);
}

static void put_choice(FILE *to, const struct vh_compare_view *v, size_t row)
{
    char line[VH_COMPARE_TEXT], grams[VH_SAY_ROOM], much[VH_SAY_ROOM], low[VH_SAY_ROOM],
        high[VH_SAY_ROOM], hours[VH_SAY_ROOM], chance[VH_SAY_ROOM], range[4 * VH_SAY_ROOM];

    say_grams(v, vh_compare_number(v, row, "fruit_g", "_diff"), true, grams);
    vh_say_signed(vh_compare_decided(v, row, "_diff"), much);
    vh_say_signed(vh_compare_decided(v, row, "_diff_p10"), low);
    vh_say_signed(vh_compare_decided(v, row, "_diff_p90"), high);
    vh_say_signed(vh_compare_number(v, row, "hours", "_diff"), hours);
    vh_say_chance(vh_cell_number(v->t, row, "better_chance"), chance);
    snprintf(range, sizeof range, low[0] && high[0] ? "%s (%s to %s)" : "%s", much, low, high);
    put_name(to, vh_cell_text(v->t, row, "choice"));
    snprintf(line, sizeof line, "%-7s%-*s%5s  %-13s%s", grams, RANGE, range, hours, chance,
             is_unsure(v, row) ? "?" : "");
    put_line(to, line);
}

static bool put_table(FILE *to, const struct vh_compare_view *v, const char *plan)
{
    bool any_unsure = false;

    put_head(to, v);
    put_plan(to, v, plan);
    for (size_t i = 0; i < vh_table_rows(v->t); i++) {
        if (i == v->plan || !is_shown(v, i) || is_same(v, i))
            continue;
        put_choice(to, v, i);
        any_unsure = any_unsure || is_unsure(v, i);
    }
    fputc('\n', to);
    return any_unsure;
}

/* ---- what follows from it ---- */

static void capital(char *text)
{
    if (*text >= 'a' && *text <= 'z')
        *text = (char)(*text - 'a' + 'A');
}

/* Choices that the floor has no room for, in the order of the table. */
static void say_room(FILE *to, const struct vh_compare_view *v)
{
    const bool us = v->f->units == VH_SAY_US;
    const char *head = "NO ROOM";
    size_t said = 0;

    for (size_t i = 0; i < vh_table_rows(v->t) && said < LISTED_MOST; i++) {
        const double need = vh_cell_number(v->t, i, "floor_need_m2");
        char text[VH_COMPARE_TEXT], first[VH_SAY_ROOM], last[VH_SAY_ROOM], amount[VH_SAY_ROOM];
        if (!is_shown(v, i) || !isfinite(need))
            continue;
        vh_say_date(vh_cell_number(v->t, i, "floor_from"), first);
        vh_say_date(vh_cell_number(v->t, i, "floor_until"), last);
        vh_say_amount(us ? vh_say_ft2(need) : need, amount);
        snprintf(text, sizeof text,
                 "%s: from %s to %s all would need %s %s of floor, more than"
                 " there is; other plants must go sooner.",
                 vh_cell_text(v->t, i, "choice"), first, last, amount, us ? "ft2" : "m2");
        capital(text);
        vh_say_block(to, head, INDENT, text);
        head = "";
        said++;
    }
}

/* "larger fruit, less money, more work" as far as it is sure. */
static void say_sure_of(const struct vh_compare_view *v, size_t row, char text[VH_COMPARE_TEXT])
{
    const struct {
        const char *column, *more, *less;
    } say[] = {
        {"fruit_g", "larger fruit", "smaller fruit"},
        {v->decides, v->by_margin ? "more money" : "more for market",
         v->by_margin ? "less money" : "less for market"},
        {"hours", "more work", "less work"},
    };

    text[0] = 0;
    for (size_t i = 0; i < sizeof say / sizeof say[0]; i++) {
        const int side = vh_compare_sure_side(v, row, say[i].column);
        if (side == 0 || !is_worth_saying(v, row, say[i].column))
            continue;
        add(text, text[0] ? ", " : "");
        add(text, side > 0 ? say[i].more : say[i].less);
    }
}

static void say_sure(FILE *to, const struct vh_compare_view *v)
{
    char text[VH_COMPARE_TEXT], sure[VH_COMPARE_TEXT];
    const char *head = "SURE";
    size_t choices = 0, said = 0;

    for (size_t i = 0; i < vh_table_rows(v->t) && said < LISTED_MOST; i++) {
        if (i == v->plan || !is_shown(v, i) || is_same(v, i))
            continue;
        choices++;
        say_sure_of(v, i, sure);
        if (!sure[0])
            continue;
        snprintf(text, sizeof text, "%s: %.300s%s.", vh_cell_text(v->t, i, "choice"), sure,
                 isfinite(vh_cell_number(v->t, i, "floor_need_m2")) ? ", if there were room" : "");
        capital(text);
        vh_say_block(to, head, INDENT, text);
        head = "";
        said++;
    }
    if (said == 0 && choices > 0 && v->has_range)
        vh_say_block(to, head, INDENT, "nothing: every difference could be chance.");
}

static void say_turns(FILE *to, const struct vh_compare_view *v)
{
    const char *head = "TURNS IT";
    size_t said = 0;

    for (size_t i = 0; i < vh_table_rows(v->t) && said < LISTED_MOST; i++) {
        const char *flips = vh_cell_text(v->t, i, "flips_if");
        char text[VH_COMPARE_TEXT], hers[200];
        if (i == v->plan || !is_shown(v, i) || is_same(v, i) || !flips[0])
            continue;
        vh_say_price_in(flips, v->f->units, hers, sizeof hers);
        snprintf(text, sizeof text, "%s %s %s.", vh_cell_text(v->t, i, "choice"),
                 vh_compare_number(v, i, "margin", "_diff") > 0.0 ? "stops paying with"
                                                                  : "would pay with",
                 hers);
        capital(text);
        vh_say_block(to, head, INDENT, text);
        head = "";
        said++;
    }
}

static void say_same(FILE *to, const struct vh_compare_view *v)
{
    char text[VH_COMPARE_TEXT] = "";

    for (size_t i = 0; i < vh_table_rows(v->t); i++) {
        if (i == v->plan || !is_shown(v, i) || !is_same(v, i))
            continue;
        add(text, text[0] ? "; " : "");
        add(text, vh_cell_text(v->t, i, "choice"));
    }
    if (text[0])
        vh_say_block(to, "THE PLAN", INDENT, text);
}

/* "income less paid hours, supplies and plants": without what is not counted. */
static void add_costs(char text[VH_COMPARE_TEXT], const char *uncounted)
{
    static const struct {
        const char *cost, *word; /* as `uncounted` names it */
    } costs[] = {{"paid hours", "hours ("},
                 {"supplies", "supplies ("},
                 {"plants", "supplies ("},
                 {"heating", "heating ("}};
    enum { COSTS = sizeof costs / sizeof costs[0] };
    const char *counted[COSTS];
    int n = 0;

    for (int i = 0; i < COSTS; i++)
        if (!strstr(uncounted, costs[i].word))
            counted[n++] = costs[i].cost;
    add(text, "income");
    for (int i = 0; i < n; i++) {
        add(text, i == 0 ? " less " : i + 1 == n ? " and " : ", ");
        add(text, counted[i]);
    }
}

static void say_money(FILE *to, const struct vh_compare_view *v, const struct vh_table *facts)
{
    const char *uncounted = vh_cell_text(facts, 0, "not_counted");
    char text[VH_COMPARE_TEXT];

    if (v->by_margin) {
        snprintf(text, sizeof text, "Money left over = ");
        add_costs(text, uncounted);
        add(text, uncounted[0] ? ". Not counted: " : "");
        add(text, uncounted);
        add(text, ".");
    } else {
        snprintf(text, sizeof text,
                 "Money is not counted: no price is given (per_kg in [[market.price]]).");
    }
    vh_say_block(to, "", 0, text);
    const char *back = vh_cell_text(facts, 0, "looks_back");
    if (strcmp(back, "noted") == 0)
        vh_say_block(to, "", 0,
                     "Some choices change what is past: they say what would have been, but picks"
                     " that you wrote down count in each of them as they are; --no-records"
                     " compares without them.");
    else if (back[0])
        vh_say_block(to, "", 0, "Some choices change what is past: they say what would have been.");
}

/* ---- */

static void say_head(FILE *to, const struct vh_compare_view *v, const struct vh_table *facts)
{
    const char *dot = vh_say_is_utf8() ? "\xC2\xB7" : "-";
    const double choices = vh_cell_number(facts, 0, "choices");
    char date[VH_SAY_ROOM], text[VH_SAY_TEXT] = "";

    vh_say_date((double)v->f->today, date);
    vh_say_add(text, "%s %s %s", v->f->name, dot,
               strcmp(v->planting, "all") == 0 ? "all plantings" : v->planting);
    if (choices > 0.0)
        vh_say_add(text, " %s %.0f choice%s from %s%s", dot, choices, choices == 1.0 ? "" : "s",
                   date, v->has_range ? "," : "");
    else
        vh_say_add(text, " %s a search from %s%s", dot, date, v->has_range ? "," : "");
    if (v->has_range)
        vh_say_add(text, " the same %d futures for each", v->f->members);
    else
        vh_say_add(text, " %s one future, no ranges", dot);
    vh_say_block(to, "", 0, text);
    fputc('\n', to);
}

static void say_wrote(FILE *to, const struct vh_summary_facts *f)
{
    char text[VH_COMPARE_TEXT];
    const size_t n = strlen(f->out);

    snprintf(text, sizeof text, "Wrote %zu files to %s%s", f->files, f->out,
             n > 0 && f->out[n - 1] == '/' ? "" : "/");
    vh_say_safely(to, text);
    fputc('\n', to);
}

/* One planting alone shows its own rows; several show those of the house. */
static const char *shown_planting(const struct vh_table *t, const struct vh_table *facts)
{
    const char *named = vh_cell_text(facts, 0, "planting");
    const char *first = vh_table_rows(t) > 0 ? vh_cell_text(t, 0, "planting") : "";

    if (named[0])
        return named;
    for (size_t i = 0; i < vh_table_rows(t); i++)
        if (strcmp(vh_cell_text(t, i, "planting"), "all") == 0)
            return "all";
    return first;
}

void vh_summary_compare(FILE *to, const struct vh_result *result,
                        const struct vh_summary_facts *facts)
{
    const struct vh_table *t = vh_result_table_named(result, "choices"),
                          *compared = vh_result_table_named(result, "compared");
    struct vh_compare_view v = {.t = t, .f = facts};

    if (!t || !compared || vh_table_rows(t) == 0)
        return;
    v.planting = shown_planting(t, compared);
    v.decides = vh_cell_text(compared, 0, "decides");
    v.money = vh_cell_text(compared, 0, "currency");
    v.by_margin = strcmp(v.decides, "margin") == 0;
    v.has_range = vh_cell_number(compared, 0, "members") > 1.0;
    while (v.plan + 1 < vh_table_rows(t) && !is_shown(&v, v.plan))
        v.plan++;
    say_head(to, &v, compared);
    const bool any_unsure = put_table(to, &v, vh_cell_text(compared, 0, "plan"));
    if (any_unsure)
        vh_say_block(to, "?", 3, "could go either way: the range reaches from loss to gain.");
    say_room(to, &v);
    say_sure(to, &v);
    say_turns(to, &v);
    say_same(to, &v);
    vh_compare_say_found(to, &v, result, vh_cell_text(compared, 0, "search"));
    say_money(to, &v, compared);
    if (v.has_range)
        vh_say_block(to, "", 0, "Ranges hold four times in five.");
    say_wrote(to, facts);
}
