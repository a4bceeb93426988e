/* Shares of grades: they sum to 1, none is below 0, and larger fruit never makes fewer reach a
 * class. Random tables of four classes, random fruit. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>
#include <math.h>

#include "vh_grade.h"

static uint64_t state = 20260714u;

static double between(double low, double high)
{
    state = state * 6364136223846793005u + 1442695040888963407u;
    return low + (high - low) * (double)(state >> 11) * 0x1p-53;
}

static void random_table(struct vh_grade grade[4], struct vh_grades *g)
{
    double from = between(0.0, 40.0);

    for (int i = 0; i < 4; i++) {
        const double next = from + between(1.0, 30.0);
        grade[i] = (struct vh_grade){"x", from, next + between(0.0, 1.0)};
        from = next;
    }
    *g = (struct vh_grades){VH_GRADE_DIAMETER_MM, grade, 4};
}

/* Fruits and mass that reach class i or more. */
static struct vh_grade_share reach(const struct vh_grade_share share[6], int i)
{
    struct vh_grade_share sum = share[5];

    for (int k = i; k < 4; k++) {
        sum.fruits += share[k].fruits;
        sum.mass += share[k].mass;
    }
    return sum;
}

Test(grade_laws, shares_sum_to_1_and_larger_fruit_reaches_more)
{
    struct vh_grade grade[4];
    struct vh_grades g;
    struct vh_grade_share small[6], large[6];

    for (int trial = 0; trial < 2000; trial++) {
        random_table(grade, &g);
        struct vh_grade_fruit fruit = {between(5, 400), between(0, 0.6), between(1e-4, 1e-3),
                                       between(2.5, 3.3)};
        vh_grade_shares(&g, &fruit, small);
        fruit.mass_g *= between(1.0, 1.5);
        vh_grade_shares(&g, &fruit, large);
        struct vh_grade_share sum = reach(small, 0);
        cr_assert(epsilon_eq(dbl, sum.fruits + small[4].fruits, 1.0, 1e-12));
        cr_assert(epsilon_eq(dbl, sum.mass + small[4].mass, 1.0, 1e-12));
        for (int i = 0; i < 6; i++)
            cr_assert(small[i].fruits >= 0.0 && small[i].mass >= 0.0);
        for (int i = 0; i < 4; i++) {
            cr_assert(le(dbl, reach(small, i).fruits - 1e-12, reach(large, i).fruits));
            /* the heavier fruits of a pick hold more than their share of the mass */
            cr_assert(le(dbl, reach(small, i).fruits - 1e-12, reach(small, i).mass));
        }
    }
}
