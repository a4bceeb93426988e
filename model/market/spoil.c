#include "vh_spoil.h"

#include "vh_math.h"

static double known_or(double value, double otherwise)
{
    return isnan(value) ? otherwise : value;
}

static double cracked(const struct vh_spoil_params *p, double ratio)
{
    const double over = vh_max(0.0, known_or(ratio, 0.0) - p->crack_from);

    return vh_clamp(p->crack_share * (1.0 + p->crack_more * over / p->crack_width), 0.0,
                    p->crack_most);
}

static double misshapen(const struct vh_spoil_params *p, const struct vh_spoil_day *day)
{
    return vh_clamp(p->misshapen_share + p->misshapen_cold * known_or(day->cold_nights, 0.0) +
                        p->misshapen_bees * known_or(day->bees, 0.0),
                    0.0, 1.0);
}

static double end_rot(const struct vh_spoil_params *p, const struct vh_spoil_day *day)
{
    const double hot_k =
        known_or(day->hot_k, 0.0) + p->rot_dull_more * known_or(day->hot_after_dull_k, 0.0);
    const double stronger = known_or(day->feed_ec_ms_cm, p->rot_ec_ref_ms_cm) - p->rot_ec_ref_ms_cm;

    return vh_clamp((p->rot_share + p->rot_per_k * hot_k) *
                        vh_max(0.0, 1.0 + p->rot_per_ec * stronger),
                    0.0, p->rot_most);
}

/* A log-normal of a mean and a coefficient of variation. */
struct bell {
    double mean, middle, s; /* middle: of the logarithm */
};

static struct bell bell_of(double mean, double cv)
{
    const double variance = vh_log(1.0 + cv * cv);

    return (struct bell){mean, vh_log(mean) - 0.5 * variance, sqrt(variance)};
}

/* The integral from 0 to x of P(L < t) dt, which is the mean of max(0, x - L):
 *     x Phi(z) - mean Phi(z - s),  z = (log x - middle)/s */
static double past(const struct bell *b, double x)
{
    if (!(x > 0.0))
        return 0.0;
    if (!(b->s > 0.0))
        return vh_max(0.0, x - b->mean);
    const double z = (vh_log(x) - b->middle) / b->s;
    return vh_max(0.0, x * vh_normal_cdf(z) - b->mean * vh_normal_cdf(z - b->s));
}

static double overripe(const struct vh_spoil_params *p, const struct vh_spoil_day *day)
{
    if (isnan(day->red_wait_d) || !(day->gap_d > 0.0) || !(p->hang_d > 0.0))
        return 0.0;
    const struct bell hang = bell_of(p->hang_d, p->hang_cv);
    const double longest = day->gap_d - day->red_wait_d, shortest = -day->red_wait_d;

    return vh_clamp((past(&hang, longest) - past(&hang, shortest)) / day->gap_d, 0.0, 1.0);
}

static double oversize(const struct vh_spoil_day *day)
{
    if (!(day->mass_g > 0.0) || !(day->largest_g > 0.0) || day->largest_g == VH_ENDLESS)
        return 0.0;
    if (!(day->mass_cv > 0.0))
        return day->mass_g > day->largest_g ? 1.0 : 0.0;
    const struct bell mass = bell_of(day->mass_g, day->mass_cv);
    const double z = (vh_log(day->largest_g) - mass.middle) / mass.s;
    return 1.0 - vh_normal_cdf(z - mass.s);
}

void vh_spoil_shares_of(const struct vh_spoil_params *p, const struct vh_spoil_day *day,
                        struct vh_spoil_shares *out)
{
    *out = (struct vh_spoil_shares){
        .cracked = cracked(p, day->ratio),
        .misshapen = misshapen(p, day),
        .end_rot = end_rot(p, day),
        .overripe = overripe(p, day),
        .oversize = oversize(day),
    };
}

double vh_spoil_total(const struct vh_spoil_shares *s)
{
    return 1.0 - (1.0 - s->cracked) * (1.0 - s->misshapen) * (1.0 - s->end_rot) *
                     (1.0 - s->overripe) * (1.0 - s->oversize);
}
