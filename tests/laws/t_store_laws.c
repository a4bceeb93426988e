/* Store and spoil with random parameters: shares stay between 0 and 1; longer never loses less,
 * and above the best range warmer never does; more cause never gives a smaller share. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>
#include <math.h>

#include "vh_spoil.h"
#include "vh_store.h"

static uint64_t state = 20260718u;

static double between(double low, double high)
{
    state = state * 6364136223846793005u + 1442695040888963407u;
    return low + (high - low) * (double)(state >> 11) * 0x1p-53;
}

static struct vh_store_params random_store(void)
{
    const double low = between(5, 12);

    return (struct vh_store_params){
        .best_low_c = low,
        .best_high_c = low + between(0, 4),
        .life_d = between(1, 25),
        .life_cv = between(0, 0.6),
        .q10 = between(1, 4),
        .chill_c = low - between(0, 2),
        .chill_d = between(1, 20),
        .chill_halving_k = between(2, 8),
        .ripens = between(0, 1) > 0.5,
    };
}

Test(store_laws, longer_or_warmer_never_loses_less)
{
    struct vh_ripen_table t;

    cr_assert(vh_ripen_read(VINEHAND_PARAMS "/off-vine.csv", "off-vine.csv", NULL, &t, NULL) ==
              VH_OK);
    for (int trial = 0; trial < 5000; trial++) {
        const struct vh_store_params p = random_store();
        const double stage = between(0, 1) > 0.8 ? (double)NAN : between(0, 5);
        const double c = between(-2, 30), days = between(0, 30);
        const double warm = p.best_high_c + between(0, 15), warmer = warm + between(0, 5);
        const double lost = vh_store_lost_frac(&p, &t, stage, c, days);

        cr_assert(lost >= 0.0 && lost <= 1.0);
        cr_assert(
            le(dbl, lost - 1e-12, vh_store_lost_frac(&p, &t, stage, c, days + between(0, 5))));
        cr_assert(le(dbl, vh_store_lost_frac(&p, &t, stage, warm, days) - 1e-12,
                     vh_store_lost_frac(&p, &t, stage, warmer, days)));
    }
}

static struct vh_spoil_day random_day(void)
{
    return (struct vh_spoil_day){
        .ratio = between(0, 5),
        .cold_nights = between(0, 1),
        .bees = between(0, 1) > 0.5,
        .hot_k = between(0, 8),
        .hot_after_dull_k = between(0, 8),
        .feed_ec_ms_cm = between(0.5, 8),
        .gap_d = between(0, 15),
        .red_wait_d = between(-5, 12),
        .mass_g = between(20, 800),
        .mass_cv = between(0, 0.5),
        .largest_g = between(20, 800),
    };
}

Test(store_laws, spoilt_shares_rise_with_their_causes)
{
    for (int trial = 0; trial < 5000; trial++) {
        const struct vh_spoil_params p = {between(0, 0.1),
                                          between(0, 5),
                                          0.8,
                                          0.4,
                                          between(0.1, 1),
                                          7,
                                          between(0, 0.2),
                                          between(0, 1),
                                          13,
                                          28,
                                          21,
                                          between(0, 1),
                                          between(0, 0.1),
                                          between(0, .1),
                                          30,
                                          1,
                                          5,
                                          35,
                                          10,
                                          between(0, 1),
                                          2.5,
                                          1,
                                          between(1, 20),
                                          between(0, 0.6)};
        const struct vh_spoil_day day = random_day();
        struct vh_spoil_day worse = day;
        struct vh_spoil_shares s, w;

        worse.ratio += between(0, 1);
        worse.cold_nights += between(0, 0.5);
        worse.hot_k += between(0, 2);
        worse.feed_ec_ms_cm += between(0, 2);
        worse.gap_d += between(0, 5);
        worse.mass_g *= between(1, 1.5);
        vh_spoil_shares_of(&p, &day, &s);
        vh_spoil_shares_of(&p, &worse, &w);
        const double a[] = {s.cracked,  s.misshapen, s.end_rot,
                            s.overripe, s.oversize,  vh_spoil_total(&s)};
        const double b[] = {w.cracked,  w.misshapen, w.end_rot,
                            w.overripe, w.oversize,  vh_spoil_total(&w)};
        for (int i = 0; i < 6; i++) {
            cr_assert(a[i] >= 0.0 && a[i] <= 1.0);
            cr_assert(le(dbl, a[i] - 1e-9, b[i]), "cause %d", i);
        }
    }
}
