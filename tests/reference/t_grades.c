/* The tables of params/grades against what was published of them. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>
#include <math.h>
#include <stdio.h>

#include "vh_grade.h"

static void read_table(const char *name, struct vh_grades *g)
{
    struct vh_messages *m = vh_messages_create();
    char path[500];

    snprintf(path, sizeof path, "%s/grades/%s.csv", VINEHAND_PARAMS, name);
    cr_assert(vh_grades_read(path, name, NULL, g, m) == VH_OK, "%s: %s", name,
              vh_messages_count(m) ? vh_messages_at(m, 0)->text : "");
    vh_messages_free(m);
}

/* 7 CFR 51.1859, in 32nds of an inch; 0: no upper limit. Least sizes of medium, large and extra
 * large: seen in trade news; the other limits from memory. */
Test(grades, tomatoes_by_diameter_are_the_fractions_of_an_inch_of_the_rule)
{
    static const double limit[][2] = {{68, 73}, {72, 81}, {80, 89}, {88, 0}};
    struct vh_grades g;

    read_table("tomato-us", &g);
    cr_assert(eq(sz, g.grades, 4));
    for (size_t i = 0; i < 4; i++) {
        cr_assert(epsilon_eq(dbl, g.grade[i].from, limit[i][0] / 32 * 25.4, 0.005 + 1e-9));
        if (limit[i][1] > 0.0)
            cr_assert(epsilon_eq(dbl, g.grade[i].to, limit[i][1] / 32 * 25.4, 0.005 + 1e-9));
        else
            cr_assert(isinf(g.grade[i].to));
    }
    vh_grades_clear(&g);
}

/* 7 CFR 51.1903: under 3 oz, 3 to 6, 6 to 10, over 10 oz; an ounce is 28.3495 g. */
Test(grades, tomatoes_by_mass_are_the_ounces_of_the_rule)
{
    static const double ounces[] = {0, 3, 6, 10};
    struct vh_grades g;

    read_table("tomato-us-mass", &g);
    cr_assert(eq(sz, g.grades, 4));
    for (size_t i = 0; i < 4; i++)
        cr_assert(epsilon_eq(dbl, g.grade[i].from, ounces[i] * 28.349523, 0.05));
    vh_grades_clear(&g);
}

/* Grade D of the trade is 47 to 57 mm and 50 to 90 g (AHDB PC 065); m = 4.8e-4 D^3 gives these
 * masses. So fruit all of 50 g or 88 g lies in the class 47-57, fruit of 49 g or 90 g does not. */
Test(grades, masses_of_a_diameter_class_are_those_of_the_trade)
{
    static const struct {
        double mass_g;
        double inside;
    } trial[] = {{49.0, 0.0}, {50.0, 1.0}, {88.0, 1.0}, {90.0, 0.0}};
    struct vh_grade_share share[9];
    struct vh_grades g;

    read_table("tomato-eu", &g);
    cr_assert(eq(sz, g.grades, 7));
    for (size_t i = 0; i < 4; i++) {
        const struct vh_grade_fruit fruit = {trial[i].mass_g, 0.0, 4.8e-4, 3.0};
        vh_grade_shares(&g, &fruit, share);
        cr_assert(eq(dbl, share[vh_grade_find(&g, "47-57")].fruits, trial[i].inside));
    }
    vh_grades_clear(&g);
}

Test(grades, every_table_is_read)
{
    static const char *const name[] = {"tomato-us", "tomato-us-mass", "tomato-eu",
                                       "cucumber-long-eu", "pepper-eu"};
    struct vh_grades g;

    for (size_t i = 0; i < sizeof name / sizeof name[0]; i++) {
        read_table(name[i], &g);
        cr_assert(ge(sz, g.grades, 4));
        vh_grades_clear(&g);
    }
}
