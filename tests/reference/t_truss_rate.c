/* T1: how fast a stem starts trusses, against the published equation and its linear relative. */
#include "plant_trial.h"

struct rows {
    struct vh_crop crop;
    int read;
};

static enum vh_status take_rate(void *context, const struct vh_csv_row *row, bool is_header)
{
    struct rows *c = context;
    const double last_digit = 0.0005, linear_share = 0.05;

    if (is_header)
        return VH_OK;
    const double temp_c = trial_number(row, 0);
    const double first = vh_truss_rate_per_d(&c->crop.truss, temp_c, 0.0);
    const double tenth = vh_truss_rate_per_d(&c->crop.truss, temp_c, 10.0);
    const double linear = trial_number(row, 3);

    cr_expect(fabs(first - trial_number(row, 1)) <= last_digit, "%g degC: %.5f, published %s",
              temp_c, first, row->cell[1].text);
    cr_expect(fabs(tenth - trial_number(row, 2)) <= last_digit, "%g degC: %.5f, published %s",
              temp_c, tenth, row->cell[2].text);
    if (temp_c >= c->crop.truss.low_c && temp_c <= c->crop.truss.high_c)
        cr_expect(fabs(linear / first - 1.0) <= linear_share, "%g degC: %.5f, linear %.5f", temp_c,
                  first, linear);
    c->read++;
    return VH_OK;
}

Test(truss_rate, comes_out_to_the_last_digit_and_near_the_linear_form)
{
    struct rows c = {trial_read_crop("tomato-cluster"), 0};

    trial_read_csv("truss-rates.csv", take_rate, &c);
    cr_assert(c.read == 9, "%d rows read", c.read);
}

/* Tap R.F. 2000, PhD thesis Wageningen University, appendix 2.11: 0.13 trusses a day over a season
 * of 275 days at 21 degC. This is what the round type's term was solved for. */
Test(truss_rate, a_season_of_275_days_at_21_degc_has_the_published_mean)
{
    const struct vh_crop crop = trial_read_crop("tomato-cluster");
    const int days = 275;
    const double published_per_d = 0.13, last_digit = 0.005;
    double truss = 0.0;

    for (int d = 0; d < days; d++)
        truss += vh_truss_rate_per_d(&crop.truss, 21.0, truss);
    cr_expect(fabs(truss / days - published_per_d) <= last_digit, "%.4f a day", truss / days);
}

/* Heuvelink 1989, abstract, and Vanthoor B.H.E. 2011, PhD thesis Wageningen University, table 3.1:
 * at a mean of 21 degC 26/16 develops like 22/20. Our bounds: 2 % of trusses, 1 d of ripening. */
Test(truss_rate, days_and_nights_of_one_mean_make_the_same_trusses_and_ripe_days)
{
    const struct trial_square even = {22, 22, 12, 400, 420},
                              other[] = {{26, 18, 12, 400, 420}, {28, 16, 12, 400, 420}};
    struct trial t = trial_usual("tomato-cluster");
    const int truss = 3;

    t.square = even;
    struct trial_result *constant = trial_run(&t);
    const struct vh_truss_view even_truss = vh_plant_truss(constant->plant, 0, truss);
    const double opened = constant->day[t.days - 1].flowering_truss;
    for (size_t i = 0; i < sizeof other / sizeof other[0]; i++) {
        t.square = other[i];
        struct trial_result *r = trial_run(&t);
        const struct vh_truss_view v = vh_plant_truss(r->plant, 0, truss);
        const double trusses = r->day[t.days - 1].flowering_truss / opened;
        const double later_d =
            (v.ripe_first_d - v.opened_d) - (even_truss.ripe_first_d - even_truss.opened_d);
        cr_expect(fabs(trusses - 1.0) <= 0.02, "%g/%g: trusses x %.4f", t.square.day_c,
                  t.square.night_c, trusses);
        cr_expect(fabs(later_d) <= 1.0, "%g/%g: ripe %.2f d later", t.square.day_c,
                  t.square.night_c, later_d);
        trial_free(r);
    }
    trial_free(constant);
}
