/* Doubtful records as warnings: what is doubted, and what that does to forecast and promise. */
#include <stdio.h>
#include <string.h>

#include "record_parts.h"
#include "vh_result.h"

enum { WHAT_ROOM = 200, WHY_ROOM = 120, DO_ROOM = 240 };

static void say_what_to_do(const struct vh_records *r, const struct vh_record *a,
                           char to_do[DO_ROOM])
{
    if (a->low)
        snprintf(to_do, DO_ROOM, "the promise counts on it; mend it if it is a slip");
    else if (a->much)
        snprintf(to_do, DO_ROOM, "one such entry moves little; mend it if it is a slip");
    else
        snprintf(to_do, DO_ROOM, "%s; mend it if it is a slip or %s",
                 vh_record_is_pick(a->item) ? "nothing is promised from it or learnt"
                                            : "it hardly counts",
                 vh_record_how_sure(r));
}

/* Today while an entry is fresh; a day gone by once it is old: it stays in the table alone. */
static int64_t told_until(const struct vh_house *house, int64_t day, double told_d)
{
    const int64_t last = day + (int64_t)told_d;

    return last < house->today ? last : house->today;
}

static enum vh_status warn(struct vh_table *t, const struct vh_house *house,
                           const struct vh_record *a, size_t earlier, double told_d)
{
    char item[64], what[WHAT_ROOM], why[WHY_ROOM], to_do[DO_ROOM], more[48] = "";

    vh_item_say(a, item, sizeof item);
    if (earlier > 0)
        snprintf(more, sizeof more, ", and %zu earlier %s", earlier,
                 earlier == 1 ? "entry" : "entries");
    /* as she wrote it, unit and all: it is to be found in her file */
    snprintf(what, sizeof what, "%s %.6g %s%s", item, vh_item_wrote(a, a->value),
             a->low    ? "is far less than usual"
             : a->much ? "is much of what was picked that day"
                       : "is doubted",
             more);
    snprintf(why, sizeof why, "line %lld of the records does not fit the others or the planting",
             (long long)a->line);
    say_what_to_do(&house->records, a, to_do);
    return vh_result_warn(t, a->day, house->planting[a->planting].name, what, why, to_do,
                          told_until(house, a->day, told_d));
}

enum kind { FINE, LOW, MUCH, DOUBTED, DOUBTED_PICK };

/* Entries of one kind do the same to the promise. */
static enum kind kind_of(const struct vh_record *a)
{
    if (a->low)
        return LOW;
    if (a->much)
        return MUCH;
    if (!a->doubt)
        return FINE;
    return vh_record_is_pick(a->item) ? DOUBTED_PICK : DOUBTED;
}

/* The last of its planting and kind is told with the number of those before it. */
enum vh_status vh_result_warn_records(struct vh_table *t, const struct vh_house *house,
                                      double told_d)
{
    const struct vh_records *r = &house->records;
    enum vh_status status = VH_OK;

    for (size_t i = 0; i < r->rows && status == VH_OK; i++) {
        const enum kind kind = kind_of(&r->row[i]);
        size_t earlier = 0, later = 0;
        if (kind == FINE)
            continue;
        for (size_t k = 0; k < r->rows; k++)
            if (kind_of(&r->row[k]) == kind && r->row[k].planting == r->row[i].planting)
                *(k < i ? &earlier : &later) += k != i;
        if (later == 0)
            status = warn(t, house, &r->row[i], earlier, told_d);
    }
    return status;
}
