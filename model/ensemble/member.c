#include "vh_member.h"

#include <stddef.h>
#include <string.h>

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
    OVERLOOKED = 9,
    LOG_OFFSET = 10,
    STRAY = 11,
    UNSTEADY = 12
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
        .unsteady = 1.0,
    };
}

/* Where the factors of a member lie, in the order of enum vh_kept_kind. */
static const size_t place[VH_KEPT_LOG_OFFSET] = {
    [VH_KEPT_LIGHT] = offsetof(struct vh_member, plant.light),
    [VH_KEPT_TRUSS_PACE] = offsetof(struct vh_member, plant.truss_pace),
    [VH_KEPT_FRUIT_PACE] = offsetof(struct vh_member, plant.fruit_pace),
    [VH_KEPT_FRUIT_MASS] = offsetof(struct vh_member, plant.fruit_mass),
    [VH_KEPT_SET] = offsetof(struct vh_member, plant.set),
    [VH_KEPT_STEM_PACE] = offsetof(struct vh_member, plant.stem_pace),
    [VH_KEPT_SUCKER_PACE] = offsetof(struct vh_member, plant.sucker_pace),
    [VH_KEPT_MARKETABLE] = offsetof(struct vh_member, marketable),
};

double vh_member_factor(const struct vh_member *m, enum vh_kept_kind kind)
{
    double factor;

    memcpy(&factor, (const char *)m + place[kind], sizeof factor);
    return factor;
}

void vh_member_set_factor(struct vh_member *m, enum vh_kept_kind kind, double factor)
{
    memcpy((char *)m + place[kind], &factor, sizeof factor);
}

static const struct vh_kept *kept_of(const struct vh_scenario *s, enum vh_kept_kind kind,
                                     size_t planting)
{
    return vh_kept_is_of_house(kind) ? &s->house.kept[kind]
                                     : &s->house.planting[planting].kept[kind];
}

static double cv_of(const struct vh_scenario *s, enum vh_kept_kind kind)
{
    const struct vh_futures_params *p = &s->parameters->futures;

    switch (kind) {
    case VH_KEPT_LIGHT:
        return s->house.light_factor_given ? p->light_given_cv : p->light_cv;
    case VH_KEPT_TRUSS_PACE:
        return p->truss_pace_cv;
    case VH_KEPT_FRUIT_PACE:
        return p->fruit_pace_cv;
    case VH_KEPT_FRUIT_MASS:
        return p->fruit_mass_cv;
    case VH_KEPT_SET:
        return p->set_cv;
    case VH_KEPT_STEM_PACE:
        return p->stem_pace_cv;
    case VH_KEPT_SUCKER_PACE:
        return p->sucker_pace_cv;
    case VH_KEPT_MARKETABLE:
        return p->marketable_cv;
    case VH_KEPT_LOG_OFFSET:
    case VH_KEPT_KINDS:
        break;
    }
    return 0.0;
}

struct vh_prior vh_member_prior(const struct vh_scenario *s, enum vh_kept_kind kind,
                                size_t planting)
{
    const struct vh_kept *kept = kept_of(s, kind, planting);
    const double cv = cv_of(s, kind);

    if (kept->given)
        return (struct vh_prior){kept->mean, kept->sd};
    if (kind == VH_KEPT_LOG_OFFSET)
        return (struct vh_prior){0.0, s->parameters->futures.log_offset_sd_c};
    return (struct vh_prior){1.0, sqrt(vh_log(1.0 + cv * cv))};
}

struct vh_member vh_member_expected(const struct vh_scenario *s, size_t planting)
{
    struct vh_member m = vh_member_mean();

    for (int k = 0; k < VH_KEPT_LOG_OFFSET; k++)
        vh_member_set_factor(&m, (enum vh_kept_kind)k,
                             vh_member_prior(s, (enum vh_kept_kind)k, planting).mean);
    return m;
}

/* A factor that another season taught is centred there; the book's are centred on 1. */
static double drawn(const struct vh_scenario *s, enum vh_kept_kind kind, size_t planting, double z)
{
    const struct vh_kept *kept = kept_of(s, kind, planting);

    return kept->given ? kept->mean * vh_exp(kept->sd * z - kept->sd * kept->sd / 2.0)
                       : vh_lognormal(cv_of(s, kind), z);
}

struct vh_member vh_member_draw(const struct vh_scenario *s, uint64_t draw, size_t member,
                                size_t planting)
{
    static const enum purpose purpose[VH_KEPT_LOG_OFFSET] = {[VH_KEPT_LIGHT] = LIGHT,
                                                             [VH_KEPT_TRUSS_PACE] = TRUSS_PACE,
                                                             [VH_KEPT_FRUIT_PACE] = FRUIT_PACE,
                                                             [VH_KEPT_FRUIT_MASS] = FRUIT_MASS,
                                                             [VH_KEPT_SET] = SET,
                                                             [VH_KEPT_STEM_PACE] = STEM_PACE,
                                                             [VH_KEPT_SUCKER_PACE] = SUCKER_PACE,
                                                             [VH_KEPT_MARKETABLE] = MARKETABLE};
    struct vh_member m = vh_member_mean();

    for (int k = 0; k < VH_KEPT_LOG_OFFSET; k++) {
        const enum vh_kept_kind kind = (enum vh_kept_kind)k;
        const uint32_t row = vh_kept_is_of_house(kind) ? 0 : (uint32_t)planting;
        const double z = vh_normal(draw, (uint32_t)member, 0, (uint32_t)purpose[k], row);
        vh_member_set_factor(&m, kind, drawn(s, kind, planting, z));
    }
    m.overlooked =
        vh_lognormal(s->parameters->futures.overlooked_cv,
                     vh_normal(draw, (uint32_t)member, 0, OVERLOOKED, (uint32_t)planting));
    m.unsteady = vh_lognormal(s->parameters->futures.unsteady_cv,
                              vh_normal(draw, (uint32_t)member, 0, UNSTEADY, (uint32_t)planting));
    m.stray = m.unsteady * s->parameters->futures.stray_sd *
              vh_normal(draw, (uint32_t)member, 0, STRAY, (uint32_t)planting);
    return m;
}

double vh_member_log_offset_c(const struct vh_scenario *s, uint64_t draw, size_t member)
{
    const struct vh_prior prior = vh_member_prior(s, VH_KEPT_LOG_OFFSET, 0);

    if (s->house.climate.last_logged_day == INT64_MIN)
        return 0.0;
    return prior.mean + prior.sd * vh_normal(draw, (uint32_t)member, 0, LOG_OFFSET, 0);
}
