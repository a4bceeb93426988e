#include "vh_summary.h"

#include <math.h>
#include <string.h>

enum { FACT_COLUMN = 11, ROW_COLUMN = 19, MEMBER_COLUMN = 30, TEXT_ROOM = 2000, HEAD_ROOM = 300 };

/* Beyond this a bound only keeps out what is no number of anything. */
static const double telling_bound = 1e9;

static void append(char text[TEXT_ROOM], const char *part)
{
    const size_t n = strlen(text), room = TEXT_ROOM - 1 - n, m = strlen(part);
    const size_t kept = m < room ? m : room;

    memcpy(text + n, part, kept);
    text[n + kept] = 0;
}

/* Nothing where the part is empty. */
static void add(char text[TEXT_ROOM], const char *between, const char *part)
{
    if (!part[0])
        return;
    if (text[0])
        append(text, between);
    append(text, part);
}

static bool is_what(const struct vh_table *t, size_t row, const char *what)
{
    return strcmp(vh_cell_text(t, row, "what"), what) == 0;
}

static void say_bound(double value, char said[VH_SAY_ROOM])
{
    const bool whole = fabs(value) >= 1e5 && value == floor(value);

    snprintf(said, VH_SAY_ROOM, whole ? "%.0f" : "%.6g", value + 0.0);
}

/* "0.06 to 0.12", "fixed"; "" where there is no range */
static void say_range(const struct vh_table *t, size_t row, char text[TEXT_ROOM])
{
    const double low = vh_cell_number(t, row, "low"), high = vh_cell_number(t, row, "high");
    char said[VH_SAY_ROOM];

    text[0] = 0;
    if (!isfinite(low) || !isfinite(high) || high > telling_bound)
        return;
    if (low == high) {
        add(text, "", "fixed");
        return;
    }
    say_bound(low, said);
    add(text, "", said);
    say_bound(high, said);
    add(text, " to ", said);
}

static const char *unit(const struct vh_table *t, size_t row)
{
    const char *said = vh_cell_text(t, row, "unit");

    return strcmp(said, "1") == 0 ? "" : said;
}

/* "0.09 m2 (0.06 to 0.12); derived, adams2001, table 2; own line" */
static void say_value(const struct vh_table *t, size_t row, char text[TEXT_ROOM])
{
    char range[TEXT_ROOM];

    text[0] = 0;
    add(text, "", vh_cell_text(t, row, "value"));
    add(text, " ", unit(t, row));
    say_range(t, row, range);
    if (range[0]) {
        add(text, " (", range);
        add(text, "", ")");
    }
    add(text, "; ", vh_cell_text(t, row, "basis"));
    add(text, ", ", vh_cell_text(t, row, "source"));
    add(text, ", ", vh_cell_text(t, row, "place"));
    add(text, "; ", vh_cell_text(t, row, "note"));
}

static void print_fact(FILE *to, const char *head, const char *text)
{
    if (text[0])
        vh_say_block(to, head, FACT_COLUMN, text);
}

/* "weeks.kg - column of weeks.csv" */
static void print_title(FILE *to, const struct vh_table *t, size_t row)
{
    const char *dot = vh_say_is_utf8() ? "\xC2\xB7" : "-";
    const char *where = vh_cell_text(t, row, "where");
    char text[TEXT_ROOM] = "";

    add(text, "", vh_cell_text(t, row, "name"));
    add(text, " ", dot);
    add(text, " ", vh_cell_text(t, row, "what"));
    if (is_what(t, row, "column") || is_what(t, row, "item"))
        add(text, " of ", where);
    else if (is_what(t, row, "file") || is_what(t, row, "crop"))
        add(text, " ", where);
    else if (!is_what(t, row, "parameter"))
        add(text, " in ", where);
    vh_say_block(to, "", 0, text);
}

/* What a key or column may hold: "number, 0.2 to 12, in m-2". */
static void print_kind(FILE *to, const struct vh_table *t, size_t row)
{
    char text[TEXT_ROOM] = "", range[TEXT_ROOM];

    add(text, "", vh_cell_text(t, row, "kind"));
    say_range(t, row, range);
    add(text, ", ", range);
    add(text, ", in ", unit(t, row));
    print_fact(to, is_what(t, row, "column") ? "HOLDS" : "WRITE", text);
}

static bool is_same_parameter(const struct vh_table *t, size_t a, size_t b)
{
    return b < vh_table_rows(t) && !vh_cell_text(t, b, "member_of")[0] &&
           is_what(t, b, "parameter") &&
           strcmp(vh_cell_text(t, a, "name"), vh_cell_text(t, b, "name")) == 0 &&
           strcmp(vh_cell_text(t, a, "used_in"), vh_cell_text(t, b, "used_in")) == 0;
}

/* "tomato-cluster" of "crops/tomato-cluster.csv" */
static void say_file(const struct vh_table *t, size_t row, char name[HEAD_ROOM])
{
    const char *where = vh_cell_text(t, row, "where"), *slash = strrchr(where, '/');
    const char *from = slash ? slash + 1 : where, *dot = strrchr(from, '.');

    snprintf(name, HEAD_ROOM, "%.*s", (int)(dot ? (size_t)(dot - from) : strlen(from)), from);
}

/* One row of a parameter: the file it stands in, what it says, for whom else it holds. */
static void print_row(FILE *to, const struct vh_table *t, size_t row)
{
    char text[TEXT_ROOM], head[HEAD_ROOM + 2], file[HEAD_ROOM], also[TEXT_ROOM] = "";
    const char *crops = vh_cell_text(t, row, "crops");

    say_file(t, row, file);
    snprintf(head, sizeof head, "  %s", file);
    say_value(t, row, text);
    vh_say_block(to, head, ROW_COLUMN, text);
    if (crops[0] && strcmp(crops, file) != 0) {
        add(also, "", "for ");
        add(also, "", crops);
        vh_say_block(to, "", ROW_COLUMN, also);
    }
}

/* Prints the meaning at `row`; the row behind it. */
static size_t print_meaning(FILE *to, const struct vh_table *t, size_t row)
{
    size_t next = row + 1;

    print_title(to, t, row);
    if (is_what(t, row, "source"))
        return next;
    fputc('\n', to);
    print_fact(to, "MEANS", vh_cell_text(t, row, "meaning"));
    if (is_what(t, row, "parameter")) {
        print_fact(to, "UNIT", unit(t, row)[0] ? unit(t, row) : "none");
        if (strncmp(vh_cell_text(t, row, "kind"), "one of", 6) == 0)
            print_fact(to, "VALUES", vh_cell_text(t, row, "kind"));
    } else {
        print_kind(to, t, row);
        print_fact(to, "EXAMPLE", vh_cell_text(t, row, "example"));
        print_fact(to, "NOTE", vh_cell_text(t, row, "note"));
    }
    print_fact(to, "USED IN", vh_cell_text(t, row, "used_in"));
    if (is_what(t, row, "parameter")) {
        while (is_same_parameter(t, row, next))
            next++;
        fputs("ROWS\n", to);
        for (size_t i = row; i < next; i++)
            print_row(to, t, i);
    }
    return next;
}

/* What an entry of a list is, in a line: a row's value, or what a key or column means. */
static void print_member(FILE *to, const struct vh_table *t, size_t row, bool with_file)
{
    char text[TEXT_ROOM] = "", head[HEAD_ROOM + 2], file[HEAD_ROOM];
    const char *name = vh_cell_text(t, row, "name"), *dot = strrchr(name, '.');
    const bool whole = is_what(t, row, "parameter") || !dot;

    snprintf(head, sizeof head, "  %.290s", whole ? name : dot + 1);
    if (vh_cell_text(t, row, "value")[0]) {
        if (with_file) {
            say_file(t, row, file);
            add(text, "", file);
            add(text, "", ":");
        }
        char value[TEXT_ROOM];
        say_value(t, row, value);
        add(text, " ", value);
    } else {
        add(text, "", vh_cell_text(t, row, "meaning"));
        add(text, ", in ", unit(t, row));
    }
    vh_say_block(to, head, MEMBER_COLUMN, text);
}

static void print_members(FILE *to, const struct vh_table *t, const char *asked, bool of_source)
{
    char title[HEAD_ROOM];
    bool begun = false;

    for (size_t i = 0; i < vh_table_rows(t); i++) {
        const char *list = vh_cell_text(t, i, "member_of");
        if (!list[0])
            continue;
        if (!begun) {
            snprintf(title, sizeof title, of_source ? "ROWS THAT CITE %.200s" : "IN %.200s", asked);
            fputc('\n', to);
            vh_say_safely(to, title);
            fputc('\n', to);
        }
        begun = true;
        print_member(to, t, i, of_source);
    }
}

/* "Adams S.R., Cockshull K.E. (2001). Title. Journal. doi:... Read: abstract." */
static void print_source(FILE *to, const struct vh_table *t, size_t row)
{
    char text[TEXT_ROOM] = "", head[HEAD_ROOM];

    add(text, "", vh_cell_text(t, row, "authors"));
    add(text, " (", vh_cell_text(t, row, "year"));
    add(text, "", "). ");
    add(text, "", vh_cell_text(t, row, "title"));
    add(text, ". ", vh_cell_text(t, row, "journal"));
    add(text, ". doi:", vh_cell_text(t, row, "doi"));
    add(text, ". Read: ", vh_cell_text(t, row, "read"));
    snprintf(head, sizeof head, "  %.200s", vh_cell_text(t, row, "key"));
    vh_say_block(to, head, ROW_COLUMN, text);
}

void vh_summary_explain(FILE *to, const struct vh_explanation *e)
{
    const struct vh_table *t = vh_explanation_meanings(e), *sources = vh_explanation_sources(e);
    bool of_source = false;
    const char *asked = "";

    for (size_t i = 0; i < vh_table_rows(t);) {
        if (vh_cell_text(t, i, "member_of")[0]) {
            asked = vh_cell_text(t, i, "member_of");
            i++;
            continue;
        }
        of_source = of_source || is_what(t, i, "source");
        if (i > 0)
            fputc('\n', to);
        i = print_meaning(to, t, i);
    }
    print_members(to, t, asked, of_source);
    if (vh_table_rows(sources) > 0)
        fputs("\nSOURCES\n", to);
    for (size_t i = 0; i < vh_table_rows(sources); i++)
        print_source(to, sources, i);
}
