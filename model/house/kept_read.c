#include "vh_kept.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "vh_csv.h"
#include "vh_house.h"
#include "vh_math.h"

#define EIGHTY_WIDE                                                                                \
    2.5631031310892007    /* standard deviations from the 10th percentile to the 90th */
#define FACTOR_LEAST 0.05 /* no plant is a twentieth of another, or twenty of it */
#define FACTOR_MOST 20.0
#define OFFSET_MOST_K 10.0

enum { WHO, NAME, FACTOR, LOW, HIGH, COLUMNS };
static const struct vh_brought_column columns[COLUMNS] = {
    {"kept", "crop_or_planting", (double)NAN, (double)NAN,
     "whose factor it is: a planting, a crop for all of its plantings, or house"},
    {"kept", "name", (double)NAN, (double)NAN, "which factor, as learned.csv names them"},
    {"kept", "factor", FACTOR_LEAST, FACTOR_MOST,
     "what the book's value is multiplied by; of log_offset_c the offset itself"},
    {"kept", "low", FACTOR_LEAST, FACTOR_MOST, "lower end of what four futures in five have"},
    {"kept", "high", FACTOR_LEAST, FACTOR_MOST, "upper end of what four futures in five have"},
};
static const char *const kinds[VH_KEPT_KINDS] = {
    [VH_KEPT_LIGHT] = "light",
    [VH_KEPT_TRUSS_PACE] = "truss_pace",
    [VH_KEPT_FRUIT_PACE] = "fruit_pace",
    [VH_KEPT_FRUIT_MASS] = "fruit_mass",
    [VH_KEPT_SET] = "set",
    [VH_KEPT_STEM_PACE] = "stem_pace",
    [VH_KEPT_SUCKER_PACE] = "sucker_pace",
    [VH_KEPT_MARKETABLE] = "marketable",
    [VH_KEPT_LOG_OFFSET] = "log_offset_c",
};

const char *vh_kept_name(enum vh_kept_kind kind)
{
    return kinds[kind];
}

struct reading {
    struct vh_house *house;
    bool *by_name; /* [planting * VH_KEPT_KINDS] said of the planting itself, not of its crop */
    bool *twice;   /* [(plantings + 1) * VH_KEPT_KINDS] seen: the house's come last */
    struct vh_messages *m;
    enum vh_status status; /* the worst so far: rows are read on, so that one run tells all */
};

static const char *text_of(const struct vh_csv_row *row, int column)
{
    return row->cell[column].text ? row->cell[column].text : "";
}

static enum vh_status take_header(const struct reading *r, const struct vh_csv_row *row)
{
    bool good = row->cells == COLUMNS;

    for (size_t i = 0; good && i < row->cells; i++)
        good = strcmp(text_of(row, (int)i), columns[i].name) == 0;
    if (good)
        return VH_OK;
    return vh_fail(r->m, VH_BAD_INPUT, (struct vh_place){row->file, row->line, 0, NULL},
                   "the columns of kept factors are crop_or_planting,name,factor,low,high, as"
                   " `vinehand learn --save` writes them");
}

static int kind_of(const char *name)
{
    for (int k = 0; k < VH_KEPT_KINDS; k++)
        if (strcmp(name, kinds[k]) == 0)
            return k;
    return -1;
}

/* Three numbers in order, none absurd. */
static enum vh_status take_numbers(const struct reading *r, const struct vh_csv_row *row,
                                   enum vh_kept_kind kind, struct vh_kept *out,
                                   struct vh_place where)
{
    const bool is_offset = kind == VH_KEPT_LOG_OFFSET;
    const double least = is_offset ? -OFFSET_MOST_K : FACTOR_LEAST,
                 most = is_offset ? OFFSET_MOST_K : FACTOR_MOST;
    double value[COLUMNS];

    for (int i = FACTOR; i <= HIGH; i++)
        if (!vh_csv_number(row->cell[i], '.', &value[i]) || value[i] < least || value[i] > most)
            return vh_fail(r->m, VH_BAD_INPUT, where,
                           "%s `%.40s` is no number from %g to %g, which %s would be",
                           columns[i].name, text_of(row, i), least, most, kinds[kind]);
    if (value[LOW] > value[FACTOR] || value[FACTOR] > value[HIGH] || !(value[LOW] < value[HIGH]))
        return vh_fail(r->m, VH_BAD_INPUT, where,
                       "factor %g does not lie between low %g and high %g; low, factor and high"
                       " rise",
                       value[FACTOR], value[LOW], value[HIGH]);
    *out = (struct vh_kept){
        true, value[FACTOR],
        (is_offset ? value[HIGH] - value[LOW] : vh_log(value[HIGH] / value[LOW])) / EIGHTY_WIDE};
    return VH_OK;
}

static enum vh_status check_twice(const struct reading *r, size_t slot, enum vh_kept_kind kind,
                                  const char *who, struct vh_place where)
{
    bool *seen = &r->twice[slot * VH_KEPT_KINDS + (size_t)kind];

    if (*seen)
        return vh_fail(r->m, VH_BAD_INPUT, where, "%s of %.40s stands twice; keep one", kinds[kind],
                       who);
    *seen = true;
    return VH_OK;
}

static enum vh_status take_house(const struct reading *r, enum vh_kept_kind kind,
                                 const struct vh_kept *kept, struct vh_place where)
{
    if (!vh_kept_is_of_house(kind))
        return vh_fail(r->m, VH_BAD_INPUT, where,
                       "%s belongs to a crop or a planting, not to the house", kinds[kind]);
    const enum vh_status status = check_twice(r, r->house->plantings, kind, VH_KEPT_HOUSE, where);
    if (status == VH_OK)
        r->house->kept[kind] = *kept;
    return status;
}

static enum vh_status take_plants(const struct reading *r, const char *who, enum vh_kept_kind kind,
                                  const struct vh_kept *kept, struct vh_place where)
{
    struct vh_house *h = r->house;
    size_t fits = 0;

    if (vh_kept_is_of_house(kind))
        return vh_fail(r->m, VH_BAD_INPUT, where, "%s is of the house; write house before it",
                       kinds[kind]);
    for (size_t k = 0; k < h->plantings; k++) {
        struct vh_planting *p = &h->planting[k];
        const bool is_named = strcmp(who, p->name) == 0;
        const size_t at = k * VH_KEPT_KINDS + (size_t)kind;
        if (!is_named && strcmp(who, p->crop_name) != 0)
            continue;
        fits++;
        const enum vh_status status = is_named ? check_twice(r, k, kind, who, where) : VH_OK;
        if (status != VH_OK)
            return status;
        if (!is_named && r->by_name[at])
            continue;
        r->by_name[at] = is_named;
        p->kept[kind] = *kept;
    }
    if (fits == 0)
        vh_warn(r->m, where, "no planting or crop here is called %.40s; its %s is passed over", who,
                kinds[kind]);
    return VH_OK;
}

static enum vh_status take(void *context, const struct vh_csv_row *row, bool is_header)
{
    struct reading *r = context;
    const struct vh_place where = {row->file, row->line, 0, NULL};
    struct vh_kept kept;

    if (is_header)
        return take_header(r, row);
    const char *who = text_of(row, WHO);
    const int kind = kind_of(text_of(row, NAME));
    enum vh_status status = VH_OK;
    if (kind < 0)
        status = vh_fail(r->m, VH_BAD_INPUT, where,
                         "nothing called `%.40s` is learnt; light, truss_pace, fruit_pace,"
                         " fruit_mass, set, stem_pace, sucker_pace, marketable or log_offset_c"
                         " would be right",
                         text_of(row, NAME));
    if (status == VH_OK)
        status = take_numbers(r, row, (enum vh_kept_kind)kind, &kept, where);
    if (status == VH_OK)
        status = strcmp(who, VH_KEPT_HOUSE) == 0
                     ? take_house(r, (enum vh_kept_kind)kind, &kept, where)
                     : take_plants(r, who, (enum vh_kept_kind)kind, &kept, where);
    if (status != VH_OK)
        r->status = status;
    return status == VH_BAD_INPUT ? VH_OK : status;
}

static enum vh_status begin(struct reading *r)
{
    const size_t n = (r->house->plantings + 1) * VH_KEPT_KINDS;

    r->by_name = calloc(n, sizeof *r->by_name);
    r->twice = calloc(n, sizeof *r->twice);
    return r->by_name && r->twice ? VH_OK : VH_NO_MEMORY;
}

static enum vh_status end(struct reading *r, enum vh_status status)
{
    free(r->by_name);
    free(r->twice);
    return status == VH_OK ? r->status : status;
}

enum vh_status vh_kept_read(struct vh_house *house, const char *path, const char *shown_name,
                            struct vh_digest *digest, struct vh_messages *m)
{
    struct reading r = {.house = house, .m = m, .status = VH_OK};
    const struct vh_csv_format format = {',', '.'};
    const enum vh_status status = begin(&r);

    return end(&r, status == VH_OK ? vh_csv_read(path, shown_name, format, digest, take, &r, m)
                                   : status);
}

enum vh_status vh_kept_read_memory(struct vh_house *house, const char *text, size_t n,
                                   const char *shown_name, struct vh_messages *m)
{
    struct reading r = {.house = house, .m = m, .status = VH_OK};
    const struct vh_csv_format format = {',', '.'};
    const enum vh_status status = begin(&r);

    return end(&r, status == VH_OK ? vh_csv_read_memory(text, n, shown_name, format, take, &r, m)
                                   : status);
}

enum vh_status vh_kept_columns(vh_brought_take take_column, void *context)
{
    enum vh_status status = VH_OK;

    for (size_t i = 0; i < COLUMNS && status == VH_OK; i++)
        status = take_column(context, &columns[i]);
    return status;
}
