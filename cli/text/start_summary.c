/* What `start` says of its first run. */
#include <math.h>
#include <string.h>

#include "vh_start_summary.h"
#include "vh_to_come.h"

enum { INDENT = 11, DAYS = 100 };

static const char *const weekday[] = {"Monday", "Tuesday",  "Wednesday", "Thursday",
                                      "Friday", "Saturday", "Sunday"};

/* "about 30 kg", "66 lb", "85" fruits. */
static void say_much(char *said, double kg, double fruits, bool pieces, enum vh_say_units units)
{
    const bool us = units == VH_SAY_US;

    if (pieces) {
        vh_say_pieces(fruits, said);
        if (said[0])
            strcat(said, " fruits");
        return;
    }
    vh_say_amount(us ? vh_say_lb(kg) : kg, said);
    if (said[0])
        strcat(said, us ? " lb" : " kg");
}

/* "Tuesday and Friday"; how many there are. */
static int name_days(const bool on[7], char days[DAYS])
{
    int count = 0;

    days[0] = '\0';
    for (int i = 0; i < 7; i++)
        if (on[i]) {
            snprintf(days + strlen(days), DAYS - strlen(days), "%s%s", count > 0 ? " and " : "",
                     weekday[i]);
            count++;
        }
    return count;
}

/* The best week to come, the same as forecast and report name. */
static void say_best_week(FILE *to, const struct vh_result *r, const struct vh_table *t,
                          const struct vh_start_answers *a)
{
    const bool pieces = strcmp(vh_cell_text(t, 0, "unit_word"), "fruits") == 0;
    const struct vh_table *weeks = vh_result_table_named(r, "weeks");
    const int best = vh_best_week_row(weeks, vh_cell_text(t, 0, "planting"), pieces, a->today);
    if (best < 0)
        return;
    const double kg = vh_cell_number(weeks, (size_t)best, "kg"),
                 n = vh_cell_number(weeks, (size_t)best, "fruits");
    char text[300], date[VH_SAY_ROOM], much[VH_SAY_ROOM + 8], each[VH_SAY_ROOM + 8], days[DAYS];
    int count;

    vh_say_date(vh_cell_number(weeks, (size_t)best, "monday"), date);
    say_much(much, kg, n, pieces, a->units);
    if (!date[0] || !much[0])
        return;
    snprintf(text, sizeof text, "the week of %s, about %s", date, much);
    vh_say_block(to, "BEST WEEK", INDENT, text);
    count = name_days(a->market, days);
    const double share = count > 0 ? count : 1;
    say_much(each, kg / share, n / share, pieces, a->units);
    if (count > 0)
        snprintf(text, sizeof text, "about %s each %s in that week", each, days);
    else
        snprintf(text, sizeof text, "about %s in that week, if you sell once a week", each);
    vh_say_block(to, "MARKET DAY", INDENT, text);
}

/* The longest string between stem base and hook; where no lowering is planned, the stem's length
 * at the end. */
static void say_string(FILE *to, const struct vh_result *r, const struct vh_table *t,
                       const struct vh_start_answers *a)
{
    const struct vh_table *lowering = vh_result_table_named(r, "lowering");
    const bool us = a->units == VH_SAY_US;
    double longest = (double)NAN;
    char text[200];

    for (size_t i = 0; lowering && i < vh_table_rows(lowering); i++)
        longest = fmax(longest, vh_cell_number(lowering, i, "string_in_use_cm"));
    const bool planned = isfinite(longest);
    if (!planned)
        longest = vh_cell_number(t, 0, "stem_end_cm");
    if (!isfinite(longest))
        return;
    snprintf(text, sizeof text, "%.1f %s a stem%s", us ? longest / 30.48 : longest / 100.0,
             us ? "ft" : "m",
             planned ? ", to the last lowering" : ", the length of the whole stem");
    vh_say_block(to, "STRING", INDENT, text);
}

static void say_hours(FILE *to, const struct vh_result *r)
{
    const struct vh_table *t = vh_result_table_named(r, "hours");
    double most = 0.0, monday = (double)NAN, sum = 0.0, week = (double)NAN;
    char text[200], hours[VH_SAY_ROOM], date[VH_SAY_ROOM];

    for (size_t i = 0; t && i < vh_table_rows(t); i++) {
        const double own = vh_cell_number(t, i, "hours");

        if (strcmp(vh_cell_text(t, i, "task"), "other") == 0)
            continue;
        if (vh_cell_number(t, i, "monday") != week) {
            week = vh_cell_number(t, i, "monday");
            sum = 0.0;
        }
        sum += isfinite(own) ? own : 0.0;
        if (sum > most) {
            most = sum;
            monday = week;
        }
    }
    if (most <= 0.0)
        return;
    vh_say_amount(most, hours);
    vh_say_date(monday, date);
    snprintf(text, sizeof text, "%s in the busiest week, that of %s", hours, date);
    vh_say_block(to, "HOURS", INDENT, text);
}

/* What she did not know, in one sentence. */
static void say_guesses(FILE *to, const struct vh_start_answers *a,
                        const struct vh_start_answers *asked)
{
    char text[600], date[VH_SAY_ROOM], part[DAYS + 12], latitude[40], wire[40], plants[40];

    snprintf(latitude, sizeof latitude, "latitude %.4g", a->latitude_deg);
    snprintf(wire, sizeof wire, "wire at %.4g %s", a->wire, a->wire_us ? "ft" : "m");
    snprintf(plants, sizeof plants, "%d plants", a->plants);
    snprintf(text, sizeof text, "the weather, from the latitude alone");
    const struct {
        bool known;
        const char *what;
    } guess[] = {
        {isfinite(asked->latitude_deg), latitude},   {asked->knows_heat, "no heater"},
        {asked->cover != NULL, "one layer of film"}, {isfinite(asked->wire), wire},
        {asked->crop != NULL, "large tomatoes"},     {asked->plants > 0, plants},
    };
    for (size_t i = 0; i < sizeof guess / sizeof guess[0]; i++)
        if (!guess[i].known) {
            snprintf(part, sizeof part, "; %s", guess[i].what);
            strcat(text, part);
        }
    if (!asked->knows_set_out) {
        vh_say_date((double)a->set_out, date);
        snprintf(part, sizeof part, "; set out on %s", date);
        strcat(text, part);
    }
    char days[DAYS];
    if (name_days(a->pick, days) > 0) {
        snprintf(part, sizeof part, "; picks on %s", days);
        strcat(text, part);
    }
    vh_say_block(to, "GUESSED", INDENT, text);
}

/* A word of a line for the shell, in quotes where it needs them. */
static void say_word(FILE *to, const char *word)
{
    const char *quote = !strpbrk(word, " \"'`$&|;<>()*?[]{}#!~\\") ? ""
                        : strchr(word, '\'')                       ? "\""
                                                                   : "'";

    fputs(quote, to);
    vh_say_safely(to, word);
    fputs(quote, to);
}

void vh_summary_start(FILE *to, const struct vh_result *result, const struct vh_start_answers *a,
                      const struct vh_start_answers *asked, const char *folder, const char *program)
{
    const struct vh_table *t = vh_result_table_named(result, "summary");
    const char *name = a->crop->planting;
    char wrote[VH_SAY_TEXT] = "", text[300], date[VH_SAY_ROOM];

    vh_say_add(wrote, "%s: wrote scenario.toml, records.csv and inside.csv", folder);
    vh_say_block(to, "", 0, wrote);
    fputc('\n', to);
    if (t && vh_table_rows(t) > 0) {
        vh_say_date_with_year(vh_cell_number(t, 0, "first_pick"), date);
        snprintf(text, sizeof text, "%s, %s", name, date[0] ? date : "none in this season");
        vh_say_block(to, "FIRST PICK", INDENT, text);
        say_best_week(to, result, t, a);
        say_string(to, result, t, a);
        say_hours(to, result);
    }
    say_guesses(to, a, asked);
    snprintf(text, sizeof text, "1 what you pick, each time: vinehand note %s %s", name,
             vh_start_pick(a));
    vh_say_block(to, "WRITE DOWN", INDENT, text);
    const bool nodes = t && strcmp(vh_cell_text(t, 0, "truss_word"), "node") == 0;
    snprintf(text, sizeof text,
             "2 once a week, the %s in flower on five plants, their mean: "
             "vinehand note %s flowering_truss %s",
             nodes ? "node" : "truss", name, nodes ? "12.4" : "4.6");
    vh_say_block(to, "", INDENT, text);
    vh_say_block(to, "", INDENT,
                 "3 the air in the house, by a logger or the lowest and highest of each day: "
                 "inside.csv");
    fputs("\nRead scenario.toml and put your own numbers for the guesses. Then, there:\n"
          "           cd ",
          to);
    say_word(to, folder);
    fputs("\n           ", to);
    say_word(to, program);
    fputs(" week\n", to);
}
