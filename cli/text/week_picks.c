#include "vh_week_picks.h"

#include <math.h>
#include <string.h>

#include "vh_keep_words.h"
#include "vh_small_line.h"
#include "vh_week_much.h"
#include "vh_week_store.h"
#include "vh_week_work.h"

enum { GROUPS_MOST = 40, PICKS_MOST = 40 };

/* She may hold the picks against what the market day is said to have. */
static const char *const all_of_it =
    "all that comes off; for the market only what can be sold counts";

static const char *const weekday[] = {"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"};

/* ---- a day a line ---- */

static bool is_written(const struct vh_table *t, const struct vh_table *summary, size_t row)
{
    return isfinite(
        vh_week_written(t, row, vh_week_by_pieces(summary, vh_cell_text(t, row, "planting"))));
}

static void say_day(FILE *to, const struct vh_result *r, const struct vh_summary_facts *f,
                    int64_t day, const char **head, int indent)
{
    const struct vh_table *t = vh_result_table_named(r, "picks");
    const struct vh_table *summary = vh_result_table_named(r, "summary");
    char text[VH_SAY_TEXT] = "", much[VH_WEEK_MUCH_ROOM];

    for (size_t i = 0; t && i < vh_table_rows(t); i++) {
        const char *planting = vh_cell_text(t, i, "planting");

        if (vh_cell_number(t, i, "date") != (double)day ||
            (day == f->today && is_written(t, summary, i)))
            continue;
        vh_week_much(f, vh_cell_number(t, i, "kg"), vh_cell_number(t, i, "fruits"),
                     vh_week_by_pieces(summary, planting), much);
        if (much[0])
            vh_say_add(text, "%s %s %s", text[0] ? "," : weekday[vh_date_weekday(day)], much,
                       planting);
    }
    if (text[0]) {
        vh_say_block(to, *head, indent, text);
        *head = "";
    }
}

/* ---- a colour and place a line ---- */

/* Picks that are picked and kept alike. */
struct group {
    size_t row[PICKS_MOST];
    size_t rows;
};

static bool same_number(double a, double b)
{
    return a == b || (isnan(a) && isnan(b));
}

static bool is_alike(const struct vh_table *t, const struct vh_table *summary, size_t a, size_t b)
{
    static const char *const words[] = {"pick_colour", "keep_apart_from"};
    static const char *const numbers[] = {"keep_low_c", "keep_high_c"};

    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++)
        if (strcmp(vh_cell_text(t, a, words[i]), vh_cell_text(t, b, words[i])) != 0)
            return false;
    for (size_t i = 0; i < sizeof numbers / sizeof numbers[0]; i++)
        if (!same_number(vh_cell_number(t, a, numbers[i]), vh_cell_number(t, b, numbers[i])))
            return false;
    return vh_week_by_pieces(summary, vh_cell_text(t, a, "planting")) ==
           vh_week_by_pieces(summary, vh_cell_text(t, b, "planting"));
}

static void say_row(const struct vh_table *t, const struct vh_table *summary,
                    const struct vh_summary_facts *f, size_t row, char number[VH_WEEK_MUCH_ROOM])
{
    vh_week_number(f, vh_cell_number(t, row, "kg"), vh_cell_number(t, row, "fruits"),
                   vh_week_by_pieces(summary, vh_cell_text(t, row, "planting")), number);
}

static size_t gather(const struct vh_table *t, const struct vh_table *summary,
                     const struct vh_summary_facts *f, struct group *group)
{
    size_t groups = 0;

    for (size_t i = 0; i < vh_table_rows(t); i++) {
        const double day = vh_cell_number(t, i, "date") - (double)f->today;
        char number[VH_WEEK_MUCH_ROOM];
        size_t g = 0;

        if (!(day >= 0.0 && day < VH_WEEK_DAYS))
            continue;
        say_row(t, summary, f, i, number);
        if (!number[0] || (day == 0.0 && is_written(t, summary, i)))
            continue;
        while (g < groups && !is_alike(t, summary, group[g].row[0], i))
            g++;
        if (g == GROUPS_MOST || (g < groups && group[g].rows == PICKS_MOST))
            continue;
        if (g == groups)
            group[groups++].rows = 0;
        group[g].row[group[g].rows++] = i;
    }
    return groups;
}

static bool is_of_one(const struct vh_table *t, const struct group *g)
{
    for (size_t k = 1; k < g->rows; k++)
        if (strcmp(vh_cell_text(t, g->row[k], "planting"),
                   vh_cell_text(t, g->row[0], "planting")) != 0)
            return false;
    return true;
}

/* "Tue 20 kg slicers, 12 kg plums"; of one planting "Wed 25, Fri 23 cucumbers". */
static void add_amounts(char text[VH_SAY_TEXT], const struct vh_table *t,
                        const struct vh_table *summary, const struct vh_summary_facts *f,
                        const struct group *g)
{
    const bool one = is_of_one(t, g);
    double day = -1.0;

    for (size_t k = 0; k < g->rows; k++) {
        const char *planting = vh_cell_text(t, g->row[k], "planting");
        const double date = vh_cell_number(t, g->row[k], "date");
        char number[VH_WEEK_MUCH_ROOM];

        say_row(t, summary, f, g->row[k], number);
        vh_say_add(text, "%s", k == 0 ? "" : one || date == day ? ", " : "; ");
        if (date != day)
            vh_say_add(text, "%s ", weekday[vh_date_weekday((int64_t)date)]);
        day = date;
        vh_say_add(text, "%s", number);
        if (!one || k + 1 == g->rows)
            vh_say_add(text, "%s %s", vh_week_unit(f, vh_week_by_pieces(summary, planting)),
                       planting);
    }
}

/* Is `name` one of the names in "slicers, plums"? A name may stand within another's. */
static bool is_listed(const char *names, const char *name)
{
    const size_t n = strlen(name);

    for (const char *at = names; n > 0 && (at = strstr(at, name)); at++)
        if ((at == names || (at - names >= 2 && strncmp(at - 2, ", ", 2) == 0)) &&
            (at[n] == '\0' || strncmp(at + n, ", ", 2) == 0))
            return true;
    return false;
}

/* Was it told before that this group and that which it must not lie beside are apart? */
static bool is_told(const struct vh_table *t, const struct group *group, size_t g)
{
    const char *planting = vh_cell_text(t, group[g].row[0], "planting");

    for (size_t i = 0; i < g; i++)
        if (is_listed(vh_cell_text(t, group[i].row[0], "keep_apart_from"), planting) &&
            is_listed(vh_cell_text(t, group[g].row[0], "keep_apart_from"),
                      vh_cell_text(t, group[i].row[0], "planting")))
            return true;
    return false;
}

static void say_groups(FILE *to, const struct vh_table *t, const struct vh_table *summary,
                       const struct vh_summary_facts *f, int indent)
{
    struct group group[GROUPS_MOST];
    const size_t groups = gather(t, summary, f, group);

    for (size_t g = 0; g < groups; g++) {
        const char *colour = vh_pick_colour(t, group[g].row[0]);
        char text[VH_SAY_TEXT] = "", keep[VH_KEEP_ROOM];

        add_amounts(text, t, summary, f, &group[g]);
        if (colour[0])
            vh_say_add(text, " %s", colour);
        vh_keep_words(t, group[g].row[0], summary, !is_told(t, group, g), f->units, "", keep);
        if (keep[0])
            vh_say_add(text, ": %s", keep);
        vh_say_block(to, g == 0 ? "PICK" : "", indent, text);
    }
}

/* "Tue 4.6 kg, 22 fruits; Wed ...": all plantings of a day together, where the screen is short. */
static void say_sums(FILE *to, const struct vh_table *t, const struct vh_table *summary,
                     const struct vh_summary_facts *f, int indent)
{
    char text[VH_SAY_TEXT] = "", kg[VH_WEEK_MUCH_ROOM], fruits[VH_WEEK_MUCH_ROOM];

    for (int64_t day = f->today; day < f->today + VH_WEEK_DAYS; day++) {
        double sum[2] = {0.0, 0.0};
        for (size_t i = 0; t && i < vh_table_rows(t); i++) {
            const bool pieces = vh_week_by_pieces(summary, vh_cell_text(t, i, "planting"));
            const double much = vh_cell_number(t, i, pieces ? "fruits" : "kg");
            if (vh_cell_number(t, i, "date") == (double)day && isfinite(much) &&
                !(day == f->today && is_written(t, summary, i)))
                sum[pieces] += much;
        }
        vh_week_much(f, sum[0], 0.0, false, kg);
        vh_week_much(f, 0.0, sum[1], true, fruits);
        if (!kg[0] && !fruits[0])
            continue;
        vh_say_add(text, "%s%s %s%s%s%s", text[0] ? "; " : "", weekday[vh_date_weekday(day)], kg,
                   kg[0] && fruits[0] ? ", " : "", fruits, fruits[0] ? " fruits" : "");
    }
    if (!text[0])
        return;
    vh_say_add(text, ": of which planting, and where to keep it, is in picks.csv");
    vh_say_block(to, "PICK", indent, text);
}

/* On a planting's last day more goes than else: "Fri cherries, the last pick: ...". */
static void say_last(FILE *to, const struct vh_result *r, const struct vh_summary_facts *f,
                     int indent)
{
    const struct vh_table *t = vh_result_table_named(r, "tasks");

    for (size_t i = 0; t && i < vh_table_rows(t); i++) {
        const double date = vh_cell_number(t, i, "date");
        const char *last = strstr(vh_cell_text(t, i, "note"), "the last pick: ");
        char text[VH_SAY_TEXT] = "", said[VH_SAY_TEXT];

        if (!last || strcmp(vh_cell_text(t, i, "task"), "pick") != 0 ||
            vh_cell_number(t, i, "done") > 0.0 ||
            !(date >= (double)f->today && date < (double)(f->today + VH_WEEK_DAYS)))
            continue;
        vh_say_measures_in(last, f->units, said, sizeof said);
        vh_say_add(text, "%s %s, %s", weekday[vh_date_weekday((int64_t)date)],
                   vh_cell_text(t, i, "planting"), said);
        vh_say_block(to, "", indent, text);
    }
}

void vh_week_picks(FILE *to, const struct vh_result *r, const struct vh_summary_facts *f,
                   int indent, bool by_planting)
{
    const struct vh_table *t = vh_result_table_named(r, "picks");
    const char *head = "PICK";
    bool sold = false;

    if (!by_planting) {
        say_sums(to, t, vh_result_table_named(r, "summary"), f, indent);
        vh_small_lines_of_week(to, r, f, indent);
        return;
    }
    for (size_t i = 0; t && i < vh_table_rows(t); i++) {
        const double day = vh_cell_number(t, i, "date") - (double)f->today;
        sold = sold ||
               (day >= 0.0 && day < VH_WEEK_DAYS && !isnan(vh_cell_number(t, i, "market_day")));
    }
    if (sold) {
        say_groups(to, t, vh_result_table_named(r, "summary"), f, indent);
        vh_say_block(to, "", indent, all_of_it);
        say_last(to, r, f, indent);
        vh_week_store(to, r, f, indent);
        vh_small_lines_of_week(to, r, f, indent);
        return;
    }
    for (int64_t day = f->today; day < f->today + VH_WEEK_DAYS; day++)
        say_day(to, r, f, day, &head, indent);
    say_last(to, r, f, indent);
    vh_small_lines_of_week(to, r, f, indent);
}
