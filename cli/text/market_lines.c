#include "vh_market_lines.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

#include "vh_gap_names.h"

enum { INDENT = 11, NAME_WIDTH_MOST = 17, COLUMNS = 80 };

/* The market's table with the day that is looked at. */
struct day {
    const struct vh_table *market, *summary;
    const struct vh_summary_facts *facts;
    double date;
};

/* A row for all grades; of plantings that are sold together the one for all of them. */
static bool is_told(const struct day *d, size_t row)
{
    const char *name = vh_cell_text(d->market, row, "planting");

    if (vh_cell_number(d->market, row, "date") != d->date ||
        strcmp(vh_cell_text(d->market, row, "grade"), "all") != 0)
        return false;
    if (strncmp(name, "all ", 4) == 0)
        return true;
    for (size_t i = 0; i < vh_table_rows(d->market); i++) { /* is it part of such a one? */
        const char *other = vh_cell_text(d->market, i, "planting");
        if (vh_cell_number(d->market, i, "date") != d->date || strncmp(other, "all ", 4) != 0)
            continue;
        for (size_t k = 0; k < vh_table_rows(d->summary); k++)
            if (strcmp(vh_cell_text(d->summary, k, "planting"), name) == 0 &&
                strcmp(vh_cell_text(d->summary, k, "crop"), other + 4) == 0)
                return false;
    }
    return true;
}

/* The first planting of the row in the table of summaries; -1: none. */
static int summary_row(const struct day *d, size_t row)
{
    const char *name = vh_cell_text(d->market, row, "planting");

    for (size_t k = 0; k < vh_table_rows(d->summary); k++) {
        const bool same = strncmp(name, "all ", 4) == 0
                              ? strcmp(vh_cell_text(d->summary, k, "crop"), name + 4) == 0
                              : strcmp(vh_cell_text(d->summary, k, "planting"), name) == 0;
        if (same)
            return (int)k;
    }
    return -1;
}

/* Sold and counted by the piece? */
static bool by_pieces(const struct day *d, size_t row)
{
    const int k = summary_row(d, row);

    return k >= 0 && strcmp(vh_cell_text(d->summary, (size_t)k, "unit_word"), "fruits") == 0;
}

/* A number of the row in the reader's measure; column "kg" becomes "fruits" where pieces count. */
static double much(const struct day *d, size_t row, const char *column)
{
    const bool pieces = by_pieces(d, row);
    char name[64];

    if (strcmp(column, "promise") == 0 || strcmp(column, "orders") == 0)
        snprintf(name, sizeof name, "%s_%s", column, pieces ? "fruits" : "kg");
    else
        snprintf(name, sizeof name, "%s%s", pieces ? "fruits" : "kg", column);
    const double value = vh_cell_number(d->market, row, name);
    return !pieces && d->facts->units == VH_SAY_US ? vh_say_lb(value) : value;
}

/* What half of the futures reach, as in the report; of one season alone what it gives. */
static double likely_of(const struct day *d, size_t row)
{
    const double middle = much(d, row, "_p50");
    return isfinite(middle) ? middle : much(d, row, "");
}

static const char *unit_of(const struct day *d, size_t row)
{
    return by_pieces(d, row) ? "" : d->facts->units == VH_SAY_US ? " lb" : " kg";
}

/* What sells in a day at full price beside the orders; NaN: not given, or in the other measure. */
static double sells_of(const struct day *d, size_t row)
{
    const int k = summary_row(d, row);
    const bool pieces = by_pieces(d, row);
    const double sells =
        k < 0 ? (double)NAN
              : vh_cell_number(d->summary, (size_t)k, pieces ? "sells_fruits" : "sells_kg");

    return !pieces && d->facts->units == VH_SAY_US ? vh_say_lb(sells) : sells;
}

static double safe_of(const struct day *d, size_t row)
{
    return vh_safe_amount(much(d, row, "promise"), by_pieces(d, row));
}

/* As they are said: 15 ordered are no more than 15 that are safe. */
static double ordered_of(const struct day *d, size_t row)
{
    return vh_said_amount(much(d, row, "orders"), by_pieces(d, row));
}

static void say_much(const struct day *d, size_t row, double value, char *said)
{
    vh_say_much(value, by_pieces(d, row), said);
}

/* The planting's name, or the crop in words where several are sold together. */
static const char *name_of(const struct day *d, size_t row, char room[VH_SAY_ROOM])
{
    const char *name = vh_cell_text(d->market, row, "planting");

    if (strncmp(name, "all ", 4) != 0)
        return name;
    vh_say_crop(name + 4, room);
    return room;
}

static double next_day(const struct vh_table *market, double from)
{
    double next = (double)NAN;

    for (size_t i = 0; market && i < vh_table_rows(market); i++) {
        const double date = vh_cell_number(market, i, "date");
        if (date >= from && !(date >= next))
            next = date;
    }
    return next;
}

bool vh_market_is_to_come(const struct vh_result *result, const struct vh_summary_facts *facts)
{
    return isfinite(next_day(vh_result_table_named(result, "market_days"), (double)facts->today));
}

/* ---- one market day ---- */

static bool is_past(const struct day *d)
{
    return d->date < (double)d->facts->today;
}

/* ": short in 6 of 10 cases", or after another sign */
static void add_chance(char text[VH_SAY_TEXT], const struct day *d, size_t row, const char *sign)
{
    const double chance = vh_cell_number(d->market, row, "short_chance");

    if (chance > 0.0)
        vh_say_add(text, "%s short in %.0f of 10 cases", sign, fmax(1.0, round(10.0 * chance)));
}

static void add_orders(char text[VH_SAY_TEXT], const struct day *d, size_t row)
{
    const bool pieces = by_pieces(d, row);
    const double safe = safe_of(d, row), given = ordered_of(d, row);
    char ordered[VH_SAY_ROOM], stall[VH_SAY_ROOM];

    const bool ordered_any = given > 0.0;
    const double left = ordered_any ? vh_left_amount(safe, given, pieces) : safe,
                 sells = sells_of(d, row);
    const bool beyond = isfinite(sells) && left > sells && !is_past(d);
    if (!ordered_any && !beyond)
        return;
    say_much(d, row, given, ordered);
    vh_say_add(text, ordered_any ? "   %s ordered" : "  %s", ordered_any ? ordered : "");
    if (is_past(d))
        return;
    if (isfinite(safe) && left > 0.0) {
        say_much(d, row, beyond ? sells : left, stall);
        vh_say_add(text, "%s %s stall", ordered_any ? "," : "", stall);
        say_much(d, row, beyond ? vh_left_amount(left, sells, pieces) : 0.0, stall);
        if (beyond && !vh_say_is_none(stall))
            vh_say_add(text, ", %s more than sells", stall);
    } else if (given > safe) {
        add_chance(text, d, row, ":");
    }
}

static int name_width(const struct day *d)
{
    size_t widest = 9;

    for (size_t i = 0; i < vh_table_rows(d->market); i++) {
        char room[VH_SAY_ROOM];
        const size_t n = vh_say_width(name_of(d, i, room));
        if (is_told(d, i) && n > widest)
            widest = n;
    }
    return widest > NAME_WIDTH_MOST ? NAME_WIDTH_MOST : (int)widest;
}

/* "21 packs" of what is safe of what she sells by the pack, else "" */
static void say_packs(const struct day *d, size_t row, char packs[VH_SAY_ROOM])
{
    const int k = summary_row(d, row);
    const double kg_per_g = 1e-3;

    packs[0] = '\0';
    if (k >= 0 && by_pieces(d, row))
        vh_say_packs(vh_cell_number(d->market, row, "promise_fruits"),
                     vh_cell_number(d->summary, (size_t)k, "pack_fruits"), packs);
    else if (k >= 0)
        vh_say_packs(vh_cell_number(d->market, row, "promise_kg"),
                     vh_cell_number(d->summary, (size_t)k, "pack_g") * kg_per_g, packs);
}

/* "slicers    23 kg likely (20 to 26)  safe 21", of a row */
static void say_row(char text[VH_SAY_TEXT], const struct day *d, size_t row, const char *name,
                    int width)
{
    char likely[VH_SAY_ROOM], low[VH_SAY_ROOM], high[VH_SAY_ROOM], safe[VH_SAY_ROOM];
    char packs[VH_SAY_ROOM];

    say_much(d, row, likely_of(d, row), likely);
    say_much(d, row, much(d, row, "_p10"), low);
    say_much(d, row, much(d, row, "_p90"), high);
    say_much(d, row, safe_of(d, row), safe);
    const bool none = vh_say_is_none(likely) && (!high[0] || vh_say_is_none(high));
    text[0] = '\0';
    vh_say_add(text, "%s%*s ", name, (int)fmax(0.0, (double)width - (double)vh_say_width(name)),
               "");
    if (none)
        vh_say_add(text, "none");
    else
        vh_say_add(text, "%4s%s %s", likely, unit_of(d, row), is_past(d) ? "for sale" : "likely");
    if (low[0] && !none && strcmp(low, high) != 0)
        vh_say_add(text, " (%s to %s)", low, high);
    if (safe[0] && !none && !is_past(d)) {
        vh_say_add(text, "%*s safe %s",
                   (int)fmax(0.0, (double)width + 27.0 - (double)vh_say_width(text)), "",
                   vh_say_is_none(safe) ? "none" : safe);
        say_packs(d, row, packs);
        if (packs[0])
            vh_say_add(text, " (%s)", packs);
    }
}

static void say_goods(FILE *to, const struct day *d)
{
    static const char *const head[] = {"MONDAY", "TUESDAY",  "WEDNESDAY", "THURSDAY",
                                       "FRIDAY", "SATURDAY", "SUNDAY"};
    const char *first = head[vh_date_weekday((int64_t)d->date)];
    const int width = name_width(d);
    char date[VH_SAY_ROOM];

    if (d->date < (double)d->facts->today || d->date >= (double)d->facts->today + 7.0) {
        vh_say_date(d->date, date);
        first = date;
    }
    if (vh_say_width(first) >= INDENT) { /* "12 September" has a line for itself */
        fprintf(to, "%s\n", first);
        first = "";
    }
    for (size_t i = 0; i < vh_table_rows(d->market); i++) {
        char text[VH_SAY_TEXT], orders[VH_SAY_TEXT] = "", room[VH_SAY_ROOM];

        if (!is_told(d, i))
            continue;
        const char *name = name_of(d, i, room);
        say_row(text, d, i, name, width);
        if (INDENT + vh_say_width(text) > COLUMNS) { /* too long a name has lines for itself */
            vh_say_block(to, first, INDENT, name);
            say_row(text, d, i, "", width);
            first = "";
        }
        add_orders(orders, d, i);
        const bool fits = INDENT + vh_say_width(text) + vh_say_width(orders) <= COLUMNS;
        fprintf(to, "%-*s%s%s\n", INDENT, first, text, fits ? orders : "");
        if (!fits)
            fprintf(to, "%*s%s\n", INDENT, "", orders);
        first = "";
    }
}

/* "a week ago it said safe: slicers 40 kg: dull days", where less is safe now and that is why */
static void say_earlier(FILE *to, const struct vh_result *r, const struct day *d)
{
    const struct vh_promise_tables tables = vh_promise_tables_of(r);
    char text[VH_SAY_TEXT] = "", safe[VH_SAY_ROOM], likely[VH_SAY_ROOM], room[VH_SAY_ROOM];
    bool less = false;

    for (size_t k = 0; k < vh_table_rows(d->market); k++) {
        const char *planting = vh_cell_text(d->market, k, "planting");
        const bool pieces = by_pieces(d, k);
        if (!is_told(d, k))
            continue;
        double promise =
            vh_promise_said(&tables, pieces, planting, d->date, (double)d->facts->today);
        if (!pieces && d->facts->units == VH_SAY_US)
            promise = vh_say_lb(promise);
        vh_say_much(vh_safe_amount(promise, pieces), pieces, safe);
        less = less || safe_of(d, k) < vh_safe_amount(promise, pieces);
        const char *name = name_of(d, k, room);
        say_much(d, k, likely_of(d, k), likely);
        if (safe[0] &&
            !(vh_say_is_none(safe) && vh_say_is_none(likely))) /* before its first fruit */
            vh_say_add(text, "%s %s%s %s%s", text[0] ? "," : "a week ago it said safe:", name,
                       vh_say_name_end(name), safe, unit_of(d, k));
    }
    if (text[0] && less && vh_cell_number(vh_result_table_named(r, "house"), 0, "dull_week") > 0.0)
        vh_say_add(text, ": dull days");
    if (text[0])
        vh_say_block(to, "", INDENT, text);
}

/* Does what is safe not fill the orders? Of a day further on only such orders are told. */
static bool is_short(const struct day *d, size_t row)
{
    return ordered_of(d, row) > safe_of(d, row);
}

/* Are orders of the days to come more likely to be short than not? Those are told in any case. */
static bool is_likely_short(const struct day *d, size_t row)
{
    const double even = 0.5;

    return vh_cell_number(d->market, row, "short_chance") > even;
}

/* " (safe 40)", " (1.6; 3.0 ordered, short in 6 of 10 cases)"; of what there is none the orders
 * alone */
static void add_safe(char text[VH_SAY_TEXT], const struct day *d, size_t row, const char *word,
                     bool none)
{
    char safe[VH_SAY_ROOM], packs[VH_SAY_ROOM], ordered[VH_SAY_ROOM];

    say_much(d, row, safe_of(d, row), safe);
    if (!safe[0])
        return;
    say_packs(d, row, packs);
    vh_say_add(text, " (");
    if (!none)
        vh_say_add(text, "%s%s%s%s", word, vh_say_is_none(safe) ? "none" : safe,
                   packs[0] ? ", " : "", packs);
    if (is_short(d, row)) {
        say_much(d, row, ordered_of(d, row), ordered);
        vh_say_add(text, "%s%s ordered", none ? "" : "; ", ordered);
        add_chance(text, d, row, ",");
    }
    vh_say_add(text, ")");
}

/* A market day of the week is told in any case; so many days ahead a short order: a customer can be
 * told in time, a pull-out be put off. */
enum { WEEK_D = 7, ORDERS_AHEAD_D = 28 };

static bool is_within(const struct day *d, int days)
{
    return d->date < (double)d->facts->today + (double)days;
}

/* "25 July   slicers 47 (safe 40), plums 26 (22)"; short_alone: of orders alone that are likely to
 * be short */
static bool say_later(FILE *to, const char *head, const struct day *d, bool short_alone)
{
    char text[VH_SAY_TEXT] = "", date[VH_SAY_ROOM], likely[VH_SAY_ROOM], room[VH_SAY_ROOM];
    bool any = false, some = false;

    for (size_t i = 0; i < vh_table_rows(d->market); i++) {
        say_much(d, i, likely_of(d, i), likely);
        some = some || (is_told(d, i) && !vh_say_is_none(likely));
    }
    vh_say_date(d->date, date);
    vh_say_add(text, "%s:", date);
    for (size_t i = 0; i < vh_table_rows(d->market); i++) {
        if (!is_told(d, i) || (short_alone && !is_likely_short(d, i)))
            continue;
        say_much(d, i, likely_of(d, i), likely);
        const bool none = vh_say_is_none(likely);
        /* what there is is said; of what there is none, SHORT says what is missed */
        if (none && some && !is_short(d, i))
            continue;
        const char *name = name_of(d, i, room);
        vh_say_add(text, "%s %s%s %s%s", any ? "," : "", name, none ? "" : vh_say_name_end(name),
                   none ? "none" : likely, none ? "" : unit_of(d, i));
        if (!none || is_short(d, i))
            add_safe(text, d, i, any ? "" : "safe ", none);
        any = true;
    }
    if (any)
        vh_say_block(to, head, INDENT, text);
    return any;
}

/* Days from d->date on with orders that are told in any case. */
static void say_more_orders(FILE *to, const char *head, struct day *d)
{
    char text[VH_SAY_TEXT] = "";
    int days = 0;

    for (; isfinite(d->date) && is_within(d, ORDERS_AHEAD_D);
         d->date = next_day(d->market, d->date + 1.0)) {
        bool is_one = false;
        for (size_t i = 0; i < vh_table_rows(d->market); i++)
            is_one = is_one || (is_told(d, i) && is_likely_short(d, i));
        days += is_one;
    }
    if (days == 0)
        return;
    vh_say_add(text, "%d more day%s of short orders in market_days.csv", days, days > 1 ? "s" : "");
    vh_say_block(to, head, INDENT, text);
}

void vh_market_lines(FILE *to, const struct vh_result *result, const struct vh_summary_facts *facts,
                     int after, int orders_most)
{
    struct day d = {.market = vh_result_table_named(result, "market_days"),
                    .summary = vh_result_table_named(result, "summary"),
                    .facts = facts};
    const char *head = "AFTER";

    d.date = next_day(d.market, (double)facts->today);
    if (!isfinite(d.date))
        return;
    say_goods(to, &d);
    say_earlier(to, result, &d);
    d.date = next_day(d.market, d.date + 1.0);
    for (int i = 0, orders = 0;
         isfinite(d.date) && orders < orders_most && (i < after || is_within(&d, ORDERS_AHEAD_D));
         i++) {
        const bool short_alone = i >= after && !is_within(&d, WEEK_D);
        if (say_later(to, head, &d, short_alone)) {
            head = "";
            orders += short_alone;
        }
        d.date = next_day(d.market, d.date + 1.0);
    }
    say_more_orders(to, head, &d);
}

void vh_market_day_lines(FILE *to, const struct vh_result *result,
                         const struct vh_summary_facts *facts, int64_t date)
{
    const struct day d = {.market = vh_result_table_named(result, "market_days"),
                          .summary = vh_result_table_named(result, "summary"),
                          .facts = facts,
                          .date = (double)date};

    if (d.market)
        say_goods(to, &d);
}

/* ---- gaps ---- */

static void say_gap(FILE *to, const char *head, const struct vh_result *result,
                    const struct vh_summary_facts *facts, size_t row, size_t more)
{
    char text[VH_SAY_TEXT] = "", said[VH_GAP_SAID];

    vh_gap_say(vh_result_table_named(result, "summary"), vh_result_table_named(result, "gaps"), row,
               facts->units, said);
    vh_say_add(text, "%s", said);
    if (more > 0)
        vh_say_add(text, "; %zu more in gaps.csv", more);
    vh_say_block(to, head, INDENT, text);
}

int vh_gaps_to_sow(const struct vh_result *result, int most)
{
    const struct vh_table *t = vh_result_table_named(result, "gaps");
    int sow = 0;

    for (size_t i = t ? vh_gap_next(t, SIZE_MAX) : 0; /* they stand first */
         t && i < vh_table_rows(t) && vh_gap_may_be_sown(t, i); i = vh_gap_next(t, i))
        sow++;
    return sow < 1 ? 1 : sow < most ? sow : most;
}

void vh_gap_lines(FILE *to, const struct vh_result *result, const struct vh_summary_facts *facts,
                  int most)
{
    const struct vh_table *t = vh_result_table_named(result, "gaps");
    size_t row = t ? vh_gap_next(t, SIZE_MAX) : 0;

    for (int said = 0; t && row < vh_table_rows(t) && said < most; said++) {
        const size_t left = vh_table_rows(t) - (size_t)said - 1;
        say_gap(to, said ? "" : "SHORT", result, facts, row, said + 1 == most ? left : 0);
        row = vh_gap_next(t, row);
    }
}
