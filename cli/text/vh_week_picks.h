/* vh_week_picks.h - what is picked in the coming seven days, in which colour, and where it lies. */
#ifndef VH_WEEK_PICKS_H
#define VH_WEEK_PICKS_H

#include "vh_summary.h"

/* Room for an amount with its unit. */
enum { VH_WEEK_MUCH_ROOM = VH_SAY_ROOM + 8 };

/* Is the planting counted in pieces? */
bool vh_week_by_pieces(const struct vh_table *summary, const char *planting);
/* "12 kg", "26 lb", "85" pieces; "" where unknown. */
void vh_week_much(const struct vh_summary_facts *f, double kg, double fruits, bool pieces,
                  char said[VH_WEEK_MUCH_ROOM]);

/* What the records say of a row of picks; what she noted in the other measure alone is turned into
 * its own by the row's mean fruit. NaN: nothing. */
double vh_week_written(const struct vh_table *picks, size_t row, bool pieces);

/* What of the next market day's fruit is picked by now, as written down, else as foreseen; nothing
 * where none is. */
void vh_week_store(FILE *to, const struct vh_result *r, const struct vh_summary_facts *f,
                   int indent);

/* The block PICK, without what was written down today. Where market days take the picks, a line for
 * each colour and place: "Tue 20 kg slicers, 12 kg plums pink: keep at 18 to 20 C"; else a line a
 * day. by_planting false: sums of the days alone, where the screen is short. */
void vh_week_picks(FILE *to, const struct vh_result *r, const struct vh_summary_facts *f,
                   int indent, bool by_planting);

#endif
