#include "vh_summary.h"

#include <string.h>

/* The scenario's tables in the order in which they are read, with what stands above each. */
static const struct {
    const char *name, *title;
} parts[] = {
    {"plantings", "PLANTINGS"},
    {"log", "CLIMATE FILES"},
    {"defaults", "DEFAULTS IN USE (yours may differ: give the key in the scenario)"},
};

static const struct vh_table *table_named(const struct vh_scenario *scenario, const char *name)
{
    for (size_t i = 0; i < vh_scenario_table_count(scenario); i++) {
        const struct vh_table *table = vh_scenario_table(scenario, i);

        if (table && strcmp(vh_table_name(table), name) == 0)
            return table;
    }
    return NULL;
}

void vh_summary_check(FILE *to, const struct vh_scenario *scenario, int64_t today, size_t warnings)
{
    const char *dot = vh_say_is_utf8() ? "\xC2\xB7" : "-";
    char date[VH_SAY_ROOM];

    vh_say_date_with_year((double)today, date);
    vh_say_safely(to, vh_scenario_name(scenario));
    fprintf(to, " %s check %s %s\n", dot, dot, date);
    for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++) {
        const struct vh_table *table = table_named(scenario, parts[i].name);

        if (!table)
            continue;
        fprintf(to, "\n%s\n", parts[i].title);
        vh_summary_table(to, table);
    }
    if (warnings == 0)
        fputs("\nNo error, no warning. Nothing was written.\n", to);
    else
        fprintf(to, "\nNo error; %zu warning%s above. Nothing was written.\n", warnings,
                warnings == 1 ? "" : "s");
}
