#include "climate_parts.h"

#include <math.h>

#include "vh_math.h"
#include "vh_sun.h"

#define HOURS_FOR_RANGE 18 /* hours of a day that must be known before its extremes are trusted */
#define SKY_WORDS 3

static double latitude_rad(const struct vh_climate_work *w)
{
    return w->request->latitude_deg * VH_PI / 180.0;
}

static int64_t date_of(const struct vh_climate_work *w, size_t day)
{
    return w->window.first_day + (int64_t)day;
}

double vh_solar_shift_h(const struct vh_climate_work *w, size_t day)
{
    if (isnan(w->request->longitude_deg))
        return 0.0;
    return vh_sun_solar_minus_clock_h(w->request->longitude_deg,
                                      w->request->utc_offset_min / (double)VH_MINUTES_PER_HOUR,
                                      vh_day_of_year(date_of(w, day)));
}

bool vh_sun_is_up(const struct vh_climate_work *w, size_t hour)
{
    const size_t h = hour % VH_HOURS_PER_DAY;

    if (isnan(w->ra_hour_mj[hour]))
        return h >= VH_HOURS_PER_DAY / 4 && h < VH_HOURS_PER_DAY * 3 / 4;
    return w->ra_hour_mj[hour] > 0.0;
}

double vh_day_sine(double t_max_h, double hour, double tmin_c, double tmax_c, double tmax_before_c,
                   double tmin_after_c)
{
    const double half_day_h = VH_HOURS_PER_DAY / 2.0;
    const double top = hour < t_max_h - half_day_h ? tmax_before_c : tmax_c;
    const double bottom = hour > t_max_h ? tmin_after_c : tmin_c;

    return (top + bottom) / 2.0 +
           (top - bottom) / 2.0 * vh_cos(VH_PI * (hour - t_max_h) / half_day_h);
}

/* ---- the sun ---- */

/* A clock hour can reach over solar midnight: what passes 0 or 24 comes round the other side. */
static double ra_between(const struct vh_sun_day *sun, double from_h, double to_h)
{
    const double whole = VH_HOURS_PER_DAY, round = floor(from_h / whole) * whole;
    const double from = from_h - round, to = to_h - round;
    double sum = vh_sun_hours_mj(sun, from, vh_min(to, whole));

    if (to > whole)
        sum += vh_sun_hours_mj(sun, 0.0, to - whole);
    return sum;
}

/* Share of the solar hours from..to that lies between lamps on and off (which may pass midnight).
 */
static double lamps_share(const struct vh_climate_request *r, double from_h, double to_h)
{
    const double whole = VH_HOURS_PER_DAY;
    const double on = r->lamps_on_h;
    const double off = r->lamps_off_h < on ? r->lamps_off_h + whole : r->lamps_off_h;
    double inside = 0.0;

    for (int turn = -2; turn <= 2; turn++)
        inside += vh_max(vh_min(to_h, off + turn * whole) - vh_max(from_h, on + turn * whole), 0.0);
    return vh_clamp(inside / (to_h - from_h), 0.0, 1.0);
}

static void fill_sun(struct vh_climate_work *w, size_t day)
{
    const bool has_latitude = !isnan(w->request->latitude_deg);
    const bool has_lamps = !isnan(w->request->lamps_on_h) && !isnan(w->request->lamps_off_h);
    const double shift = vh_solar_shift_h(w, day);
    struct vh_sun_day sun = {0};

    if (has_latitude) {
        sun = vh_sun_day_of(latitude_rad(w), vh_day_of_year(date_of(w, day)),
                            w->params->solar_constant_mj_m2_min);
        w->ra_mj[day] = vh_sun_day_mj(&sun);
    }
    for (size_t h = 0; h < VH_HOURS_PER_DAY; h++) {
        const double from = (double)h + shift, to = from + 1.0;
        const size_t hour = day * VH_HOURS_PER_DAY + h;
        if (has_latitude)
            w->ra_hour_mj[hour] = ra_between(&sun, from, to);
        if (has_lamps)
            w->lamps_share[hour] = lamps_share(w->request, from, to);
    }
}

/* ---- the day's outside temperature and light ---- */

/* The last spell that holds a day; NULL: none. */
static const struct vh_spell *spell_of(const struct vh_climate_work *w, size_t day)
{
    const struct vh_spell *found = NULL;
    const int64_t date = date_of(w, day);

    for (size_t i = 0; i < w->request->spells; i++) {
        if (date >= w->request->spell[i].from && date <= w->request->spell[i].until)
            found = &w->request->spell[i];
    }
    return found;
}

static double sky_share(const struct vh_house_params *p, int sky)
{
    const double share[SKY_WORDS] = {p->sky_clear, p->sky_mixed, p->sky_dull};

    return sky >= 0 && sky < SKY_WORDS ? share[sky] : p->sky_mixed;
}

struct range {
    double low, high;
};

static bool range_is_known(struct range r)
{
    return !isnan(r.low) && !isnan(r.high);
}

static struct range range_of_hours(const struct vh_hour_sums *s, size_t day)
{
    struct range r = {(double)INFINITY, -(double)INFINITY};
    int known = 0;

    for (size_t h = 0; h < VH_HOURS_PER_DAY; h++) {
        const double t = vh_hour_sums_hour(s, VH_HOURLY_T_OUT, day * VH_HOURS_PER_DAY + h);
        if (isnan(t))
            continue;
        r.low = vh_min(r.low, t);
        r.high = vh_max(r.high, t);
        known++;
    }
    return known >= HOURS_FOR_RANGE ? r : (struct range){(double)NAN, (double)NAN};
}

static struct range range_of_outside(const struct vh_climate_work *w, size_t day)
{
    const struct range r = {vh_hour_sums_day(&w->outside, VH_DAILY_TMIN, day),
                            vh_hour_sums_day(&w->outside, VH_DAILY_TMAX, day)};

    return range_is_known(r) ? r : range_of_hours(&w->outside, day);
}

static struct range range_of_normals(const struct vh_normals *n, int64_t date)
{
    return (struct range){vh_normals_day(n, VH_NORMAL_TMIN, date),
                          vh_normals_day(n, VH_NORMAL_TMAX, date)};
}

/* eq. 50, never above a clear day's eq. 35: a front can give a dull day a wide range */
static double light_of_range(const struct vh_climate_work *w, struct range r, double ra)
{
    return vh_min(vh_sun_from_temperature_mj(w->params->krs_per_sqrt_k, r.low, r.high, ra),
                  (w->params->angstrom_a + w->params->angstrom_b) * ra);
}

static double light_of_sunshine(const struct vh_climate_work *w, size_t day, double sunshine_h)
{
    const int doy = vh_day_of_year(date_of(w, day));

    return vh_sun_from_sunshine_mj(w->params->angstrom_a, w->params->angstrom_b, sunshine_h,
                                   vh_sun_daylight_h(latitude_rad(w), doy), w->ra_mj[day]);
}

static double normal_radiation(const struct vh_climate_work *w, size_t day)
{
    const int64_t date = date_of(w, day);
    const double measured = vh_normals_day(&w->normals, VH_NORMAL_RADIATION, date);
    const double sunshine = vh_normals_day(&w->normals, VH_NORMAL_SUNSHINE, date);
    const struct range range = range_of_normals(&w->normals, date);

    if (!isnan(measured))
        return measured;
    if (!isnan(sunshine))
        return light_of_sunshine(w, day, sunshine);
    if (range_is_known(range))
        return light_of_range(w, range, w->ra_mj[day]);
    return (double)NAN;
}

/* First source that covers the day, without the log's own radiation and without spells. */
static double outlook_radiation(const struct vh_climate_work *w, size_t day)
{
    const double measured = vh_hour_sums_day(&w->outside, VH_DAILY_RADIATION, day);
    const double sunshine = vh_hour_sums_day(&w->outside, VH_DAILY_SUNSHINE, day);
    const struct range logged = range_of_hours(&w->log, day);
    const struct range outside = range_of_outside(w, day);

    if (!isnan(measured))
        return measured;
    if (!isnan(sunshine))
        return light_of_sunshine(w, day, sunshine);
    if (range_is_known(logged))
        return light_of_range(w, logged, w->ra_mj[day]);
    if (range_is_known(outside))
        return light_of_range(w, outside, w->ra_mj[day]);
    const double normal = normal_radiation(w, day);
    if (!isnan(normal) || !w->request->has_roughly)
        return normal;
    return sky_share(w->params, w->request->roughly_sky) * w->ra_mj[day];
}

static void fill_day(struct vh_climate_work *w, size_t day)
{
    const struct vh_spell *spell = spell_of(w, day);
    const int64_t date = date_of(w, day);
    struct range range = range_of_outside(w, day);

    w->outside_known[day] = range_is_known(range);
    if (!range_is_known(range))
        range = range_of_normals(&w->normals, date);
    if (!range_is_known(range))
        range = range_of_normals(&w->roughly, date);
    if (spell && !isnan(spell->day_c) && !isnan(spell->night_c)) {
        range = (struct range){spell->night_c, spell->day_c};
        w->spell_temperature[day] = true;
    }
    w->tmin_c[day] = range.low;
    w->tmax_c[day] = range.high;

    w->radiation_mj[day] = outlook_radiation(w, day);
    if (spell && spell->sky >= 0) {
        w->radiation_mj[day] = sky_share(w->params, spell->sky) * w->ra_mj[day];
        w->spell_sky[day] = true;
    }
}

/* ---- hours ---- */

static double sine_of_day(const struct vh_climate_work *w, size_t day, double solar_hour)
{
    const size_t before = day > 0 ? day - 1 : day;
    const size_t after = day + 1 < w->window.days ? day + 1 : day;
    const double top = isnan(w->tmax_c[before]) ? w->tmax_c[day] : w->tmax_c[before];
    const double bottom = isnan(w->tmin_c[after]) ? w->tmin_c[day] : w->tmin_c[after];

    return vh_day_sine(w->params->t_max_solar_h, solar_hour, w->tmin_c[day], w->tmax_c[day], top,
                       bottom);
}

/* A day's radiation at one of its hours, W m-2, by the extraterrestrial curve. */
static double spread(const struct vh_climate_work *w, size_t hour, double day_mj)
{
    const double ra = w->ra_mj[hour / VH_HOURS_PER_DAY];
    const double share = ra > 0.0 ? w->ra_hour_mj[hour] / ra : isnan(ra) ? ra : 0.0;

    return day_mj * share / (VH_SECONDS_PER_HOUR * VH_PER_MILLION);
}

static double hour_radiation(const struct vh_climate_work *w, size_t hour)
{
    const size_t day = hour / VH_HOURS_PER_DAY;
    const double logged = vh_hour_sums_hour(&w->log, VH_HOURLY_RADIATION_OUT, hour);
    const double logged_day = vh_hour_sums_day(&w->log, VH_DAILY_RADIATION, day);
    const double outside = vh_hour_sums_hour(&w->outside, VH_HOURLY_RADIATION_OUT, hour);

    if (!isnan(logged))
        return logged;
    if (!isnan(logged_day))
        return spread(w, hour, logged_day);
    if (!isnan(outside) && !w->spell_sky[day])
        return outside;
    return spread(w, hour, w->radiation_mj[day]);
}

static double hour_temperature(const struct vh_climate_work *w, size_t hour, double shift_h)
{
    const size_t day = hour / VH_HOURS_PER_DAY;
    const double logged = vh_hour_sums_hour(&w->log, VH_HOURLY_T_OUT, hour);
    const double outside = vh_hour_sums_hour(&w->outside, VH_HOURLY_T_OUT, hour);
    const double middle = (double)(hour % VH_HOURS_PER_DAY) + 0.5 + shift_h;

    if (!isnan(logged))
        return logged;
    if (!isnan(outside) && !w->spell_temperature[day])
        return outside;
    return sine_of_day(w, day, middle);
}

void vh_outlook_fill(struct vh_climate_work *w)
{
    for (size_t day = 0; day < w->window.days; day++) {
        fill_sun(w, day);
        fill_day(w, day);
    }
    for (size_t day = 0; day < w->window.days; day++) { /* whose hours look at the next day too */
        const double shift_h = vh_solar_shift_h(w, day);
        for (size_t hour = day * VH_HOURS_PER_DAY; hour < (day + 1) * VH_HOURS_PER_DAY; hour++) {
            w->r_out_w_m2[hour] = hour_radiation(w, hour);
            w->t_out_c[hour] = hour_temperature(w, hour, shift_h);
        }
    }
}
