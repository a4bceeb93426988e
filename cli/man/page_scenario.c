/* vinehand-scenario(5): every table and key, as `explain` lists them. */
#include "vh_pages.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "vh_say.h"

static const double telling_bound = 1e9; /* as `explain`: beyond it a bound says nothing */

struct page {
    FILE *to;
    const struct vh_parameters *parameters;
};

static const char *text_of(const struct vh_table *t, size_t row, const char *column)
{
    const int i = vh_table_find(t, column);

    return i < 0 ? "" : vh_table_text(t, row, (size_t)i);
}

static double number_of(const struct vh_table *t, size_t row, const char *column)
{
    const int i = vh_table_find(t, column);

    return i < 0 ? (double)NAN : vh_table_number(t, row, (size_t)i);
}

static bool is_listed(const struct vh_table *t, size_t row, const char *list, const char *what)
{
    return strcmp(text_of(t, row, "member_of"), list) == 0 &&
           strcmp(text_of(t, row, "what"), what) == 0;
}

/* "number, cm, 10 to 1000; required" */
static void put_kind(FILE *to, const struct vh_table *t, size_t row)
{
    const char *unit = text_of(t, row, "unit"), *note = text_of(t, row, "note");
    const double low = number_of(t, row, "low"), high = number_of(t, row, "high");
    char text[VH_SAY_TEXT] = "";

    vh_say_add(text, "%s", text_of(t, row, "kind"));
    if (unit[0] && strcmp(unit, "1") != 0)
        vh_say_add(text, ", %s", unit);
    if (isfinite(low) && isfinite(high) && low < high && high <= telling_bound)
        vh_say_add(text, ", %.6g to %.6g", low + 0.0, high + 0.0);
    if (note[0])
        vh_say_add(text, "; %s", note);
    vh_say_add(text, ".");
    vh_page_text(to, text);
}

static void put_key(FILE *to, const struct vh_table *t, size_t row)
{
    const char *example = text_of(t, row, "example"), *name = text_of(t, row, "name");
    const char *last = strrchr(name, '.');
    char text[VH_SAY_TEXT] = "";

    fprintf(to, ".It Ic %s\n", last ? last + 1 : name);
    vh_say_add(text, "%s.", text_of(t, row, "meaning"));
    vh_page_text(to, text);
    fputs(".br\n", to);
    put_kind(to, t, row);
    if (example[0]) {
        text[0] = 0;
        vh_say_add(text, "As in %s", example);
        vh_page_text(to, text);
    }
}

/* Where the key is a table: "[market]" or "[[planting]]", out of its kind. */
static void put_heading(FILE *to, const struct vh_table *t, size_t row)
{
    const char *bracket = strchr(text_of(t, row, "kind"), '[');

    fprintf(to, ".Ss %s\\&\n", bracket ? bracket : text_of(t, row, "name"));
    vh_page_text(to, text_of(t, row, "meaning"));
}

static bool put_table(const struct page *page, const char *name)
{
    struct vh_explanation *e = NULL;
    bool done = vh_explain(page->parameters, name, &e, NULL) == VH_OK, has_key = false;
    const struct vh_table *t = done ? vh_explanation_meanings(e) : NULL;
    const size_t rows = done ? vh_table_rows(t) : 0;

    for (size_t i = 0; i < rows; i++) {
        if (!is_listed(t, i, name, "key"))
            continue;
        if (!has_key)
            fputs(".Bl -tag -width Ds\n", page->to);
        has_key = true;
        put_key(page->to, t, i);
    }
    if (has_key)
        fputs(".El\n", page->to);
    for (size_t i = 0; i < rows && done; i++) {
        if (!is_listed(t, i, name, "table"))
            continue;
        put_heading(page->to, t, i);
        done = put_table(page, text_of(t, i, "name"));
    }
    vh_explanation_free(e);
    return done;
}

static const char what_it_is[] =
    "A scenario describes one house, what grows in it and what is asked. It is a strict part of"
    " TOML 1.0: tables, arrays of tables, dotted headers, one-line strings, numbers, truth values,"
    " local dates, arrays, one-level inline tables. Unknown and doubled keys are errors. A file is"
    " UTF-8 and at most 1 MiB. Names of files are relative to the scenario.";

static const char what_units_may_be[] =
    "A key that carries a unit may be given in the other system where it says so, never in both.";

static const char what_is_needed[] =
    "Needed are the name of the house, one planting (name, crop, plants, a density, and set_out,"
    " sow or standing) and one source of climate (log, outside, normals or roughly). All else has"
    " a default that vinehand check lists.";

static const char example[] = ".Bd -literal -offset indent\n"
                              "[house]\n"
                              "name = \"Two bays\"\n"
                              "latitude_deg = 44.5\n"
                              "\n"
                              "[climate.roughly]\n"
                              "warmest_high_c = 28\n"
                              "warmest_low_c = 16\n"
                              "coldest_high_c = -2\n"
                              "coldest_low_c = -12\n"
                              "\n"
                              "[[planting]]\n"
                              "name = \"slicers\"\n"
                              "crop = \"tomato-large\"\n"
                              "plants = 48\n"
                              "plants_per_m2 = 2.5\n"
                              "set_out = 2026-02-20\n"
                              ".Ed\n";

bool vh_page_scenario(FILE *to, const char *date, const struct vh_parameters *p)
{
    const struct page page = {to, p};

    vh_page_head(to, date, "VINEHAND-SCENARIO", 5, "vinehand-scenario",
                 "house, plantings and questions that vinehand reads");
    fputs(".Sh DESCRIPTION\n", to);
    vh_page_text(to, what_it_is);
    fputs(".Pp\n", to);
    vh_page_text(to, what_units_may_be);
    fputs(".Pp\n", to);
    vh_page_text(to, what_is_needed);
    if (!put_table(&page, "scenario"))
        return false;
    fprintf(to, ".Sh EXAMPLES\nThe least that runs:\n%s.Sh SEE ALSO\n.Xr vinehand 1\n", example);
    return true;
}
