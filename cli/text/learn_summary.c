/* What `learn` prints: what the records changed, what they cannot tell apart, how far forecasts
 * were off, how promises were kept. */
#include "vh_learn_summary.h"

#include <math.h>
#include <string.h>

#include "vh_learnt_words.h"
#include "vh_measure_lines.h"
#include "vh_only_counted.h"
#include "vh_say.h"
#include "vh_unpromised.h"

enum { INDENT = 11, TEXT_ROOM = 2000, NAME_WIDE = 27, FROM_WIDE = 24 };

static const char *const dot_utf8 = "\xC2\xB7";

static void say_head(FILE *to, const struct vh_table *house, const struct vh_summary_facts *f)
{
    const char *dot = vh_say_is_utf8() ? dot_utf8 : "-";
    char last[VH_SAY_ROOM] = "", head[VH_SAY_TEXT] = "";
    const double used =
        house && vh_table_rows(house) > 0 ? vh_cell_number(house, 0, "records_used") : (double)NAN;

    if (house && vh_table_rows(house) > 0)
        vh_say_date(vh_cell_number(house, 0, "records_until"), last);
    vh_say_add(head, "%s %s ", f->name, dot);
    if (isfinite(used) && used > 0.0)
        vh_say_add(head, "%.0f record%s%s%s", used, used == 1.0 ? "" : "s", last[0] ? " to " : "",
                   last);
    else
        vh_say_add(head, "no records");
    vh_say_block(to, "", 0, head);
    fputc('\n', to);
}

/* "picks, 30 entries" */
static void say_from(const struct vh_table *t, size_t row, char *said, size_t room)
{
    const double entries = vh_cell_number(t, row, "entries");

    snprintf(said, room, "%s, %.0f", vh_learnt_item(vh_cell_text(t, row, "seen_in")), entries);
}

/* A row of a table: its name behind `lead`, then the rest; a name that leaves no room for it has
 * lines for itself. */
static void say_row(FILE *to, const char *lead, const char *name, const char *rest)
{
    int used = (int)(strlen(lead) + vh_say_width(name));

    if (used > NAME_WIDE && used + (int)vh_say_width(rest) > VH_SAY_COLUMNS) {
        vh_say_block(to, lead, (int)strlen(lead), name);
        used = 0;
    } else {
        fputs(lead, to);
        vh_say_safely(to, name);
    }
    fprintf(to, "%*s%s\n", used < NAME_WIDE ? NAME_WIDE - used : 0, "", rest);
}

/* Without the sign of a nothing: "-0.0". */
static double plain(double value, int digits)
{
    return fabs(value) < 0.5 * pow(10.0, -digits) ? 0.0 : value;
}

static void print_row(FILE *to, const struct vh_table *t, size_t row, enum vh_say_units units)
{
    const bool in_k = strcmp(vh_cell_text(t, row, "name"), VH_LEARNT_OFFSET) == 0;
    const int digits = in_k ? 1 : 2;
    const double per = in_k ? vh_learnt_degrees(1.0, units) : 1.0;
    char name[VH_LEARNT_ROOM], from[VH_LEARNT_ROOM], rest[VH_SAY_TEXT] = "";

    vh_learnt_name(t, row, units, name);
    say_from(t, row, from, sizeof from);
    vh_say_add(rest, " %5.*f  %5.*f  %5.*f to %-5.*f  %s", digits,
               plain(per * vh_cell_number(t, row, "before"), digits), digits,
               plain(per * vh_cell_number(t, row, "after"), digits), digits,
               plain(per * vh_cell_number(t, row, "after_low"), digits), digits,
               plain(per * vh_cell_number(t, row, "after_high"), digits), from);
    say_row(to, "", name, rest);
}

static void say_learnt(FILE *to, const struct vh_table *t, enum vh_say_units units)
{
    bool any = false;

    for (size_t row = 0; row < vh_table_rows(t); row++) {
        if (!vh_learnt_is_sure(t, row))
            continue;
        if (!any)
            fprintf(to, "%-*s %5s  %5s  %-14s  %s\n", NAME_WIDE, "LEARNT", "book", "now", "range",
                    "from, entries");
        any = true;
        print_row(to, t, row, units);
    }
    if (!any)
        vh_say_block(to, "LEARNT", INDENT, "nothing yet that stands apart from all else");
}

/* ---- what is not told apart ---- */

static bool speaks_of(const struct vh_table *t, size_t row, const char *item)
{
    return strcmp(vh_cell_text(t, row, "seen_in"), item) == 0;
}

/* What to write down so that this one is told. "" : nothing more than more of the same. */
static const char *advice(const struct vh_table *t, size_t row)
{
    const char *name = vh_cell_text(t, row, "name");

    if (strcmp(name, "set") == 0 && !speaks_of(t, row, "fruits_set"))
        return "count the set fruits of one truss on 5 plants before you thin it (fruits_set)";
    if (strcmp(name, "fruit_mass") == 0 && !speaks_of(t, row, "fruit_g"))
        return "weigh 20 fruits of a pick (fruit_g)";
    if (strcmp(name, "truss_pace") == 0 && !speaks_of(t, row, "flowering_truss"))
        return "note the truss in flower on 5 plants (flowering_truss)";
    if (strcmp(name, "fruit_pace") == 0 && !speaks_of(t, row, "picking_truss"))
        return "note the truss being picked on 5 plants (picking_truss)";
    return "";
}

static void add(char *text, const char *what)
{
    const size_t n = strlen(text);

    snprintf(text + n, TEXT_ROOM - n, "%s", what);
}

static const char *const apart_word = "no: with ";

static bool is_bound(const struct vh_table *t, size_t row)
{
    return strncmp(vh_cell_text(t, row, "told_apart"), apart_word, strlen(apart_word)) == 0;
}

/* A line for each: with what it may be mistaken, and what would tell. */
static void say_not_apart(FILE *to, const struct vh_table *t, enum vh_say_units units)
{
    const char *head = "NOT APART";

    for (size_t row = 0; row < vh_table_rows(t); row++) {
        char text[TEXT_ROOM] = "", name[VH_LEARNT_ROOM], other[VH_LEARNT_ROOM];
        if (!is_bound(t, row))
            continue;
        vh_learnt_name(t, row, units, name);
        vh_learnt_mistaken(t, row, other);
        add(text, name);
        add(text, ", from ");
        add(text, other);
        if (advice(t, row)[0]) {
            add(text, ": ");
            add(text, advice(t, row));
        }
        vh_say_block(to, head, INDENT, text);
        head = "";
    }
}

static void say_hardly(FILE *to, const struct vh_table *t, enum vh_say_units units)
{
    char text[TEXT_ROOM] = "", name[VH_LEARNT_ROOM];
    size_t count = 0;

    for (size_t row = 0; row < vh_table_rows(t); row++) {
        if (vh_learnt_is_sure(t, row) || is_bound(t, row))
            continue;
        vh_learnt_name(t, row, units, name);
        add(text, count++ > 0 ? "; " : "");
        add(text, name);
    }
    if (count > 0) {
        add(text, ": too few entries to be sure; what little they say is reckoned with");
        vh_say_block(to, "NOT YET", INDENT, text);
    }
}

/* ---- how far off ---- */

static void say_hundredths(double share, char *said)
{
    if (isfinite(share))
        snprintf(said, VH_SAY_ROOM, "%.0f %%", 100.0 * share);
    else
        snprintf(said, VH_SAY_ROOM, "-");
}

/* "slicers: two weeks ahead you may expect to be off by 14 %; ...", of two weeks where they were
 * forecast, else of the furthest. */
static void say_in_words(FILE *to, const struct vh_table *t, size_t row)
{
    static const char *const ahead[] = {"", "one week", "two weeks", "three weeks", "four weeks"};
    const double weeks = vh_cell_number(t, row, "weeks_ahead"),
                 last = vh_cell_number(t, row, "last");
    char text[VH_SAY_TEXT] = "", share[VH_SAY_ROOM];

    if (!(weeks >= 1.0 && weeks <= 4.0))
        return;
    say_hundredths(vh_cell_number(t, row, "off"), share);
    vh_say_add(text, "%s: %s ahead you may expect to be off by %s",
               vh_cell_text(t, row, "planting"), ahead[(int)weeks], share);
    if (isfinite(vh_cell_number(t, row, "naive_off"))) {
        say_hundredths(vh_cell_number(t, row, "naive_off"), share);
        vh_say_add(text, "; %s would be off by %s",
                   strcmp(vh_cell_text(t, row, "naive"), "last") == 0
                       ? "simply repeating last week"
                       : "the mean of the last three weeks",
                   share);
    }
    if (last > 1.0)
        vh_say_add(text, "; %.0f of the last %.0f weeks came within 10 %%",
                   vh_cell_number(t, row, "within"), last);
    vh_say_block(to, "", INDENT, text);
}

static bool is_known(const struct vh_table *t, size_t row)
{
    return isfinite(vh_cell_number(t, row, "off"));
}

/* One sentence a planting; the rows of a planting lie together, the furthest last. */
static void say_off_in_words(FILE *to, const struct vh_table *t)
{
    const double wanted = 2.0;
    size_t best = vh_table_rows(t);

    for (size_t row = 0; row < vh_table_rows(t); row++) {
        if (!is_known(t, row))
            continue;
        if (best < row &&
            strcmp(vh_cell_text(t, best, "planting"), vh_cell_text(t, row, "planting")) != 0) {
            say_in_words(to, t, best);
            best = row;
        }
        if (best >= row || vh_cell_number(t, row, "weeks_ahead") <= wanted)
            best = row;
    }
    if (best < vh_table_rows(t))
        say_in_words(to, t, best);
}

/* What the forecasts would have been off by, had the program been asked each Sunday. */
static void say_off(FILE *to, const struct vh_result *result, const struct vh_summary_facts *facts)
{
    const struct vh_table *t = facts->hindcast;
    char left_out[VH_SAY_TEXT];
    char ahead[VH_SAY_ROOM], off[VH_SAY_ROOM], naive[VH_SAY_ROOM];
    size_t said = 0;

    for (size_t row = 0; t && row < vh_table_rows(t); row++) {
        const char *planting = vh_cell_text(t, row, "planting");
        if (!is_known(t, row))
            continue;
        if (said++ == 0)
            fprintf(to, "\n%-*s %11s  %13s  %s\n%-*s %11s  %13s  %s\n", NAME_WIDE, "HOW FAR OFF",
                    "this", "last week or", "range held", NAME_WIDE, "weeks ahead", "forecast",
                    "mean of three", "8 in 10 weeks wanted");
        char rest[VH_SAY_TEXT] = "";
        snprintf(ahead, sizeof ahead, "  %.0f ", vh_cell_number(t, row, "weeks_ahead"));
        say_hundredths(vh_cell_number(t, row, "off"), off);
        say_hundredths(vh_cell_number(t, row, "naive_off"), naive);
        const double weeks = vh_cell_number(t, row, "weeks");
        vh_say_add(rest, " %11s  %13s  %.0f of %.0f", off, naive,
                   weeks * vh_cell_number(t, row, "held"), weeks);
        say_row(to, ahead, planting, rest);
    }
    if (said > 0)
        say_off_in_words(to, t);
    if (said == 0 && t)
        vh_say_block(to, "HOW FAR", INDENT,
                     "not known yet: it takes some weeks of picks before a forecast can be held"
                     " against what came");
    vh_only_counted(vh_result_table_named(result, "summary"),
                    vh_result_table_named(result, "picks"), t, facts->units, left_out,
                    sizeof left_out);
    if (t && left_out[0])
        vh_say_block(to, "", INDENT, left_out);
}

/* "not known: slicers 20 June (no pick written down between 16 June and 20 June)" */
static void add_unknown(char *to, size_t room, const struct vh_promise_past *past)
{
    char date[VH_SAY_ROOM], from[VH_SAY_ROOM];
    const size_t n = strlen(to);

    vh_say_date(past->date, date);
    vh_say_date(past->silent_from, from);
    snprintf(to + n, room - n, "%s%.60s %s (no pick written down between %s and %s)",
             n > 0 ? ", " : "not known: ", past->planting, date, from, date);
}

/* "17 of 19 kept", those that were not, and those of which the records do not speak. */
static void say_promises(FILE *to, const struct vh_result *result,
                         const struct vh_summary_facts *facts)
{
    enum { SHORT_MOST = 4 };
    const struct vh_promise_tables tables = vh_promise_tables_of(result);
    struct vh_promise_past past;
    char text[1600] = "", fell[800] = "", came[VH_SAY_CAME], promised[VH_SAY_ROOM],
         silent[800] = "", missing[200], date[VH_SAY_ROOM];
    int of = 0, kept = 0, told = 0, unknown = 0;
    bool is_all = true; /* was all that was picked fit for sale? */

    for (size_t row = 0; vh_promise_next(&tables, facts->today, &row, &past);) {
        if (!vh_promise_is_any(past.promise, past.by_piece, facts->units))
            continue;
        if (isnan(past.came)) {
            if (unknown++ < SHORT_MOST)
                add_unknown(silent, sizeof silent, &past);
            continue;
        }
        of++;
        vh_say_came(&past, facts->units, came);
        is_all = is_all && !strstr(came, "picked");
        if (vh_promise_is_kept(past.promise, past.came, past.by_piece, facts->units)) {
            kept++;
            continue;
        }
        if (told++ >= SHORT_MOST)
            continue;
        vh_say_date(past.date, date);
        vh_say_promised(&past, facts->units, promised);
        snprintf(fell + strlen(fell), sizeof fell - strlen(fell),
                 "%s %.60s %s (promised %s, came %s)", fell[0] ? "," : "; short:", past.planting,
                 date, promised, came);
    }
    if (of + unknown == 0)
        return;
    if (of > 0)
        snprintf(text, sizeof text, "%d of %d kept%s%s%s", kept, of,
                 is_all ? "" : ", by what was fit for sale of the picks", fell,
                 silent[0] ? "; " : "");
    snprintf(text + strlen(text), sizeof text - strlen(text), "%s", silent);
    vh_unpromised(&tables, vh_result_table_named(result, "market_days"), facts->today, missing,
                  sizeof missing);
    if (missing[0])
        snprintf(text + strlen(text), sizeof text - strlen(text), "; %s", missing);
    vh_say_block(to, "PROMISES", INDENT, text);
}

static void say_nothing_learnt(FILE *to, const struct vh_table *house, int members)
{
    const double least =
        house && vh_table_rows(house) > 0 ? vh_cell_number(house, 0, "members_least") : (double)NAN;
    char text[VH_SAY_TEXT] = "nothing: there is no record that tells of the plants. Begin with what"
                             " you pick: vinehand note PLANTING picked_kg 14.2";

    if (members < least)
        snprintf(text, sizeof text,
                 "nothing: what so few futures have in common is mostly chance; ask for %.0f or"
                 " more, or leave the number of members away",
                 ceil(least));
    vh_say_block(to, "LEARNT", INDENT, text);
}

void vh_summary_learn(FILE *to, const struct vh_result *result,
                      const struct vh_summary_facts *facts)
{
    const struct vh_table *learned = vh_result_table_named(result, "learned");

    say_head(to, vh_result_table_named(result, "house"), facts);
    if (!learned || vh_table_rows(learned) == 0) {
        say_nothing_learnt(to, vh_result_table_named(result, "house"), facts->members);
        return;
    }
    say_learnt(to, learned, facts->units);
    say_not_apart(to, learned, facts->units);
    say_hardly(to, learned, facts->units);
    vh_measure_lines(to, result, INDENT);
    say_off(to, result, facts);
    say_promises(to, result, facts);
}
