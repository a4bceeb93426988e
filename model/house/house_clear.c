#include "vh_house.h"

#include <stdlib.h>

static void clear_file_name(struct vh_file_name *f)
{
    free(f->path);
    free(f->shown);
}

static void clear_columns(struct vh_column_map *map, size_t maps)
{
    for (size_t i = 0; i < maps; i++) {
        free(map[i].ours);
        free(map[i].theirs);
    }
    free(map);
}

static void clear_request(struct vh_climate_request *c)
{
    for (size_t i = 0; i < c->logs; i++)
        clear_file_name(&c->log[i]);
    free(c->log);
    clear_file_name(&c->outside);
    clear_file_name(&c->normals);
    free(c->spell);
    clear_columns(c->log_column, c->log_columns);
    clear_columns(c->outside_column, c->outside_columns);
    free(c->time_pattern);
}

void vh_house_clear(struct vh_house *h)
{
    if (!h)
        return;
    free(h->name);
    free(h->currency);
    clear_request(&h->climate_request);
    vh_climate_clear(&h->climate);
    for (size_t i = 0; i < h->plantings; i++) {
        free(h->planting[i].name);
        free(h->planting[i].crop_name);
        free(h->planting[i].standing.fruits);
        free(h->planting[i].policy.fruits);
        free(h->planting[i].policy.heads);
        free(h->planting[i].policy.spray);
        vh_record_done_clear(&h->planting[i].done);
    }
    free(h->planting);
    for (size_t i = 0; i < h->labour.others; i++)
        free(h->labour.other[i].what);
    free(h->labour.other);
    free(h->kept_file.path);
    free(h->kept_file.shown);
    vh_records_clear(&h->records);
    vh_market_clear(&h->market);
    *h = (struct vh_house){0};
}
