/* On which weekdays `start` lets her pick: the day before she sells, and as many more as the crop
 * asks. The weeks are common practice, no source: two picks of tomato, three of long cucumber, a
 * daily one of mini cucumber with a free Sunday. */
#include <criterion/criterion.h>
#include <math.h>

#include "vh_start.h"

/* "0100100" for Tuesday and Friday, Monday first. */
static const char *picks(const char *market, double every_d)
{
    static char said[8];
    bool on[7], pick[7];

    for (int i = 0; i < 7; i++)
        on[i] = market[i] == '1';
    vh_start_picks(on, every_d, pick);
    for (int i = 0; i < 7; i++)
        said[i] = pick[i] ? '1' : '0';
    said[7] = '\0';
    return said;
}

#define PICKED(market, every_d, days) cr_expect_str_eq(picks(market, every_d), days)

Test(start_picks, saturday)
{
    PICKED("0000010", 7.0, "0000100");
    PICKED("0000010", 4.0, "0100100"); /* 1.75 a week */
    PICKED("0000010", 3.0, "0100100");
    PICKED("0000010", 2.0, "1010100");
    PICKED("0000010", 1.0, "1111110");
}

Test(start_picks, other_days)
{
    PICKED("0010000", 3.0, "0100010"); /* sold on Wednesday */
    PICKED("0010000", 1.0, "1111110");
    PICKED("0000001", 3.0, "0010010"); /* on Sunday */
    PICKED("1000000", 3.0, "0001001"); /* on Monday: no way round a Sunday */
    PICKED("0010010", 3.0, "0100100"); /* twice a week: both days before */
    PICKED("1111111", 3.0, "1111111");
}

Test(start_picks, none)
{
    PICKED("0000000", 3.0, "0000000"); /* no market day is known */
    PICKED("0000010", 7.5, "0000000"); /* longer than a week */
    PICKED("0000010", (double)NAN, "0000000");
}

/* Whatever she sells on, each market day has its pick the day before, and Sundays are free where
 * they can be. */
Test(start_picks, all_markets)
{
    for (int set = 1; set < 128; set++)
        for (int every_d = 1; every_d <= 7; every_d++) {
            char market[8] = "0000000";

            for (int i = 0; i < 7; i++)
                market[i] = set >> i & 1 ? '1' : '0';
            const char *pick = picks(market, every_d);
            for (int i = 0; i < 7; i++)
                cr_expect(market[(i + 1) % 7] == '0' || pick[i] == '1', "%s %d", market, every_d);
            cr_expect(pick[6] == market[0], "%s %d: %s", market, every_d, pick);
        }
}
