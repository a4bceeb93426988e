/* The questions of `start`, and the commented scenario that the answers make. */
#include "vh_start.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

const char *vh_start_question_text(enum vh_start_question q, enum vh_say_units units)
{
    const bool us = units == VH_SAY_US;

    switch (q) {
    case VH_START_UNITS:
        return "Which units do you use: metric or us?";
    case VH_START_LATITUDE:
        return "Where is the house? Its latitude, as in 44.5 or 44 30 N or 33 S.";
    case VH_START_HEAT:
        return us ? "Heated to what? As in 55F; none if there is no heater."
                  : "Heated to what? As in 13C; none if there is no heater.";
    case VH_START_COVER:
        return "What covers it: glass, film-single, film-double or polycarbonate?";
    case VH_START_WIRE:
        return us ? "How high is the wire that the strings hang from? As in 7 ft."
                  : "How high is the wire that the strings hang from? As in 2.2 m.";
    case VH_START_CROP:
        return "How many plants of what? One planting now, more go into the file later. As in 48 "
               "tomatoes.";
    case VH_START_SET_OUT:
        return "Set out on which day, or standing since when? As in 15 May.";
    case VH_START_MARKET:
        return "On which days do you sell? As in sat, or wed and sat.";
    case VH_START_QUESTIONS:
        break;
    }
    return "";
}

const char *vh_start_pick(const struct vh_start_answers *a)
{
    return a->crop->by_piece       ? "picked_fruits 20"
           : a->units == VH_SAY_US ? "picked_lb 7.1"
                                   : "picked_kg 3.2";
}

const char *vh_start_records(void)
{
    return "date,planting,item,value,truss,of,note\n";
}

const char *vh_start_log(enum vh_say_units units)
{
    return units == VH_SAY_US ? "time,t_air_f,rh_pct,co2_ppm,par_umol_m2_s\n"
                              : "time,t_air_c,rh_pct,co2_ppm,par_umol_m2_s\n";
}

__attribute__((format(printf, 2, 3))) static void line(struct vh_draft *out, const char *format,
                                                       ...)
{
    char text[400];
    va_list arguments;

    va_start(arguments, format);
    vsnprintf(text, sizeof text, format, arguments);
    va_end(arguments);
    vh_draft_add(out, text);
    vh_draft_add(out, "\n");
}

/* `key = value` with the comment in one column. */
static void key(struct vh_draft *out, const char *setting, const char *comment)
{
    line(out, "%-32s # %s", setting, comment);
}

static double shown_c(double c, bool us)
{
    return us ? round(c * 1.8 + 32.0) + 0.0 : c + 0.0; /* + 0.0: no -0 */
}

static void add_house(struct vh_draft *out, const struct vh_start_answers *a,
                      const struct vh_start_answers *asked, const char *name)
{
    char text[200];

    line(out, "[house]");
    snprintf(text, sizeof text, "name = \"%s\"", name);
    line(out, "%s", text);
    snprintf(text, sizeof text, "latitude_deg = %.6g", a->latitude_deg);
    key(out, text,
        isfinite(asked->latitude_deg) ? "degrees north, south is negative: day length and sun"
                                      : "A GUESS: put in yours, a map tells it");
    snprintf(text, sizeof text, "cover = \"%s\"", a->cover);
    key(out, text, asked->cover ? "how much light comes in" : "A GUESS: one layer of film");
    snprintf(text, sizeof text, a->wire_us ? "wire_height_ft = %.4g" : "wire_height_m = %.4g",
             a->wire);
    key(out, text,
        isfinite(asked->wire) ? "of the wire that the strings hang from"
                              : "A GUESS: measure it, floor to wire");
    key(out, a->units == VH_SAY_US ? "units = \"us\"" : "units = \"metric\"",
        "metric or us: what the answers are said in");
    line(out, "# currency = \"USD\"              # of your prices and costs, as in USD or EUR");
    line(out,
         "# floor_area_m2 = 72              # whole floor, paths included; floor_area_ft2 too");
    vh_draft_add(out, "\n");
}

static void add_roughly(struct vh_draft *out, const struct vh_start_answers *a)
{
    const struct vh_start_climate c = a->climate;
    const bool us = a->units == VH_SAY_US;
    const struct {
        const char *key, *what;
        double value_c, spread_c;
    } row[] = {
        {"warmest_high", "a usual afternoon of the warmest month", c.warmest_high_c,
         c.warmest_high_spread_c},
        {"warmest_low", "and its night", c.warmest_low_c, c.warmest_low_spread_c},
        {"coldest_high", "a usual afternoon of the coldest month", c.coldest_high_c,
         c.coldest_high_spread_c},
        {"coldest_low", "and its night", c.coldest_low_c, c.coldest_low_spread_c},
    };

    line(
        out,
        "# Outside, in the shade, in an ordinary year: GUESSES from the latitude alone. Places of the");
    line(out, "# same latitude differ as far as the lines say; put in what you know of yours.");
    line(out, "[climate.roughly]");
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        char text[80], comment[120];

        snprintf(text, sizeof text, "%s_%s = %.0f", row[i].key, us ? "f" : "c",
                 shown_c(row[i].value_c, us));
        snprintf(comment, sizeof comment, "%s", row[i].what);
        if (isfinite(row[i].spread_c)) /* bounds may be left out of params */
            snprintf(comment, sizeof comment, "%s (from %.0f to %.0f)", row[i].what,
                     shown_c(row[i].value_c - row[i].spread_c, us),
                     shown_c(row[i].value_c + row[i].spread_c, us));
        key(out, text, comment);
    }
    key(out, "sky = \"mixed\"", "clear, mixed or dull");
    vh_draft_add(out, "\n");
}

static void add_climate(struct vh_draft *out, const struct vh_start_answers *a,
                        const struct vh_start_answers *asked)
{
    const bool us = a->units == VH_SAY_US;
    char text[80];

    line(out, "[climate]");
    line(
        out,
        "# The log of your thermometer: write rows into inside.csv (time as 2026-03-01T14:00, each hour or");
    line(
        out,
        "# oftener), then take away the # of the next line. Until then every day is an ordinary one. Without");
    line(out, "# a logger: the lowest and highest of each day, with date,%s as the first line.",
         us ? "tmin_f,tmax_f" : "tmin_c,tmax_c");
    line(out, "# log = \"inside.csv\"");
    if (a->heated) {
        snprintf(text, sizeof text, a->heat_us ? "heat_f = %.4g" : "heat_c = %.4g", a->heat);
        key(out, text, "the heater comes on below this");
    } else {
        snprintf(text, sizeof text, us ? "heat_f = %.0f" : "heat_c = %.0f",
                 shown_c(a->frost_c, us));
        key(out, text,
            asked->knows_heat ? "no heater: only kept from frost"
                              : "A GUESS: no heater, only kept from frost");
    }
    snprintf(text, sizeof text, us ? "vent_f = %.0f" : "vent_c = %.0f", shown_c(a->vent_c, us));
    key(out, text, "a guess: vents or sides are opened above this");
    vh_draft_add(out, "\n");
    add_roughly(out, a);
}

static void add_planting(struct vh_draft *out, const struct vh_start_answers *a,
                         const struct vh_start_answers *asked)
{
    char text[80], date[11];

    line(out, "[[planting]]");
    snprintf(text, sizeof text, "name = \"%s\"", a->crop->planting);
    key(out, text, "your own word; it stands in every table");
    snprintf(text, sizeof text, "crop = \"%s\"", a->crop->name);
    key(out, text, asked->crop ? "kind of crop" : "A GUESS: large tomatoes");
    snprintf(text, sizeof text, "plants = %d", a->plants);
    key(out, text, asked->plants > 0 ? "one stem each" : "A GUESS: count them");
    if (a->units == VH_SAY_US)
        snprintf(text, sizeof text, "plants_per_ft2 = %.3f", a->plants_per_m2 / vh_say_ft2(1.0));
    else
        snprintf(text, sizeof text, "plants_per_m2 = %.2g", a->plants_per_m2);
    key(out, text, "usual, not yours: plants over the floor they use, paths too");
    vh_date_format(a->set_out, date);
    snprintf(text, sizeof text, "set_out = %s", date);
    key(out, text,
        asked->knows_set_out ? "day the plants went or will go in"
                             : "A GUESS: put in the day of setting out");
    vh_date_format(a->pull_out, date);
    snprintf(text, sizeof text, "pull_out = %s", date);
    key(out, text, "a guess: last day in the house");
    char fruit[80];
    snprintf(fruit, sizeof fruit,
             a->units == VH_SAY_US ? "# usual_fruit_oz = %.1f" : "# usual_fruit_g = %.0f",
             a->units == VH_SAY_US ? vh_say_oz(a->usual_fruit_g) : a->usual_fruit_g);
    key(out, fruit, "what the seed list says of your variety; usual_fruit_g or usual_fruit_oz");
    line(out, "# Another planting: copy it from [[planting]] on, with a name of its own.");
    vh_draft_add(out, "\n");
}

/* `days = ["tue", "fri"]`; false where there is none, nothing written. */
static bool add_days(struct vh_draft *out, const char *table, const bool on[7])
{
    static const char *const days[] = {"mon", "tue", "wed", "thu", "fri", "sat", "sun"};
    bool any = false;

    for (int i = 0; i < 7; i++) {
        if (!on[i])
            continue;
        if (!any)
            line(out, "%s", table);
        vh_draft_add(out, any ? ", \"" : "days = [\"");
        vh_draft_add(out, days[i]);
        vh_draft_add(out, "\"");
        any = true;
    }
    if (any)
        line(out, "]\n");
    return any;
}

static void add_market(struct vh_draft *out, const struct vh_start_answers *a)
{
    if (!add_days(out, "[market]", a->market))
        line(out, "# [market]\n# days = [\"sat\"]                 # weekdays on which you sell\n");
}

void vh_start_scenario(struct vh_draft *out, const struct vh_start_answers *a,
                       const struct vh_start_answers *asked, const char *name)
{
    line(
        out,
        "# A first scenario, from eight answers. It runs as it is. Lines that begin with # are for");
    line(
        out,
        "# people; what is called a guess is one. Lengths, masses and temperatures may be given in either");
    line(out, "# system: wire_height_m or wire_height_ft, heat_c or heat_f.");
    line(out,
         "#     vinehand check      says what is wrong or doubtful, and which defaults are in use");
    line(out, "#     vinehand explain plants_per_m2      says what a word means");
    vh_draft_add(out, "\n");
    add_house(out, a, asked, name);
    add_climate(out, a, asked);
    add_planting(out, a, asked);
    (void)add_days(
        out,
        "# a guess: you pick the day before you sell, and otherwise evenly over the week\n"
        "[planting.pick]",
        a->pick);
    add_market(out, a);
    line(out, "[records]                        # what you pick and do: vinehand note %s %s",
         a->crop->planting, vh_start_pick(a));
    line(out, "file = \"records.csv\"");
}
