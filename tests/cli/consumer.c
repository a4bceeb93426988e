/* consumer.c - a program of somebody else's: built by pkg-config alone, it runs a season.
 * consumer PARAMS SCENARIO: prints planting and kg of each week. */
#include <stdio.h>
#include <vinehand.h>

int main(int count, char **words)
{
    struct vh_run_options options = {.members = 1, .threads = 1};
    struct vh_parameters *parameters = NULL;
    struct vh_scenario *scenario = NULL;
    struct vh_result *result = NULL;
    struct vh_messages *messages = vh_messages_create();
    int failed = 1;

    if (count == 3 && vh_date_parse("2026-07-14", &options.today) == VH_OK &&
        vh_parameters_read(words[1], &parameters, messages) >= 0 &&
        vh_scenario_read(words[2], parameters, &options, &scenario, messages) >= 0 &&
        vh_forecast(scenario, NULL, NULL, &result, messages) >= 0) {
        const struct vh_table *weeks = vh_result_table_named(result, "weeks");
        const size_t planting = (size_t)vh_table_find(weeks, "planting");
        const size_t kg = (size_t)vh_table_find(weeks, "kg");
        for (size_t row = 0; row < vh_table_rows(weeks); row++)
            printf("%s,%.6g\n", vh_table_text(weeks, row, planting),
                   vh_table_number(weeks, row, kg));
        failed = 0;
    }
    for (size_t i = 0; i < vh_messages_count(messages) && failed; i++)
        fprintf(stderr, "%s\n", vh_messages_at(messages, i)->text);
    vh_result_free(result);
    vh_scenario_free(scenario);
    vh_parameters_free(parameters);
    vh_messages_free(messages);
    return failed;
}
