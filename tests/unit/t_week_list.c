/* Turns as the list says them, and times that add up. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>
#include <math.h>

#include "vh_week_list.h"
#include "vh_week_work.h"

static void turns_are(double turns, char *wanted)
{
    char said[VH_SAY_ROOM];

    vh_week_turns(turns, said);
    cr_expect(eq(str, said, wanted));
}

Test(week_list, turns_are_said_to_the_half)
{
    turns_are(1.5, "1 1/2 turns");
    turns_are(1.0, "1 turn");
    turns_are(0.6, "1/2 turn");
    turns_are(2.2, "2 turns");
    turns_are((double)NAN, "");
}

/* A row for each, its time and the sum. */
static void shared_out(size_t n, const double *minutes, const double *wanted, double sum)
{
    double given[16];

    for (size_t i = 0; i < n; i++)
        given[i] = minutes[i];
    vh_week_share_out(given, n);
    for (size_t i = 0; i < n; i++) {
        cr_expect(eq(dbl, given[i], wanted[i]), "row %zu", i);
        sum -= given[i];
    }
    cr_expect(eq(dbl, sum, 0.0));
}

Test(week_list, times_are_whole_minutes_that_add_up_to_the_whole)
{
    /* by hand: 10.2 is 10; whole parts 9, one minute to the largest rest */
    shared_out(3, (double[]){3.4, 3.4, 3.4}, (double[]){4, 3, 3}, 10);
    /* a task has a minute at least, and the largest gives way: 60.8 is 61 */
    shared_out(4, (double[]){60.0, 0.3, 0.3, 0.2}, (double[]){58, 1, 1, 1}, 61);
    /* no work is no time; less than a minute each is a minute each */
    shared_out(3, (double[]){0.0, 0.2, 0.2}, (double[]){0, 1, 1}, 2);
    /* from five hours on by five minutes: 402 is 400 */
    shared_out(4, (double[]){200.0, 121.0, 78.0, 3.0}, (double[]){200, 120, 75, 5}, 400);
}
