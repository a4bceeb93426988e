#include "vh_ripen.h"

#include <string.h>

#include "vh_csv.h"

enum { STAGE, TEMP, DAYS, NEEDED, COLUMNS = 7 };
static const char *const columns[COLUMNS] = {"stage",  "temp_c", "days", "basis",
                                             "source", "place",  "note"};
static const char *const stages[] = {"mature-green", "breaker", "turning", "pink"};
enum { GIVEN = sizeof stages / sizeof stages[0] };

struct reading {
    struct vh_ripen_table *table;
    struct vh_messages *m;
    size_t stage, temp; /* the row to come */
};

static const char *text_of(const struct vh_csv_row *row, int column)
{
    return row->cell[column].text ? row->cell[column].text : "";
}

static enum vh_status take_header(const struct reading *r, const struct vh_csv_row *row)
{
    bool good = row->cells == NEEDED || row->cells == COLUMNS;

    for (size_t i = 0; good && i < row->cells; i++)
        good = strcmp(text_of(row, (int)i), columns[i]) == 0;
    if (good)
        return VH_OK;
    return vh_fail(r->m, VH_BAD_INPUT, (struct vh_place){row->file, row->line, 0, NULL},
                   "the columns of ripening off the vine are stage,temp_c,days, and if you like"
                   " basis,source,place,note behind them");
}

/* The first stage's rows say the temperatures, the others follow them. */
static enum vh_status take_temp(struct reading *r, double temp_c, struct vh_place where)
{
    struct vh_ripen_table *t = r->table;

    if (r->stage > 0) {
        if (temp_c == t->temp_c[r->temp])
            return VH_OK;
        return vh_fail(r->m, VH_BAD_INPUT, where, "%s at %g degC; %g would be next",
                       stages[r->stage], temp_c, t->temp_c[r->temp]);
    }
    if (r->temp == VH_RIPEN_TEMPS_MOST)
        return vh_fail(r->m, VH_BAD_INPUT, where, "more than %d temperatures; take some out",
                       VH_RIPEN_TEMPS_MOST);
    if (r->temp > 0 && !(temp_c > t->temp_c[r->temp - 1]))
        return vh_fail(r->m, VH_BAD_INPUT, where, "%g degC after %g; let temperatures rise", temp_c,
                       t->temp_c[r->temp - 1]);
    t->temp_c[r->temp] = temp_c;
    t->temps = r->temp + 1;
    return VH_OK;
}

static enum vh_status take(void *context, const struct vh_csv_row *row, bool is_header)
{
    struct reading *r = context;
    const struct vh_place where = {row->file, row->line, 0, NULL};
    double temp_c, days;

    if (is_header)
        return take_header(r, row);
    if (r->stage == 0 && r->temp > 0 && strcmp(text_of(row, STAGE), stages[1]) == 0) {
        r->stage = 1;
        r->temp = 0;
    }
    if (r->stage == GIVEN || strcmp(text_of(row, STAGE), stages[r->stage]) != 0)
        return vh_fail(r->m, VH_BAD_INPUT, where,
                       "stage `%.40s`; mature-green, breaker, turning, pink in this order, each at"
                       " all temperatures, would be right",
                       text_of(row, STAGE));
    if (!vh_csv_number(row->cell[TEMP], '.', &temp_c) ||
        !vh_csv_number(row->cell[DAYS], '.', &days) || !(days > 0.0))
        return vh_fail(
            r->m, VH_BAD_INPUT, where,
            "temp_c or days is no number; a temperature and days above 0 would be right");
    const enum vh_status status = take_temp(r, temp_c, where);
    if (status != VH_OK)
        return status;
    if (r->stage > 0 && !(days < r->table->days[r->stage - 1][r->temp]))
        return vh_fail(r->m, VH_BAD_INPUT, where,
                       "%s takes %g days, %s no longer; a later stage is red sooner",
                       stages[r->stage], days, stages[r->stage - 1]);
    r->table->days[r->stage][r->temp++] = days;
    if (r->stage > 0 && r->temp == r->table->temps) {
        r->stage++;
        r->temp = 0;
    }
    return VH_OK;
}

static enum vh_status end(const struct reading *r, enum vh_status status, const char *shown_name)
{
    struct vh_ripen_table *t = r->table;

    if (status == VH_OK && (r->stage != GIVEN || t->temps < 2))
        status = vh_fail(r->m, VH_BAD_INPUT, (struct vh_place){shown_name, 0, 0, NULL},
                         "rows are missing; mature-green, breaker, turning and pink at two"
                         " temperatures or more would be right");
    for (size_t i = 0; i < t->temps; i++) {
        t->days[VH_RIPEN_LIGHT_RED][i] = 0.5 * t->days[VH_RIPEN_PINK][i];
        t->days[VH_RIPEN_RED][i] = 0.0;
    }
    return status;
}

enum vh_status vh_ripen_read(const char *path, const char *shown_name, struct vh_digest *digest,
                             struct vh_ripen_table *out, struct vh_messages *m)
{
    struct reading r = {out, m, 0, 0};
    const struct vh_csv_format format = {',', '.'};

    *out = (struct vh_ripen_table){0};
    return end(&r, vh_csv_read(path, shown_name, format, digest, take, &r, m), shown_name);
}

enum vh_status vh_ripen_read_memory(const char *text, size_t n, const char *shown_name,
                                    struct vh_ripen_table *out, struct vh_messages *m)
{
    struct reading r = {out, m, 0, 0};
    const struct vh_csv_format format = {',', '.'};

    *out = (struct vh_ripen_table){0};
    return end(&r, vh_csv_read_memory(text, n, shown_name, format, take, &r, m), shown_name);
}
