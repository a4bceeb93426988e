#include "climate_parts.h"

#include <assert.h>
#include <math.h>
#include <stdlib.h>

#define SEASON_DAYS_MAX 4000 /* ten years and more: not a season, but a slip of a date */

enum vh_status vh_climate_work_init(struct vh_climate_work *w,
                                    const struct vh_climate_request *request,
                                    const struct vh_house_params *params, struct vh_messages *m)
{
    const int64_t days = request->last_day - request->first_day + 1;

    *w = (struct vh_climate_work){.request = request, .params = params};
    if (days < 1 || days > SEASON_DAYS_MAX)
        return vh_fail(m, VH_BAD_INPUT, VH_NOWHERE,
                       "the season is %lld days long; it takes 1 to %d (set_out to pull_out)",
                       (long long)days, SEASON_DAYS_MAX);
    w->window.first_day = request->first_day - VH_WINDOW_BEFORE_D;
    w->window.days = (size_t)days + VH_WINDOW_BEFORE_D + VH_WINDOW_AFTER_D;
    w->log.window = w->outside.window = w->window;
    w->log.last_used_day = request->today;
    w->outside.last_used_day = /* foreseen weather is used */
        request->unforeseen ? request->today : INT64_MAX / VH_MINUTES_PER_DAY - 2;

    const size_t n = w->window.days, hours = n * VH_HOURS_PER_DAY;
    double **per_day[] = {&w->ra_mj, &w->tmin_c, &w->tmax_c, &w->radiation_mj};
    double **per_hour[] = {
        &w->ra_hour_mj, &w->lamps_share,       &w->t_out_c,   &w->r_out_w_m2,
        &w->t_c,        &w->par_umol_m2_s,     &w->t_blind_c, &w->par_blind_umol_m2_s,
        &w->warmer_c,   &w->lighter_umol_m2_s, &w->co2_ppm};
    enum vh_status status = VH_OK;
    for (size_t i = 0; status == VH_OK && i < sizeof per_day / sizeof per_day[0]; i++)
        status = vh_fill_nan(per_day[i], n);
    for (size_t i = 0; status == VH_OK && i < sizeof per_hour / sizeof per_hour[0]; i++)
        status = vh_fill_nan(per_hour[i], hours);
    w->spell_temperature = calloc(n, sizeof *w->spell_temperature);
    w->spell_sky = calloc(n, sizeof *w->spell_sky);
    w->outside_known = calloc(n, sizeof *w->outside_known);
    w->t_logged = calloc(hours, 1);
    w->light_logged = calloc(hours, 1);
    if (!w->spell_temperature || !w->spell_sky || !w->outside_known || !w->t_logged ||
        !w->light_logged)
        status = VH_NO_MEMORY;
    return status;
}

void vh_climate_work_clear(struct vh_climate_work *w)
{
    vh_hour_sums_clear(&w->log);
    vh_hour_sums_clear(&w->outside);
    free(w->ra_mj);
    free(w->tmin_c);
    free(w->tmax_c);
    free(w->radiation_mj);
    free(w->spell_temperature);
    free(w->spell_sky);
    free(w->outside_known);
    free(w->ra_hour_mj);
    free(w->lamps_share);
    free(w->t_out_c);
    free(w->r_out_w_m2);
    free(w->t_c);
    free(w->par_umol_m2_s);
    free(w->t_blind_c);
    free(w->par_blind_umol_m2_s);
    free(w->warmer_c);
    free(w->lighter_umol_m2_s);
    free(w->co2_ppm);
    free(w->t_logged);
    free(w->light_logged);
    *w = (struct vh_climate_work){0};
}

static enum vh_status out_init(struct vh_climate *out, const struct vh_climate_request *request)
{
    *out = (struct vh_climate){.first_day = request->first_day, .last_logged_day = INT64_MIN};
    out->days = (size_t)(request->last_day - request->first_day + 1);

    const size_t n = out->days, hours = n * VH_HOURS_PER_DAY;
    struct vh_outlook *o = &out->outlook;
    double **per_hour[] = {&out->t_c,           &out->par_umol_m2_s, &out->co2_ppm,
                           &out->t_out_c,       &o->sun_w_m2,        &o->heat_c,
                           &o->lamps_umol_m2_s, &o->warmer_c,        &o->lighter_umol_m2_s};
    double **per_day[] = {&out->tmean_c,         &out->tmin_c,      &out->tmax_c,
                          &out->dli_mol_m2_d,    &out->co2_day_ppm, &out->degree_days_c_d,
                          &out->hours_above_hot, &out->heating_kwh, &out->hours_logged,
                          &o->par_per_w,         &o->clearer_most};
    enum vh_status status = VH_OK;
    for (size_t i = 0; status == VH_OK && i < sizeof per_hour / sizeof per_hour[0]; i++)
        status = vh_fill_nan(per_hour[i], hours);
    for (size_t i = 0; status == VH_OK && i < sizeof per_day / sizeof per_day[0]; i++)
        status = vh_fill_nan(per_day[i], n);
    out->logged = calloc(hours, sizeof *out->logged);
    o->light_logged = calloc(hours, sizeof *o->light_logged);
    o->known = calloc(n, sizeof *o->known);
    o->t_out_measured = calloc(n, sizeof *o->t_out_measured);
    o->sun_measured = calloc(n, sizeof *o->sun_measured);
    out->log_report = vh_log_report_create();
    return status == VH_OK && out->logged && o->light_logged && o->known && o->t_out_measured &&
                   o->sun_measured && out->log_report
               ? VH_OK
               : VH_NO_MEMORY;
}

void vh_climate_clear(struct vh_climate *c)
{
    free(c->t_c);
    free(c->par_umol_m2_s);
    free(c->co2_ppm);
    free(c->t_out_c);
    free(c->logged);
    free(c->tmean_c);
    free(c->tmin_c);
    free(c->tmax_c);
    free(c->dli_mol_m2_d);
    free(c->co2_day_ppm);
    free(c->degree_days_c_d);
    free(c->hours_above_hot);
    free(c->heating_kwh);
    free(c->hours_logged);
    free(c->outlook.sun_w_m2);
    free(c->outlook.heat_c);
    free(c->outlook.lamps_umol_m2_s);
    free(c->outlook.warmer_c);
    free(c->outlook.lighter_umol_m2_s);
    free(c->outlook.light_logged);
    free(c->outlook.par_per_w);
    free(c->outlook.clearer_most);
    free(c->outlook.known);
    free(c->outlook.t_out_measured);
    free(c->outlook.sun_measured);
    vh_table_free(c->log_report);
    *c = (struct vh_climate){.last_logged_day = INT64_MIN};
}

/* All files are read before any is judged, so that a person sees the troubles of all. */
static enum vh_status read_files(struct vh_climate_work *w, struct vh_digest *digest,
                                 struct vh_table *report, struct vh_messages *m)
{
    const struct vh_climate_request *r = w->request;
    const enum vh_status log =
        vh_hour_sums_read(&w->log, VH_FILE_LOG, r->log, r->logs, r, w->params, digest, report, m);
    const enum vh_status outside =
        vh_hour_sums_read(&w->outside, VH_FILE_OUTSIDE, &r->outside, r->outside.path ? 1 : 0, r,
                          w->params, digest, report, m);
    const enum vh_status normals = vh_normals_read(r, digest, &w->normals, m);

    vh_normals_roughly(r, &w->roughly);
    if (log != VH_OK)
        return log;
    return outside != VH_OK ? outside : normals;
}

enum vh_status vh_climate_read(const struct vh_climate_request *request,
                               const struct vh_house_params *params, struct vh_digest *digest,
                               struct vh_climate *out, struct vh_messages *m)
{
    struct vh_climate_work work;

    assert(request && params && out);
    *out = (struct vh_climate){.last_logged_day = INT64_MIN};
    enum vh_status status = vh_climate_work_init(&work, request, params, m);
    if (status == VH_OK)
        status = out_init(out, request);
    if (status == VH_OK)
        status = read_files(&work, digest, out->log_report, m);
    if (status == VH_OK) {
        vh_recent_fill(&work);
        status = vh_climate_days(&work, out, m);
    }
    if (status == VH_NO_MEMORY)
        vh_fail(m, VH_NO_MEMORY, VH_NOWHERE, "no memory for the climate; close other programs");
    if (status != VH_OK)
        vh_climate_clear(out);
    vh_climate_work_clear(&work);
    return status;
}
