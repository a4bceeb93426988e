/* record_trial.h - a house of two plantings and its records, read from text; record_begin and
 * record_end are the .init and .fini of a suite. */
#ifndef RECORD_TRIAL_H
#define RECORD_TRIAL_H

#include <criterion/criterion.h>
#include <criterion/new/assert.h>

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "record_parts.h"
#include "vh_house.h"
#include "vh_parameters.h"

#define HEADER "date,planting,item,value,truss,of,note\n"

static struct vh_parameters *params;
static struct vh_messages *messages;
static struct vh_house house;

static inline int64_t day(const char *text)
{
    int64_t d;

    cr_assert(eq(int, vh_date_parse(text, &d), VH_OK));
    return d;
}

static inline void record_begin(void)
{
    messages = vh_messages_create();
    cr_assert(eq(int, vh_parameters_read(VINEHAND_PARAMS, &params, messages), VH_OK));
    house = (struct vh_house){.today = day("2026-07-14"), .plantings = 2};
    house.planting = calloc(2, sizeof *house.planting);
    house.records.file.shown = strdup("records.csv");
    const char *name[] = {"slicers", "cucumbers"};
    for (size_t i = 0; i < 2; i++) {
        house.planting[i].name = strdup(name[i]);
        house.planting[i].plants = 48;
        house.planting[i].set_out = day("2026-02-20");
        house.planting[i].pull_out = day("2026-11-10");
    }
}

static inline void record_end(void)
{
    vh_house_clear(&house);
    vh_parameters_free(params);
    vh_messages_free(messages);
}

static inline enum vh_status read_text(const char *text)
{
    return vh_records_read_memory(&house, &params->record, text, strlen(text), messages);
}

static inline void map(const char *ours, const char *theirs)
{
    struct vh_records *r = &house.records;

    r->map = realloc(r->map, (r->maps + 1) * sizeof *r->map);
    r->map[r->maps++] = (struct vh_column_map){.ours = strdup(ours), .theirs = strdup(theirs)};
}

static inline bool is_told(enum vh_severity severity, int64_t line, const char *part)
{
    for (size_t i = 0; i < vh_messages_count(messages); i++) {
        const struct vh_message *m = vh_messages_at(messages, i);
        if (m->severity == severity && (line == 0 || m->line == line) && strstr(m->text, part))
            return true;
    }
    return false;
}

static const struct vh_record *at(size_t i)
{
    cr_assert(lt(sz, i, house.records.rows));
    return &house.records.row[i];
}

#endif
