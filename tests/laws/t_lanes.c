/* A member alone and the same member beside seven others: the same bits. */
#include "../reference/plant_trial.h"
#include "vh_plant_state.h"
#include "vh_random.h"

enum { LANES = 8, DAYS = 140 };

struct member {
    struct vh_plant_day day[DAYS];
    struct vh_picked picked[DAYS];
    struct vh_truss_view truss[4];
};

static struct vh_factors factors_of(size_t lane)
{
    double f[7];

    for (uint32_t k = 0; k < 7; k++)
        f[k] = 0.75 + 0.5 * vh_uniform(7, (uint32_t)lane, 0, 0, k);
    return (struct vh_factors){f[0], f[1], f[2], f[3], f[4], f[5], f[6]};
}

static void weather(const struct trial *t, int day, struct trial_hours *out)
{
    for (int h = 0; h < VH_DAY_HOURS; h++) {
        const double sun = vh_max(0.0, sin(VH_PI * (h - 5.0) / 15.0));
        out->t_c[h] = 17.0 + 7.0 * sun + 3.0 * vh_normal(t->draw, 0, (uint32_t)day, 0, 0);
        out->par[h] = 1500.0 * sun * vh_uniform(t->draw, 0, (uint32_t)day, 0, 1);
        out->co2[h] = 420.0;
    }
}

/* Steps `lanes` members side by side, lane l with the factors of member first + l; wide: by wide
 * registers, where the machine has them. */
static void grow(struct trial *t, size_t lanes, size_t first, bool wide, struct member *out)
{
    struct vh_factors factors[LANES];
    struct vh_fgp fgp;
    struct vh_day day;

    for (size_t l = 0; l < lanes; l++)
        factors[l] = factors_of(first + l);
    t->setup.crop = &t->crop;
    cr_assert(vh_fgp_init(&t->crop, &fgp) == VH_OK);
    struct vh_plant *plant = vh_plant_create(&t->setup, factors, lanes, DAYS);
    cr_assert(plant);
    plant->wide = plant->wide && wide;
    memset(out, 0, lanes * sizeof *out);
    for (int d = 0; d < DAYS; d++) {
        trial_day(t, &fgp, d, &day);
        for (size_t l = 0; l < lanes; l++) {
            const struct vh_acts acts = trial_acts(t, plant, l, d);
            vh_plant_step(plant, l, &day, &acts, &out[l].day[d]);
            if (d % t->pick_every_d == 0)
                out[l].picked[d] = vh_plant_pick(plant, l);
        }
    }
    for (size_t l = 0; l < lanes; l++)
        for (int n = 0; n < 4; n++)
            out[l].truss[n] = vh_plant_truss(plant, l, n + 1);
    vh_plant_free(plant);
}

Test(lanes, a_member_alone_has_the_bits_it_has_beside_seven_others)
{
    struct member *together = malloc(LANES * sizeof *together), *alone = malloc(sizeof *alone);

    cr_assert(together && alone);
    for (size_t c = 0; c < TRIAL_CROPS; c++) {
        struct trial t = trial_usual(trial_crops[c]);
        t.hours = weather;
        t.draw = c;
        t.thin_stage = t.crop.habit.thin_stage_pea;
        t.heads_on = 50;
        t.heads_factor = 1.4;
        t.new_stem_age_d = 15.0;
        t.top_on = 110;
        grow(&t, LANES, 0, true, together);
        for (size_t l = 0; l < LANES; l++) {
            grow(&t, 1, l, l > 0, alone); /* the first without wide registers */
            cr_expect(memcmp(alone, &together[l], sizeof *alone) == 0, "%s, lane %zu",
                      trial_crops[c], l);
        }
        cr_expect(memcmp(&together[0], &together[1], sizeof *alone) != 0,
                  "%s: the members do not differ", trial_crops[c]);
    }
    free(alone);
    free(together);
}

Test(lanes, a_second_run_has_the_same_bits)
{
    struct member *first = malloc(sizeof *first), *second = malloc(sizeof *second);
    struct trial t = trial_usual("tomato-cluster");

    cr_assert(first && second);
    t.hours = weather;
    grow(&t, 1, 3, true, first);
    grow(&t, 1, 3, true, second);
    cr_expect(memcmp(first, second, sizeof *first) == 0);
    free(first);
    free(second);
}
