/* vh_say_numbers.h - numbers and dates as people say them, on the screen and on the pages alike. */
#ifndef VH_SAY_NUMBERS_H
#define VH_SAY_NUMBERS_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

struct vh_promise_past;

enum vh_say_units { VH_SAY_METRIC, VH_SAY_US };

enum { VH_SAY_ROOM = 64 }; /* bytes of one said number or date */

/* All of these write into said[VH_SAY_ROOM], and "" where the value is not known (NaN). */

/* Whole; one decimal under 10, and 0 for less than half of that; to tens from 1000, with a blank in
 * the thousands. */
void vh_say_amount(double value, char *said);
/* Is that amount said as nothing, "0"? Alone "none" is clearer. */
bool vh_say_is_none(const char *said);
/* A crop in a grower's words: "large tomatoes" of tomato-large. */
void vh_say_crop(const char *crop, char *said);
/* Pieces: whole, to tens from 1000. */
void vh_say_pieces(double value, char *said);
/* Pieces, or an amount in kg or lb. */
void vh_say_much(double value, bool pieces, char *said);
/* The same, but tens already from 100: sums foreseen over a season. */
void vh_say_season_much(double value, bool pieces, char *said);
/* What is safe, rounded down to what is said of it: a promise must hold. */
double vh_safe_amount(double value, bool pieces);
/* Did as much come as was said to be safe? Both in kg or pieces; unknown is not kept. What came
 * counts to a tenth of a kg or lb, as a scale shows it, or to a piece. */
bool vh_promise_is_kept(double promise, double came, bool pieces, enum vh_say_units units);
/* What came of a promise: "24 kg", by the piece "60"; "11.6 kg" where 12 would hide that 12 were
 * promised; "28 kg of 32 picked" where not all was fit for sale. */
#define VH_SAY_CAME (3 * VH_SAY_ROOM)
void vh_say_came(const struct vh_promise_past *past, enum vh_say_units units,
                 char said[VH_SAY_CAME]);
/* What was said to be safe: "31 kg", by the piece "62". */
void vh_say_promised(const struct vh_promise_past *past, enum vh_say_units units, char *said);
/* Was any said to be safe? false: it rounded down to 0, which promises nothing. */
bool vh_promise_is_any(double promise, bool pieces, enum vh_say_units units);
/* The amount as it is said, to compare with what is safe. */
double vh_said_amount(double value, bool pieces);
/* What is left of a safe amount beside what is ordered as that is said: rounded down, so that both
 * together never pass what is safe. Below 0 it is too little. */
double vh_left_amount(double safe, double ordered, bool pieces);
/* What is safe in whole packs, "21 packs"; "" where it makes none or either is unknown.
 * Both in kg or both in pieces. */
void vh_say_packs(double promise, double pack, char *said);
/* "412 cm", "162 in" */
void vh_say_length(double cm, enum vh_say_units units, char *said);
/* "180 g", "6.5 oz" */
void vh_say_fruit_mass(double g, enum vh_say_units units, char *said);
/* "33 C", "91 F"; degree: the sign before the letter, "" on a plain terminal */
void vh_say_degrees(double c, enum vh_say_units units, const char *degree, char *said);
/* "25 min", "1 h 20 min"; a minute at least; "" for none */
void vh_say_time(double minutes, char *said);
/* Between a planting's name and a number behind it: a colon where "batch 2" would run into it. */
const char *vh_say_name_end(const char *name);
/* "slicers, plums, cherries" as a sentence has it, "slicers, plums or cherries": the last comma
 * becomes the word; one alone is left. The list lies in `room` bytes; it is left where it would not
 * fit. */
void vh_say_list(char *list, size_t room, const char *word);
/* "14 July" */
void vh_say_date(double day, char *said);
/* "14 July 2026" */
void vh_say_date_with_year(double day, char *said);

/* A text with its lengths and weights in the reader's unit: "over 15 cm" is "over 6 in" in US
 * units, "2 to 5 cm" is "1 to 2 in", "0.3 kg" is "0.7 lb". said has `room` bytes. */
void vh_say_measures_in(const char *text, enum vh_say_units units, char *said, size_t room);

/* The same, with a price at its end too: "above 5.93 USD a kg" is "above 2.69 USD a lb". */
void vh_say_price_in(const char *text, enum vh_say_units units, char *said, size_t room);

/* Exact by definition of the pound, the inch (NIST SP 811, 2008, appendix B.8). */
double vh_say_lb(double kg);
double vh_say_oz(double g);
double vh_say_in(double cm);
double vh_say_f(double c); /* degree Fahrenheit */
double vh_say_ft(double m);
double vh_say_ft2(double m2);

#endif
