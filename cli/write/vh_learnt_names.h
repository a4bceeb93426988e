/* vh_learnt_names.h - what the numbers are called that are learnt of a house: the same words on the
 * screen and in the report. */
#ifndef VH_LEARNT_NAMES_H
#define VH_LEARNT_NAMES_H

#include "vh_say_numbers.h"
#include "vinehand.h"

enum { VH_LEARNT_ROOM = 160 };

/* The one that is no factor: kelvin that the plants live warmer than the log says. */
#define VH_LEARNT_OFFSET "log_offset_c"

/* "truss pace, slicers" */
void vh_learnt_name(const struct vh_table *learned, size_t row, enum vh_say_units units,
                    char said[VH_LEARNT_ROOM]);
/* What may stand in its place, "light on the crop or fruit set", by `told_apart`; "": nothing. */
void vh_learnt_mistaken(const struct vh_table *learned, size_t row, char said[VH_LEARNT_ROOM]);
/* A difference of temperatures in the reader's degrees. */
double vh_learnt_degrees(double kelvin, enum vh_say_units units);

#endif
