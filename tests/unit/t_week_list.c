/* Hours and turns as the list says them. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>
#include <math.h>

#include "vh_week_list.h"

static void hours_are(double minutes, char *wanted)
{
    char said[VH_SAY_ROOM];

    vh_week_hours(minutes, said);
    cr_expect(eq(str, said, wanted));
}

static void turns_are(double turns, char *wanted)
{
    char said[VH_SAY_ROOM];

    vh_week_turns(turns, said);
    cr_expect(eq(str, said, wanted));
}

Test(week_list, hours_are_said_to_the_quarter_and_no_work_is_none)
{
    hours_are(48.0, "0.75");
    hours_are(3.0, "0.25");
    hours_are(127.0, "2.00");
    hours_are(0.0, "");
    hours_are((double)NAN, "");
}

Test(week_list, turns_are_said_to_the_half)
{
    turns_are(1.5, "1 1/2 turns");
    turns_are(1.0, "1 turn");
    turns_are(0.6, "1/2 turn");
    turns_are(2.2, "2 turns");
    turns_are((double)NAN, "");
}
