/* report_trial.h - a page drawn from tables made by hand, for tests of the parts of the report.
 * Every number is invented. */
#ifndef REPORT_TRIAL_H
#define REPORT_TRIAL_H

#include <criterion/criterion.h>
#include <criterion/new/assert.h>
#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "vh_report.h"
#include "vh_table.h"

enum { TABLES_MOST = 5 };

static const struct vh_column summary[] = {
    {"planting", VH_CELL_TEXT, "", ""},
    {"crop", VH_CELL_TEXT, "", ""},
    {"unit_word", VH_CELL_TEXT, "", ""},
};

static const struct vh_column market_days[] = {
    {"date", VH_CELL_DATE, "", ""},
    {"planting", VH_CELL_TEXT, "", ""},
    {"grade", VH_CELL_TEXT, "", ""},
    {"kg_p10", VH_CELL_NUMBER, "kg", ""},
    {"kg_p50", VH_CELL_NUMBER, "kg", ""},
    {"kg_p90", VH_CELL_NUMBER, "kg", ""},
    {"promise_kg", VH_CELL_NUMBER, "kg", ""},
    {"orders_kg", VH_CELL_NUMBER, "kg", ""},
    {"orders_fruits", VH_CELL_NUMBER, "", ""},
    {"fruits_p50", VH_CELL_NUMBER, "1", ""},
    {"promise_fruits", VH_CELL_NUMBER, "1", ""},
};

struct made {
    struct vh_table *table[TABLES_MOST];
    const struct vh_table *view[TABLES_MOST];
    struct vh_page_facts facts;
    struct vh_draft out;
    struct vh_page page;
};

#define TABLE(name, columns)                                                                       \
    vh_table_create(name, "", true, columns, sizeof columns / sizeof *columns)

static inline int64_t day(const char *iso)
{
    int64_t d = 0;

    cr_assert(vh_date_parse(iso, &d) == VH_OK);
    return d;
}

static inline void row(struct vh_table *t)
{
    cr_assert(vh_table_add_row(t) == VH_OK);
}

static inline void text(struct vh_table *t, const char *column, const char *value)
{
    cr_assert(vh_table_set_text(t, (size_t)vh_table_find(t, column), value) == VH_OK);
}

static inline void number(struct vh_table *t, const char *column, double value)
{
    vh_table_set_number(t, (size_t)vh_table_find(t, column), value);
}

static inline void plantings(struct vh_table *t)
{
    static const char *const line[][3] = {{"slicers", "tomato-large", "kg"},
                                          {"late slicers", "tomato-large", "kg"},
                                          {"cucumbers", "cucumber-long", "fruits"}};

    for (size_t i = 0; i < 3; i++) {
        row(t);
        text(t, "planting", line[i][0]);
        text(t, "crop", line[i][1]);
        text(t, "unit_word", line[i][2]);
    }
}

/* A page of today, Tuesday 14 July 2026, with the plantings and one table more. */
static inline void make(struct made *m, struct vh_table *more, enum vh_say_units units)
{
    memset(m, 0, sizeof *m);
    m->table[0] = TABLE("summary", summary);
    plantings(m->table[0]);
    m->table[1] = more;
    m->view[0] = m->table[0];
    m->view[1] = more;
    m->facts = (struct vh_page_facts){.more = m->view,
                                      .more_tables = 2,
                                      .name = "house",
                                      .today = day("2026-07-14"),
                                      .units = units};
    m->page = vh_page_of(&m->out, &m->facts);
}

/* One table more for a page that was made. */
static inline struct vh_table *add(struct made *m, struct vh_table *t)
{
    const size_t at = m->facts.more_tables++;

    cr_assert(at < TABLES_MOST);
    m->view[at] = m->table[at] = t;
    return t;
}

/* Where the words stand; SIZE_MAX: nowhere. */
static inline size_t place_of(const struct made *m, const char *words)
{
    const size_t n = strlen(words);

    for (size_t i = 0; i + n <= m->out.n; i++)
        if (!memcmp(m->out.bytes + i, words, n))
            return i;
    return SIZE_MAX;
}

static inline bool says(const struct made *m, const char *words)
{
    return place_of(m, words) != SIZE_MAX;
}

static inline void clear(struct made *m)
{
    vh_draft_clear(&m->out);
    for (size_t i = 0; i < TABLES_MOST; i++)
        vh_table_free(m->table[i]);
}

static inline struct vh_table *market_row(struct vh_table *t, const char *date,
                                          const char *planting, double likely, double safe)
{
    row(t);
    number(t, "date", (double)day(date));
    text(t, "planting", planting);
    text(t, "grade", "all");
    number(t, "kg_p10", likely - 8.0);
    number(t, "kg_p50", likely);
    number(t, "kg_p90", likely + 8.0);
    number(t, "promise_kg", safe);
    number(t, "orders_kg", (double)NAN);
    number(t, "fruits_p50", 2.0 * likely);
    number(t, "promise_fruits", 2.0 * safe);
    return t;
}

#endif
