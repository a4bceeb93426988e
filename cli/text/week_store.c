/* What of the next market day's fruit is picked already. */
#include "vh_week_store.h"

#include <math.h>
#include <string.h>

#include "vh_week_much.h"

/* The market day before the next one, and that one; NaN: there is none. */
struct between {
    double after, until;
};

static struct between market_days(const struct vh_table *t, double today)
{
    struct between b = {(double)NAN, (double)NAN};

    for (size_t i = 0; t && i < vh_table_rows(t); i++) {
        const double date = vh_cell_number(t, i, "date");
        if (date < today)
            b.after = fmax(b.after, date);
        else
            b.until = fmin(b.until, date);
    }
    return b;
}

struct store {
    double much;
    bool foreseen; /* some of it was not written down */
};

/* Rows of one planting; most of them lie on other days and are passed over by two numbers. */
struct rows {
    const struct vh_table *picks;
    const char *planting;
    size_t date, whose; /* columns */
};

static bool is_between(const struct rows *r, size_t row, double after, double until)
{
    const double date = vh_table_number(r->picks, row, r->date);

    return date > after && date <= until &&
           strcmp(vh_table_text(r->picks, row, r->whose), r->planting) == 0;
}

/* What was written down since the last market day, and what is foreseen of the days after it. */
static struct store store_of(const struct rows *r, bool pieces, double after, double today)
{
    struct store s = {0.0, false};
    double written_to = after;

    for (size_t i = 0; i < vh_table_rows(r->picks); i++) {
        if (!is_between(r, i, after, today))
            continue;
        const double much = vh_week_written(r->picks, i, pieces);
        if (!isfinite(much))
            continue;
        s.much += much;
        written_to = fmax(written_to, vh_table_number(r->picks, i, r->date));
    }
    for (size_t i = 0; i < vh_table_rows(r->picks); i++) {
        if (!is_between(r, i, written_to, today - 1.0))
            continue;
        const double much = vh_cell_number(r->picks, i, pieces ? "fruits" : "kg");
        if (!(much > 0.0))
            continue;
        s.much += much;
        s.foreseen = true;
    }
    return s;
}

void vh_week_store(FILE *to, const struct vh_result *r, const struct vh_summary_facts *f,
                   int indent)
{
    const struct vh_table *summary = vh_result_table_named(r, "summary"),
                          *picks = vh_result_table_named(r, "picks");
    const double today = (double)f->today;
    const struct between b = market_days(vh_result_table_named(r, "market_days"), today);
    char text[VH_SAY_TEXT] = "", written[VH_SAY_TEXT] = "", foreseen[VH_SAY_TEXT] = "";
    char much[VH_WEEK_MUCH_ROOM];

    if (!summary || !picks || isnan(b.after) || isnan(b.until))
        return;
    for (size_t i = 0; i < vh_table_rows(summary); i++) {
        const char *planting = vh_cell_text(summary, i, "planting");
        const bool pieces = vh_week_by_pieces(summary, planting);
        const struct rows rows = {picks, planting, (size_t)vh_table_find(picks, "date"),
                                  (size_t)vh_table_find(picks, "planting")};
        const struct store s = store_of(&rows, pieces, b.after, today);
        vh_week_much(f, s.much, s.much, pieces, much);
        if (!much[0])
            continue;
        char *list = s.foreseen ? foreseen : written;
        vh_say_add(list, "%s %s %s", list[0] ? "," : "", much, planting);
    }
    if (written[0])
        vh_say_add(text, "in store by now%s", written);
    if (foreseen[0])
        vh_say_add(text, "%s%s",
                   text[0] ? "; as foreseen" : "in store by now, as foreseen:", foreseen);
    if (text[0])
        vh_say_block(to, "", indent, text);
}
