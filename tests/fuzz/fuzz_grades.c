/* fuzz_grades.c - any bytes as a table of size classes, or (first byte odd) of ripening in store.
 * What is read can be used: classes rise, shares are shares and sum to one, days are days. */
#include <math.h>
#include <stdint.h>
#include <stdlib.h>

#include "vh_grade.h"
#include "vh_ripen.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static void demand(int holds)
{
    if (!holds)
        abort();
}

static void look_at_grades(const struct vh_grades *g)
{
    const struct vh_grade_fruit fruit = {180.0, 0.2, 0.0007, 2.9};
    struct vh_grade_share share[VH_GRADES_MOST + 2];
    double fruits = 0.0, mass = 0.0;

    demand(g->grades > 0 && g->grades <= VH_GRADES_MOST);
    for (size_t i = 0; i < g->grades; i++) {
        const struct vh_grade *c = &g->grade[i];
        demand(c->name && c->name[0] && vh_grade_find(g, c->name) == i);
        demand(c->from >= 0.0 && c->from < c->to && (i == 0 || c[-1].from < c->from));
    }
    vh_grade_shares(g, &fruit, share);
    for (size_t i = 0; i < g->grades + 2; i++) {
        demand(share[i].fruits >= 0.0 && share[i].mass >= 0.0);
        fruits += share[i].fruits;
        mass += share[i].mass;
    }
    demand(fabs(fruits - 1.0) < 1e-9 && fabs(mass - 1.0) < 1e-9);
}

static void look_at_ripening(const struct vh_ripen_table *t)
{
    demand(t->temps > 0 && t->temps <= VH_RIPEN_TEMPS_MOST);
    for (size_t i = 0; i < t->temps; i++) {
        demand(i == 0 || t->temp_c[i - 1] < t->temp_c[i]);
        for (double stage = 0.0; stage <= 5.0; stage += 0.5) {
            const double days = vh_ripen_days_to_red(t, stage, t->temp_c[i]);
            const double after = vh_ripen_stage_after(t, stage, t->temp_c[i], days);
            demand(days >= 0.0 && isfinite(days));
            demand(after >= stage - 1e-9 && after <= 5.0 + 1e-9);
        }
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    if (size == 0)
        return 0;
    struct vh_messages *m = vh_messages_create();
    const char *text = (const char *)data + 1;
    struct vh_grades grades = {.grade = NULL};
    struct vh_ripen_table table;
    enum vh_status status;

    if (data[0] & 1) {
        status = vh_ripen_read_memory(text, size - 1, "x.csv", &table, m);
        if (status >= 0)
            look_at_ripening(&table);
    } else {
        status = vh_grades_read_memory(text, size - 1, "x.csv", &grades, m);
        if (status >= 0)
            look_at_grades(&grades);
        else
            demand(grades.grade == NULL && grades.grades == 0);
    }
    demand((status == VH_BAD_INPUT) == (vh_messages_count_of(m, VH_ERROR) > 0));
    vh_grades_clear(&grades);
    vh_messages_free(m);
    return 0;
}
