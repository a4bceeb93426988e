/* Promises of earlier runs, held against what was picked. */
#include <math.h>
#include <string.h>

#include "vh_math.h"
#include "vh_result.h"

static const double week_d = 7.0;
static const double early_d = 1.0; /* a pick of the day before a pick day is that day's */

/* The column of what was promised, in kg or fruits. */
static const char *promise_column(const struct vh_table *t)
{
    return vh_table_find(t, "promise_fruits") >= 0 ? "promise_fruits" : "promise_kg";
}

/* The promise of a planting for market day `date` that was made most nearly a week before a day, of
 * equal ones the last; the number of rows: none was made about then. */
static size_t said_row(const struct vh_table *t, const char *planting, double date, double before,
                       double off_most_d)
{
    const size_t date_at = (size_t)vh_table_find(t, "date"); /* looked up once: asked often */
    double nearest = off_most_d;
    size_t row = vh_table_rows(t);

    for (size_t i = 0; i < vh_table_rows(t); i++) {
        if (vh_table_number(t, i, date_at) != date)
            continue;
        const double off = fabs(before - vh_cell_number(t, i, "said_on") - week_d);
        if (off > nearest || strcmp(vh_cell_text(t, i, "grade"), "all") != 0 ||
            strcmp(vh_cell_text(t, i, "planting"), planting) != 0)
            continue;
        nearest = off;
        row = i;
    }
    return row;
}

/* How far from a week before its day a promise may have been made to be judged. */
static double near_d(const struct vh_promise_tables *t)
{
    return t->house ? vh_cell_number(t->house, 0, "said_near_d") : 0.0;
}

struct vh_promise_tables vh_promise_tables_of(const struct vh_result *r)
{
    return (struct vh_promise_tables){
        vh_result_table_named(r, "said"), vh_result_table_named(r, "said_fruits"),
        vh_result_table_named(r, "picks"), vh_result_table_named(r, "summary"),
        vh_result_table_named(r, "house")};
}

double vh_promise_said(const struct vh_promise_tables *t, bool by_piece, const char *planting,
                       double date, double before)
{
    const struct vh_table *said = by_piece ? t->said_fruits : t->said;
    const size_t row = said ? said_row(said, planting, date, before, near_d(t)) : 0;

    return said && row < vh_table_rows(said) ? vh_cell_number(said, row, promise_column(said))
                                             : VH_UNKNOWN;
}

/* Share of a pick that can be sold: by what she threw away that day, else the model's. */
static double fit_share(const struct vh_table *t, size_t row)
{
    const double kg = vh_cell_number(t, row, "kg"), fruits = vh_cell_number(t, row, "fruits");
    const double weighed = vh_cell_number(t, row, "picked_kg"),
                 counted = vh_cell_number(t, row, "picked_fruits");
    const double picked_kg = isfinite(weighed) ? weighed : counted * kg / fruits;
    const double thrown_kg = vh_cell_number(t, row, "thrown_kg"),
                 waste_kg = vh_cell_number(t, row, "unmarketable_kg");

    if (isfinite(thrown_kg) && picked_kg > 0.0)
        return vh_clamp(1.0 - thrown_kg / picked_kg, 0.0, 1.0);
    return kg > 0.0 && isfinite(waste_kg) ? vh_clamp(1.0 - waste_kg / kg, 0.0, 1.0) : 1.0;
}

/* Was a row of picks written down of a planting in the week that ends with a day? */
static bool is_in_week(const struct vh_table *t, size_t row, const char *column,
                       const char *planting, double date)
{
    const double on = vh_cell_number(t, row, "date");

    return on <= date && on > date - week_d && isfinite(vh_cell_number(t, row, column)) &&
           !strcmp(vh_cell_text(t, row, "planting"), planting);
}

/* How far market days have come in a planting's picks, the oldest first: all before `row` is gone,
 * and of that row what could be sold as far as `used`. */
struct gone {
    size_t row;
    double used;
    double day; /* the last of those market days; NaN: none */
};

static double fit_left(const struct vh_table *t, size_t row, const char *column,
                       const struct gone *gone)
{
    return vh_cell_number(t, row, column) * fit_share(t, row) -
           (row == gone->row ? gone->used : 0.0);
}

/* A market day takes what was promised for it. */
static void take(const struct vh_table *t, const char *column, const char *planting, double date,
                 double promise, struct gone *gone)
{
    for (size_t i = gone->row; t && i < vh_table_rows(t); i++) {
        if (!is_in_week(t, i, column, planting, date))
            continue;
        const double left = fit_left(t, i, column, gone);
        if (promise < left) {
            gone->used = promise + (i == gone->row ? gone->used : 0.0);
            gone->row = i;
            return;
        }
        promise -= left;
        gone->row = i + 1;
        gone->used = 0.0;
    }
}

/* What market days before `date` have taken: each what was promised for it about a week before. */
static struct gone gone_before(const struct vh_promise_tables *t, const struct vh_table *said,
                               const char *picked, const char *planting, double date)
{
    const size_t date_at = (size_t)vh_table_find(said, "date");
    struct gone gone = {0, 0.0, VH_UNKNOWN};

    for (;;) {
        double next = date;
        for (size_t i = 0; i < vh_table_rows(said); i++) {
            const double on = vh_table_number(said, i, date_at);
            if (on < next && !(on <= gone.day) &&
                strcmp(vh_cell_text(said, i, "planting"), planting) == 0)
                next = on;
        }
        if (!(next < date))
            return gone;
        gone.day = next;
        const size_t row = said_row(said, planting, next, next, near_d(t));
        const double promise = row < vh_table_rows(said)
                                   ? vh_cell_number(said, row, promise_column(said))
                                   : VH_UNKNOWN;
        if (promise > 0.0)
            take(t->picks, picked, planting, next, promise, &gone);
    }
}

/* Of what is written down as picked in the week that ends with a day what earlier market days left:
 * all of it, or what can be sold; NaN: nothing was written. */
static double left_until(const struct vh_table *t, const char *column, const char *planting,
                         double date, const struct gone *gone, bool fit)
{
    double sum = VH_UNKNOWN;

    for (size_t i = 0; t && i < vh_table_rows(t); i++) {
        if (!is_in_week(t, i, column, planting, date))
            continue;
        const double share = fit_share(t, i), all = vh_cell_number(t, i, column);
        const double left = i < gone->row ? 0.0 : fit_left(t, i, column, gone);
        /* of a pick that was all thrown away no market day took any */
        const double much = fit ? left : share > 0.0 ? left / share : all;
        sum = much + (isfinite(sum) ? sum : 0.0);
    }
    return sum;
}

double vh_promise_picked_once(const struct vh_promise_tables *t, const struct vh_promise_past *past,
                              bool *counted)
{
    const char *column = past->by_piece ? "picked_fruits" : "picked_kg";
    double sum = 0.0;

    for (size_t i = 0; t->picks && i < vh_table_rows(t->picks); i++) {
        if (counted[i] || !is_in_week(t->picks, i, column, past->planting, past->date))
            continue;
        counted[i] = true;
        sum += vh_cell_number(t->picks, i, column);
    }
    return sum;
}

static bool by_piece(const struct vh_table *t, const char *planting)
{
    for (size_t i = 0; t && i < vh_table_rows(t); i++)
        if (!strcmp(vh_cell_text(t, i, "planting"), planting))
            return !strcmp(vh_cell_text(t, i, "unit_word"), "fruits");
    return false;
}

/* What the records say of a planting around a promise. */
struct written {
    bool any, after; /* a pick of it was ever written down; one of the days after the market day */
    double last;     /* day of the last one up to the market day; NaN: none */
    double planned;  /* the last pick day that is foreseen up to it; NaN: none */
};

static struct written written_of(const struct vh_table *t, const char *column, const char *planting,
                                 double date)
{
    struct written w = {false, false, VH_UNKNOWN, VH_UNKNOWN};

    for (size_t i = 0; t && i < vh_table_rows(t); i++) {
        const double on = vh_cell_number(t, i, "date");
        if (strcmp(vh_cell_text(t, i, "planting"), planting) != 0)
            continue;
        if (on <= date && vh_cell_number(t, i, "kg") > 0.0)
            w.planned = fmax(w.planned, on);
        if (!isfinite(vh_cell_number(t, i, column)))
            continue;
        w.any = true;
        w.after = w.after || on > date;
        if (on <= date)
            w.last = fmax(w.last, on);
    }
    return w;
}

/* The records speak of the time from the promise to its market day where a pick of that time is
 * written down and none is known to be missing: no pick day foreseen up to the market day lies more
 * than a day after the last entry. Where she wrote something since the market day `before` and on
 * after this one, what is not written was not picked. Returns the first day of which nothing is
 * known; NaN: all is. */
static double silent_from(const struct written *w, double said_on, double before, double date)
{
    const double from = fmax(said_on, date - week_d + 1.0);
    const bool wrote_on = w->after && !(w->last <= before);

    if (!(w->last >= from))
        return from;
    return !wrote_on && w->planned > w->last + early_d ? w->last + 1.0 : VH_UNKNOWN;
}

/* The promise of a row, if it is one whose day is past and of a planting whose picks she notes. */
static bool is_past(const struct vh_promise_tables *t, const struct vh_table *said, size_t row,
                    int64_t today, struct vh_promise_past *out)
{
    const char *planting = vh_cell_text(said, row, "planting"), *column = promise_column(said);
    const double date = vh_cell_number(said, row, "date");
    const double promise = vh_cell_number(said, row, column);
    const bool pieces = said == t->said_fruits;
    const char *picked = pieces ? "picked_fruits" : "picked_kg";

    if (!(date < (double)today) || !isfinite(promise) ||
        strcmp(vh_cell_text(said, row, "grade"), "all") != 0 ||
        by_piece(t->summary, planting) != pieces ||
        said_row(said, planting, date, date, near_d(t)) != row)
        return false;
    const struct written w = written_of(t->picks, picked, planting, date);
    const struct gone gone = gone_before(t, said, picked, planting, date);
    const double silent = silent_from(&w, vh_cell_number(said, row, "said_on"), gone.day, date);
    const bool known = isnan(silent);
    *out = (struct vh_promise_past){
        .planting = planting,
        .date = date,
        .promise = promise,
        .picked = known ? left_until(t->picks, picked, planting, date, &gone, false) : VH_UNKNOWN,
        .came = known ? left_until(t->picks, picked, planting, date, &gone, true) : VH_UNKNOWN,
        .silent_from = silent,
        .by_piece = pieces};
    return w.any;
}

bool vh_promise_next(const struct vh_promise_tables *t, int64_t today, size_t *row,
                     struct vh_promise_past *out)
{
    const size_t first = t->said ? vh_table_rows(t->said) : 0;
    const size_t all = first + (t->said_fruits ? vh_table_rows(t->said_fruits) : 0);

    while (*row < all) {
        const size_t at = (*row)++;
        const bool is_first = at < first;
        if (is_past(t, is_first ? t->said : t->said_fruits, is_first ? at : at - first, today, out))
            return true;
    }
    return false;
}

/* Was anything promised for the day about a week before it, of any planting? One that came later
 * than the others was not asked for, and the day is judged by those. */
static bool is_said(const struct vh_promise_tables *t, double date)
{
    const struct vh_table *of[] = {t->said, t->said_fruits};

    for (size_t k = 0; k < sizeof of / sizeof of[0]; k++)
        for (size_t i = 0; of[k] && i < vh_table_rows(of[k]); i++)
            if (vh_cell_number(of[k], i, "date") == date &&
                fabs(date - vh_cell_number(of[k], i, "said_on") - week_d) <= near_d(t) &&
                isfinite(vh_cell_number(of[k], i, promise_column(of[k]))))
                return true;
    return false;
}

/* The first market day for which anything was promised; endless: there is none. */
static double first_said(const struct vh_promise_tables *t)
{
    const struct vh_table *of[] = {t->said, t->said_fruits};
    double first = (double)INFINITY;

    for (size_t k = 0; k < sizeof of / sizeof of[0]; k++)
        for (size_t i = 0; of[k] && i < vh_table_rows(of[k]); i++)
            first = fmin(first, vh_cell_number(of[k], i, "date"));
    return first;
}

double vh_promise_unsaid(const struct vh_promise_tables *t, const struct vh_table *market_days,
                         int64_t today, double after)
{
    const double begun = fmax(after, first_said(t));
    const struct gone nothing = {0, 0.0, VH_UNKNOWN};
    double first = VH_UNKNOWN;

    for (size_t i = 0; market_days && i < vh_table_rows(market_days); i++) {
        const double date = vh_cell_number(market_days, i, "date");
        if (!(date > begun && date < (double)today) || date >= first ||
            strcmp(vh_cell_text(market_days, i, "grade"), "all") != 0)
            continue;
        const char *planting = vh_cell_text(market_days, i, "planting");
        const char *picked = by_piece(t->summary, planting) ? "picked_fruits" : "picked_kg";
        if (isfinite(left_until(t->picks, picked, planting, date, &nothing, false)) &&
            !is_said(t, date))
            first = date;
    }
    return first;
}
