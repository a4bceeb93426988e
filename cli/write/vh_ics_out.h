/* vh_ics_out.h - the work as a calendar [RFC 5545]: one all-day event for each day with work, its
 * text one line for each row of tasks.csv. */
#ifndef VH_ICS_OUT_H
#define VH_ICS_OUT_H

#include "vh_draft.h"
#include "vh_say_numbers.h"
#include "vinehand.h"

/* `tasks` has its rows in date order; NULL: an empty calendar. The UID of a day depends on the
 * house's name and the date alone, so that a new import replaces what an earlier one brought. */
void vh_ics_out(struct vh_draft *out, const struct vh_table *tasks, const char *house,
                int64_t today, enum vh_say_units units);
/* One content line, folded at 75 octets between characters, with its CRLF. `value` is escaped as
 * TEXT; control characters are left out. */
void vh_ics_line(struct vh_draft *out, const char *name, const char *value);
/* "lower cucumbers, 24 stems, 48 min: let out 27 cm", as it stands in a day's text. */
void vh_ics_task(struct vh_draft *out, const struct vh_table *tasks, size_t row,
                 enum vh_say_units units);

#endif
