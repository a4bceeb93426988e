/* What can be explained: the columns of the files that the grower brings, as their readers list
 * them. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "explain_parts.h"
#include "record_parts.h"
#include "vh_climate_columns.h"
#include "vh_grade.h"
#include "vh_kept.h"

static const struct {
    const char *file, *where, *used_in;
} files[] = {
    {"log", "a log", "model/climate/vh_climate.h"},
    {"outside", "an outside file", "model/climate/vh_climate.h"},
    {"normals", "a file of normals", "model/climate/vh_climate.h"},
    {"records", "a records file", "model/house/vh_record.h"},
    {"grades", "a file of grades", "model/market/vh_grade.h"},
    {"kept", "a file of kept factors", "model/house/vh_kept.h"},
};

struct giving {
    vh_meaning_take take;
    void *context;
};

static enum vh_status give_column(void *context, const struct vh_brought_column *c)
{
    const struct giving *g = context;
    char whole[VH_MEANING_ROOM], note[VH_MEANING_ROOM] = "";
    struct vh_meaning m = vh_meaning_empty();
    size_t i = 0;

    while (strcmp(files[i].file, c->file) != 0)
        i++;
    snprintf(whole, sizeof whole, "%s.%s", c->file, c->name);
    vh_other_units_said(c->name, false, note);
    const bool is_number = !isnan(c->low);
    m.what = "column";
    m.name = whole;
    m.alone = c->name;
    m.list = c->file;
    m.where = files[i].where;
    m.kind = is_number ? "number" : "text";
    m.unit = is_number ? vh_unit_of_name(c->name) : "";
    m.low = c->low;
    m.high = c->high;
    m.meaning = c->meaning;
    m.note = note;
    m.used_in = files[i].used_in;
    m.other_units = true;
    return g->take(g->context, &m);
}

enum vh_status vh_meanings_of_brought(const struct vh_parameters *p, vh_meaning_take take,
                                      void *context)
{
    struct giving g = {take, context};
    enum vh_status status = vh_climate_columns(&p->house, give_column, &g);

    if (status == VH_OK)
        status = vh_record_columns(give_column, &g);
    if (status == VH_OK)
        status = vh_grade_columns(give_column, &g);
    return status == VH_OK ? vh_kept_columns(give_column, &g) : status;
}
