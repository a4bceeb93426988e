/* Kept answers on all short texts: numbers, a line of a scenario, rows of a CSV, times by patterns,
 * dates, names in units, summer time, faults in text: every text of a few of the signs that matter
 * there, in its order, so that no odd one is left out. complaints-short.txt keeps a digest a reader
 * (t_complaints.c says how to renew and to see). */
#include "kept_words.h"
#include "vh_csv.h"
#include "vh_date.h"
#include "vh_number.h"
#include "vh_text.h"
#include "vh_toml.h"
#include "vh_units.h"

static struct vh_digest digest;

/* Each text of 1 to `most` of these signs. */
static void each_text(const char *signs, int most, void (*ask)(const char *text))
{
    const int n = (int)strlen(signs);
    char text[20];

    for (int length = 1; length <= most; length++) {
        int all = 1;
        for (int i = 0; i < length; i++)
            all *= n;
        for (int k = 0; k < all; k++) {
            for (int i = 0, left = k; i < length; i++, left /= n)
                text[i] = signs[left % n];
            text[length] = '\0';
            ask(text);
        }
    }
}

static void begin(void)
{
    vh_digest_init(&digest);
}

/* A digest over all of them. */
static void keep_each(const char *signs, int most, void (*ask)(const char *text), const char *what,
                      const char *of)
{
    begin();
    each_text(signs, most, ask);
    keep(&digest, what, of);
}

/* ---- numbers ---- */

static void ask_number(const char *text)
{
    double value = 0.0;

    for (int comma = 0; comma < 2; comma++) {
        const bool good = vh_number_parse(text, strlen(text), comma ? ',' : '.', &value);
        if (good)
            add(&digest, "%s %.17g\n", text, value);
        else
            add(&digest, "%s\n", text);
    }
}

static void ask_numbers(void)
{
    static const char *const digits[] = {"1",
                                         "2.2250738585072014",
                                         "17976931348623157",
                                         "17976931348623159",
                                         "9007199254740993",
                                         "4.9e-32",
                                         "0.000000000000000000000000000000001",
                                         "24703282292062328"};
    char text[80];

    each_text("019.,-+e ", 4, ask_number);
    for (size_t i = 0; i < sizeof digits / sizeof digits[0]; i++)
        for (int e = -345; e <= 312; e++) {
            snprintf(text, sizeof text, "%se%d", digits[i], e);
            ask_number(text);
        }
    for (int n = 1; n < 60; n++) {
        snprintf(text, sizeof text, "%0*d.%0*d", n, 1, 60 - n, 1);
        ask_number(text);
        snprintf(text, sizeof text, "1e%0*d", n, 5);
        ask_number(text);
    }
}

/* ---- a line of a scenario ---- */

static void ask_toml(const char *text)
{
    struct vh_messages *m = vh_messages_create();
    struct vh_toml *t = NULL;

    cr_assert(m != NULL);
    told(&digest, text, vh_toml_parse(text, strlen(text), "a", &t, m), m);
    vh_toml_free(t);
}

static void ask_value(const char *text)
{
    char line[40];

    snprintf(line, sizeof line, "a = %s", text);
    ask_toml(line);
}

static void ask_key(const char *text)
{
    char line[40];

    snprintf(line, sizeof line, "%s = 1", text);
    ask_toml(line);
}

static void ask_header(const char *text)
{
    char line[60];

    snprintf(line, sizeof line, "[p]\nb = 1\n%s\na = 2\n", text);
    ask_toml(line);
}

/* ---- rows ---- */

static enum vh_status take(void *context, const struct vh_csv_row *row, bool is_header)
{
    (void)context;
    add(&digest, "%d %d:", is_header, (int)row->line);
    for (size_t i = 0; i < row->cells; i++) {
        double value = 0.0;
        const bool good = row->cell[i].text && vh_csv_number(row->cell[i], '.', &value);
        add(&digest, "[%s]%g", row->cell[i].text ? row->cell[i].text : "-", good ? value : -1.0);
    }
    return VH_OK;
}

static void ask_csv(const char *text)
{
    struct vh_messages *m = vh_messages_create();

    cr_assert(m != NULL);
    told(&digest, text,
         vh_csv_read_memory(text, strlen(text), "a", (struct vh_csv_format){0}, take, NULL, m), m);
}

/* ---- days and times ---- */

static void ask_time(const char *text, const char *pattern)
{
    int64_t wall = 0;
    bool has_offset = false, has_time = false;
    int offset = 0;

    const enum vh_status status =
        vh_time_parse(text, strlen(text), pattern, &wall, &has_offset, &offset, &has_time);
    add(&digest, "%s %d", text, (int)status);
    if (status == VH_OK)
        add(&digest, " %lld %d %d %d", (long long)wall, has_offset, offset, has_time);
    add(&digest, "\n");
}

static void ask_times(void)
{
    static const char *const patterns[] = {NULL,       "%d.%m.%Y %H:%M", "%m/%d/%y %I:%M %p",
                                           "%Y %j %T", "%d %b %Y",       "%F %H:%M:%S%z",
                                           "%D %I%p",  "%%%Y-%m-%d",     "%b %d, %Y %H.%M"};
    static const char *const texts[] = {"2026-03-01",
                                        "2026-03-01T14:00",
                                        "2026-03-01 14:00:30",
                                        "2026-03-01T23:59:59Z",
                                        "2026-03-01T24:00",
                                        "2026-03-01T14:00+02:00",
                                        "2026-03-01T14:00-0530",
                                        "2026-03-01T14:60",
                                        "2026-03-01T14:00:60",
                                        "2026-03-01T14:00:61",
                                        "1900-01-01",
                                        "1899-12-31",
                                        "2199-12-31",
                                        "2200-01-01",
                                        "2026-02-29",
                                        "2028-02-29",
                                        "01.03.2026 14:00",
                                        "31.12.2026 23:59",
                                        "31.4.2026 0:00",
                                        "3/1/26 12:00 AM",
                                        "3/1/26 12:59 pm",
                                        "3/1/26 13:00 pm",
                                        "3/1/26 0:10 am",
                                        "12/31/69 1:00 PM",
                                        "1/1/70 1:00 PM",
                                        "2026 1 00:00:00",
                                        "2026 365 10:00:00",
                                        "2026 366 10:00:00",
                                        "2028 366 10:00:00",
                                        "2026 0 10:00:00",
                                        "1 Mar 2026",
                                        "1 mar 2026",
                                        "1 March 2026",
                                        "30 Feb 2026",
                                        "2026-03-01 14:00:00+0200",
                                        "2026-03-01 14:00:00+14:59",
                                        "2026-03-01 14:00:00-15:00",
                                        "3/1/26 1PM",
                                        "%2026-03-01",
                                        "Mar 1, 2026 14.30",
                                        "",
                                        " ",
                                        "2026-03-01x",
                                        "2026-03-01T",
                                        "2026-03",
                                        "20260301"};

    begin();
    for (size_t p = 0; p < sizeof patterns / sizeof patterns[0]; p++)
        for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++)
            ask_time(texts[i], patterns[p]);
    keep(&digest, "times", "by patterns");
}

static void ask_pattern(const char *text)
{
    char pattern[40];

    snprintf(pattern, sizeof pattern, "%%Y%%%c%%%c", text[0], text[1] ? text[1] : '%');
    add(&digest, "%s %d\n", pattern, vh_time_pattern_is_good(pattern));
}

static void ask_days(void)
{
    char text[40], week[VH_WEEK_TEXT];
    int64_t day;

    begin();
    for (int y = 1899; y <= 2200; y += y == 1900 ? 68 : y == 2030 ? 69 : 1) /* the odd ones too */
        for (int month = 0; month <= 13; month++)
            for (int d = 0; d <= 32; d++) {
                snprintf(text, sizeof text, "%04d-%02d-%02d", y, month, d);
                if (vh_date_parse(text, &day) != VH_OK)
                    continue;
                vh_date_week_format(day, week);
                add(&digest, "%s %lld %d %s\n", text, (long long)day, vh_day_of_year(day), week);
                vh_date_format(day, text);
                add(&digest, "%s\n", text);
            }
    keep(&digest, "days", "of the calendar");
}

static void ask_clocks(void)
{
    const int64_t year_min = 366 * 24 * 60, from = INT64_C(20454) * 24 * 60; /* of 2026 */

    begin();
    for (int rule = VH_CLOCK_STANDARD; rule <= VH_CLOCK_NZ; rule++)
        for (int offset = -480; offset <= 120; offset += 300)
            for (int64_t minute = 0; minute < year_min; minute += 30) {
                bool doubled = false, missing = false;
                const int ahead = vh_clock_ahead_min((enum vh_clock_rule)rule, offset,
                                                     from + minute, &doubled, &missing);
                const char said[] = {(char)('0' + ahead / 60), doubled ? 'd' : '-',
                                     missing ? 'm' : '-', '\n'};
                vh_digest_add(&digest, said, sizeof said);
            }
    keep(&digest, "summer time", "of half hours");
}

/* ---- names in units; text ---- */

static void ask_units(void)
{
    static const char *const ends[] = {
        "_m",       "_cm",     "_mm",     "_kg", "_g",  "_c",    "_m2",      "_per_m2",
        "_per_m",   "_per_kg", "_ft",     "_in", "_lb", "_oz",   "_f",       "_ft2",
        "_per_ft2", "_per_ft", "_per_lb", "_d",  "",    "_w_m2", "_mol_m2_d"};
    enum { ENDS = sizeof ends / sizeof ends[0] };
    char ours[40], given[40];

    begin();
    for (size_t i = 0; i < ENDS; i++)
        for (size_t k = 0; k < ENDS; k++)
            for (int way = 0; way < 4; way++) {
                struct vh_unit_pair u = {0.0, 0.0};
                snprintf(ours, sizeof ours, "%s%s", way & 1 ? "" : "a", ends[i]);
                snprintf(given, sizeof given, "%s%s", way & 1 ? "" : "a", ends[k]);
                const bool yes = vh_units_match(ours, given, way & 2, &u);
                add(&digest, "%s %s %d %.17g %.17g\n", ours, given, yes, yes ? u.scale : 0.0,
                    yes ? u.shift : 0.0);
            }
    keep(&digest, "units", "in pairs");
}

static const char *other_word;
static void ask_distance(const char *text)
{
    for (size_t limit = 0; limit < 4; limit++)
        add(&digest, "%s %s %zu %zu\n", text, other_word, limit,
            vh_key_distance(text, other_word, limit));
}

static void ask_text(const char *text)
{
    size_t at = 0;
    const enum vh_text_fault fault = vh_text_check(text, strlen(text), &at);
    char shown[30];

    vh_text_shorten(text, strlen(text), 3, shown);
    add(&digest, "%d %zu %s\n", (int)fault, at, shown);
}

Test(complaints_short, of_all_short_texts_are_as_kept, .init = make_light_folder,
     .fini = drop_folder)
{
    static const char *const words[] = {"abc", "acb", "abcab", "bb", "a", ""};

    begin_words();
    begin();
    ask_numbers();
    keep(&digest, "numbers", "all short ones");
    keep_each("01.-+,e_:/ \"'[]{}#txn%$=", 3, ask_value, "values", "of three signs");
    keep_each("07.,-e 2:", 4, ask_value, "values", "of four signs");
    keep_each("aA1_-. \"'=[]#:$", 3, ask_key, "keys", "of three signs");
    keep_each("[]ap. #\"", 4, ask_header, "headers", "of four signs");
    keep_each("a1,;\"\n \t", 4, ask_csv, "rows", "of four signs");
    ask_times();
    keep_each("YymdHIMSpbjTDFz%x", 2, ask_pattern, "patterns", "of two letters");
    ask_days();
    ask_clocks();
    ask_units();
    begin();
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++) {
        other_word = words[i];
        each_text("abc_", 4, ask_distance);
    }
    keep(&digest, "slips", "of words");
    keep_each("a\x7f\x80\x8f\x90\x9f\xa0\xbf\xc1\xc2\xdf\xe0\xed\xef\xf0\xf4\xf5\r\n\t\x01", 3,
              ask_text, "bytes", "of text");
    as_kept("complaints-short.txt");
}
