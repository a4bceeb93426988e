/* What makes the last fruits of a truss ready: days and warmth since they flowered, nothing that
 * happens on the day of the pick. */
#include "../reference/plant_trial.h"

enum { DAYS = 101, LAST_DAYS = 3 };
static const double last_c[] = {17.0, 20.0, 23.0, 26.0};
enum { LASTS = 4 };

static void warm_but_last(const struct trial *t, int day, struct trial_hours *out)
{
    struct trial_square q = t->square;
    q.day_c = q.night_c = day >= DAYS - LAST_DAYS ? last_c[t->draw] : 22.0;
    *out = trial_square_hours(&q);
}

static struct trial cherries(void)
{
    struct trial t = trial_usual("tomato-cherry");
    t.days = DAYS;
    t.setup.whole_truss = true;
    t.pick_every_d = 5;
    t.hours = warm_but_last;
    t.draw = 2;
    return t;
}

/* On the last day, fruits per stem. */
static double last_pick(struct trial *t)
{
    struct trial_result *r = trial_run(t);
    const double fruits = r->picked[DAYS - 1].fruits;
    trial_free(r);
    return fruits;
}

Test(ripe_together, warmer_last_days_ripen_more_not_less)
{
    double before = 0.0;

    for (uint64_t k = 0; k < LASTS; k++) {
        struct trial t = cherries();
        t.draw = k;
        const double fruits = last_pick(&t);
        cr_assert(fruits > before, "last days of %.0f degC: %.4f fruits, cooler %.4f", last_c[k],
                  fruits, before);
        before = fruits;
    }
}

Test(ripe_together, stems_added_on_the_day_ripen_nothing)
{
    struct trial as_it_was = cherries(), added = cherries();

    added.heads_on = DAYS - 1;
    added.heads_factor = 2.0;
    const double was = last_pick(&as_it_was), is = added.heads_factor * last_pick(&added);
    cr_assert(was > 1.0);
    cr_assert(fabs(is / was - 1.0) < 1e-9, "%.6f fruits, with stems added %.6f", was, is);
}
