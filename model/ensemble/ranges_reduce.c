/* The members' rows to means and ranges. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "ranges_parts.h"
#include "vh_math_parts.h"
#include "vh_quantile.h"
#include "vh_wide.h"

#define NAME_ROOM 64
#define NEVER_D 1e12 /* a day that a future does not see: later than all */

enum { MEAN, FIRST_RANGE = 1, PARTS = 1 + VH_QUANTILES };

/* ---- columns ---- */

/* The plain column of a day is its median already; a promise and a chance are one number. */
static bool has_part(enum vh_column_role role, int part)
{
    return part == MEAN || role == VH_COLUMN_VALUE ||
           (role == VH_COLUMN_DAY && part != FIRST_RANGE + VH_P50);
}

struct wide {
    struct vh_column *column;
    char (*name)[NAME_ROOM];
    size_t columns;
};

static const char *const suffix[VH_QUANTILES] = {"p10", "p50", "p90"};

static void add_column(struct wide *w, struct vh_column from, int quantile)
{
    static const char *const value[VH_QUANTILES] = {"one future in ten lies lower",
                                                    "half of the futures lie lower",
                                                    "one future in ten lies higher"};
    static const char *const day[VH_QUANTILES] = {"one future in ten is earlier", "",
                                                  "one future in ten is later"};

    snprintf(w->name[w->columns], NAME_ROOM, "%.50s_%s", from.name, suffix[quantile]);
    from.meaning = from.kind == VH_CELL_DATE ? day[quantile] : value[quantile];
    from.name = w->name[w->columns];
    w->column[w->columns++] = from;
}

/* The table's columns with those of the ranges behind each; one block of memory. */
static void *widen_columns(const struct vh_ranges *r, struct wide *w)
{
    const size_t most = r->columns * PARTS;
    unsigned char *block = malloc(most * (sizeof *w->column + NAME_ROOM));

    if (!block)
        return NULL;
    *w = (struct wide){.column = (struct vh_column *)(void *)block,
                       .name = (char(*)[NAME_ROOM])(void *)(block + most * sizeof *w->column)};
    for (size_t c = 0; c < r->columns; c++) {
        w->column[w->columns++] = r->column[c];
        for (int q = 0; q < VH_QUANTILES; q++)
            if (has_part(r->role[c], FIRST_RANGE + q))
                add_column(w, r->column[c], q);
    }
    return block;
}

/* ---- which rows ---- */

static bool is_shared(const struct vh_ranges *r, const struct vh_ranges_row *row)
{
    return 2 * row->seen >= r->members;
}

static bool is_mean(const struct vh_ranges *r, const struct vh_ranges_row *row)
{
    return (size_t)(row - r->row) < r->mean_rows;
}

static enum vh_row_rule rule_of(const struct vh_ranges *r, const struct vh_ranges_row *row)
{
    const char *task = r->task < r->columns ? row->cell[r->task].text : NULL;

    return vh_result_row_rule(r->id, task ? task : "");
}

static bool stays(const struct vh_ranges *r, const struct vh_ranges_row *row)
{
    const enum vh_row_rule rule = rule_of(r, row);

    return (rule != VH_ROW_OF_PLAN && is_shared(r, row)) ||
           (rule != VH_ROW_OF_FUTURES && is_mean(r, row));
}

/* The plain number: that of the plan, or of all futures; the plan has none of a truss that the mean
 * run does not open. */
static double plain_of(const struct vh_ranges *r, const struct vh_ranges_row *row, size_t column,
                       double of_futures)
{
    const bool is_task = r->task < r->columns;

    if (!r->planned[column] || (is_task && rule_of(r, row) == VH_ROW_OF_FUTURES))
        return of_futures;
    return is_mean(r, row) ? row->cell[column].number : is_task ? of_futures : VH_UNKNOWN;
}

/* ---- numbers ---- */

/* What the members know of columns that stand side by side. */
struct known {
    double n[VH_SIDE], sum[VH_SIDE], least[VH_SIDE], most[VH_SIDE];
};

/* Columns value[0..VH_SIDE - 1] of each member, whose values lie `step` apart. Each sum is made in
 * the order of the members; a 0 added changes none. */
VH_KERNEL void look_at(const double *value, size_t step, size_t members, struct known *out)
{
    struct known k = {.n = {0.0}};

    for (int c = 0; c < VH_SIDE; c++) {
        k.least[c] = (double)INFINITY;
        k.most[c] = -(double)INFINITY;
    }
    for (size_t m = 0; m < members; m++) {
        VH_APART
        for (int c = 0; c < VH_SIDE; c++) {
            const double v = value[m * step + (size_t)c];
            const bool is_known = v == v;
            k.n[c] += vh_select(is_known, 1.0, 0.0);
            k.sum[c] += vh_select(is_known, v, 0.0);
            k.least[c] = vh_min(v, k.least[c]);
            k.most[c] = vh_max(v, k.most[c]);
        }
    }
    *out = k;
}

VH_WIDE static void look_at_wide(const double *value, size_t step, size_t members,
                                 struct known *out)
{
    look_at(value, step, members, out);
}

/* One column of them. */
struct known_column {
    const double *value;
    size_t step; /* between two members */
    double sum, least, most;
    size_t n; /* 0 if less than half of the members know one */
};

/* The members' values that are known, side by side in scratch. */
static void gather(const struct vh_ranges *r, const struct known_column *k, double *scratch)
{
    const double *value = k->value;

    if (k->n == r->members) {
        for (size_t m = 0; m < r->members; m++)
            scratch[m] = value[m * k->step];
        return;
    }
    for (size_t m = 0, n = 0; m < r->members; m++) {
        const double v = value[m * k->step];
        scratch[n] = v;
        n += v == v;
    }
}

/* Mean and range of what at least half of the members know; scratch holds one number a member and
 * one more. */
static void reduce_value(const struct vh_ranges *r, const struct known_column *k, double *scratch,
                         double out[PARTS])
{
    for (int i = 0; i < PARTS; i++)
        out[i] = VH_UNKNOWN;
    if (k->n == 0)
        return;
    if (k->least >= k->most) {
        for (int i = 0; i < PARTS; i++)
            out[i] = k->least;
        return;
    }
    gather(r, k, scratch);
    out[MEAN] = k->sum / (double)k->n;
    vh_quantiles_between(scratch, k->n, k->least, k->most, out + FIRST_RANGE);
}

static double whole_day(double day)
{
    return day < NEVER_D / 1e3 ? floor(day + 0.5) : VH_UNKNOWN;
}

static void reduce_day(const struct vh_ranges *r, const struct known_column *k, double *scratch,
                       double out[PARTS])
{
    double q[VH_QUANTILES];

    for (size_t m = 0; m < r->members; m++) {
        const double day = k->value[m * k->step];
        scratch[m] = isnan(day) ? NEVER_D : day;
    }
    vh_quantiles(scratch, r->members, q);
    for (int i = 0; i < VH_QUANTILES; i++)
        out[FIRST_RANGE + i] = whole_day(q[i]);
    out[MEAN] = out[FIRST_RANGE + VH_P50];
}

/* What the futures reach with the promised chance. */
static double promised(const struct vh_ranges *r, const struct known_column *k, double *scratch)
{
    gather(r, k, scratch);
    return vh_quantile(scratch, k->n, 1.0 - r->promise);
}

/* Members without the row have this in a column: nothing, or nothing known. */
static double absent(const struct vh_ranges *r, size_t move)
{
    return vh_result_absent_is_zero(r->id, r->moving[move]) ? 0.0 : VH_UNKNOWN;
}

/* [member * step] of a column. */
static void fill_column(const struct vh_ranges *r, const struct vh_ranges_row *row, double with,
                        size_t step, double *value)
{
    for (size_t m = 0; m < r->members; m++)
        if (row->lacks[m / VH_BITS] >> m % VH_BITS & 1)
            value[m * step] = with;
}

/* The members' numbers of a quiet column; NULL: all have the mean run's. */
static double *awake(const struct vh_ranges_row *row, size_t move)
{
    return row->late ? row->late[move] : NULL;
}

static enum vh_status fill_absent(const struct vh_ranges *r, struct vh_ranges_row *row)
{
    double *value = row->value;

    for (size_t k = 0; k < r->moves; k++) {
        const double with = absent(r, k);
        if (!vh_is_quiet(r, row, k)) {
            fill_column(r, row, with, vh_ranges_kept(r, row), value++);
            continue;
        }
        if (!awake(row, k) && isnan(with) == isnan(row->cell[r->moving[k]].number))
            continue; /* unknown like theirs, or 0 like theirs */
        if (!awake(row, k) && vh_ranges_wake(r, row, k) != VH_OK)
            return VH_NO_MEMORY;
        fill_column(r, row, with, 1, awake(row, k));
    }
    return VH_OK;
}

static void reduce_column(const struct vh_ranges *r, enum vh_column_role role,
                          const struct known_column *k, double *scratch, double *out)
{
    if (role == VH_COLUMN_VALUE)
        reduce_value(r, k, scratch, out);
    else if (role == VH_COLUMN_DAY)
        reduce_day(r, k, scratch, out);
    else if (k->n == 0)
        *out = VH_UNKNOWN;
    else
        *out = role == VH_COLUMN_PROMISE ? promised(r, k, scratch) : k->sum / (double)k->n;
}

static void look_side_by_side(const double *value, size_t step, size_t members, struct known *out)
{
    (vh_can_go_wide() ? look_at_wide : look_at)(value, step, members, out);
}

static struct known_column column_of(const struct vh_ranges *r, const struct known *known,
                                     size_t at, const double *value, size_t step)
{
    const size_t n = (size_t)known->n[at];

    return (struct known_column){.value = value,
                                 .step = step,
                                 .sum = known->sum[at],
                                 .least = known->least[at],
                                 .most = known->most[at],
                                 .n = 2 * n < r->members ? 0 : n};
}

static void reduce_quiet(const struct vh_ranges *r, const struct vh_ranges_row *row, size_t move,
                         double *scratch, double *out)
{
    const double *value = awake(row, move);
    struct known known;

    for (int i = 0; i < PARTS && !value; i++)
        out[i] = row->cell[r->moving[move]].number;
    if (!value)
        return;
    look_side_by_side(value, 1, r->members, &known);
    const struct known_column column = column_of(r, &known, 0, value, 1);
    reduce_column(r, r->role[r->moving[move]], &column, scratch, out);
}

static void reduce_row(const struct vh_ranges *r, const struct vh_ranges_row *row, double *scratch,
                       double *out)
{
    struct known known;
    size_t kept = 0;

    if (!is_shared(r, row)) { /* of the plan: too few futures have it on that day for a range */
        for (size_t i = 0; i < r->moves * PARTS; i++)
            out[i] = VH_UNKNOWN;
        return;
    }
    for (size_t k = 0; k < r->moves; k++) {
        if (vh_is_quiet(r, row, k)) {
            reduce_quiet(r, row, k, scratch, out + k * PARTS);
            continue;
        }
        const double *value = row->value + kept;
        const size_t at = kept++ % VH_SIDE;
        if (at == 0)
            look_side_by_side(value, vh_ranges_kept(r, row), r->members, &known);
        const struct known_column column = column_of(r, &known, at, value, vh_ranges_kept(r, row));
        reduce_column(r, r->role[r->moving[k]], &column, scratch, out + k * PARTS);
    }
}

/* out: [row][moved][part]; each thread has a scratch of its own. All rows are filled before any is
 * reduced: the last columns of one are looked at together with the first of the next. */
static enum vh_status reduce_all(const struct vh_ranges *r, int threads, double *out)
{
    int failed = 0;

    (void)threads;
#pragma omp parallel num_threads(threads)
    {
        double *scratch = malloc((r->members + 1) * sizeof *scratch);
        if (!scratch) {
#pragma omp atomic write
            failed = 1;
        }
#pragma omp for schedule(static)
        for (size_t i = 0; i < r->rows; i++)
            if (r->row[i].seen < r->members && stays(r, &r->row[i]) &&
                fill_absent(r, &r->row[i]) != VH_OK) {
#pragma omp atomic write
                failed = 1;
            }
#pragma omp for schedule(static)
        for (size_t i = 0; i < r->rows; i++)
            if (scratch && stays(r, &r->row[i]))
                reduce_row(r, &r->row[i], scratch, out + i * r->moves * PARTS);
        free(scratch);
    }
    return failed ? VH_NO_MEMORY : VH_OK;
}

/* ---- the order of the rows ---- */

struct placed {
    const struct vh_ranges *r;
    size_t row, after; /* the mean run's row that it stands at or behind */
};

static int by_name(const struct vh_ranges *r, const struct vh_ranges_row *a,
                   const struct vh_ranges_row *b)
{
    for (size_t c = 0; c < r->columns; c++) {
        if (r->role[c] != VH_COLUMN_KEY)
            continue;
        const double x = a->cell[c].number, y = b->cell[c].number;
        const int order = r->column[c].kind == VH_CELL_TEXT
                              ? strcmp(a->cell[c].text ? a->cell[c].text : "",
                                       b->cell[c].text ? b->cell[c].text : "")
                              : (x > y) - (x < y);
        if (order)
            return order;
    }
    return 0;
}

static int by_place(const void *left, const void *right)
{
    const struct placed *a = left, *b = right;
    const struct vh_ranges *r = a->r;
    const bool a_extra = a->row >= r->mean_rows, b_extra = b->row >= r->mean_rows;

    if (a->after != b->after)
        return a->after < b->after ? -1 : 1;
    if (a_extra != b_extra)
        return a_extra ? 1 : -1;
    const int order = a_extra ? by_name(r, &r->row[a->row], &r->row[b->row]) : 0;
    return order ? order : (a->row > b->row) - (a->row < b->row);
}

/* The last row of the mean run of the same planting (the first text of the name). */
static size_t neighbour(const struct vh_ranges *r, const struct vh_ranges_row *row)
{
    size_t c = 0;

    while (c < r->columns && !(r->role[c] == VH_COLUMN_KEY && r->column[c].kind == VH_CELL_TEXT &&
                               strcmp(r->column[c].name, "planting") == 0))
        c++;
    for (size_t i = r->mean_rows; c < r->columns && i-- > 0;) {
        const char *a = r->row[i].cell[c].text, *b = row->cell[c].text;
        if (strcmp(a ? a : "", b ? b : "") == 0)
            return i;
    }
    return r->mean_rows;
}

static struct placed *in_order(const struct vh_ranges *r)
{
    struct placed *p = malloc((r->rows + 1) * sizeof *p);

    for (size_t i = 0; p && i < r->rows; i++)
        p[i] = (struct placed){r, i, i < r->mean_rows ? i : neighbour(r, &r->row[i])};
    if (p)
        qsort(p, r->rows, sizeof *p, by_place);
    return p;
}

/* ---- the table ---- */

static enum vh_status write_row(const struct vh_ranges *r, const struct vh_ranges_row *row,
                                const double *reduced, struct vh_table *t)
{
    enum vh_status status = vh_table_add_row(t);
    size_t to = 0;

    for (size_t c = 0; c < r->columns && status == VH_OK; c++) {
        const double *part = reduced + r->moved[c] * PARTS;
        if (r->column[c].kind == VH_CELL_TEXT) {
            status = vh_table_set_text(t, to++, row->cell[c].text);
            continue;
        }
        if (!vh_column_is_moved(r->role[c])) {
            vh_table_set_number(t, to++, row->cell[c].number);
            continue;
        }
        for (int k = 0; k < PARTS; k++)
            if (has_part(r->role[c], k))
                vh_table_set_number(t, to++, k == MEAN ? plain_of(r, row, c, part[k]) : part[k]);
    }
    return status;
}

static enum vh_status write_rows(const struct vh_ranges *r, int threads, struct vh_table *t)
{
    const bool is_ranged = r->moves > 0;
    double *reduced = malloc((r->rows * r->moves * PARTS + 1) * sizeof *reduced);
    struct placed *order = in_order(r);
    enum vh_status status = VH_NO_MEMORY;

    if (reduced && order)
        status = is_ranged ? reduce_all(r, threads, reduced) : VH_OK;
    for (size_t i = 0; status == VH_OK && i < r->rows; i++) {
        const size_t row = order[i].row;
        if (is_ranged ? stays(r, &r->row[row]) : row < r->mean_rows)
            status = write_row(r, &r->row[row], reduced + row * r->moves * PARTS, t);
    }
    free(order);
    free(reduced);
    return status;
}

enum vh_status vh_ranges_finish(struct vh_ranges *r, int threads, struct vh_table **out,
                                void **columns)
{
    struct wide w;
    void *block = widen_columns(r, &w);
    struct vh_table *t = block ? vh_result_table_like(r->id, w.column, w.columns) : NULL;
    enum vh_status status = t ? write_rows(r, threads, t) : VH_NO_MEMORY;

    if (status != VH_OK) {
        vh_table_free(t);
        free(block);
        return status;
    }
    *out = t;
    *columns = block;
    return VH_OK;
}
