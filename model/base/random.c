#include "vh_random.h"

#include "vh_math_parts.h"

VH_KERNEL struct vh_philox philox(struct vh_philox c, uint32_t key0, uint32_t key1)
{
    for (int round = 0; round < 10; round++) {
        const uint64_t a = (uint64_t)0xD2511F53u * c.w[0], b = (uint64_t)0xCD9E8D57u * c.w[2];
        c = (struct vh_philox){{(uint32_t)(b >> 32) ^ c.w[1] ^ key0, (uint32_t)b,
                                (uint32_t)(a >> 32) ^ c.w[3] ^ key1, (uint32_t)a}};
        key0 += 0x9E3779B9u;
        key1 += 0xBB67AE85u;
    }
    return c;
}

struct vh_philox vh_philox(struct vh_philox counter, uint32_t key0, uint32_t key1)
{
    return philox(counter, key0, key1);
}

VH_KERNEL double uniform(uint64_t draw, uint32_t member, uint32_t day, uint32_t purpose,
                         uint32_t row)
{
    const struct vh_philox counter = {{day, row, member, purpose}};
    const struct vh_philox r = philox(counter, (uint32_t)draw, (uint32_t)(draw >> 32));
    /* 52 bits and a half: with 53 the largest would round up to 1. Put behind the exponent of 2^52,
     * for wide registers turn no whole numbers into doubles */
    const uint64_t bits = ((uint64_t)r.w[0] << 32 | r.w[1]) >> 12 | 0x4330000000000000u;
    double number;

    memcpy(&number, &bits, sizeof number);
    return (number - 0x1p52 + 0.5) * 0x1p-52;
}

double vh_uniform(uint64_t draw, uint32_t member, uint32_t day, uint32_t purpose, uint32_t row)
{
    return uniform(draw, member, day, purpose, row);
}

double vh_normal(uint64_t draw, uint32_t member, uint32_t day, uint32_t purpose, uint32_t row)
{
    return vh_normal_quantile(vh_uniform(draw, member, day, purpose, row));
}

/* The uniforms of days in a row, and the quantiles of those near the middle. */
VH_KERNEL void days_in_a_row(uint64_t draw, uint32_t member, uint32_t day, uint32_t purpose,
                             uint32_t row, double *restrict u, double *restrict near)
{
    VH_APART
    for (uint32_t d = 0; d < VH_NORMALS; d++)
        u[d] = uniform(draw, member, day + d, purpose, row);
    VH_APART
    for (uint32_t d = 0; d < VH_NORMALS; d++)
        near[d] = vh_quantile_near(u[d] - 0.5);
}

VH_WIDE static void days_in_a_row_wide(uint64_t draw, uint32_t member, uint32_t day,
                                       uint32_t purpose, uint32_t row, double *u, double *near)
{
    days_in_a_row(draw, member, day, purpose, row, u, near);
}

VH_WIDEST static void days_in_a_row_widest(uint64_t draw, uint32_t member, uint32_t day,
                                           uint32_t purpose, uint32_t row, double *u, double *near)
{
    days_in_a_row(draw, member, day, purpose, row, u, near);
}

void vh_normals(uint64_t draw, uint32_t member, uint32_t day, uint32_t purpose, uint32_t row,
                double out[VH_NORMALS])
{
    double u[VH_NORMALS];

    if (vh_can_go_widest())
        days_in_a_row_widest(draw, member, day, purpose, row, u, out);
    else if (vh_can_go_wide())
        days_in_a_row_wide(draw, member, day, purpose, row, u, out);
    else
        days_in_a_row(draw, member, day, purpose, row, u, out);
    for (int d = 0; d < VH_NORMALS; d++)
        if (!(fabs(u[d] - 0.5) <= vh_quantile_near_half_width))
            out[d] = vh_normal_quantile(u[d]);
}
