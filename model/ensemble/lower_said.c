#include "vh_lower_said.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "vh_table.h"
#include "vh_task.h"

enum { NOTE_ROOM = 400 };

static int row_of(const struct vh_table *lowering, double date, const char *planting)
{
    const size_t on = (size_t)vh_table_find(lowering, "date"),
                 whose = (size_t)vh_table_find(lowering, "planting");

    for (size_t i = 0; i < vh_table_rows(lowering); i++)
        if (vh_table_number(lowering, i, on) == date &&
            strcmp(vh_table_text(lowering, i, whose), planting) == 0)
            return (int)i;
    return -1;
}

/* Where the words behind "32 cm, 1 1/2 turns" begin; NULL: it does not begin so. */
static const char *behind_turns(const char *note)
{
    const char *turn = strstr(note, " turn");

    if (!turn)
        return NULL;
    turn += strlen(" turn");
    return *turn == 's' ? turn + 1 : turn;
}

enum vh_status vh_lower_said(struct vh_result *r)
{
    struct vh_table *tasks = r->table[VH_TABLE_TASKS];
    const struct vh_table *lowering = r->table[VH_TABLE_LOWERING];
    const size_t task = (size_t)vh_table_find(tasks, "task"),
                 note = (size_t)vh_table_find(tasks, "note"),
                 date = (size_t)vh_table_find(tasks, "date"),
                 whose = (size_t)vh_table_find(tasks, "planting"),
                 cm = (size_t)vh_table_find(lowering, "lower_cm"),
                 turns = (size_t)vh_table_find(lowering, "turns");
    enum vh_status status = VH_OK;

    for (size_t i = 0; i < vh_table_rows(tasks) && status == VH_OK; i++) {
        char said[NOTE_ROOM];
        if (strcmp(vh_table_text(tasks, i, task), vh_task_name(VH_TASK_LOWER)) != 0)
            continue;
        const int row =
            row_of(lowering, vh_table_number(tasks, i, date), vh_table_text(tasks, i, whose));
        const char *rest = behind_turns(vh_table_text(tasks, i, note));
        if (row < 0 || !rest || isnan(vh_table_number(lowering, (size_t)row, cm)))
            continue;
        const double t = vh_table_number(lowering, (size_t)row, turns), more_than_one = 1.25;
        char halves[VH_HALVES_ROOM];
        vh_halves_text(t, halves);
        snprintf(said, sizeof said, "%.0f cm, %s turn%s%s",
                 vh_table_number(lowering, (size_t)row, cm), halves, t >= more_than_one ? "s" : "",
                 rest);
        status = vh_table_put_text(tasks, i, note, said);
    }
    return status;
}
