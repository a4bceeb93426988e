/* Gross photosynthesis of a canopy against quadrature over depth of the leaf's own curve. */
#include "plant_trial.h"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_integration.h>

/* The leaf's curve, written here from its equations and not taken from the model:
 * rate = a i Pm/(a i + Pm), i = K I exp(-K depth)/(1 - m) [Acock et al. 1978, J. Exp. Bot.
 * 29:815-827]; Pm = tau C f(T); a = a0 (C - G)/(C + 2 G) [Farquhar et al. 1980, Planta 149:78-90;
 * from memory]. */
struct leaf {
    double alpha, pm, light, k, m;
};

static struct leaf leaf_of(const struct vh_light_params *p, double t_c, double par, double co2)
{
    const double c = fmin(co2, p->co2_cap_ppm), from = t_c - p->gamma_ref_c;
    const double g = fmax(p->gamma_least_ppm,
                          p->gamma0_ppm + p->gamma1_ppm_k * from + p->gamma2_ppm_k2 * from * from);
    const double up = (t_c - p->t1_c) / (p->t2_c - p->t1_c);
    const double down = (p->t4_c - t_c) / (p->t4_c - p->t3_c);
    const double share = fmax(0.0, fmin(1.0, fmin(up, down)));

    return (struct leaf){.alpha = c > g ? p->alpha0 * (c - g) / (c + 2.0 * g) : 0.0,
                         .pm = p->tau_umol_m2_s_ppm * c * share,
                         .light = (1.0 - p->reflected) * par,
                         .k = p->extinction,
                         .m = p->leaf_transmission};
}

static double leaf_rate(double depth, void *context)
{
    const struct leaf *l = context;
    const double i = l->k * l->light * exp(-l->k * depth) / (1.0 - l->m);

    return l->alpha * i * l->pm / (l->alpha * i + l->pm);
}

/* Lit from both sides: what passes the canopy comes back from the floor in part and fades upwards.
 */
struct both_sides {
    struct leaf leaf;
    double floor, lai;
};

static double lit_from_both_sides(double depth, void *context)
{
    const struct both_sides *b = context;
    const double k = b->leaf.k, up = b->floor * exp(-k * b->lai) * exp(-k * (b->lai - depth));
    const double i = k * b->leaf.light * (exp(-k * depth) + up) / (1.0 - b->leaf.m);

    return b->leaf.alpha * i * b->leaf.pm / (b->leaf.alpha * i + b->leaf.pm);
}

static double by_quadrature(struct leaf l, double lai)
{
    double sum = 0.0, error;
    gsl_integration_workspace *w = gsl_integration_workspace_alloc(500);
    gsl_function f = {leaf_rate, &l};

    if (l.alpha > 0.0 && l.pm > 0.0 && l.light > 0.0 && lai > 0.0)
        cr_assert(gsl_integration_qag(&f, 0.0, lai, 0.0, 1e-12, 500, GSL_INTEG_GAUSS61, w, &sum,
                                      &error) == GSL_SUCCESS);
    gsl_integration_workspace_free(w);
    return sum;
}

/* A canopy's hour, umol CO2 m-2 s-1, lit `light` times as strongly: 30 g CH2O per mol CO2. */
static double ours_umol_m2_s(const struct vh_light_params *p, double t_c, double par, double co2,
                             double light, double passed)
{
    const struct vh_leaf_hours lit = trial_lit_hour(p, t_c, par, co2);
    return vh_light_day_g_m2(p, &lit, light, passed, VH_BY_ONE) / (30e-6 * 3600.0);
}

static void compare(const struct vh_light_params *p, double t_c, double par, double co2, double lai,
                    double *worst)
{
    const double relative = 1e-8;
    const double ours = ours_umol_m2_s(p, t_c, par, co2, 1.0, exp(-p->extinction * lai));
    const double exact = by_quadrature(leaf_of(p, t_c, par, co2), lai);

    cr_expect(fabs(ours - exact) <= relative * exact,
              "%g degC, %g umol, %g ppm, LAI %g: %.12g, quadrature %.12g", t_c, par, co2, lai, ours,
              exact);
    if (exact > 0.0)
        *worst = fmax(*worst, fabs(ours / exact - 1.0));
}

Test(photosynthesis, a_canopy_is_the_sum_of_its_leaves_over_depth)
{
    static const double temp[] = {-5, 5.9, 6.1, 10, 14, 20, 25, 28, 33, 39.9, 40, 45};
    static const double par[] = {0, 0.5, 10, 100, 400, 1000, 2000};
    static const double co2[] = {30, 100, 250, 420, 800, 1000, 1500, 2000};
    static const double lai[] = {0, 0.01, 0.3, 1, 2.5, 4, 8};
    double worst = 0.0;
    int compared = 0;

    gsl_set_error_handler_off();
    for (size_t crop = 4; crop < TRIAL_CROPS; crop++) { /* tomatoes have one K */
        const struct vh_crop c = trial_read_crop(trial_crops[crop]);
        for (size_t t = 0; t < sizeof temp / sizeof temp[0]; t++)
            for (size_t i = 0; i < sizeof par / sizeof par[0]; i++)
                for (size_t k = 0; k < sizeof co2 / sizeof co2[0]; k++)
                    for (size_t l = 0; l < sizeof lai / sizeof lai[0]; l++, compared++)
                        compare(&c.light, temp[t], par[i], co2[k], lai[l], &worst);
    }
    cr_expect(compared == (TRIAL_CROPS - 4) * 12 * 7 * 8 * 7);
    cr_expect(worst > 0.0);
}

/* The day's sum in grams: 30 g CH2O per mol CO2, 3600 s an hour. */
Test(photosynthesis, a_day_is_the_sum_of_its_hours_in_grams)
{
    const struct vh_crop crop = trial_read_crop("tomato-cluster");
    double par[VH_DAY_HOURS], temp_c[VH_DAY_HOURS], co2[VH_DAY_HOURS];
    struct vh_leaf_hours hours;
    /* the light from the floor is reckoned as if it came with the rest [vanthoor2011 eq. 9.19] */
    const double floor = 1.0 + 0.5 * exp(-crop.light.extinction * 3.0);
    double exact = 0.0;

    gsl_set_error_handler_off();
    for (size_t h = 0; h < VH_DAY_HOURS; h++) {
        par[h] = fmax(0.0, 1200.0 * sin(VH_PI * ((double)h - 6.0) / 12.0));
        temp_c[h] = 16.0 + 0.4 * (double)h;
        co2[h] = 420.0;
        exact += by_quadrature(leaf_of(&crop.light, temp_c[h], floor * par[h], co2[h]), 3.0) *
                 30e-6 * 3600.0;
    }
    vh_light_leaf_hours(&crop.light, temp_c, par, co2, VH_BY_ONE, &hours);
    const double ours = trial_canopy_g_m2(&crop.light, &hours, 3.0);
    cr_expect(fabs(ours / exact - 1.0) <= 1e-8, "%.12g g, quadrature %.12g", ours, exact);
}

/* Taking the floor's light as if it came with the rest puts it where leaves are brighter. */
Test(photosynthesis, light_from_the_floor_is_worth_no_less_than_reckoned_and_at_most_5_percent_more)
{
    static const double par[] = {10, 100, 400, 1000, 2000}, lai[] = {0.3, 1, 2.5, 4, 8};
    const struct vh_crop crop = trial_read_crop("tomato-cluster");
    double worst = 0.0;

    gsl_integration_workspace *w = gsl_integration_workspace_alloc(500);
    for (size_t i = 0; i < 5; i++)
        for (size_t l = 0; l < 5; l++) {
            const double passed = exp(-crop.light.extinction * lai[l]);
            const double ours = ours_umol_m2_s(&crop.light, 22.0, par[i], 420.0,
                                               1.0 + crop.light.floor_reflected * passed, passed);
            struct both_sides b = {leaf_of(&crop.light, 22.0, par[i], 420.0),
                                   crop.light.floor_reflected, lai[l]};
            gsl_function f = {lit_from_both_sides, &b};
            double exact, error;
            gsl_integration_qag(&f, 0.0, lai[l], 0.0, 1e-12, 500, GSL_INTEG_GAUSS61, w, &exact,
                                &error);
            const double more = exact / ours - 1.0;
            cr_expect(more >= 0.0, "%g umol, LAI %g: %.4f", par[i], lai[l], more);
            worst = fmax(worst, more);
        }
    gsl_integration_workspace_free(w);
    cr_expect(worst <= 0.05 && worst > 0.0, "worst %.4f", worst);
}
