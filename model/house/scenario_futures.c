/* [futures]: the command line comes first, then the scenario, then params/futures.csv. */
#include "scenario_parts.h"
#include "vh_weather.h"

static double given_or(const struct vh_given *g, double otherwise)
{
    return g->good ? g->number : otherwise;
}

/* The weather's own scatter, where enough of it was measured and nothing else is said. */
static void fit_weather(struct vh_reading *r)
{
    struct vh_house *h = &r->scenario->house;
    struct vh_futures *f = &h->futures;
    struct vh_weather_spread spread = {f->temperature_sd_c, f->persistence, f->clearness_sd};

    if (r->status < 0 || f->weather_given)
        return;
    vh_spoil(r, vh_weather_fit(&h->climate, r->parameters->futures.fit_days, &spread));
    f->temperature_sd_c = spread.temperature_sd_c;
    f->persistence = spread.persistence;
    f->clearness_sd = spread.clearness_sd;
}

void vh_scenario_fill_futures(struct vh_reading *r)
{
    const struct vh_raw_futures *raw = &r->root.futures;
    const struct vh_futures_params *p = &r->parameters->futures;
    struct vh_run_options *o = &r->scenario->options;
    struct vh_futures *f = &r->scenario->house.futures;

    if (o->members < 1)
        o->members = (int)given_or(&raw->members, p->members);
    if (o->draw == 0)
        o->draw = (uint64_t)given_or(&raw->draw, 1.0);
    f->temperature_sd_c = given_or(&raw->temperature_sd_c, p->temperature_sd_c);
    f->persistence = given_or(&raw->persistence, p->persistence);
    f->clearness_sd = given_or(&raw->clearness_sd, p->clearness_sd);
    f->weather_given =
        raw->temperature_sd_c.good || raw->persistence.good || raw->clearness_sd.good;
    f->visit_delay_d = given_or(&raw->visit_delay_d, p->visit_delay_d);
    fit_weather(r);
}
