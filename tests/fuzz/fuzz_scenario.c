/* fuzz_scenario.c - any bytes as a scenario file, read with the real parameters. Never a crash, a
 * refusal without a reason, or a house that the run could not take. */
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "vh_date.h"
#include "vh_scenario.h"

int LLVMFuzzerInitialize(int *argc, char ***argv);
int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static struct vh_parameters *params;

int LLVMFuzzerInitialize(int *argc, char ***argv)
{
    (void)argc;
    (void)argv;
    if (vh_parameters_read(VINEHAND_PARAMS, &params, NULL) != VH_OK) {
        fprintf(stderr, "no parameters in %s\n", VINEHAND_PARAMS);
        abort();
    }
    return 0;
}

static void demand(int holds)
{
    if (!holds)
        abort();
}

static void look_at_planting(const struct vh_house *h, const struct vh_planting *p)
{
    const struct vh_policy *policy = &p->policy;

    demand(p->name && p->name[0] && p->crop && p->plants >= 1.0);
    demand(p->plants_per_m2 > 0.0 && p->heads_per_plant > 0.0 && p->usual_fruit_g > 0.0);
    demand(p->set_out < p->pull_out && h->first_day <= p->set_out && p->pull_out <= h->last_day);
    demand(!p->has_first_flower || p->first_flower >= p->set_out);
    demand(policy->fruits_rules > 0 && policy->leaf_visit.every_d >= 1);
    demand(policy->pick.by_weekday || policy->pick.every_d >= 1);
    demand(policy->bees_share >= 0.0 && policy->bees_share <= 1.0);
    for (size_t i = 0; i < policy->fruits_rules; i++) {
        const struct vh_fruits_rule *rule = &policy->fruits[i];
        demand(rule->first_truss >= 1 && rule->fruits >= 0.0 && rule->from <= rule->until);
        demand(rule->last_truss == 0 || rule->last_truss >= rule->first_truss);
    }
    for (size_t i = 1; i < policy->head_changes; i++)
        demand(policy->heads[i - 1].from < policy->heads[i].from);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    const struct vh_run_options options = {
        .today = vh_day_from_civil((struct vh_civil){2026, 7, 14}), .members = 1};
    struct vh_messages *m = vh_messages_create();
    struct vh_scenario *s = NULL;
    char *text = malloc(size ? size : 1); /* no byte behind the end */

    demand(m && text);
    memcpy(text, data, size);
    const enum vh_status status =
        vh_scenario_parse(text, size, "x.toml", "/nowhere", params, &options, &s, m);
    free(text);
    demand((status >= 0) == (s != NULL));
    demand(status >= 0 || vh_messages_count_of(m, VH_ERROR) > 0);
    demand(status < 0 || vh_messages_count_of(m, VH_ERROR) == 0);
    if (s) {
        const struct vh_house *h = &s->house;
        demand(h->plantings > 0 &&
               h->climate.first_day <= h->first_day); /* a standing crop looks back */
        demand(h->climate.days == (size_t)(h->last_day - h->climate.first_day + 1));
        for (size_t i = 0; i < h->plantings; i++)
            look_at_planting(h, &h->planting[i]);
        demand(strlen(vh_scenario_digest(s)) == 64);
    }
    vh_scenario_free(s);
    vh_messages_free(m);
    return 0;
}
