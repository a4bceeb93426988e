/* vh_market_lines.h - the market days to come: what is likely, what is safe to promise, what is
 * ordered, and what will be missing. */
#ifndef VH_MARKET_LINES_H
#define VH_MARKET_LINES_H

#include "vh_summary.h"

/* Is there a market day to come? */
bool vh_market_is_to_come(const struct vh_result *result, const struct vh_summary_facts *facts);
/* The next market day, a line for each good, what was said of it a week ago, then the days after
 * it, `after` at most, and besides so many days of the next four weeks whose orders are likelier
 * short than not; how many more there are is said. Nothing where there is no market day to come. */
enum { VH_MARKET_ORDERS_MOST = 3 };
void vh_market_lines(FILE *to, const struct vh_result *result, const struct vh_summary_facts *facts,
                     int after, int orders_most);
/* One market day alone, a line for each good. */
void vh_market_day_lines(FILE *to, const struct vh_result *result,
                         const struct vh_summary_facts *facts, int64_t date);
/* How many of those gaps, `most` at most, can still be sown for; one where none can: more of them
 * call for nothing. */
int vh_gaps_to_sow(const struct vh_result *result, int most);
/* Stretches of market days below what is wanted, `most` at most, those to be acted on first. */
void vh_gap_lines(FILE *to, const struct vh_result *result, const struct vh_summary_facts *facts,
                  int most);

#endif
