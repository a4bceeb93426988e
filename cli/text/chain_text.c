#include "vh_chain_text.h"

#include <math.h>
#include <string.h>

#include "vh_say.h"
#include "vh_us_unit.h"

enum { VALUE_COLUMN = 36, DEEP = 6, PICK_COLUMN = 14, SOURCE_COLUMN = 19 };

static void say_iso(double day, char said[11])
{
    said[0] = 0;
    if (isfinite(day))
        vh_date_format((int64_t)day, said);
}

/* " 20.167 kg", in US units " 44.461 lb (20.167 kg)": the steps before and after are metric. */
static void add_measure(char *text, double value, int digits, const char *unit,
                        enum vh_say_units units)
{
    const struct vh_us_unit *m = vh_us_unit_of(unit, units);

    if (m)
        vh_say_add(text, "%.*g %s (%.*g %s)", digits, m->of(value), m->us, digits, value, unit);
    else
        vh_say_add(text, "%.*g %s", digits, value, unit);
}

/* ---- steps ---- */

static void print_step(FILE *to, const struct vh_table *t, size_t i, enum vh_say_units units)
{
    const double value = vh_cell_number(t, i, "value"), date = vh_cell_number(t, i, "date");
    const char *equation = vh_cell_text(t, i, "equation"), *worked = vh_cell_text(t, i, "worked"),
               *parameters = vh_cell_text(t, i, "parameters"),
               *source = vh_cell_text(t, i, "source");
    char text[VH_SAY_TEXT] = "", head[VH_SAY_TEXT] = "", day[11];

    vh_say_add(head, "  %s", vh_cell_text(t, i, "what"));
    say_iso(date, day);
    if (day[0])
        vh_say_add(text, "%s", day);
    if (isfinite(value)) {
        vh_say_add(text, "%s", day[0] ? ", " : "");
        add_measure(text, value, 6, vh_cell_text(t, i, "unit"), units);
    }
    vh_say_block(to, head, VALUE_COLUMN, text[0] ? text : "see DAY BY DAY");
    if (equation[0])
        vh_say_block(to, "    =", DEEP, equation);
    if (worked[0])
        vh_say_block(to, equation[0] ? "    :" : "", DEEP, worked);
    if (parameters[0]) {
        text[0] = 0;
        vh_say_add(text, "%s [%s]", parameters, source);
        vh_say_block(to, "", DEEP, text);
    }
}

static void print_steps(FILE *to, const struct vh_table *t, enum vh_say_units units)
{
    const char *part = "";

    for (size_t i = 0; i < vh_table_rows(t); i++) {
        if (strcmp(vh_cell_text(t, i, "part"), part) != 0) {
            part = vh_cell_text(t, i, "part");
            fputc('\n', to);
            vh_say_safely(to, part);
            fputc('\n', to);
        }
        print_step(to, t, i, units);
    }
}

/* ---- days ---- */

struct shown {
    const char *column, *head;
    int width, decimals;
};

static const struct shown staged[] = {
    {"t_c", "T C", 6, 2},         {"light_mj_m2_d", "light", 6, 2}, {"rate_per_d", "rate", 7, 4},
    {"heat_share", "heat", 6, 3}, {"stage", "stage", 7, 4},         {"grown_share", "grown", 6, 3},
    {"warm", "warm", 6, 3},       {"asked_g", "asked", 7, 3},       {"fed", "fed", 6, 3},
    {"dm_g", "dry g", 7, 3},      {"fruits", "no.", 5, 2},
};
static const struct shown sized[] = {
    {"t_c", "T C", 6, 2},     {"rate_per_d", "C d", 7, 3},  {"stage", "g a fruit", 10, 4},
    {"warm", "cold", 6, 3},   {"asked_g", "asked g", 9, 5}, {"fed", "fed", 7, 4},
    {"dm_g", "dry g", 10, 5}, {"fruits", "fruits", 8, 3},
};

static void print_days(FILE *to, const struct vh_table *t, enum vh_say_units units)
{
    const bool has_stages = vh_table_rows(t) > 0 && isfinite(vh_cell_number(t, 0, "grown_share"));
    const struct shown *shown = has_stages ? staged : sized;
    const size_t n = has_stages ? sizeof staged / sizeof staged[0] : sizeof sized / sizeof sized[0];
    char day[11];

    if (vh_table_rows(t) == 0)
        return;
    fputs("\nDAY BY DAY (light MJ m-2 d-1, mean since the flower; asked and dry: g of dry\n"
          "matter a stem, picked fruit too)\n            ",
          to);
    for (size_t k = 0; k < n; k++)
        fprintf(to, "%*s", k ? shown[k].width : shown[k].width - 2,
                k == 0 && units == VH_SAY_US ? "T F" : shown[k].head);
    fputc('\n', to);
    for (size_t i = 0; i < vh_table_rows(t); i++) {
        say_iso(vh_cell_number(t, i, "date"), day);
        fprintf(to, "%s", day);
        for (size_t k = 0; k < n; k++) {
            const double metric = vh_cell_number(t, i, shown[k].column);
            const double value = k == 0 && units == VH_SAY_US ? vh_say_f(metric) : metric;
            if (isfinite(value))
                fprintf(to, "%*.*f", shown[k].width, shown[k].decimals, value);
            else
                fprintf(to, "%*s", shown[k].width, "-");
        }
        fputc('\n', to);
    }
}

/* ---- picks ---- */

/* A share, without the dust of rounding: what is below a millionth is nothing. */
static double share_of(const struct vh_table *t, size_t i, const char *column)
{
    const double share = vh_cell_number(t, i, column), dust = 1e-6;

    return fabs(share) < dust ? 0.0 : share;
}

static void print_store(FILE *to, const struct vh_table *t, size_t i, enum vh_say_units units)
{
    const char *colour = vh_cell_text(t, i, "pick_colour");
    const double low = vh_cell_number(t, i, "keep_low_c"),
                 high = vh_cell_number(t, i, "keep_high_c");
    char text[VH_SAY_TEXT] = "", day[11];

    say_iso(vh_cell_number(t, i, "market_day"), day);
    if (!day[0])
        return;
    const bool us = units == VH_SAY_US;
    vh_say_add(text, "for %s: %s%s%skeep at %.4g", day, colour[0] ? "pick " : "", colour,
               colour[0] ? ", " : "", us ? vh_say_f(low) : low);
    if (high > low)
        vh_say_add(text, " to %.4g", us ? vh_say_f(high) : high);
    vh_say_add(text, " %c, lost %.4g; on the table ", us ? 'F' : 'C', share_of(t, i, "lost_share"));
    add_measure(text, vh_cell_number(t, i, "table_kg"), 5, "kg", units);
    vh_say_block(to, "", PICK_COLUMN, text);
}

/* What the plants give, in the model's own numbers. */
static void print_of_model(FILE *to, const struct vh_table *t, size_t i, enum vh_say_units units)
{
    char text[VH_SAY_TEXT] = "", head[VH_SAY_TEXT] = "", day[11];
    const double stage = vh_cell_number(t, i, "stage"), share = vh_cell_number(t, i, "ripe_share"),
                 mean_c = vh_cell_number(t, i, "mean_c");

    say_iso(vh_cell_number(t, i, "date"), day);
    vh_say_add(head, "  %s", day);
    vh_say_add(text, "%s: ", vh_cell_text(t, i, "planting"));
    if (isfinite(stage))
        vh_say_add(text, "stage %.4f, ", stage);
    if (isfinite(share))
        vh_say_add(text, "%.4g of the fruits picked by now, ", share);
    vh_say_add(text, "%.5g fruits a stem; ", vh_cell_number(t, i, "fruits_stem"));
    if (isfinite(mean_c))
        vh_say_add(text, "mean since the flower %.2f %c; ",
                   units == VH_SAY_US ? vh_say_f(mean_c) : mean_c, units == VH_SAY_US ? 'F' : 'C');
    vh_say_add(text, "%.5g g dry each/content %.5g = ", vh_cell_number(t, i, "fruit_dm_g"),
               vh_cell_number(t, i, "dm_content"));
    add_measure(text, vh_cell_number(t, i, "fruit_g"), 5, "g", units);
    vh_say_block(to, head, PICK_COLUMN, text);
}

static void print_pick(FILE *to, const struct vh_table *t, size_t i, enum vh_say_units units)
{
    char text[VH_SAY_TEXT] = "", head[VH_SAY_TEXT] = "", day[11];
    const double written_kg = vh_cell_number(t, i, "written_kg");

    if (vh_cell_number(t, i, "fruits") > 0.0) {
        print_of_model(to, t, i, units);
    } else {
        say_iso(vh_cell_number(t, i, "date"), day);
        vh_say_add(head, "  %s", day);
        vh_say_add(text, "%s: nothing by the model", vh_cell_text(t, i, "planting"));
        vh_say_block(to, head, PICK_COLUMN, text);
        text[0] = 0;
    }
    vh_say_add(text, "x %.5g stems", vh_cell_number(t, i, "stems"));
    if (vh_cell_number(t, i, "stray") != 1.0)
        vh_say_add(text, " x %.5g, as your picks run,", vh_cell_number(t, i, "stray"));
    vh_say_add(text, " = %.5g fruits, ", vh_cell_number(t, i, "fruits"));
    add_measure(text, vh_cell_number(t, i, "kg"), 5, "kg", units);
    if (isfinite(written_kg)) {
        vh_say_add(text, "; written down %.5g fruits, ", vh_cell_number(t, i, "written_fruits"));
        add_measure(text, written_kg, 5, "kg", units);
        vh_say_add(text, ", which counts");
    }
    vh_say_add(text,
               "; cannot be sold: cracked %.4g, misshapen %.4g, end rot %.4g, over-ripe %.4g, too "
               "large %.4g; ",
               share_of(t, i, "cracked"), share_of(t, i, "misshapen"), share_of(t, i, "end_rot"),
               share_of(t, i, "overripe"), share_of(t, i, "oversize"));
    if (vh_cell_number(t, i, "for_sale") != 1.0)
        vh_say_add(text, "for sale, as learnt, x %.5g; ", vh_cell_number(t, i, "for_sale"));
    vh_say_add(text, "left ");
    add_measure(text, vh_cell_number(t, i, "sound_kg"), 5, "kg", units);
    vh_say_block(to, "", PICK_COLUMN, text);
    print_store(to, t, i, units);
}

/* ---- sources ---- */

static void print_source(FILE *to, const struct vh_table *t, size_t i)
{
    char text[VH_SAY_TEXT] = "", head[VH_SAY_TEXT] = "";

    vh_say_add(head, "  %s", vh_cell_text(t, i, "key"));
    vh_say_add(text, "%s (%s). %s. %s", vh_cell_text(t, i, "authors"), vh_cell_text(t, i, "year"),
               vh_cell_text(t, i, "title"), vh_cell_text(t, i, "journal"));
    if (vh_cell_text(t, i, "doi")[0])
        vh_say_add(text, ". doi:%s", vh_cell_text(t, i, "doi"));
    vh_say_add(text, ". Read: %s", vh_cell_text(t, i, "read"));
    vh_say_block(to, head, SOURCE_COLUMN, text);
}

void vh_chain_print(FILE *to, const struct vh_chain *c, enum vh_say_units units)
{
    const struct vh_table *picks = vh_chain_picks(c), *sources = vh_chain_sources(c);

    vh_say_block(
        to, "", 0,
        "How it comes about: each number follows from those above it. = says how, : the same in numbers, in"
        " brackets stands where the parameters come from.");
    print_steps(to, vh_chain_steps(c), units);
    print_days(to, vh_chain_days(c), units);
    if (vh_table_rows(picks) > 0)
        fputs("\nPICKS\n", to);
    for (size_t i = 0; i < vh_table_rows(picks); i++)
        print_pick(to, picks, i, units);
    if (vh_table_rows(sources) > 0)
        fputs("\nSOURCES\n", to);
    for (size_t i = 0; i < vh_table_rows(sources); i++)
        print_source(to, sources, i);
}
