/* fuzz_records.c - any bytes as a records file; then a line is added to it. Never a crash, a
 * refusal without a reason, a record that cannot be, or a changed byte outside the new line. */
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "vh_date.h"
#include "vh_scenario.h"

int LLVMFuzzerInitialize(int *argc, char ***argv);
int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static struct vh_scenario *scenario;
static char folder[] = "/tmp/vh-fuzz-records-XXXXXX", path[64];

static const char text[] =
    "[house]\nname = \"x\"\nlatitude_deg = 44\n[climate.roughly]\nwarmest_high_c = 28\n"
    "warmest_low_c = 16\ncoldest_high_c = -2\ncoldest_low_c = -12\n[[planting]]\nname = \"a\"\n"
    "crop = \"tomato-large\"\nplants = 48\nplants_per_m2 = 2.5\nset_out = 2026-06-20\n"
    "pull_out = 2026-08-10\n[[planting]]\nname = \"b c\"\ncrop = \"cucumber-long\"\nplants = 9\n"
    "plants_per_m2 = 1.5\nset_out = 2026-06-20\npull_out = 2026-08-10\n[records]\n"
    "file = \"r.csv\"\n";

static void demand(int holds)
{
    if (!holds)
        abort();
}

int LLVMFuzzerInitialize(int *argc, char ***argv)
{
    const struct vh_run_options options = {.today =
                                               vh_day_from_civil((struct vh_civil){2026, 7, 14}),
                                           .members = 1,
                                           .no_records = true};
    struct vh_parameters *params; /* lives as long as the process */

    (void)argc;
    (void)argv;
    demand(mkdtemp(folder) != NULL);
    snprintf(path, sizeof path, "%s/r.csv", folder);
    demand(vh_parameters_read(VINEHAND_PARAMS, &params, NULL) == VH_OK);
    demand(vh_scenario_parse(text, sizeof text - 1, "x.toml", folder, params, &options, &scenario,
                             NULL) >= 0);
    return 0;
}

static void look(const struct vh_house *h)
{
    const struct vh_records *r = &h->records;

    for (size_t i = 0; i < r->rows; i++) {
        const struct vh_record *a = &r->row[i];
        demand(a->planting < h->plantings && a->day <= h->today);
        demand(a->day >= h->planting[a->planting].set_out);
        demand(a->value >= 0.0 && isfinite(a->value) && a->truss >= 0 && a->of >= 0);
        demand(i == 0 || r->row[i - 1].day <= a->day);
        if (a->item != VH_RECORD_DONE)
            demand(vh_record_sd(&scenario->parameters->record, a) > 0.0);
    }
    for (size_t k = 0; k < h->plantings; k++) {
        struct vh_record_picks *p;
        size_t n;
        demand(vh_record_picks_of(r, k, h->planting[k].set_out, &p, &n) == VH_OK);
        for (size_t i = 0; i < n; i++)
            demand(p[i].from <= p[i].until && (i == 0 || p[i].from == p[i - 1].until + 1));
        free(p);
    }
}

/* All that stood there stands there still, before and behind what is new. */
static void look_at_change(const struct vh_record_change *c)
{
    size_t same = 0, end = 0;

    if (!c->old_bytes || c->old_n == 0)
        return;
    demand(c->filled || c->n >= c->old_n); /* a filled cell loses its quotes and may be shorter */
    const size_t both = c->n < c->old_n ? c->n : c->old_n;
    while (same < both && c->bytes[same] == c->old_bytes[same])
        same++;
    while (end < both - same && c->bytes[c->n - 1 - end] == c->old_bytes[c->old_n - 1 - end])
        end++;
    if (!c->filled)
        demand(same + end == c->old_n);
}

static void add(const uint8_t *data, size_t size)
{
    static const struct vh_record_entry entry[] = {
        {"a", "picked_kg", "1.5", 20645, 0, 0},
        {"b c", "fruits_left", "3", 20645, 4, 5},
        {"a", "stem_cm", "2,5", 20640, 0, 3},
    };
    struct vh_messages *m = vh_messages_create();
    struct vh_record_change *c = NULL;
    FILE *f = fopen(path, "wb");

    demand(f && fwrite(data, 1, size, f) == size && fclose(f) == 0);
    const enum vh_status status = vh_records_note(scenario, &entry[size % 3], &c, m);
    demand((status >= 0) == (c != NULL));
    demand(status >= 0 || vh_messages_count_of(m, VH_ERROR) > 0);
    if (c)
        look_at_change(c);
    vh_record_change_free(c);
    vh_messages_free(m);
    unlink(path);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct vh_messages *m = vh_messages_create();
    const enum vh_status status = vh_records_read_memory(
        &scenario->house, &scenario->parameters->record, (const char *)data, size, m);

    demand(status >= 0 || vh_messages_count_of(m, VH_ERROR) > 0);
    demand(status < 0 || vh_messages_count_of(m, VH_ERROR) == 0);
    look(&scenario->house);
    vh_messages_free(m);
    add(data, size);
    return 0;
}
