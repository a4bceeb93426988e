/* vh_start.h - a first scenario from eight answers: what the grower typed, read in either system of
 * units, and the file that it makes. Whatever she does not know gets a guess, and is said to be
 * one. */
#ifndef VH_START_H
#define VH_START_H

#include <stdbool.h>
#include <stdint.h>

#include "vh_draft.h"
#include "vh_say_numbers.h"
#include "vinehand.h"

/* In the order asked: units first, so that a bare number has one meaning. */
enum vh_start_question {
    VH_START_UNITS,
    VH_START_LATITUDE,
    VH_START_HEAT,
    VH_START_COVER,
    VH_START_WIRE,
    VH_START_CROP, /* and plants, in one answer or by two options */
    VH_START_SET_OUT,
    VH_START_MARKET,
    VH_START_QUESTIONS
};

enum { VH_START_WORD = 40, VH_START_WHY = 200 };

struct vh_start_crop {
    const char *words; /* what people call it, "|" between */
    const char *name;  /* file of params/crops */
    const char *planting;
    bool by_piece; /* counted, not weighed */
};

/* Four temperatures of an ordinary year outside, degC, from the latitude alone. */
struct vh_start_climate {
    double warmest_high_c, warmest_low_c, coldest_high_c, coldest_low_c;
    /* places of that latitude lie so far either side */
    double warmest_high_spread_c, warmest_low_spread_c, coldest_high_spread_c, coldest_low_spread_c;
};

struct vh_start_answers {
    int64_t today;
    enum vh_say_units units;
    double latitude_deg;              /* NaN: not known */
    bool knows_heat, heated;          /* heated false: no heater */
    double heat;                      /* as typed, in heat_us */
    bool heat_us;                     /* degF */
    const char *cover;                /* word of the scenario; NULL: not known */
    double wire;                      /* as typed, in wire_us; NaN: not known */
    bool wire_us;                     /* ft, else m */
    const struct vh_start_crop *crop; /* NULL: not known */
    int plants;                       /* 0: not known */
    bool knows_set_out;
    int64_t set_out; /* the day the plants stand from */
    bool market[7];  /* Monday first */
    /* what no question asks; known after vh_start_guess */
    struct vh_start_climate climate;
    double frost_c, vent_c;
    int64_t pull_out;
    double plants_per_m2, usual_fruit_g; /* of the crop's file */
    bool pick[7];                        /* Monday first; none: the crop's own rhythm */
};

/* Nothing known but the day. */
void vh_start_nothing(struct vh_start_answers *a, int64_t today, enum vh_say_units units);
/* "Where is the house? ..." with what may be typed; never NULL. */
const char *vh_start_question_text(enum vh_start_question q, enum vh_say_units units);
/* Reads one answer; "", "?" and "don't know" are answers too and leave the thing unknown. False: it
 * is no answer, and `why` says in a few words what would be right. */
bool vh_start_read(enum vh_start_question q, const char *text, struct vh_start_answers *a,
                   char why[VH_START_WHY]);
/* The number of plants alone, for --plants. */
bool vh_start_read_plants(const char *text, struct vh_start_answers *a, char why[VH_START_WHY]);

/* Fills what is not known with the guesses of params/start.csv, so that all of *a is known
 * afterwards. */
void vh_start_guess(const struct vh_parameters *p, struct vh_start_answers *a);
/* Weekdays of picking, Monday first: the day before each market day, and as many more as a pick
 * every `every_d` days (habit.pick_every_d of the crop) asks, spread over the week, Sundays last of
 * all. None where no market day is known or every_d is longer than a week. */
void vh_start_picks(const bool market[7], double every_d, bool pick[7]);
/* The commented scenario of answers that are all known; `asked` are the answers before the guesses,
 * `name` is the house's. */
void vh_start_scenario(struct vh_draft *out, const struct vh_start_answers *a,
                       const struct vh_start_answers *asked, const char *name);
/* What may be noted of a pick, in the units of the answers: "picked_kg 3.2". */
const char *vh_start_pick(const struct vh_start_answers *a);
/* The header lines of the empty records and of the empty log. */
const char *vh_start_records(void);
const char *vh_start_log(enum vh_say_units units);

#endif
