/* Random numbers: known answers of the generator, range, independence of order, moments. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>
#include <math.h>

#include "vh_math.h"
#include "vh_random.h"

struct known {
    struct vh_philox counter;
    uint32_t key0, key1;
    struct vh_philox out;
};

/* Source: rows "philox4x32 10" of tests/kat_vectors, Random123 1.14 (Salmon and others 2011). */
static const struct known known[] = {
    {{{0, 0, 0, 0}}, 0, 0, {{0x6627e8d5u, 0xe169c58du, 0xbc57ac4cu, 0x9b00dbd8u}}},
    {{{0xffffffffu, 0xffffffffu, 0xffffffffu, 0xffffffffu}},
     0xffffffffu,
     0xffffffffu,
     {{0x408f276du, 0x41c83b0eu, 0xa20bc7c6u, 0x6d5451fdu}}},
    {{{0x243f6a88u, 0x85a308d3u, 0x13198a2eu, 0x03707344u}},
     0xa4093822u,
     0x299f31d0u,
     {{0xd16cfe09u, 0x94fdccebu, 0x5001e420u, 0x24126ea1u}}},
};

Test(random, the_published_known_answers_come_out)
{
    for (size_t k = 0; k < sizeof known / sizeof *known; k++) {
        const struct vh_philox r = vh_philox(known[k].counter, known[k].key0, known[k].key1);
        for (int i = 0; i < 4; i++) {
            cr_expect(r.w[i] == known[k].out.w[i], "row %zu word %d: %08x", k, i, r.w[i]);
        }
    }
}

/* The place of each argument is fixed: a change would give every run another weather. */
Test(random, a_uniform_is_the_first_two_words_at_counter_day_row_member_purpose)
{
    const uint64_t draw = 0x299f31d0a4093822u;
    const double u = vh_uniform(draw, 0x13198a2eu, 0x243f6a88u, 0x03707344u, 0x85a308d3u);
    /* 0xd16cfe0994fdcceb of the third known answer: its upper 52 bits and a half */
    cr_expect(u == ((double)0xd16cfe0994fdcu + 0.5) * 0x1p-52, "%a", u);
}

Test(random, each_argument_gives_another_number)
{
    const double u[] = {
        vh_uniform(1, 2, 3, 4, 5),
        vh_uniform(2, 2, 3, 4, 5),
        vh_uniform(1, 3, 3, 4, 5),
        vh_uniform(1, 2, 4, 4, 5),
        vh_uniform(1, 2, 3, 5, 5),
        vh_uniform(1, 2, 3, 4, 6),
        vh_uniform(1 + (1ull << 32), 2, 3, 4, 5),
        vh_uniform(1, 3, 2, 4, 5),
    };
    for (size_t i = 0; i < sizeof u / sizeof *u; i++) {
        for (size_t k = 0; k < i; k++) {
            cr_expect(u[i] != u[k], "%zu and %zu", i, k);
        }
    }
    cr_expect(vh_uniform(1, 2, 3, 4, 5) == u[0], "the same again, whatever was drawn between");
}

/* Bounds: 4.5 standard errors of each moment of independent draws, n = 400000. */
Test(random, uniforms_and_normals_have_the_moments_of_their_distributions)
{
    enum { N = 400000 };
    double mean = 0, square = 0, lag = 0, before = 0, z1 = 0, z2 = 0, z3 = 0, z4 = 0;
    for (int i = 0; i < N; i++) {
        const uint32_t member = (uint32_t)i % 200, day = (uint32_t)i / 200;
        const double u = vh_uniform(7, member, day, 1, 0) - 0.5;
        const double z = vh_normal(7, member, day, 2, 0);
        cr_assert(u > -0.5 && u < 0.5);
        mean += u / N;
        square += u * u / N;
        lag += u * before / N;
        before = u;
        z1 += z / N;
        z2 += z * z / N;
        z3 += z * z * z / N;
        z4 += z * z * z * z / N;
    }
    const double width = 4.5 / sqrt(N);
    cr_expect(fabs(mean) < width * sqrt(1.0 / 12.0), "mean %g", mean);
    cr_expect(fabs(square - 1.0 / 12.0) < width * sqrt(1.0 / 180.0), "variance %g", square);
    cr_expect(fabs(lag) < width / 12.0, "lag %g", lag);
    cr_expect(fabs(z1) < width, "mean %g", z1);
    cr_expect(fabs(z2 - 1.0) < width * sqrt(2.0), "variance %g", z2);
    cr_expect(fabs(z3) < width * sqrt(15.0), "third moment %g", z3);
    cr_expect(fabs(z4 - 3.0) < width * sqrt(96.0), "fourth moment %g", z4);
}

Test(random, a_normal_is_the_quantile_of_the_uniform)
{
    for (uint32_t i = 0; i < 1000; i++) {
        cr_expect(vh_normal(3, i, 10, 1, 2) == vh_normal_quantile(vh_uniform(3, i, 10, 1, 2)));
    }
}

/* Near the middle and in the tails, over the turn of the count of days. */
Test(random, normals_of_days_in_a_row_are_those_of_each_day)
{
    for (uint32_t first = 0; first < 20000; first += 97) {
        const uint32_t day = first - 3;
        double z[VH_NORMALS];
        vh_normals(7, 11, day, 100, first % 5, z);
        for (uint32_t d = 0; d < VH_NORMALS; d++)
            cr_expect(z[d] == vh_normal(7, 11, day + d, 100, first % 5), "day %u", day + d);
    }
}
