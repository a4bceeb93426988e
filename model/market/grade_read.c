#include "vh_grade.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "vh_csv.h"
#include "vh_math.h"

enum { NAME, MEASURE, FROM, TO, NEEDED, COLUMNS_MOST = 8, NAME_MOST = 40 };
#define NO_BOUND (double)NAN, (double)NAN
static const struct vh_brought_column columns[COLUMNS_MOST] = {
    {"grades", "grade", NO_BOUND, "name of the class, as prices in per_kg name it"},
    {"grades", "measure", NO_BOUND, "diameter_mm or mass_g: by what fruit is sorted"},
    {"grades", "from", 0.0, (double)NAN, "least size of the class, in mm or g as measure says"},
    {"grades", "to", 0.0, (double)NAN, "size up to which it goes; empty: no limit"},
    {"grades", "basis", NO_BOUND, "how the limits were come by; may be absent"},
    {"grades", "source", NO_BOUND, "where they stand; may be absent"},
    {"grades", "place", NO_BOUND, "page or section there; may be absent"},
    {"grades", "note", NO_BOUND, "what else is to be known; may be absent"},
};
static const char *const measures[] = {"diameter_mm", "mass_g"};

struct reading {
    struct vh_grades *grades;
    struct vh_messages *m;
    enum vh_status status; /* the worst so far: rows are read on, so that one run tells all */
};

static const char *text_of(const struct vh_csv_row *row, int column)
{
    return row->cell[column].text ? row->cell[column].text : "";
}

static enum vh_status take_header(const struct reading *r, const struct vh_csv_row *row)
{
    bool good = row->cells == NEEDED || row->cells == COLUMNS_MOST;

    for (size_t i = 0; good && i < row->cells; i++)
        good = strcmp(text_of(row, (int)i), columns[i].name) == 0;
    if (good)
        return VH_OK;
    return vh_fail(r->m, VH_BAD_INPUT, (struct vh_place){row->file, row->line, 0, NULL},
                   "the columns of a table of grades are grade,measure,from,to, and if you like"
                   " basis,source,place,note behind them");
}

static enum vh_status check_name(const struct reading *r, const char *name, struct vh_place where)
{
    if (name[0] == '\0')
        return vh_fail(r->m, VH_BAD_INPUT, where, "the grade has no name; small or large, say");
    if (strlen(name) > NAME_MOST)
        return vh_fail(r->m, VH_BAD_INPUT, where,
                       "the grade's name is too long; at most %d letters", NAME_MOST);
    if (vh_grade_find(r->grades, name) < r->grades->grades)
        return vh_fail(r->m, VH_BAD_INPUT, where, "grade %s stands twice; keep one", name);
    return VH_OK;
}

static enum vh_status take_measure(const struct reading *r, const char *word, struct vh_place where)
{
    const bool is_mass = strcmp(word, measures[VH_GRADE_MASS_G]) == 0;

    if (!is_mass && strcmp(word, measures[VH_GRADE_DIAMETER_MM]) != 0)
        return vh_fail(r->m, VH_BAD_INPUT, where,
                       "measure `%.40s`; diameter_mm or mass_g would be right", word);
    const enum vh_grade_measure measure = is_mass ? VH_GRADE_MASS_G : VH_GRADE_DIAMETER_MM;
    if (r->grades->grades > 0 && measure != r->grades->measure)
        return vh_fail(r->m, VH_BAD_INPUT, where,
                       "measure %s below rows in %s; one table goes by one measure", word,
                       measures[r->grades->measure]);
    r->grades->measure = measure;
    return VH_OK;
}

static enum vh_status check_order(const struct reading *r, const struct vh_grade *grade,
                                  struct vh_place where)
{
    if (r->grades->grades == 0)
        return VH_OK;
    const struct vh_grade *before = &r->grades->grade[r->grades->grades - 1];
    if (before->to == VH_ENDLESS)
        return vh_fail(r->m, VH_BAD_INPUT, where,
                       "grade %s above has no upper limit; give it one, or let it be the last",
                       before->name);
    if (!(grade->from > before->from) || !(grade->to > before->to))
        return vh_fail(r->m, VH_BAD_INPUT, where,
                       "this grade is not larger than %s above (%g to %g); go from small to large",
                       before->name, before->from, before->to);
    if (grade->from > before->to)
        return vh_fail(r->m, VH_BAD_INPUT, where,
                       "sizes from %g to %g belong to no grade; let this one begin at %g",
                       before->to, grade->from, before->to);
    return VH_OK;
}

static enum vh_status take_limits(const struct reading *r, const struct vh_csv_row *row,
                                  struct vh_grade *grade, struct vh_place where)
{
    if (!vh_csv_number(row->cell[FROM], '.', &grade->from) || grade->from < 0.0)
        return vh_fail(r->m, VH_BAD_INPUT, where,
                       "from `%.40s` is no size; a number from 0 on would be right",
                       text_of(row, FROM));
    if (text_of(row, TO)[0] == '\0')
        grade->to = VH_ENDLESS;
    else if (!vh_csv_number(row->cell[TO], '.', &grade->to) || !(grade->to > grade->from))
        return vh_fail(r->m, VH_BAD_INPUT, where,
                       "to `%.40s` is no size above from; a greater number, or nothing where"
                       " there is no limit, would be right",
                       text_of(row, TO));
    return check_order(r, grade, where);
}

static enum vh_status keep(struct vh_grades *g, struct vh_grade grade, const char *name)
{
    struct vh_grade *more = realloc(g->grade, (g->grades + 1) * sizeof *more);

    if (!more)
        return VH_NO_MEMORY;
    g->grade = more;
    grade.name = strdup(name);
    if (!grade.name)
        return VH_NO_MEMORY;
    g->grade[g->grades++] = grade;
    return VH_OK;
}

static enum vh_status take(void *context, const struct vh_csv_row *row, bool is_header)
{
    struct reading *r = context;
    const struct vh_place where = {row->file, row->line, 0, NULL};
    struct vh_grade grade = {NULL, 0.0, 0.0};

    if (is_header)
        return take_header(r, row);
    if (r->grades->grades == VH_GRADES_MOST)
        return vh_fail(r->m, VH_BAD_INPUT, where, "more than %d grades; take some together",
                       VH_GRADES_MOST);
    enum vh_status status = check_name(r, text_of(row, NAME), where);
    if (status == VH_OK)
        status = take_measure(r, text_of(row, MEASURE), where);
    if (status == VH_OK)
        status = take_limits(r, row, &grade, where);
    if (status == VH_OK)
        return keep(r->grades, grade, text_of(row, NAME));
    r->status = status;
    return status == VH_BAD_INPUT ? VH_OK : status;
}

static enum vh_status end(struct reading *r, enum vh_status status, const char *shown_name)
{
    if (status == VH_OK)
        status = r->status;
    if (status == VH_OK && r->grades->grades == 0)
        status = vh_fail(r->m, VH_BAD_INPUT, (struct vh_place){shown_name, 0, 0, NULL},
                         "holds no grade; add a row such as large,mass_g,170,280");
    if (status != VH_OK)
        vh_grades_clear(r->grades);
    return status;
}

enum vh_status vh_grades_read(const char *path, const char *shown_name, struct vh_digest *digest,
                              struct vh_grades *out, struct vh_messages *m)
{
    struct reading r = {out, m, VH_OK};
    const struct vh_csv_format format = {',', '.'};

    *out = (struct vh_grades){0};
    return end(&r, vh_csv_read(path, shown_name, format, digest, take, &r, m), shown_name);
}

enum vh_status vh_grades_read_memory(const char *text, size_t n, const char *shown_name,
                                     struct vh_grades *out, struct vh_messages *m)
{
    struct reading r = {out, m, VH_OK};
    const struct vh_csv_format format = {',', '.'};

    *out = (struct vh_grades){0};
    return end(&r, vh_csv_read_memory(text, n, shown_name, format, take, &r, m), shown_name);
}

void vh_grades_clear(struct vh_grades *g)
{
    for (size_t i = 0; i < g->grades; i++)
        free(g->grade[i].name);
    free(g->grade);
    *g = (struct vh_grades){0};
}

enum vh_status vh_grade_columns(vh_brought_take take_column, void *context)
{
    enum vh_status status = VH_OK;

    for (size_t i = 0; i < COLUMNS_MOST && status == VH_OK; i++)
        status = take_column(context, &columns[i]);
    return status;
}
