/* Size classes: the reader's refusals, and shares against GSL's log-normal. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>
#include <gsl/gsl_cdf.h>
#include <gsl/gsl_randist.h>
#include <math.h>
#include <string.h>

#include "vh_grade.h"

#define HEADER "grade,measure,from,to\n"

/* Reads text, expects refusal on `line` with a message that holds `part`. */
static void refused(const char *text, int64_t line, const char *part)
{
    struct vh_messages *m = vh_messages_create();
    struct vh_grades g;

    cr_assert(vh_grades_read_memory(text, strlen(text), "own.csv", &g, m) == VH_BAD_INPUT, "%s",
              text);
    cr_assert(eq(sz, g.grades, 0));
    cr_assert(ge(sz, vh_messages_count(m), 1));
    const struct vh_message *first = vh_messages_at(m, 0);
    cr_assert(eq(str, (char *)first->file, "own.csv"));
    cr_assert(eq(i64, first->line, line), "%s", first->text);
    cr_assert(strstr(first->text, part) != NULL, "%s", first->text);
    vh_messages_free(m);
}

static void read_good(const char *text, struct vh_grades *g)
{
    struct vh_messages *m = vh_messages_create();

    cr_assert(vh_grades_read_memory(text, strlen(text), "own.csv", g, m) == VH_OK);
    cr_assert(eq(sz, vh_messages_count(m), 0));
    vh_messages_free(m);
}

Test(grade, a_table_of_her_own_is_read_with_four_columns)
{
    struct vh_grades g;

    read_good(HEADER "little,mass_g,0,90\nbig,mass_g,80,\n", &g);
    cr_assert(eq(sz, g.grades, 2));
    cr_assert(g.measure == VH_GRADE_MASS_G);
    cr_assert(eq(str, g.grade[1].name, "big"));
    cr_assert(eq(dbl, g.grade[1].from, 80.0));
    cr_assert(isinf(g.grade[1].to));
    cr_assert(eq(sz, vh_grade_find(&g, "big"), 1));
    cr_assert(eq(sz, vh_grade_find(&g, "huge"), 2));
    vh_grades_clear(&g);
}

Test(grade, what_is_wrong_is_said_with_its_line)
{
    refused("grade,size\nx,1\n", 1, "the columns of a table of grades are");
    refused(HEADER, 0, "holds no grade");
    refused(HEADER ",mass_g,1,2\n", 2, "no name");
    refused(HEADER "a,mass_g,1,3\nb,mass_g,1,4\n", 3, "not larger than a above");
    refused(HEADER "a,mass_g,1,3\nb,mass_g,2,3\n", 3, "not larger than a above");
    refused(HEADER "a,mass_g,1,x\n", 2, "to `x` is no size above from");
    refused(HEADER "a,mass_g,1,1\n", 2, "to `1` is no size above from");
    refused(HEADER "a,mass_g,1,2\na,mass_g,2,3\n", 3, "stands twice");
    refused(HEADER "a,weight,1,2\n", 2, "measure `weight`; diameter_mm or mass_g");
    refused(HEADER "a,mass_g,1,2\nb,diameter_mm,2,3\n", 3, "one table goes by one measure");
    refused(HEADER "a,mass_g,small,2\n", 2, "from `small` is no size");
    refused(HEADER "a,mass_g,-1,2\n", 2, "from `-1` is no size");
    refused(HEADER "a,mass_g,2,2\n", 2, "to `2` is no size above from");
    refused(HEADER "a,mass_g,1,\nb,mass_g,2,3\n", 3, "grade a above has no upper limit");
    refused(HEADER "a,mass_g,5,9\nb,mass_g,1,6\n", 3, "go from small to large");
    refused(HEADER "a,mass_g,1,2\nb,mass_g,2.5,3\n", 3, "sizes from 2 to 2.5 belong to no grade");
    refused(HEADER "aaaaaaaaaabbbbbbbbbbccccccccccdddddddddde,mass_g,1,2\n", 2, "too long");
}

Test(grade, all_faults_of_a_table_are_told_in_one_run)
{
    const char *text = HEADER "a,mass_g,x,2\nb,weight,2,3\n";
    struct vh_messages *m = vh_messages_create();
    struct vh_grades g;

    cr_assert(vh_grades_read_memory(text, strlen(text), "own.csv", &g, m) == VH_BAD_INPUT);
    cr_assert(eq(sz, vh_messages_count(m), 2));
    vh_messages_free(m);
}

/* The mass of a class by summing mass x density over it in 20,000 steps (middle of each). */
static double mass_between(double from, double to, double mean, double mu, double s)
{
    double sum = 0.0;
    const int steps = 20000;

    for (int i = 0; i < steps; i++) {
        const double x = from + (to - from) * (i + 0.5) / steps;
        sum += x * gsl_ran_lognormal_pdf(x, mu, s) * (to - from) / steps;
    }
    return sum / mean;
}

Test(grade, shares_are_those_of_an_independent_log_normal)
{
    const struct vh_grade_fruit fruit = {183.7, 0.27, NAN, NAN};
    const double s = sqrt(log(1.0 + 0.27 * 0.27)), mu = log(183.7) - s * s / 2.0;
    struct vh_grade_share share[4];
    struct vh_grades g;

    read_good(HEADER "a,mass_g,100,180\nb,mass_g,170,240\n", &g); /* overlap: b from 170 */
    vh_grade_shares(&g, &fruit, share);
    const double p100 = gsl_cdf_lognormal_P(100, mu, s), p170 = gsl_cdf_lognormal_P(170, mu, s);
    cr_assert(epsilon_eq(dbl, share[0].fruits, p170 - p100, 1e-12));
    cr_assert(epsilon_eq(dbl, share[1].fruits, gsl_cdf_lognormal_P(240, mu, s) - p170, 1e-12));
    cr_assert(epsilon_eq(dbl, share[2].fruits, p100, 1e-12));
    cr_assert(epsilon_eq(dbl, share[3].fruits, gsl_cdf_lognormal_Q(240, mu, s), 1e-12));
    cr_assert(epsilon_eq(dbl, share[0].mass, mass_between(100, 170, 183.7, mu, s), 1e-7));
    cr_assert(epsilon_eq(dbl, share[1].mass, mass_between(170, 240, 183.7, mu, s), 1e-7));
    vh_grades_clear(&g);
}

Test(grade, fruit_without_scatter_lies_in_one_class_and_no_fruit_in_none)
{
    struct vh_grade_fruit fruit = {100.0, 0.0, NAN, NAN};
    struct vh_grade_share share[4];
    struct vh_grades g;

    read_good(HEADER "a,mass_g,50,100\nb,mass_g,100,150\n", &g);
    vh_grade_shares(&g, &fruit, share);
    cr_assert(eq(dbl, share[0].fruits, 0.0));
    cr_assert(eq(dbl, share[1].fruits, 1.0)); /* 100 g has reached the class from 100 g */
    fruit.mass_g = 0.0;
    vh_grade_shares(&g, &fruit, share);
    cr_assert(isnan(share[0].fruits) && isnan(share[3].mass));
    vh_grades_clear(&g);
}
