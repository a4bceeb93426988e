#include "vh_grade.h"

#include <string.h>

#include "vh_math.h"

size_t vh_grade_find(const struct vh_grades *g, const char *name)
{
    size_t i = 0;

    while (i < g->grades && strcmp(g->grade[i].name, name) != 0)
        i++;
    return i;
}

static double limit_g(const struct vh_grades *g, const struct vh_grade_fruit *fruit, double limit)
{
    if (g->measure == VH_GRADE_MASS_G || !(limit > 0.0) || limit == VH_ENDLESS)
        return limit;
    return fruit->mass_a_g * vh_pow(limit, fruit->mass_exponent);
}

/* Share below a size, of the fruits and of the mass. */
static struct vh_grade_share below(const struct vh_grades *g, const struct vh_grade_fruit *fruit,
                                   double limit)
{
    const double x = limit_g(g, fruit, limit);
    const double variance = vh_log(1.0 + fruit->mass_cv * fruit->mass_cv), s = sqrt(variance);

    if (!(x > 0.0))
        return (struct vh_grade_share){0.0, 0.0};
    if (x == VH_ENDLESS)
        return (struct vh_grade_share){1.0, 1.0};
    if (!(s > 0.0)) /* all alike: a fruit just at the limit has reached it */
        return fruit->mass_g < x ? (struct vh_grade_share){1.0, 1.0}
                                 : (struct vh_grade_share){0.0, 0.0};
    const double z = (vh_log(x / fruit->mass_g) + 0.5 * variance) / s;
    return (struct vh_grade_share){vh_normal_cdf(z), vh_normal_cdf(z - s)};
}

void vh_grade_shares(const struct vh_grades *g, const struct vh_grade_fruit *fruit,
                     struct vh_grade_share *share)
{
    if (!(fruit->mass_g > 0.0) || g->grades == 0) {
        for (size_t i = 0; i < g->grades + 2; i++)
            share[i] = (struct vh_grade_share){VH_UNKNOWN, VH_UNKNOWN};
        return;
    }
    struct vh_grade_share from = below(g, fruit, g->grade[0].from);

    share[g->grades] = from;
    for (size_t i = 0; i < g->grades; i++) {
        const double end = i + 1 < g->grades ? g->grade[i + 1].from : g->grade[i].to;
        const struct vh_grade_share to = below(g, fruit, end);
        share[i] = (struct vh_grade_share){to.fruits - from.fruits, to.mass - from.mass};
        from = to;
    }
    share[g->grades + 1] = (struct vh_grade_share){1.0 - from.fruits, 1.0 - from.mass};
}
