#include "climate_parts.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "vh_climate_columns.h"
#include "vh_math.h"

#define MONTHS 12
#define SWEEPS 200      /* each takes the error down to at most a third */
#define WARMEST_NORTH 7 /* July; the coldest month is half a year off */
#define WARMEST_SOUTH 1

static const struct {
    const char *name;
    double low, high; /* what weather can be */
    const char *meaning;
} quantities[VH_NORMAL_COUNT] = {
    [VH_NORMAL_TMIN] = {"tmin_c", -60, 60,
                        "lowest temperature of a day outside, mean of the month"},
    [VH_NORMAL_TMAX] = {"tmax_c", -60, 60,
                        "highest temperature of a day outside, mean of the month"},
    [VH_NORMAL_RADIATION] = {"radiation_mj_m2_d", 0, 50,
                             "solar radiation of a day outside, mean of the month"},
    [VH_NORMAL_SUNSHINE] = {"sunshine_h", 0, 24,
                            "hours of sunshine of a day, mean of the month; may stand for "
                            "radiation_mj_m2_d"},
};

static int month_length(int year, int month)
{
    const struct vh_civil first = {year, month, 1};
    const struct vh_civil next =
        month < MONTHS ? (struct vh_civil){year, month + 1, 1} : (struct vh_civil){year + 1, 1, 1};

    return (int)(vh_day_from_civil(next) - vh_day_from_civil(first));
}

/* Weights of the month before, this and after for a day that lies at `part` (0..1) of its month. */
static void weights(double part, double weight[3])
{
    weight[0] = vh_max(0.5 - part, 0.0);
    weight[2] = vh_max(part - 0.5, 0.0);
    weight[1] = 1.0 - weight[0] - weight[2];
}

void vh_normals_none(struct vh_normals *n)
{
    n->given = false;
    for (int q = 0; q < VH_NORMAL_COUNT; q++) {
        for (int i = 0; i < MONTHS; i++)
            n->mid[q][i] = (double)NAN;
    }
}

void vh_normals_set(struct vh_normals *n, enum vh_normal q, const double mean[12])
{
    const int common_year = 2001;
    double weight[MONTHS][3] = {{0.0}};
    double *mid = n->mid[q];

    for (int i = 0; i < MONTHS; i++) {
        const int length = month_length(common_year, i + 1);
        for (int d = 0; d < length; d++) {
            double of_day[3];
            weights((d + 0.5) / length, of_day);
            for (int k = 0; k < 3; k++)
                weight[i][k] += of_day[k] / length;
        }
        mid[i] = mean[i];
    }
    for (int sweep = 0; sweep < SWEEPS; sweep++) {
        for (int i = 0; i < MONTHS; i++)
            mid[i] = (mean[i] - weight[i][0] * mid[(i + MONTHS - 1) % MONTHS] -
                      weight[i][2] * mid[(i + 1) % MONTHS]) /
                     weight[i][1];
    }
    n->given = true;
}

double vh_normals_day(const struct vh_normals *n, enum vh_normal q, int64_t day)
{
    const struct vh_civil c = vh_civil_from_day(day);
    const int i = c.month - 1;
    const double *mid = n->mid[q];
    double weight[3];

    weights((c.day - 0.5) / month_length(c.year, c.month), weight);
    const double value = weight[0] * mid[(i + MONTHS - 1) % MONTHS] + weight[1] * mid[i] +
                         weight[2] * mid[(i + 1) % MONTHS];
    const bool is_temperature = q == VH_NORMAL_TMIN || q == VH_NORMAL_TMAX;
    return is_temperature || isnan(value) ? value : vh_max(value, 0.0);
}

void vh_normals_roughly(const struct vh_climate_request *request, struct vh_normals *n)
{
    const int warmest = request->latitude_deg < 0.0 ? WARMEST_SOUTH : WARMEST_NORTH;
    double low[MONTHS], high[MONTHS];

    vh_normals_none(n);
    if (!request->has_roughly)
        return;
    for (int i = 0; i < MONTHS; i++) {
        const double wave = vh_cos(2.0 * VH_PI * (i + 1 - warmest) / MONTHS);
        low[i] = (request->warmest_low_c + request->coldest_low_c) / 2.0 +
                 (request->warmest_low_c - request->coldest_low_c) / 2.0 * wave;
        high[i] = (request->warmest_high_c + request->coldest_high_c) / 2.0 +
                  (request->warmest_high_c - request->coldest_high_c) / 2.0 * wave;
    }
    vh_normals_set(n, VH_NORMAL_TMIN, low);
    vh_normals_set(n, VH_NORMAL_TMAX, high);
}

/* ---- the file ---- */

enum { NAME_ROOM = 40 }; /* longer than any quantity in any unit */

struct normals_reading {
    const struct vh_climate_request *request;
    struct vh_messages *messages;
    bool has_month, has[VH_NORMAL_COUNT];
    size_t month_cell, cell[VH_NORMAL_COUNT];
    char name[VH_NORMAL_COUNT][NAME_ROOM]; /* of the header: in which unit she has them */
    struct vh_unit_pair unit[VH_NORMAL_COUNT];
    bool month_read[MONTHS];
    double mean[VH_NORMAL_COUNT][MONTHS];
};

static enum vh_status take_header(struct normals_reading *r, const struct vh_csv_row *row)
{
    const struct vh_place place = {row->file, row->line, 0, NULL};

    for (size_t i = 0; i < row->cells; i++) {
        const char *name = row->cell[i].text;
        struct vh_unit_pair unit;
        if (name && strcmp(name, "month") == 0) {
            r->has_month = true;
            r->month_cell = i;
        }
        for (int q = 0; name && q < VH_NORMAL_COUNT; q++) {
            if (!vh_units_match(quantities[q].name, name, false, &unit))
                continue;
            if (r->has[q])
                return vh_fail(r->messages, VH_BAD_INPUT, place,
                               "`%s` is given by two columns; keep one of them",
                               quantities[q].name);
            r->has[q] = true;
            r->cell[q] = i;
            r->unit[q] = unit;
            snprintf(r->name[q], NAME_ROOM, "%s", name);
        }
    }
    if (!r->has_month || !r->has[VH_NORMAL_TMIN] || !r->has[VH_NORMAL_TMAX])
        return vh_fail(r->messages, VH_BAD_INPUT, place,
                       "columns are missing; monthly normals need month, tmin_c, tmax_c, and better"
                       " radiation_mj_m2_d or sunshine_h");
    return VH_OK;
}

static bool number(const struct normals_reading *r, struct vh_csv_cell cell, double *value)
{
    if (!cell.text || cell.length == 0)
        return false;
    return vh_csv_number(cell, '.', value) ||
           (r->request->decimal == ',' && vh_csv_number(cell, ',', value));
}

/* What would be right for a cell that is no number, as far as it can be guessed. */
static enum vh_status tell_cell(const struct normals_reading *r, struct vh_place place,
                                const char *name, struct vh_csv_cell cell)
{
    double value;

    if (!cell.text || cell.length == 0)
        return vh_fail(r->messages, VH_BAD_INPUT, place,
                       "`%s` is no number; normals need a value in every month", name);
    if (!vh_csv_number(cell, ',', &value))
        return vh_fail(r->messages, VH_BAD_INPUT, place,
                       "`%s` is no number, \"%.40s\"; write digits alone, as in 12.5", name,
                       cell.text);

    const int whole = (int)strcspn(cell.text, ",");
    return vh_fail(r->messages, VH_BAD_INPUT, place,
                   "`%s` is no number, \"%.40s\"; write %.*s.%.40s", name, cell.text, whole,
                   cell.text, cell.text + whole + 1);
}

static enum vh_status take_month(struct normals_reading *r, const struct vh_csv_row *row, int month)
{
    const struct vh_place place = {row->file, row->line, 0, NULL};

    for (int q = 0; q < VH_NORMAL_COUNT; q++) {
        double value;
        if (!r->has[q])
            continue;
        if (!number(r, row->cell[r->cell[q]], &value))
            return tell_cell(r, place, r->name[q], row->cell[r->cell[q]]);
        const struct vh_unit_pair unit = r->unit[q];
        const double ours = value * unit.scale + unit.shift;
        if (!(ours >= quantities[q].low && ours <= quantities[q].high))
            return vh_fail(r->messages, VH_BAD_INPUT, place,
                           "`%s` = %g cannot be; it lies between %.4g and %.4g", r->name[q], value,
                           (quantities[q].low - unit.shift) / unit.scale,
                           (quantities[q].high - unit.shift) / unit.scale);
        r->mean[q][month - 1] = ours;
    }
    if (r->mean[VH_NORMAL_TMAX][month - 1] < r->mean[VH_NORMAL_TMIN][month - 1])
        return vh_fail(r->messages, VH_BAD_INPUT, place,
                       "tmax_c is below tmin_c; are the columns the wrong way round?");
    r->month_read[month - 1] = true;
    return VH_OK;
}

static enum vh_status take_row(void *context, const struct vh_csv_row *row, bool is_header)
{
    struct normals_reading *r = context;
    const struct vh_place place = {row->file, row->line, 0, NULL};
    double month;

    if (is_header)
        return take_header(r, row);
    if (!number(r, row->cell[r->month_cell], &month) || !(month >= 1.0 && month <= MONTHS) ||
        month != (int)month)
        return vh_fail(r->messages, VH_BAD_INPUT, place, "month `%s` is none; write 1 to 12",
                       row->cell[r->month_cell].text ? row->cell[r->month_cell].text : "");
    if (r->month_read[(int)month - 1])
        return vh_fail(r->messages, VH_BAD_INPUT, place,
                       "month %d stands here twice; give each of the twelve once", (int)month);
    return take_month(r, row, (int)month);
}

enum vh_status vh_normals_read(const struct vh_climate_request *request, struct vh_digest *digest,
                               struct vh_normals *n, struct vh_messages *m)
{
    struct normals_reading r = {.request = request, .messages = m};

    vh_normals_none(n);
    if (!request->normals.path)
        return VH_OK;
    const enum vh_status status =
        vh_csv_read(request->normals.path, request->normals.shown, (struct vh_csv_format){0, 0},
                    digest, take_row, &r, m);
    if (status != VH_OK)
        return status;
    for (int i = 0; i < MONTHS; i++) {
        if (!r.month_read[i])
            return vh_fail(m, VH_BAD_INPUT, (struct vh_place){request->normals.shown, 0, 0, NULL},
                           "month %d is missing; normals need all twelve", i + 1);
    }
    for (int q = 0; q < VH_NORMAL_COUNT; q++) {
        if (r.has[q])
            vh_normals_set(n, (enum vh_normal)q, r.mean[q]);
    }
    return VH_OK;
}

enum vh_status vh_normals_columns(vh_brought_take take, void *context)
{
    enum vh_status status =
        take(context, &(struct vh_brought_column){"normals", "month", 1, MONTHS,
                                                  "month of the year; each of the twelve once"});

    for (int q = 0; q < VH_NORMAL_COUNT && status == VH_OK; q++)
        status = take(context,
                      &(struct vh_brought_column){"normals", quantities[q].name, quantities[q].low,
                                                  quantities[q].high, quantities[q].meaning});
    return status;
}
