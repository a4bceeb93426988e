/* What a week of waiting brings, in words: of a season made up by hand. Truth: arithmetic. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>

#include "vh_waiting_words.h"

enum { DAYS = 5, FIRST_DAY = 20647 };

/* A stem of 100 cm that grows 10, 20, 30, 40 cm from day to day: over a week that the season's end
 * cuts short it grows to the last day, whatever day she asks of. */
Test(waiting_words, a_week_beyond_the_season_ends_on_its_last_day)
{
    struct vh_work_day day[DAYS] = {{.stem_cm = 100.0},
                                    {.stem_cm = 110.0},
                                    {.stem_cm = 130.0},
                                    {.stem_cm = 160.0},
                                    {.stem_cm = 200.0}};
    const struct vh_work_series series = {.first_day = FIRST_DAY, .days = DAYS, .day = day};
    const struct vh_lower_plan plan = {0};
    char said[VH_LATE_ROOM];

    vh_waiting_words(&series, &plan, VH_TASK_CLIP, FIRST_DAY + 1, said);
    cr_expect(eq(str, said, "90 cm of stem more without hold: heads topple and kink"));
    vh_waiting_words(&series, &plan, VH_TASK_CLIP, FIRST_DAY + DAYS, said);
    cr_expect(eq(str, said, "0 cm of stem more without hold: heads topple and kink"));
    vh_waiting_words(&series, &plan, VH_TASK_CLIP, FIRST_DAY - 3, said);
    cr_expect(eq(str, said, "100 cm of stem more without hold: heads topple and kink"));
}
