/* vh_week_much.h - amounts of the week's picks, in what a planting is counted in. */
#ifndef VH_WEEK_MUCH_H
#define VH_WEEK_MUCH_H

#include "vh_summary.h"

/* Room for an amount with its unit. */
enum { VH_WEEK_MUCH_ROOM = VH_SAY_ROOM + 8 };

/* Is the planting counted in pieces? */
bool vh_week_by_pieces(const struct vh_table *summary, const char *planting);
/* "12", "85": the number alone; "" for what rounds to none. */
void vh_week_number(const struct vh_summary_facts *f, double kg, double fruits, bool pieces,
                    char said[VH_WEEK_MUCH_ROOM]);
/* " kg", " lb", of pieces "". */
const char *vh_week_unit(const struct vh_summary_facts *f, bool pieces);
/* "12 kg", "26 lb", "85" pieces; "" where unknown. */
void vh_week_much(const struct vh_summary_facts *f, double kg, double fruits, bool pieces,
                  char said[VH_WEEK_MUCH_ROOM]);

/* What the records say of a row of picks; what she noted in the other measure alone is turned into
 * its own by the row's mean fruit. NaN: nothing. */
double vh_week_written(const struct vh_table *picks, size_t row, bool pieces);

#endif
