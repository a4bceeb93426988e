#include "vh_pick_said.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "vh_table.h"
#include "vh_task.h"

enum { NOTE_ROOM = 400, NAME_ROOM = 32 };

/* Columns of the tasks, and of the picks in both measures, once for all rows. */
struct columns {
    size_t date, planting, task, unit, note;
    size_t pick_date, pick_planting, kg, fruits;
};

static size_t at(const struct vh_table *t, const char *name)
{
    return (size_t)vh_table_find(t, name);
}

/* Where the last pick was found: the tables go by the same days, and within a day by the same
 * plantings, so that the next one is mostly the row after. */
struct place {
    size_t first, at; /* the first row of its day, and where to look first */
};

static bool is_of(const struct vh_table *picks, const struct columns *c, size_t row, double date,
                  const char *planting)
{
    return row < vh_table_rows(picks) && vh_table_number(picks, row, c->pick_date) == date &&
           strcmp(vh_table_text(picks, row, c->pick_planting), planting) == 0;
}

/* The row of a day and planting; days are asked in order. The number of rows: none. */
static size_t pick_row(const struct vh_table *picks, const struct columns *c, double date,
                       const char *planting, struct place *from)
{
    const size_t rows = vh_table_rows(picks);

    while (from->first < rows && vh_table_number(picks, from->first, c->pick_date) < date)
        from->first++;
    if (!is_of(picks, c, from->at, date, planting)) {
        from->at = from->first;
        while (from->at < rows && vh_table_number(picks, from->at, c->pick_date) == date &&
               !is_of(picks, c, from->at, date, planting))
            from->at++;
        if (!is_of(picks, c, from->at, date, planting))
            return rows;
    }
    return from->at++;
}

/* Did she write down what was picked? Then that counts, not the model. */
static bool is_written(const struct vh_table *picks, size_t row)
{
    return !isnan(vh_cell_number(picks, row, "picked_kg")) ||
           !isnan(vh_cell_number(picks, row, "picked_fruits"));
}

/* The mean and its range, as picks.csv has them. */
static void copy_count(struct vh_table *tasks, size_t row, const struct vh_table *picks,
                       size_t pick, const char *measure)
{
    static const char *const part[] = {"", "_p10", "_p50", "_p90"};

    for (size_t k = 0; k < sizeof part / sizeof part[0]; k++) {
        char to[NAME_ROOM], from[NAME_ROOM];
        snprintf(to, sizeof to, "count%s", part[k]);
        snprintf(from, sizeof from, "%.10s%s", measure, part[k]);
        if (vh_table_find(tasks, to) >= 0 && vh_table_find(picks, from) >= 0)
            vh_table_put_number(tasks, row, at(tasks, to),
                                vh_table_number(picks, pick, at(picks, from)));
    }
}

/* "about 57 fruits": the number there gives way. */
static enum vh_status say_about(struct vh_table *tasks, size_t row, size_t note, double much)
{
    static const char about[] = "about ";
    const char *old = vh_table_text(tasks, row, note), *number = strstr(old, about);
    char said[NOTE_ROOM];

    if (!number)
        return VH_OK;
    number += strlen(about);
    snprintf(said, sizeof said, "%.*s%.0f%s", (int)(number - old), old, much,
             number + strspn(number, "0123456789"));
    return vh_table_put_text(tasks, row, note, said);
}

enum vh_status vh_pick_said(struct vh_result *r)
{
    struct vh_table *tasks = r->table[VH_TABLE_TASKS];
    const struct vh_table *picks = r->table[VH_TABLE_PICKS];
    const struct columns c = {at(tasks, "date"),     at(tasks, "planting"), at(tasks, "task"),
                              at(tasks, "unit"),     at(tasks, "note"),     at(picks, "date"),
                              at(picks, "planting"), at(picks, "kg"),       at(picks, "fruits")};
    const double today = vh_cell_number(r->table[VH_TABLE_HOUSE], 0, "today");
    struct place from = {0, 0};
    enum vh_status status = VH_OK;

    for (size_t i = 0; i < vh_table_rows(tasks) && status == VH_OK; i++) {
        if (strcmp(vh_table_text(tasks, i, c.task), vh_task_name(VH_TASK_PICK)) != 0 ||
            vh_table_number(tasks, i, c.date) < today)
            continue;
        const size_t pick = pick_row(picks, &c, vh_table_number(tasks, i, c.date),
                                     vh_table_text(tasks, i, c.planting), &from);
        if (pick == vh_table_rows(picks) || isnan(vh_table_number(picks, pick, c.kg)) ||
            isnan(vh_table_number(picks, pick, c.fruits)) || is_written(picks, pick))
            continue;
        const bool by_kg = strcmp(vh_table_text(tasks, i, c.unit), "kg") == 0;
        copy_count(tasks, i, picks, pick, by_kg ? "kg" : "fruits");
        status = say_about(tasks, i, c.note, vh_table_number(picks, pick, by_kg ? c.fruits : c.kg));
    }
    return status;
}
