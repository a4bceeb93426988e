/* vh_summary.h - the answers of the commands as a person reads them, on 80 columns. */
#ifndef VH_SUMMARY_H
#define VH_SUMMARY_H

#include <stdio.h>

#include "vh_say.h"
#include "vinehand.h"

/* What the summary says beside the result. */
struct vh_summary_facts {
    const char *name; /* of the house */
    const char *kept; /* file of what another season taught; NULL: none */
    int64_t today;
    int members;
    enum vh_say_units units;
    const char *out;                 /* folder */
    size_t files;                    /* written there */
    const struct vh_table *hindcast; /* how past forecasts did, by weeks ahead; NULL: not asked */
};

void vh_summary_season(FILE *to, const struct vh_result *result,
                       const struct vh_summary_facts *facts);
/* What `check` found: the scenario's tables, how far the mean season (NULL: none could be run) lies
 * from what such houses reach, and how many warnings stand on standard error. */
struct vh_check_facts {
    int64_t today;
    size_t warnings;
    enum vh_say_units units;
};
void vh_summary_check(FILE *to, const struct vh_scenario *scenario, const struct vh_result *season,
                      const struct vh_check_facts *facts);

/* A line for each planting: what it gives, and what such houses reach. */
void vh_summary_reach(FILE *to, const struct vh_table *summary, enum vh_say_units units,
                      const char *head, int indent);
/* Every choice of [compare] against the plan: a table, what is sure, what would turn it. */
void vh_summary_compare(FILE *to, const struct vh_result *result,
                        const struct vh_summary_facts *facts);

/* What a name means, each meaning with its values and the sources in full. */
void vh_summary_explain(FILE *to, const struct vh_explanation *e);

/* known false: without what is only good to know. The first `most` warnings that still hold, and of
 * those that are harm within the week up to `urgent` whatever `most` is, under `head`, with the
 * plantings for which the same is to be done, and how many more there are; returns the head of what
 * comes next: "" once a line was said. */
const char *vh_say_warnings(FILE *to, const char *head, const struct vh_table *warnings,
                            const struct vh_summary_facts *f, int most, int urgent, bool known);

/* " (25 to 33)": between these lie four futures in five of the coming seven days; "" where one
 * future was run. said[VH_SAY_ROOM]. */
void vh_say_next_week_range(const struct vh_table *t, size_t row, bool by_piece,
                            const struct vh_summary_facts *f, char *said);

/* Any table, all columns that hold something, a row a paragraph. */
void vh_summary_table(FILE *to, const struct vh_table *table, enum vh_say_units units);

#endif
