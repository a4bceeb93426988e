/* climate_bench.h - a house, a folder and its logs, for tests of the hourly climate: synthetic
 * files whose right answer is known by construction. */
#ifndef CLIMATE_BENCH_H
#define CLIMATE_BENCH_H

#include <criterion/criterion.h>
#include <criterion/new/assert.h>

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "climate_parts.h"
#include "may_house.h"
#include "vh_climate.h"

struct bench {
    char folder[32], path[4][128], shown[4][32];
    int files;
    struct vh_file_name name[4];
    struct vh_climate_request request;
    struct vh_house_params params;
    struct vh_climate climate;
    struct vh_messages *messages;
};

static inline int64_t day_of(const char *text)
{
    int64_t day;

    cr_assert(eq(int, vh_date_parse(text, &day), VH_OK));
    return day;
}

static inline struct bench *bench_make(void)
{
    struct bench *b = calloc(1, sizeof *b);

    cr_assert(ne(ptr, b, NULL));
    strcpy(b->folder, "/tmp/t_climate-XXXXXX");
    cr_assert(ne(ptr, mkdtemp(b->folder), NULL));
    b->params = may_params;
    b->messages = vh_messages_create();
    b->request = may_request();
    return b;
}

static inline void bench_free(struct bench *b)
{
    vh_climate_clear(&b->climate);
    vh_messages_free(b->messages);
    for (int i = 0; i < b->files; i++)
        unlink(b->path[i]);
    rmdir(b->folder);
    free(b);
}

static inline FILE *new_file(struct bench *b)
{
    const int i = b->files++;

    char path[128];

    snprintf(b->shown[i], sizeof b->shown[i], "file%d.csv", i);
    snprintf(path, sizeof path, "%s/file%d.csv", b->folder, i);
    strcpy(b->path[i], path);
    b->name[i] = (struct vh_file_name){b->path[i], b->shown[i]};
    FILE *f = fopen(b->path[i], "w");
    cr_assert(ne(ptr, f, NULL));
    return f;
}

/* The files made so far are the logs. */
static inline void logs(struct bench *b)
{
    b->request.log = b->name;
    b->request.logs = (size_t)b->files;
}

/* f is written, and the last of them. */
static inline void logs_end(struct bench *b, FILE *f)
{
    fclose(f);
    logs(b);
}

static inline enum vh_status run(struct bench *b)
{
    return vh_climate_read(&b->request, &b->params, NULL, &b->climate, b->messages);
}

static inline void must_run(struct bench *b)
{
    const enum vh_status status = run(b);

    for (size_t i = 0; status != VH_OK && i < vh_messages_count(b->messages); i++)
        cr_log_error("%s", vh_messages_at(b->messages, i)->text);
    cr_assert(eq(int, status, VH_OK));
}

/* How many messages hold a text. */
static inline int said(const struct bench *b, const char *text)
{
    int n = 0;

    for (size_t i = 0; i < vh_messages_count(b->messages); i++)
        n += strstr(vh_messages_at(b->messages, i)->text, text) != NULL;
    return n;
}

/* A number of the log's report; NaN: no such row. */
static inline double counted(const struct bench *b, const char *what, const char *column)
{
    const struct vh_table *t = b->climate.log_report;

    for (size_t i = 0; i < vh_table_rows(t); i++) {
        if (strcmp(vh_table_text(t, i, (size_t)vh_table_find(t, "what")), what) == 0)
            return vh_table_number(t, i, (size_t)vh_table_find(t, column));
    }
    return NAN;
}

static inline void stamp(FILE *f, int64_t minute)
{
    char date[11];

    vh_date_format(minute / 1440, date);
    fprintf(f, "%sT%02d:%02d", date, (int)(minute % 1440) / 60, (int)(minute % 60));
}

/* Rows every `step` minutes from..until (days), value(minute) as t_air_c. */
static inline void rows(FILE *f, const char *from, const char *until, int step,
                        double (*value)(int64_t))
{
    for (int64_t m = day_of(from) * 1440; m < (day_of(until) + 1) * 1440; m += step) {
        stamp(f, m);
        fprintf(f, ",%.10g\n", value(m));
    }
}

static inline double twenty(int64_t minute)
{
    (void)minute;
    return 20.0;
}

/* 15 at midnight, rising by 0.5 an hour */
static inline double ramp(int64_t minute)
{
    return 15.0 + 0.5 * (double)(minute % 1440) / 60.0;
}

static inline void write_log(struct bench *b, const char *text)
{
    FILE *f = new_file(b);

    fputs(text, f);
    fclose(f);
}

#endif
