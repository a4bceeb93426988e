#include "vh_random.h"

#include "vh_math.h"

struct vh_philox vh_philox(struct vh_philox c, uint32_t key0, uint32_t key1)
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

double vh_uniform(uint64_t draw, uint32_t member, uint32_t day, uint32_t purpose, uint32_t row)
{
    const struct vh_philox counter = {{day, row, member, purpose}};
    const struct vh_philox r = vh_philox(counter, (uint32_t)draw, (uint32_t)(draw >> 32));
    const uint64_t bits = (uint64_t)r.w[0] << 32 | r.w[1];
    /* 52 bits and a half: with 53 the largest would round up to 1 */
    return ((double)(bits >> 12) + 0.5) * 0x1p-52;
}

double vh_normal(uint64_t draw, uint32_t member, uint32_t day, uint32_t purpose, uint32_t row)
{
    return vh_normal_quantile(vh_uniform(draw, member, day, purpose, row));
}
