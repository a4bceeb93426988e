#include "vh_known.h"

#include <stdlib.h>
#include <string.h>

#include "vh_digest.h"
#include "vh_weather.h"

static int64_t earlier(int64_t a, int64_t b)
{
    return a < b ? a : b;
}

static bool takes_plantings(const struct vh_house *from, int64_t until, struct vh_house *h)
{
    h->planting = calloc(h->plantings + 1, sizeof *h->planting);
    h->last_day = until;
    for (size_t i = 0; h->planting && i < h->plantings; i++) {
        struct vh_planting *p = &h->planting[i];
        *p = from->planting[i];
        p->done = (struct vh_done){0};
        p->policy.done = p->policy.done ? &p->done : NULL;
        /* one not set out by then is run for a day: there is nothing to forecast of it */
        p->pull_out = earlier(p->pull_out, until > p->set_out ? until : p->set_out + 1);
        h->last_day = h->last_day > p->pull_out ? h->last_day : p->pull_out;
    }
    h->last_day = earlier(h->last_day, from->last_day);
    return h->planting != NULL;
}

/* The columns' names stay with the original; that they were found is ours to mark. */
static bool takes_record_file(const struct vh_records *from, struct vh_records *r)
{
    *r = (struct vh_records){.given = from->given,
                             .file = from->file,
                             .place = from->place,
                             .maps = from->maps,
                             .last_day = INT64_MIN};
    r->map = calloc(from->maps + 1, sizeof *r->map);
    if (r->map && from->maps > 0)
        memcpy(r->map, from->map, from->maps * sizeof *r->map);
    return r->map != NULL;
}

static enum vh_status fit_weather(struct vh_scenario *s)
{
    struct vh_futures *f = &s->house.futures;
    const struct vh_futures_params *p = &s->parameters->futures;
    struct vh_weather_spread spread = {p->temperature_sd_c, p->persistence, p->clearness_sd};

    if (f->weather_given)
        return VH_OK;
    const enum vh_status status = vh_weather_fit(&s->house.climate, p->fit_days, &spread);
    f->temperature_sd_c = spread.temperature_sd_c;
    f->persistence = spread.persistence;
    f->clearness_sd = spread.clearness_sd;
    return status;
}

static enum vh_status read_anew(struct vh_scenario *s, bool has_records, struct vh_messages *m)
{
    struct vh_house *h = &s->house;
    struct vh_climate_request request = h->climate_request;
    struct vh_digest digest;

    vh_digest_init(&digest);
    request.today = h->today;
    request.last_day = h->last_day;
    request.unforeseen = true;
    enum vh_status status = vh_climate_read(&request, &s->house_params, &digest, &h->climate, m);
    if (status >= 0 && has_records)
        status = vh_records_read(h, &s->parameters->record, &digest, m);
    return status >= 0 ? fit_weather(s) : status;
}

/* The first error that was told, as one of ours: warnings of each week would be the same ones. */
static enum vh_status tell(enum vh_status status, const struct vh_messages *from,
                           struct vh_messages *m)
{
    for (size_t i = 0; i < vh_messages_count(from); i++) {
        const struct vh_message *a = vh_messages_at(from, i);
        if (a->severity == VH_ERROR)
            return vh_fail(m, status, (struct vh_place){a->file, a->line, a->column, a->excerpt},
                           "%s", a->text);
    }
    return status;
}

enum vh_status vh_known_on(const struct vh_scenario *s, int64_t day, int64_t until,
                           struct vh_known *out, struct vh_messages *m)
{
    struct vh_house *h = &out->scenario.house;
    struct vh_messages *own = vh_messages_create();
    enum vh_status status = VH_NO_MEMORY;

    out->scenario = *s;
    out->scenario.posterior = NULL; /* learnt from all records */
    out->scenario.learned = NULL;
    h->climate = (struct vh_climate){.last_logged_day = INT64_MIN};
    h->today = out->scenario.options.today = day;
    const bool has_plantings = takes_plantings(&s->house, until, h);
    const bool has_file = takes_record_file(&s->house.records, &h->records);
    if (has_plantings && has_file && own)
        status = read_anew(&out->scenario, s->house.records.read, own);
    if (status < 0)
        status = tell(status, own, m);
    vh_messages_free(own);
    return status < 0 ? status : VH_OK;
}

void vh_known_clear(struct vh_known *k)
{
    struct vh_house *h = &k->scenario.house;

    for (size_t i = 0; h->planting && i < h->plantings; i++)
        vh_record_done_clear(&h->planting[i].done);
    free(h->planting);
    free(h->records.map);
    free(h->records.row);
    vh_table_free(h->records.report);
    vh_climate_clear(&h->climate);
    *k = (struct vh_known){0};
}
