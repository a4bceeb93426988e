/* What can be explained: the rows of params/, each with what it is for and which crops it holds
 * for.
 */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "explain_parts.h"

enum { CROPS_ROOM = 600 };

struct group {
    const char *name, *used_in, *meaning;
};

/* What the first part of a parameter's name stands for, and where its equations are. */
static const struct group crop_groups[] = {
    {"truss", "model/plant/vh_truss.h", "how fast new trusses come"},
    {"node", "model/plant/vh_truss.h", "how fast new nodes come, where the crop counts nodes"},
    {"clock", "model/plant/vh_clock.h", "how fast fruit ripens"},
    {"flower", "model/plant/vh_flower.h", "how many flowers become fruit"},
    {"light", "model/plant/vh_light.h", "what the leaves make from light"},
    {"upkeep", "model/plant/vh_light.h", "what living tissue burns to stay alive"},
    {"fruit", "model/plant/vh_fruit.h", "how fruit grows and how heavy it gets"},
    {"share", "model/plant/vh_share.h", "who gets how much of what the leaves made"},
    {"leaf", "model/plant/vh_leaf.h", "how large leaves get"},
    {"stem", "model/plant/vh_stem.h", "how fast the stem grows"},
    {"sucker", "model/plant/vh_sucker.h", "how side shoots grow and what they take"},
    {"habit", "model/plant/vh_crop.h",
     "what growers of the crop usually do: defaults of a scenario"},
    {"hang", "model/plant/vh_hang.h", "how stems are hung, leaned and lowered: defaults"},
    {"spoil", "model/market/vh_spoil.h", "what of the picked fruit cannot be sold, and why"},
    {"store", "model/market/vh_store.h", "how long picked fruit keeps, and where"},
};
static const struct group house_groups[] = {
    {"house", "model/climate/vh_climate.h", "defaults of a house"},
    {"market", "model/market/vh_market.h", "defaults of selling"},
    {"sky", "model/climate/vh_sun.h", "what sun and sky send"},
    {"light", "model/climate/vh_climate.h", "light in the house"},
    {"cover", "model/climate/vh_climate.h", "what a cover lets through"},
    {"log", "model/climate/vh_climate.h", "how a log is read"},
    {"days", "model/climate/vh_climate.h", "what is counted of a day"},
    {"doubt", "model/climate/vh_climate.h", "from where on a result is doubted"},
};
static const struct group record_groups[] = {
    {"record", "model/house/vh_record.h", "how far a record may be off"},
};
static const struct group futures_groups[] = {
    {"futures", "model/house/vh_futures.h", "how far futures scatter"},
};
static const struct group start_groups[] = {
    {"start", "model/house/vh_start_params.h", "guesses of a first scenario"},
};
static const struct group work_groups[] = {
    {"work", "model/work/vh_minutes.h", "how long tasks take and may wait, and rules of thumb"},
};
static const struct group colour_groups[] = {
    {"colour", "model/plant/vh_clock.h", "stages of a ripening fruit, as shares of the way"},
};

/* One list of fields and the files whose rows fill them. */
struct rows {
    const struct vh_param_field *field;
    size_t fields;
    const struct group *group;
    size_t groups;
    const struct vh_crop_file *crop; /* NULL: one set for all */
    size_t crops;
    const struct vh_param_set *set;
    const char *folder; /* before a file's name: "crops/" */
};

static const struct group *group_of(const struct rows *r, const char *name)
{
    for (size_t i = 0; i < r->groups; i++) {
        const size_t n = strlen(r->group[i].name);
        if (strncmp(name, r->group[i].name, n) == 0 && name[n] == '.')
            return &r->group[i];
    }
    return NULL;
}

static const struct vh_param_set *set_of(const struct rows *r, size_t i)
{
    return r->crop ? &r->crop[i].rows : r->set;
}

static bool is_same_row(const struct vh_param_row *a, const struct vh_param_row *b)
{
    return a && b && a->line == b->line && strcmp(a->file, b->file) == 0;
}

/* Crops share base files: a row is told once, by the first crop that it holds for. */
static bool is_told(const struct rows *r, size_t crop, const struct vh_param_row *row)
{
    for (size_t i = 0; r->crop && i < crop; i++) {
        if (is_same_row(vh_param_find(&r->crop[i].rows, row->name), row))
            return true;
    }
    return false;
}

static void say_crops(const struct rows *r, const struct vh_param_row *row, char text[CROPS_ROOM])
{
    size_t n = 0;

    text[0] = '\0';
    for (size_t i = 0; r->crop && i < r->crops && n < CROPS_ROOM; i++) {
        if (is_same_row(vh_param_find(&r->crop[i].rows, row->name), row))
            n += (size_t)snprintf(text + n, CROPS_ROOM - n, "%s%s", n ? ", " : "", r->crop[i].name);
    }
}

/* "tomato-large" of "/usr/share/params/crops/tomato-large.csv" */
static void say_stem(const char *file, char stem[VH_MEANING_ROOM])
{
    const char *slash = strrchr(file, '/');
    const char *name = slash ? slash + 1 : file;
    const char *dot = strrchr(name, '.');

    snprintf(stem, VH_MEANING_ROOM, "%.*s", (int)(dot ? (size_t)(dot - name) : strlen(name)), name);
}

static void say_kind(const struct vh_param_field *field, char kind[VH_MEANING_ROOM])
{
    if (field->kind == VH_PARAM_CHOICE)
        vh_choices_said(field->choices, kind);
    else
        snprintf(kind, VH_MEANING_ROOM, "number");
}

static struct vh_meaning of_field(const struct rows *r, const struct vh_param_field *field)
{
    const struct group *group = group_of(r, field->name);
    const char *dot = strchr(field->name, '.');
    struct vh_meaning m = vh_meaning_empty();

    m.what = "parameter";
    m.name = field->name;
    m.alone = dot ? dot + 1 : field->name;
    m.unit = field->unit;
    m.meaning = field->meaning ? field->meaning : "";
    m.used_in = group ? group->used_in : "";
    return m;
}

static enum vh_status give_row(const struct rows *r, const struct vh_param_field *field,
                               const struct vh_param_row *row, vh_meaning_take take, void *context)
{
    char stem[VH_MEANING_ROOM], where[VH_MEANING_ROOM], kind[VH_MEANING_ROOM], crops[CROPS_ROOM];
    struct vh_meaning m = of_field(r, field);

    say_stem(row->file, stem);
    snprintf(where, sizeof where, "%s%.150s.csv", r->folder, stem);
    say_kind(field, kind);
    say_crops(r, row, crops);
    m.list = stem;
    m.where = where;
    m.kind = kind;
    m.value = row->value_text;
    m.low = row->low;
    m.high = row->high;
    m.basis = row->basis;
    m.source = row->source;
    m.place = row->place;
    m.note = row->note;
    m.crops = crops;
    m.line = row->line;
    return take(context, &m);
}

static enum vh_status give_rows(const struct rows *r, vh_meaning_take take, void *context)
{
    enum vh_status status = VH_OK;

    for (size_t f = 0; f < r->fields; f++) {
        for (size_t i = 0; i < r->crops && status == VH_OK; i++) {
            const struct vh_param_row *row = vh_param_find(set_of(r, i), r->field[f].name);
            if (row && !is_told(r, i, row))
                status = give_row(r, &r->field[f], row, take, context);
        }
    }
    return status;
}

/* A group and its fields, without the values of each crop. */
static enum vh_status give_groups(const struct rows *r, vh_meaning_take take, void *context)
{
    enum vh_status status = VH_OK;

    for (size_t g = 0; g < r->groups && status == VH_OK; g++) {
        struct vh_meaning m = vh_meaning_empty();
        m.what = "group";
        m.name = m.alone = r->group[g].name;
        m.where = r->crop ? "crops" : "defaults.csv";
        m.meaning = r->group[g].meaning;
        m.used_in = r->group[g].used_in;
        status = take(context, &m);
        for (size_t f = 0; f < r->fields && status == VH_OK; f++) {
            if (group_of(r, r->field[f].name) != &r->group[g])
                continue;
            struct vh_meaning member = of_field(r, &r->field[f]);
            member.list = r->group[g].name;
            member.where = m.where;
            member.as_member = true;
            status = take(context, &member);
        }
    }
    return status;
}

/* Which other files a crop stands on. */
static void say_bases(const struct vh_crop_file *crop, char note[VH_MEANING_ROOM])
{
    size_t n = 0;

    note[0] = '\0';
    for (size_t i = 0; i < crop->rows.rows && n < VH_MEANING_ROOM; i++) {
        char stem[VH_MEANING_ROOM];
        say_stem(crop->rows.row[i].file, stem);
        if (strcmp(stem, crop->name) == 0 || strstr(note, stem))
            continue;
        n += (size_t)snprintf(note + n, VH_MEANING_ROOM - n, "%s%s",
                              n ? " and " : "all other rows are those of ", stem);
    }
}

static enum vh_status give_crops(const struct vh_parameters *p, vh_meaning_take take, void *context)
{
    enum vh_status status = VH_OK;

    for (size_t i = 0; i < p->crops && status == VH_OK; i++) {
        char where[VH_MEANING_ROOM], note[VH_MEANING_ROOM];
        struct vh_meaning m = vh_meaning_empty();
        snprintf(where, sizeof where, "crops/%.150s.csv", p->crop[i].name);
        say_bases(&p->crop[i], note);
        m.what = "crop";
        m.name = m.alone = p->crop[i].name;
        m.where = where;
        m.meaning = "a kind of crop, for crop = in a planting";
        m.note = note;
        status = take(context, &m);
    }
    return status;
}

enum vh_status vh_meanings_of_parameters(const struct vh_parameters *p, vh_meaning_take take,
                                         void *context)
{
    struct rows list[] = {
        {.group = crop_groups,
         .groups = sizeof crop_groups / sizeof crop_groups[0],
         .crop = p->crop,
         .crops = p->crops,
         .folder = "crops/"},
        {.group = house_groups,
         .groups = sizeof house_groups / sizeof house_groups[0],
         .crops = 1,
         .set = &p->house_rows,
         .folder = ""},
        {.group = colour_groups,
         .groups = sizeof colour_groups / sizeof colour_groups[0],
         .crops = 1,
         .set = &p->colour_rows,
         .folder = ""},
        {.group = record_groups,
         .groups = sizeof record_groups / sizeof record_groups[0],
         .crops = 1,
         .set = &p->record_rows,
         .folder = ""},
        {.group = futures_groups,
         .groups = sizeof futures_groups / sizeof futures_groups[0],
         .crops = 1,
         .set = &p->futures_rows,
         .folder = ""},
        {.group = work_groups,
         .groups = sizeof work_groups / sizeof work_groups[0],
         .crops = 1,
         .set = &p->work_rows,
         .folder = ""},
        {.group = start_groups,
         .groups = sizeof start_groups / sizeof start_groups[0],
         .crops = 1,
         .set = &p->start_rows,
         .folder = ""},
    };
    list[0].field = vh_crop_fields(&list[0].fields);
    list[1].field = vh_house_param_fields(&list[1].fields);
    list[2].field = vh_colour_fields(&list[2].fields);
    list[3].field = vh_record_param_fields(&list[3].fields);
    list[4].field = vh_futures_param_fields(&list[4].fields);
    list[5].field = vh_work_param_fields(&list[5].fields);
    list[6].field = vh_start_param_fields(&list[6].fields);
    enum vh_status status = give_crops(p, take, context);
    for (size_t i = 0; i < sizeof list / sizeof list[0] && status == VH_OK; i++) {
        status = give_groups(&list[i], take, context);
        if (status == VH_OK)
            status = give_rows(&list[i], take, context);
    }
    return status;
}
