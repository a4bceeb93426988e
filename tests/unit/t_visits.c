/* On which days a visit really falls, and numbers as people round them. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>
#include <math.h>
#include <stdio.h>

#include "vh_random.h"
#include "vinehand.h"
#include "vh_visits.h"

#define DAY 20647

static struct vh_policy with(struct vh_spray *spray, size_t sprays)
{
    return (struct vh_policy){
        .spray = spray, .sprays = sprays, .free_by_h = 12.0, .pick = {.every_d = 2}};
}

Test(visits, hours_of_a_label_count_from_the_end_of_the_day_of_the_spray)
{
    struct vh_spray spray = {DAY, 12.0, 0.0};
    const struct vh_policy p = with(&spray, 1);

    cr_expect(not(vh_entry_locked(&p, DAY - 1)));
    cr_expect(vh_entry_locked(&p, DAY));
    cr_expect(not(vh_entry_locked(&p, DAY + 1))); /* over at noon at the latest */
    spray.no_entry_h = 24.0;
    cr_expect(vh_entry_locked(&p, DAY + 1)); /* a spray in the evening lasts to the evening */
    cr_expect(eq(i64, vh_entry_free(&p, DAY), DAY + 2));
    spray.no_entry_h = 48.0;
    cr_expect(eq(i64, vh_entry_free(&p, DAY), DAY + 3));
    spray.no_entry_h = 0.0;
    cr_expect(eq(i64, vh_entry_free(&p, DAY), DAY + 1)); /* the day of the spray itself */
}

Test(visits, days_without_a_pick_begin_with_the_day_of_the_spray)
{
    struct vh_spray spray = {DAY, 12.0, 3.0};
    const struct vh_policy p = with(&spray, 1);

    cr_expect(vh_pick_locked(&p, DAY));
    cr_expect(vh_pick_locked(&p, DAY + 2));
    cr_expect(not(vh_pick_locked(&p, DAY + 3)));
    spray.no_entry_h = 100.0; /* no entry is no pick either */
    cr_expect(vh_pick_locked(&p, DAY + 3));
    cr_expect(eq(i64, vh_pick_free(&p, DAY), vh_entry_free(&p, DAY)));
}

Test(visits, barred_visits_fall_together_on_the_first_free_day)
{
    struct vh_spray spray[] = {{DAY + 1, 12.0, 3.0}, {DAY + 4, 12.0, 2.0}};
    const struct vh_policy p = with(spray, 2); /* days 1 to 5 bear no pick */
    const bool picks[] = {true, false, false, false, false, false, true, false, true};

    for (int d = 0; d < 9; d++)
        cr_expect(eq(int, vh_pick_planned(&p, DAY, DAY + d), picks[d]), "day %d", d);
    const struct vh_policy odd = with(spray, 1); /* days 1 to 3: the pick of day 2 falls on 4 */
    cr_expect(vh_pick_planned(&odd, DAY, DAY + 4));
    cr_expect(not(vh_pick_planned(&odd, DAY, DAY + 3)));
}

Test(visits, without_a_spray_the_rhythm_holds)
{
    const struct vh_policy p = with(NULL, 0);
    const struct vh_rhythm weekly = {.every_d = 7};

    for (int d = -10; d < 40; d++)
        cr_expect(eq(int, vh_visit_planned(&p, &weekly, DAY, DAY + d),
                     vh_rhythm_due(&weekly, DAY, DAY + d)));
}

Test(visits, the_gap_reaches_back_to_the_last_visit_that_was_made)
{
    struct vh_done_task task[] = {{DAY + 7, VH_TASK_LEAF, 0.0}, {DAY + 14, VH_TASK_LEAF, 0.3}};
    const struct vh_done done = {.task = task, .tasks = 2};
    const struct vh_rhythm weekly = {.every_d = 7};
    struct vh_policy p = with(NULL, 0);

    cr_expect(eq(i64, vh_visit_gap_d(&p, VH_TASK_LEAF, &weekly, DAY, DAY + 21), 7));
    p.done = &done;
    cr_expect(eq(i64, vh_visit_gap_d(&p, VH_TASK_LEAF, &weekly, DAY, DAY + 21), 21));
    cr_expect(eq(i64, vh_visit_gap_d(&p, VH_TASK_LEAF, &weekly, DAY, DAY + 28), 7));
    cr_expect(epsilon_eq(dbl, vh_visit_share(&p, VH_TASK_LEAF, &weekly, DAY, DAY + 14), 0.3, 0.0));
    cr_expect(epsilon_eq(dbl, vh_visit_share(&p, VH_TASK_LEAF, &weekly, DAY, DAY + 15), 0.0, 0.0));
}

Test(rounding, a_season_of_rounded_numbers_adds_up_to_half_a_step)
{
    const double step[] = {1.0, 0.25, 0.5}; /* clips, hours, turns */

    for (int s = 0; s < 3; s++) {
        double rest = 0.0, sum = 0.0, given = 0.0;
        for (int d = 0; d < 300; d++) {
            const double amount = 4.0 * vh_uniform(7, (uint32_t)s, 0, 1, (uint32_t)d);
            const double out = vh_round_on(&rest, amount, step[s]);
            sum += amount;
            given += out;
            cr_expect(out >= 0.0);
            cr_expect(epsilon_eq(dbl, out / step[s], round(out / step[s]), 1e-9));
            cr_expect(fabs(sum - given) <= 0.5 * step[s] + 1e-9);
        }
    }
}

Test(rounding, a_third_of_a_clip_a_day_is_a_clip_every_third_day)
{
    double rest = 0.0;
    int given = 0;

    for (int d = 0; d < 30; d++)
        given += vh_round_on(&rest, 1.0 / 3.0, 1.0) > 0.5;
    cr_expect(eq(int, given, 10));
}

/* Significant digits by hand: what %.10g prints of it needs no exponent. */
Test(rounding, so_many_digits_and_never_an_exponent)
{
    static const struct {
        double value;
        int digits;
        const char *reads;
    } list[] = {
        {10776.2, 3, "10800"}, {0.0123456, 3, "0.0123"}, {110.4, 2, "110"},
        {9.996, 3, "10"},      {-1234.0, 2, "-1200"},    {0.0, 3, "0"},
        {43.25, 3, "43.2"},    {HUGE_VAL, 3, "inf"},
    };

    for (size_t i = 0; i < sizeof list / sizeof *list; i++) {
        char text[40];
        snprintf(text, sizeof text, "%.10g", vh_round_digits(list[i].value, list[i].digits));
        cr_expect(eq(str, text, (char *)list[i].reads));
    }
    cr_expect(isnan(vh_round_digits((double)NAN, 3)));
}
