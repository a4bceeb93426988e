/* same_bits.c - same_bits PARAMS SCENARIO: every number of every table of a run, to its last bit.
 * Built against the library of one compiler and of another it must print the same. */
#include <stdio.h>

#include "vinehand.h"

static void print_table(const struct vh_table *t)
{
    printf("%s\n", vh_table_name(t));
    for (size_t row = 0; row < vh_table_rows(t); row++) {
        for (size_t i = 0; i < vh_table_columns(t); i++) {
            const double value = vh_table_number(t, row, i);
            if (vh_table_column(t, i)->kind == VH_CELL_TEXT)
                printf("%s,", vh_table_text(t, row, i));
            else if (value != value) /* the sign of "unknown" means nothing */
                printf(",");
            else
                printf("%a,", value);
        }
        putchar('\n');
    }
}

int main(int count, char **words)
{
    enum { MEMBERS = 16 };
    struct vh_run_options options = {.members = MEMBERS, .threads = 2};
    struct vh_parameters *parameters = NULL;
    struct vh_scenario *scenario = NULL;
    struct vh_result *result = NULL;
    struct vh_messages *m = vh_messages_create();
    int failed = 1;

    if (count == 3 && vh_date_parse("2026-07-14", &options.today) == VH_OK &&
        vh_parameters_read(words[1], &parameters, m) >= 0 &&
        vh_scenario_read(words[2], parameters, &options, &scenario, m) >= 0 &&
        vh_scenario_learn(scenario, NULL, NULL, m) >= 0 &&
        vh_forecast(scenario, NULL, NULL, &result, m) >= 0) {
        for (size_t i = 0; i < vh_result_table_count(result); i++)
            print_table(vh_result_table(result, i));
        failed = 0;
    }
    vh_result_free(result);
    vh_scenario_free(scenario);
    vh_parameters_free(parameters);
    vh_messages_free(m);
    return failed;
}
