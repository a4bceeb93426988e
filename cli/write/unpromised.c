#include "vh_unpromised.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { TOLD_MOST = 4 };

void vh_unpromised(const struct vh_promise_tables *t, const struct vh_table *market_days,
                   int64_t today, char *said, size_t room)
{
    int days = 0;

    said[0] = '\0';
    for (double after = -HUGE_VAL;;) {
        char date[VH_SAY_ROOM];
        const size_t used = strlen(said);
        after = vh_promise_unsaid(t, market_days, today, after);
        if (isnan(after))
            break;
        vh_say_date(after, date);
        if (days++ < TOLD_MOST)
            snprintf(said + used, room - used, "%s%s",
                     used ? ", " : "nothing was promised about a week before ", date);
    }
    const size_t used = strlen(said);
    if (days > TOLD_MOST)
        snprintf(said + used, room - used, " and %d more", days - TOLD_MOST);
}
