#include "vh_member.h"

#include "vh_math.h"
#include "vh_random.h"

/* What a random number of a member is for; never renumbered, so that a draw keeps its futures.
 * Weather and visits have theirs in vh_weather.h and vh_due.h. */
enum purpose {
    LIGHT = 1,
    TRUSS_PACE = 2,
    FRUIT_PACE = 3,
    FRUIT_MASS = 4,
    SET = 5,
    STEM_PACE = 6,
    SUCKER_PACE = 7,
    MARKETABLE = 8,
    OVERLOOKED = 9
};

double vh_lognormal(double cv, double z)
{
    const double variance = vh_log(1.0 + cv * cv);

    return vh_exp(sqrt(variance) * z - variance / 2.0);
}

struct vh_member vh_member_mean(void)
{
    return (struct vh_member){
        .plant = {.light = 1.0,
                  .truss_pace = 1.0,
                  .fruit_pace = 1.0,
                  .fruit_mass = 1.0,
                  .set = 1.0,
                  .stem_pace = 1.0,
                  .sucker_pace = 1.0},
        .marketable = 1.0,
        .overlooked = 1.0,
    };
}

struct vh_member vh_member_draw(const struct vh_scenario *s, uint64_t draw, size_t member,
                                size_t planting)
{
    const struct vh_futures_params *p = &s->parameters->futures;
    const bool is_given = s->house.light_factor_given;
    struct vh_member m = vh_member_mean();
    const struct {
        enum purpose purpose;
        double cv;
        double *factor;
    } drawn[] = {
        {LIGHT, is_given ? p->light_given_cv : p->light_cv, &m.plant.light},
        {TRUSS_PACE, p->truss_pace_cv, &m.plant.truss_pace},
        {FRUIT_PACE, p->fruit_pace_cv, &m.plant.fruit_pace},
        {FRUIT_MASS, p->fruit_mass_cv, &m.plant.fruit_mass},
        {SET, p->set_cv, &m.plant.set},
        {STEM_PACE, p->stem_pace_cv, &m.plant.stem_pace},
        {SUCKER_PACE, p->sucker_pace_cv, &m.plant.sucker_pace},
        {MARKETABLE, p->marketable_cv, &m.marketable},
        {OVERLOOKED, p->overlooked_cv, &m.overlooked},
    };

    for (size_t i = 0; i < sizeof drawn / sizeof drawn[0]; i++) {
        const uint32_t row = drawn[i].purpose == LIGHT ? 0 : (uint32_t)planting;
        *drawn[i].factor = vh_lognormal(
            drawn[i].cv, vh_normal(draw, (uint32_t)member, 0, (uint32_t)drawn[i].purpose, row));
    }
    return m;
}
