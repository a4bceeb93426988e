/* A member alone and the same member beside seven others: the same bits. */
#include "../reference/plant_trial.h"
#include "vh_plant_state.h"
#include "vh_random.h"

enum { DAYS = 140 };

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

static struct vh_plant *plant_of(struct trial *t, size_t lanes, size_t first,
                                 enum vh_registers most)
{
    struct vh_factors factors[VH_LANES];
    struct vh_plant_setup setup[VH_LANES];

    for (size_t l = 0; l < lanes; l++) {
        factors[l] = factors_of(first + l);
        setup[l] = t->setup;
        setup[l].crop = &t->crop;
        setup[l].seedling_leaves += 0.3 * (double)(first + l);
    }
    struct vh_plant *plant = vh_plant_create(setup, factors, lanes, DAYS);
    cr_assert(plant);
    if (plant->registers > most) /* where the machine has them */
        plant->registers = most;
    return plant;
}

/* Each has weather of its own; they are picked on days of their own. */
static void run(struct trial *t, struct vh_plant *plant, size_t lanes, size_t first, int from,
                int until, struct member *out)
{
    struct vh_day own[VH_LANES];
    const struct vh_day *day[VH_LANES];
    struct vh_plant_day account[VH_LANES];
    struct vh_acts acts[VH_LANES];
    struct vh_picked picked[VH_LANES];
    bool picks[VH_LANES];
    struct vh_fgp fgp;

    cr_assert(vh_fgp_init(&t->crop, &fgp) == VH_OK);
    for (int d = from; d < until; d++) {
        for (size_t l = 0; l < lanes; l++) {
            const int member = (int)(first + l);
            t->draw = (uint64_t)member / 3;
            trial_day(t, &fgp, d, &own[l]);
            day[l] = &own[l];
            acts[l] = trial_acts(t, plant, l, d);
            acts[l].by_bees = member % 2 == 0;
            for (int k = 0; k < VH_OPEN_MOST; k++)
                acts[l].thin_stage[k] *= (d + member) % 3 == 0 ? 0.0 : 1.0;
            acts[l].suckers_pulled *= member % 4 == 1 ? 0.5 : 1.0;
            picks[l] = (d + member) % t->pick_every_d == 0;
        }
        vh_plant_step_lanes(plant, day, acts, account);
        vh_plant_pick_lanes(plant, picks, picked);
        for (size_t l = 0; l < lanes; l++) {
            out[l].day[d] = account[l];
            out[l].picked[d] = picked[l];
        }
    }
    for (size_t l = 0; l < lanes; l++)
        for (int n = 0; n < 4; n++)
            out[l].truss[n] = vh_plant_truss(plant, l, n + 1);
}

static void grow(struct trial *t, size_t lanes, size_t first, enum vh_registers most,
                 struct member *out)
{
    struct vh_plant *plant = plant_of(t, lanes, first, most);

    memset(out, 0, lanes * sizeof *out);
    run(t, plant, lanes, first, 0, DAYS, out);
    vh_plant_free(plant);
}

static struct trial full_trial(const char *crop)
{
    struct trial t = trial_usual(crop);

    t.hours = weather;
    t.thin_stage = t.crop.habit.thin_stage_pea;
    t.heads_on = 50;
    t.heads_factor = 1.4;
    t.new_stem_age_d = crop[0] == 't' ? -12.0 : 15.0; /* to flower later, or in flower */
    t.top_on = 110;
    return t;
}

Test(lanes, a_member_alone_has_the_bits_it_has_beside_seven_others)
{
    struct member *together = malloc(VH_LANES * sizeof *together), *alone = malloc(sizeof *alone);

    cr_assert(together && alone);
    for (size_t c = 0; c < TRIAL_CROPS; c++) {
        struct trial t = full_trial(trial_crops[c]);
        for (enum vh_registers r = VH_BY_ONE; r <= VH_BY_EIGHT; r++) {
            grow(&t, VH_LANES, 0, r, together);
            for (size_t l = 0; l < VH_LANES; l++) {
                grow(&t, 1, l, l > 0 ? VH_BY_EIGHT : VH_BY_ONE, alone);
                cr_expect(memcmp(alone, &together[l], sizeof *alone) == 0, "%s, lane %zu, %d",
                          trial_crops[c], l, (int)r);
            }
        }
        cr_expect(memcmp(&together[0], &together[1], sizeof *alone) != 0,
                  "%s: the members do not differ", trial_crops[c]);
    }
    free(alone);
    free(together);
}

/* Standing crops begin on days of their own: each is run alone first, so many days, then beside
 * others. */
Test(lanes, a_member_that_was_alone_at_first_goes_on_as_if_it_still_were)
{
    struct member *together = calloc(VH_LANES, sizeof *together), *alone = malloc(sizeof *alone);

    cr_assert(together && alone);
    for (size_t c = 0; c < TRIAL_CROPS; c++) {
        struct trial t = full_trial(trial_crops[c]);
        struct vh_plant *plant = plant_of(&t, VH_LANES, 0, VH_BY_EIGHT);
        for (size_t l = 0; l < VH_LANES; l++) {
            struct vh_plant *before = plant_of(&t, 1, l, VH_BY_EIGHT);
            run(&t, before, 1, l, 40 - 5 * (int)l, 40, &together[l]);
            vh_plant_take_in(plant, l, before);
            vh_plant_free(before);
        }
        run(&t, plant, VH_LANES, 0, 40, DAYS, together);
        vh_plant_free(plant);
        for (size_t l = 0; l < VH_LANES; l++) {
            memset(alone, 0, sizeof *alone);
            plant = plant_of(&t, 1, l, VH_BY_EIGHT);
            run(&t, plant, 1, l, 40 - 5 * (int)l, DAYS, alone);
            cr_expect(memcmp(alone, &together[l], sizeof *alone) == 0, "%s, lane %zu",
                      trial_crops[c], l);
            vh_plant_free(plant);
        }
        memset(together, 0, VH_LANES * sizeof *together);
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
    grow(&t, 1, 3, VH_BY_EIGHT, first);
    grow(&t, 1, 3, VH_BY_EIGHT, second);
    cr_expect(memcmp(first, second, sizeof *first) == 0);
    free(first);
    free(second);
}
