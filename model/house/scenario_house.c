/* [house] and the single numbers of [climate] into the house. */
#include "scenario_parts.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "vh_text.h"

/* Where the sun stays up or down for days the daily course of light is not ours: FAO-56 eq. 25 has
 * no sunset there. 66.5 degrees is the polar circle; half a degree is left for the sun's width. */
#define POLAR_DEG 66.0
#define MINUTES_PER_HOUR 60.0
#define OFFSET_STEP_MIN 15.0 /* all zones of standard time lie on quarters of an hour */
#define CURRENCY_BYTES_MOST 8
#define DEG_PER_HOUR 15.0 /* of longitude */

static double given_or(const struct vh_given *g, double otherwise)
{
    return g->good ? g->number : otherwise;
}

static void fail_at(struct vh_reading *r, const struct vh_given *g, const char *text)
{
    vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_value(r, g->at->value), "%s", text));
}

/* The share of light let through, given one way or the other. */
static void fill_cover(struct vh_reading *r, const struct vh_raw_house *raw)
{
    const struct vh_house_params *p = &r->scenario->house_params;
    const double share[] = {p->cover_glass, p->cover_film_single, p->cover_film_double,
                            p->cover_polycarbonate};
    static const char *const row[] = {"cover.glass", "cover.film_single", "cover.film_double",
                                      "cover.polycarbonate"};
    const int film_double = 2;
    struct vh_climate_request *c = &r->scenario->house.climate_request;

    c->cover_transmission = share[film_double];
    if (raw->cover.at && raw->cover_transmission.at) {
        vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_key(r, raw->cover_transmission.at),
                            "`cover_transmission` and `cover` on line %lld say the same; keep one"
                            " of them",
                            (long long)raw->cover.at->line));
        return;
    }
    if (raw->cover.good)
        c->cover_transmission = share[raw->cover.word];
    else if (raw->cover_transmission.good)
        c->cover_transmission = raw->cover_transmission.number;
    else
        vh_default_word_used(r, "house.cover", NULL, "film-double", "assumed");
    if (!raw->cover_transmission.good)
        vh_default_used(r, "house.cover_transmission", NULL, &r->scenario->house_rows,
                        row[raw->cover.good ? raw->cover.word : film_double]);
}

/* No clock of a country is set this far from its sun; a logger may run on 0. */
static void check_clock(struct vh_reading *r, const struct vh_raw_house *raw, double sun_h,
                        double clock_h)
{
    const double most_h = r->scenario->house_params.doubt_clock_h, day_h = 24.0;

    if (clock_h == 0.0 || fabs(remainder(sun_h - clock_h, day_h)) <= most_h)
        return;
    vh_warn(r->messages, vh_at_value(r, raw->longitude_deg.at->value),
            "the clock of `utc_offset_h` on line %lld is %.0f h from the sun at this longitude;"
            " west is negative in both, as in -72.6 and -5",
            (long long)raw->utc_offset_h.at->line, fabs(remainder(sun_h - clock_h, day_h)));
}

static void fill_place(struct vh_reading *r, const struct vh_raw_house *raw)
{
    struct vh_climate_request *c = &r->scenario->house.climate_request;
    static const enum vh_clock_rule rule[] = {VH_CLOCK_STANDARD, VH_CLOCK_US, VH_CLOCK_EU,
                                              VH_CLOCK_AU, VH_CLOCK_NZ};

    c->latitude_deg = given_or(&raw->latitude_deg, (double)NAN);
    if (raw->latitude_deg.good && fabs(c->latitude_deg) > POLAR_DEG)
        fail_at(r, &raw->latitude_deg,
                "polar day and night are not modelled; `latitude_deg` must lie between -66 and 66");
    c->longitude_deg = given_or(&raw->longitude_deg, (double)NAN);
    double offset_min = given_or(&raw->utc_offset_h, 0.0) * MINUTES_PER_HOUR;
    if (!raw->utc_offset_h.good && raw->longitude_deg.good)
        offset_min = floor(c->longitude_deg / DEG_PER_HOUR + 0.5) * MINUTES_PER_HOUR;
    if (raw->utc_offset_h.good && fmod(offset_min, OFFSET_STEP_MIN) != 0.0)
        fail_at(r, &raw->utc_offset_h,
                "`utc_offset_h` must be hours and quarters of an hour, as in -5 or 5.75");
    c->utc_offset_min = (int)offset_min;
    if (raw->utc_offset_h.good && raw->longitude_deg.good)
        check_clock(r, raw, c->longitude_deg / DEG_PER_HOUR, offset_min / MINUTES_PER_HOUR);
    if (!raw->utc_offset_h.at && r->root.climate.log.at) {
        char text[16];
        snprintf(text, sizeof text, "%d", c->utc_offset_min / (int)MINUTES_PER_HOUR);
        vh_default_word_used(r, "house.utc_offset_h", NULL, text,
                             raw->longitude_deg.good ? "derived" : "assumed");
    }
    if (!raw->log_daylight_saving.at && r->root.climate.log.at)
        vh_default_word_used(r, "house.log_daylight_saving", NULL, "none", "assumed");
    c->log_clock =
        raw->log_daylight_saving.good ? rule[raw->log_daylight_saving.word] : VH_CLOCK_STANDARD;
}

/* A sign or a short word: it stands before or behind every amount of money. */
static void fill_currency(struct vh_reading *r, const struct vh_given *currency)
{
    size_t at;

    if (!currency->good)
        return;
    if (strlen(currency->text) > CURRENCY_BYTES_MOST || strpbrk(currency->text, "\t\n\r,;\"") ||
        vh_text_check(currency->text, strlen(currency->text), &at) != VH_TEXT_CLEAN)
        fail_at(r, currency, "`currency` is no sign of money; write a short one, as in \"USD\"");
    else
        r->scenario->house.currency = vh_reading_copy(r, currency->text);
}

void vh_scenario_fill_house(struct vh_reading *r)
{
    const struct vh_raw_house *raw = &r->root.house;
    struct vh_house *h = &r->scenario->house;

    h->today = r->scenario->options.today;
    h->name = vh_reading_copy(r, raw->name.good ? raw->name.text : "");
    fill_currency(r, &raw->currency);
    r->scenario->house.us_units = raw->units.good && raw->units.word == 1; /* metric, us */
    h->floor_area_m2 = given_or(&raw->floor_area_m2, (double)NAN);
    h->wire_height_m = given_or(&raw->wire_height_m, (double)NAN);
    if (!raw->wire_height_m.at)
        vh_default_word_used(r, "house.wire_height_m", NULL,
                             "not given: no lean-and-lower plan is made", "");
    h->row_length_m = given_or(&raw->row_length_m, (double)NAN);
    h->row_gap_cm = given_or(&raw->row_gap_cm, (double)NAN);
    h->light_factor = given_or(&raw->light_factor, (double)NAN);
    h->light_factor_given = raw->light_factor.good;
    h->colours = r->parameters->colours;
    h->ripen = &r->parameters->ripen;
    h->fuel_per_kwh = given_or(&raw->fuel_per_kwh, (double)NAN);
    h->climate_request.heat_loss_w_k = given_or(&raw->heat_loss_w_k, (double)NAN);
    fill_place(r, raw);
    fill_cover(r, raw);
}

/* ---- climate ---- */

static void fill_heat(struct vh_reading *r, const struct vh_raw_climate *raw)
{
    struct vh_climate_request *c = &r->scenario->house.climate_request;
    const struct vh_house_params *p = &r->scenario->house_params;
    const struct vh_given *part = raw->heat_day_c.at ? &raw->heat_day_c : &raw->heat_night_c;
    const bool is_single = raw->heat_c.at != NULL;
    const struct vh_given *day = is_single ? &raw->heat_c : &raw->heat_day_c;
    const struct vh_given *night = is_single ? &raw->heat_c : &raw->heat_night_c;

    c->heat_day_c = given_or(day, p->heat_c);
    c->heat_night_c = given_or(night, p->heat_c);
    c->vent_c = given_or(&raw->vent_c, p->vent_c);
    if (is_single && part->at)
        vh_spoil(r,
                 vh_fail(r->messages, VH_BAD_INPUT, vh_at_key(r, part->at),
                         "`%s` and `heat_c` on line %lld contradict each other; keep `heat_c`, or"
                         " `heat_day_c` and `heat_night_c`",
                         part->at->key, (long long)raw->heat_c.at->line));
    else if (part->at && (!raw->heat_day_c.at || !raw->heat_night_c.at))
        vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_key(r, part->at),
                            "`%s` stands alone; give both `heat_day_c` and `heat_night_c`, or"
                            " `heat_c`",
                            part->at->key));
    if (!day->at && !night->at)
        vh_default_used(r, "climate.heat_c", NULL, &r->scenario->house_rows, "house.heat_c");
    if (!raw->vent_c.at)
        vh_default_used(r, "climate.vent_c", NULL, &r->scenario->house_rows, "house.vent_c");

    const double warmest = fmax(c->heat_day_c, c->heat_night_c);
    const struct vh_given *warm = c->heat_night_c > c->heat_day_c ? night : day;
    const struct vh_given *told = warm->good ? warm : &raw->vent_c;
    if (warmest > c->vent_c && told->at)
        vh_spoil(r,
                 vh_fail(r->messages, VH_BAD_INPUT, vh_at_value(r, told->at->value),
                         "the house would be heated to %.4g and vented from %.4g degC%s; heat must"
                         " not lie above vent",
                         warmest, c->vent_c,
                         !warm->good || !raw->vent_c.good ? " (one of them the default)" : ""));
}

static void fill_shade(struct vh_reading *r, const struct vh_raw_climate *raw)
{
    struct vh_climate_request *c = &r->scenario->house.climate_request;
    const struct vh_given *date = raw->shade_from.at ? &raw->shade_from : &raw->shade_until;

    c->shade_share = given_or(&raw->shade_share_taken, 0.0);
    c->shade_from = raw->shade_from.good ? raw->shade_from.day : INT64_MIN;
    c->shade_until = raw->shade_until.good ? raw->shade_until.day : INT64_MAX;
    if (date->at && !raw->shade_share_taken.at)
        vh_spoil(r,
                 vh_fail(r->messages, VH_BAD_INPUT, vh_at_key(r, date->at),
                         "`%s` without `shade_share_taken`; say how much light the shading takes,"
                         " as in shade_share_taken = 0.3",
                         date->at->key));
    vh_dates_in_order(r, &raw->shade_from, &raw->shade_until, true);
}

static void fill_lamps(struct vh_reading *r, const struct vh_raw_climate *raw)
{
    struct vh_climate_request *c = &r->scenario->house.climate_request;
    const struct vh_given *one = raw->lamps_on_h.at ? &raw->lamps_on_h : &raw->lamps_off_h;

    c->lamps_umol_m2_s = given_or(&raw->lamps_umol_m2_s, 0.0);
    c->lamps_on_h = given_or(&raw->lamps_on_h, (double)NAN);
    c->lamps_off_h = given_or(&raw->lamps_off_h, (double)NAN);
    if (one->at && (!raw->lamps_on_h.at || !raw->lamps_off_h.at))
        vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_key(r, one->at),
                            "`%s` stands alone; give both `lamps_on_h` and `lamps_off_h`",
                            one->at->key));
    else if (raw->lamps_on_h.good && raw->lamps_off_h.good && c->lamps_on_h == c->lamps_off_h)
        fail_at(r, &raw->lamps_off_h,
                "the lamps go on and off at the same hour; give two different hours (0 and 24: all"
                " day)");
    else if (raw->lamps_umol_m2_s.good && c->lamps_umol_m2_s > 0.0 && !one->at && !raw->log.at)
        fail_at(r, &raw->lamps_umol_m2_s,
                "lamps without hours; give `lamps_on_h` and `lamps_off_h`");
}

static void fill_format(struct vh_reading *r, const struct vh_raw_format *raw)
{
    struct vh_climate_request *c = &r->scenario->house.climate_request;
    static const char separator[] = {',', ';', '\t', '\t'}, decimal[] = {'.', ','};

    c->separator = 0;
    c->decimal = 0;
    if (raw->separator.good)
        c->separator = separator[raw->separator.word];
    if (raw->decimal.good)
        c->decimal = decimal[raw->decimal.word];
    if (c->decimal == ',' && (c->separator == ',' || !raw->separator.at))
        fail_at(r, &raw->decimal, "a decimal comma needs another separator; add separator = \";\"");
    if (raw->time.good && !vh_time_pattern_is_good(raw->time.text))
        fail_at(r, &raw->time,
                "this is no pattern of a time; write the file's dates with % letters, as in"
                " \"%Y-%m-%d %H:%M\" or \"%m/%d/%y %I:%M %p\"");
    else if (raw->time.good)
        c->time_pattern = vh_reading_copy(r, raw->time.text);
}

void vh_scenario_fill_climate(struct vh_reading *r)
{
    const struct vh_raw_climate *raw = &r->root.climate;
    struct vh_climate_request *c = &r->scenario->house.climate_request;

    c->today = r->scenario->options.today;
    c->log_offset_c = given_or(&raw->log_offset_c, 0.0);
    c->co2_ppm = given_or(&raw->co2_ppm, r->scenario->house_params.co2_ppm);
    if (!raw->co2_ppm.at)
        vh_default_used(r, "climate.co2_ppm", NULL, &r->scenario->house_rows, "house.co2_ppm");
    fill_heat(r, raw);
    fill_shade(r, raw);
    fill_lamps(r, raw);
    fill_format(r, &raw->format);
    vh_scenario_fill_sources(r);
}
