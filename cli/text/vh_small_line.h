/* vh_small_line.h - fruit that is picked by its mass and stays well below it. */
#ifndef VH_SMALL_LINE_H
#define VH_SMALL_LINE_H

#include "vh_summary.h"

/* Adds to text that a planting (a row of the summary) whose fruit weighs so much in the mean is
 * picked smaller than she wishes, and what helps; false: it is not, and nothing is added. */
bool vh_small_line(const struct vh_table *summary, size_t row, double mean_g,
                   const struct vh_summary_facts *f, char text[VH_SAY_TEXT]);
/* One block of all plantings of which that is so in the coming seven days; "" where none is. */
void vh_small_lines_of_week(FILE *to, const struct vh_result *r, const struct vh_summary_facts *f,
                            int indent);

#endif
