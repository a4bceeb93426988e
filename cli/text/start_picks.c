/* On which weekdays she picks, fitted to the days on which she sells. */
#include "vh_start.h"

#include <math.h>
#include <stddef.h>

enum { WEEK_D = 7, WEEK_SETS = 1 << WEEK_D, SUNDAY = 6, WORKING_D = 6 };

static bool in(int set, int day)
{
    return set >> ((day + WEEK_D) % WEEK_D) & 1;
}

static int days_in(int set)
{
    int n = 0;

    for (int i = 0; i < WEEK_D; i++)
        n += in(set, i);
    return n;
}

/* Days from the pick before `day` to that day, 1 to 7; 0 where nothing is picked. */
static int days_before(int set, int day)
{
    for (int gap = 1; gap <= WEEK_D; gap++)
        if (in(set, day - gap))
            return gap;
    return 0;
}

/* Of two weeks with the same number of picks the lower is better: no Sunday, then evenly spread,
 * then not the day after a market day, then short before the pick for a market day. Each stands
 * above the next, whose sum stays below its weight. */
static int faults(int set, const bool market[WEEK_D])
{
    enum { LATE = 1, AFTER_MARKET = 100, UNEVEN = 1000, ON_SUNDAY = 100000 };
    int sum = in(set, SUNDAY) ? ON_SUNDAY : 0;

    for (int i = 0; i < WEEK_D; i++) {
        const int gap = days_before(set, i);

        if (in(set, i))
            sum += UNEVEN * gap * gap;
        if (market[i] && in(set, i + 1))
            sum += AFTER_MARKET;
        if (market[(i + 1) % WEEK_D])
            sum += LATE * gap;
    }
    return sum;
}

void vh_start_picks(const bool market[WEEK_D], double every_d, bool pick[WEEK_D])
{
    int must = 0, best = 0;

    for (int i = 0; i < WEEK_D; i++)
        must |= market[(i + 1) % WEEK_D] ? 1 << i : 0;
    if (must && every_d > 0.0 && every_d <= WEEK_D) {
        const double asked =
            fmin(ceil(WEEK_D / every_d - 0.5), WORKING_D); /* half a pick is none */
        const int picks = asked > days_in(must) ? (int)asked : days_in(must);

        for (int set = 0; set < WEEK_SETS; set++)
            if ((set & must) == must && days_in(set) == picks &&
                (best == 0 || faults(set, market) < faults(best, market)))
                best = set;
    }
    for (int i = 0; i < WEEK_D; i++)
        pick[i] = in(best, i);
}
