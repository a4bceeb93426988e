/* vh_measure_lines.h - which count would tell most, in a line. */
#ifndef VH_MEASURE_LINES_H
#define VH_MEASURE_LINES_H

#include <stdbool.h>
#include <stdio.h>

#include "vinehand.h"

/* "MEASURE    plums: grams a fruit (fruit_g), 20 fruits, narrows Saturday's range most (6 %)": the
 * most worth of all, of the table "to_measure". False, and nothing, where none is worth a count. */
bool vh_measure_line(FILE *to, const struct vh_result *result, int indent);
/* The same for each planting. */
void vh_measure_lines(FILE *to, const struct vh_result *result, int indent);

#endif
