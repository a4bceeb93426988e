/* What the members picked, kept by member and day. */
#include <stdlib.h>

#include "vh_date.h"
#include "vh_ensemble.h"

#define G_PER_KG 1000.0
#define DAYS_PER_WEEK 7

struct keeping {
    struct vh_ensemble *e;
    const struct vh_ensemble_request *q;
};

/* Pick days and weeks, as the season of any member has them. */
static enum vh_status lay_out(struct vh_planting_futures *f, const struct vh_season *s,
                              size_t members)
{
    const int64_t monday = vh_date_monday(s->first_day);
    const int64_t last = s->first_day + (int64_t)s->days - 1;

    for (size_t d = 0; d < s->days; d++)
        f->picks += s->day[d].pick_day;
    f->weeks = (size_t)((last - monday) / DAYS_PER_WEEK + 1);
    f->date = calloc(f->picks + 1, sizeof *f->date);
    f->monday = calloc(f->weeks, sizeof *f->monday);
    f->fruits = calloc(members * f->picks + 1, sizeof *f->fruits);
    f->kg = calloc(members * f->picks + 1, sizeof *f->kg);
    f->week_kg = calloc(members * f->weeks, sizeof *f->week_kg);
    if (!f->date || !f->monday || !f->fruits || !f->kg || !f->week_kg)
        return VH_NO_MEMORY;
    for (size_t w = 0; w < f->weeks; w++)
        f->monday[w] = monday + (int64_t)w * DAYS_PER_WEEK;
    for (size_t d = 0, pick = 0; d < s->days; d++)
        if (s->day[d].pick_day)
            f->date[pick++] = s->first_day + (int64_t)d;
    return VH_OK;
}

static enum vh_status lay_out_all(void *context, const struct vh_member_view *view)
{
    struct keeping *k = context;
    enum vh_status status = VH_OK;

    for (size_t i = 0; i < k->e->plantings && status == VH_OK; i++)
        status = lay_out(&k->e->planting[i], &view->season[i], k->e->members);
    return status;
}

static void keep_planting(struct vh_planting_futures *f, const struct vh_season *s, size_t member)
{
    double *fruits = f->fruits + member * f->picks, *kg = f->kg + member * f->picks;

    for (size_t d = 0, pick = 0; d < s->days && pick < f->picks; d++) {
        const struct vh_season_day *day = &s->day[d];
        const int64_t date = s->first_day + (int64_t)d;
        if (!day->pick_day)
            continue;
        const size_t at = member * f->weeks + (size_t)((date - f->monday[0]) / DAYS_PER_WEEK);
        fruits[pick] = day->picked.fruits * day->stems;
        kg[pick] = day->picked.fresh_g * day->stems / G_PER_KG;
        f->week_kg[at] += kg[pick];
        pick++;
    }
}

static enum vh_status keep(void *context, const struct vh_member_view *view)
{
    const struct keeping *k = context;
    struct vh_ensemble *e = k->e;

    for (size_t i = 0; i < e->plantings; i++) {
        keep_planting(&e->planting[i], &view->season[i], view->member);
        e->factors[view->member * e->plantings + i] = view->factors[i];
    }
    return k->q->seen ? k->q->seen(k->q->context, view) : VH_OK;
}

enum vh_status vh_ensemble_keep(const struct vh_ensemble_request *q, struct vh_ensemble *out,
                                struct vh_messages *m)
{
    const struct vh_house *h = &q->scenario->house;
    struct keeping k = {.e = out, .q = q};
    const struct vh_ensemble_request first = {.scenario = q->scenario,
                                              .members = 1,
                                              .threads = 1,
                                              .mean_run = true,
                                              .seen = lay_out_all,
                                              .context = &k};
    struct vh_ensemble_request all = *q;
    enum vh_status status = VH_NO_MEMORY;

    *out = (struct vh_ensemble){.members = q->members, .plantings = h->plantings};
    out->planting = calloc(h->plantings + 1, sizeof *out->planting);
    out->factors = calloc(q->members * h->plantings + 1, sizeof *out->factors);
    all.seen = keep;
    all.context = &k;
    if (out->planting && out->factors) {
        for (size_t i = 0; i < h->plantings; i++)
            out->planting[i].planting = &h->planting[i];
        status = vh_ensemble_run(&first, m);
    }
    if (status == VH_OK)
        status = vh_ensemble_run(&all, m);
    if (status != VH_OK)
        vh_ensemble_clear(out);
    return status;
}

void vh_ensemble_clear(struct vh_ensemble *e)
{
    for (size_t i = 0; e->planting && i < e->plantings; i++) {
        struct vh_planting_futures *f = &e->planting[i];
        free(f->date);
        free(f->monday);
        free(f->fruits);
        free(f->kg);
        free(f->week_kg);
    }
    free(e->planting);
    free(e->factors);
    *e = (struct vh_ensemble){0};
}
