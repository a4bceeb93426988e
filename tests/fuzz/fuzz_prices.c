/* fuzz_prices.c - any bytes as the part of a scenario that sells: market days, prices, orders,
 * behind a house that is right. A market that is read can be reckoned with; a refusal says why. */
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "vh_date.h"
#include "vh_scenario.h"

int LLVMFuzzerInitialize(int *argc, char ***argv);
int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static struct vh_parameters *params;

static const char text[] =
    "[house]\nname = \"x\"\nlatitude_deg = 44\n[climate.roughly]\nwarmest_high_c = 28\n"
    "warmest_low_c = 16\ncoldest_high_c = -2\ncoldest_low_c = -12\n[[planting]]\nname = \"a\"\n"
    "crop = \"tomato-large\"\nplants = 48\nplants_per_m2 = 2.5\nset_out = 2026-06-20\n"
    "pull_out = 2026-08-10\n[[planting]]\nname = \"b c\"\ncrop = \"cucumber-long\"\nplants = 9\n"
    "plants_per_m2 = 1.5\nset_out = 2026-06-20\npull_out = 2026-08-10\n";

static void demand(int holds)
{
    if (!holds)
        abort();
}

int LLVMFuzzerInitialize(int *argc, char ***argv)
{
    (void)argc;
    (void)argv;
    demand(vh_parameters_read(VINEHAND_PARAMS, &params, NULL) == VH_OK);
    return 0;
}

static void look_at_good(const struct vh_good *g)
{
    demand(g->name && g->plantings >= 1);
    demand(g->price_share_beyond >= 0.0 && g->price_share_beyond <= 1.0);
    demand(!(g->sells_kg < 0.0) && !(g->sells_fruits < 0.0));
    demand(!(g->wants_kg < 0.0) && !(g->wants_fruits < 0.0));
    const size_t grades = g->grades ? g->grades->grades : 1;
    for (size_t i = 0; i < grades && g->priced; i++)
        demand(!(g->per_kg[i] < 0.0) && !(g->per_fruit[i] < 0.0));
    if (g->sold_by == VH_SELL_PACK)
        demand(g->pack_g > 0.0);
}

static void look(const struct vh_house *h)
{
    const struct vh_market *m = &h->market;

    demand(!m->given || (m->promise > 0.0 && m->promise < 1.0));
    for (size_t i = 0; i < m->days; i++)
        demand(m->day[i] >= h->first_day && m->day[i] <= h->last_day + m->sold_after_d &&
               (i == 0 || m->day[i - 1] < m->day[i]));
    for (size_t i = 0; i < m->goods; i++)
        look_at_good(&m->good[i]);
    for (size_t i = 0; i < m->orders; i++) {
        const struct vh_order *o = &m->order[i];
        demand(o->who && o->good < m->goods && o->from <= o->until);
        demand(o->kg >= 0.0 && o->fruits >= 0.0 && (o->kg > 0.0) + (o->fruits > 0.0) <= 1);
    }
    for (size_t k = 0; k < h->plantings && m->given; k++)
        demand(m->good_of[k] < m->goods);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    const struct vh_run_options options = {
        .today = vh_day_from_civil((struct vh_civil){2026, 7, 14}), .members = 1};
    const size_t head = sizeof text - 1;
    struct vh_messages *m = vh_messages_create();
    struct vh_scenario *s = NULL;
    char *all = malloc(head + size); /* no byte behind the end */

    demand(m && all);
    memcpy(all, text, head);
    memcpy(all + head, data, size);
    const enum vh_status status =
        vh_scenario_parse(all, head + size, "x.toml", "/nowhere", params, &options, &s, m);
    free(all);
    demand((status >= 0) == (s != NULL));
    demand((status < 0) == (vh_messages_count_of(m, VH_ERROR) > 0));
    if (s)
        look(&s->house);
    vh_scenario_free(s);
    vh_messages_free(m);
    return 0;
}
