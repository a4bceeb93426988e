/* One more line in a records file: every other byte stays as it is. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "csv_separator.h"
#include "record_parts.h"
#include "scenario_parts.h"
#include "vh_file.h"
#include "vh_text.h"

#define CELL_ROOM 200
#define ROW_ROOM 4096

struct noting {
    const struct vh_scenario *s;
    const struct vh_record_entry *e;
    struct vh_records now; /* of the file as it is; shares the scenario's map */
    struct vh_record_sheet sheet;
    struct vh_record_change *c;
    const char *text; /* the file, or a new header */
    size_t n;
    char separator;
    struct vh_item_word word;
    bool has_word;
    struct vh_messages *m;
};

static struct vh_place at_line(const struct noting *t, int64_t line)
{
    return (struct vh_place){t->c->shown, line, 0, NULL};
}

/* ---- cells ---- */

/* The value as the file writes numbers; other words stay, for the reader to complain of. */
static void say_value(const struct noting *t, double typed_scale, char cell[CELL_ROOM])
{
    const struct vh_csv_cell typed = {t->e->value, strlen(t->e->value)};
    double value;

    snprintf(cell, CELL_ROOM, "%s", t->e->value);
    if (!vh_csv_number(typed, '.', &value) && !vh_csv_number(typed, ',', &value))
        return;
    if (typed_scale != 1.0)
        snprintf(cell, CELL_ROOM, "%.6g", value * typed_scale);
    const bool wants_point = t->separator == ',' || (t->sheet.has_point && !t->sheet.has_comma);
    const bool wants_comma = !wants_point && t->sheet.has_comma;
    for (char *c = cell; *c; c++) {
        if ((*c == ',' && wants_point) || (*c == '.' && wants_comma))
            *c = wants_point ? '.' : ',';
    }
}

static bool add(char *row, const char *text, size_t n)
{
    const size_t used = strlen(row);

    if (used + n + 1 > ROW_ROOM)
        return false;
    memcpy(row + used, text, n);
    row[used + n] = '\0';
    return true;
}

static bool add_cell(const struct noting *t, char *row, const char *text)
{
    const char signs[] = {t->separator, '"', '\n', '\r', '\0'};

    if (!strpbrk(text, signs))
        return add(row, text, strlen(text));
    bool fits = add(row, "\"", 1);
    for (; *text && fits; text++)
        fits = add(row, *text == '"' ? "\"\"" : text, *text == '"' ? 2 : 1);
    return fits && add(row, "\"", 1);
}

static bool is_ours(const struct noting *t, const struct vh_record_column *c)
{
    return t->has_word && c->role == VH_ROLE_MEASURE && c->word.item == t->word.item &&
           (c->word.item < VH_RECORD_MINUTES || c->word.task == t->word.task);
}

/* Text of one cell of the new line; "" for what the entry does not say. */
static void say_cell(const struct noting *t, const struct vh_record_column *c, char cell[CELL_ROOM])
{
    cell[0] = '\0';
    switch (c->role) {
    case VH_ROLE_DATE:
        vh_date_format(t->e->day, cell);
        break;
    case VH_ROLE_PLANTING:
        snprintf(cell, CELL_ROOM, "%s", t->e->planting);
        break;
    case VH_ROLE_ITEM:
        snprintf(cell, CELL_ROOM, "%s", t->e->item);
        break;
    case VH_ROLE_VALUE:
        say_value(t, 1.0, cell);
        break;
    case VH_ROLE_TRUSS:
        if (t->e->truss)
            snprintf(cell, CELL_ROOM, "%d", t->e->truss);
        break;
    case VH_ROLE_OF:
        if (t->e->of)
            snprintf(cell, CELL_ROOM, "%d", t->e->of);
        break;
    case VH_ROLE_MEASURE:
        if (is_ours(t, c))
            say_value(t, t->word.unit.scale / c->word.unit.scale, cell);
        break;
    case VH_ROLE_NONE:
    case VH_ROLE_NOTE:
        break;
    }
}

/* ---- the place in the file ---- */

static size_t start_of_line(const struct noting *t, int64_t line)
{
    size_t at = vh_text_bom(t->text, t->n);

    for (int64_t k = 1; k < line && at < t->n; at++)
        k += t->text[at] == '\n';
    return at;
}

/* Bytes of cell number `column` of the row that begins at `at`. */
static void span_of(const struct noting *t, size_t at, size_t column, size_t *from, size_t *to)
{
    bool quoted = false;

    *from = at;
    for (; at < t->n; at++) {
        const char c = t->text[at];
        if (c == '"')
            quoted = !quoted;
        if (quoted || (c != t->separator && c != '\n' && c != '\r'))
            continue;
        if (column == 0 || c != t->separator)
            break;
        column--;
        *from = at + 1;
    }
    *to = at;
}

static bool is_empty(const struct noting *t, size_t from, size_t to)
{
    for (; from < to; from++) {
        if (!strchr(" \t\"", t->text[from]))
            return false;
    }
    return true;
}

static bool splice(struct noting *t, size_t from, size_t to, const char *text)
{
    const size_t n = strlen(text);
    char *bytes = malloc(t->n - (to - from) + n + 1);

    if (!bytes)
        return false;
    memcpy(bytes, t->text, from);
    memcpy(bytes + from, text, n);
    memcpy(bytes + from + n, t->text + to, t->n - to);
    t->c->bytes = bytes;
    t->c->n = t->n - (to - from) + n;
    return true;
}

/* ---- a new line, or a cell of an old one ---- */

static enum vh_status add_line(struct noting *t)
{
    char row[ROW_ROOM] = "", cell[CELL_ROOM];
    const char *first_end = memchr(t->text, '\n', t->n);
    const char *end = first_end && first_end > t->text && first_end[-1] == '\r' ? "\r\n" : "\n";
    const bool is_ended = t->n > 0 && t->text[t->n - 1] == '\n';
    bool fits = is_ended || add(row, end, strlen(end));

    for (size_t i = 0; i < t->sheet.columns && fits; i++) {
        say_cell(t, &t->sheet.column[i], cell);
        fits = (i == 0 || add(row, &t->separator, 1)) && add_cell(t, row, cell);
    }
    if (is_ended)
        fits = fits && add(row, end, strlen(end));
    if (!fits)
        return vh_fail(t->m, VH_BAD_INPUT, at_line(t, 0), "the entry is too long for a line");
    t->c->line = 1;
    for (size_t i = 0; i < t->n; i++)
        t->c->line += t->text[i] == '\n';
    t->c->line += !is_ended;
    return splice(t, t->n, t->n, row) ? VH_OK : VH_NO_MEMORY;
}

static enum vh_status fill_cell(struct noting *t, const struct vh_record_line *line, size_t column)
{
    char cell[CELL_ROOM], date[11], row[ROW_ROOM] = "";
    size_t from, to;

    span_of(t, start_of_line(t, line->line), column, &from, &to);
    if (!is_empty(t, from, to)) {
        vh_date_format(line->day, date);
        return vh_fail(t->m, VH_BAD_INPUT, at_line(t, line->line),
                       "%s of %s has %.*s on %s already; mend it in the file if it is wrong",
                       t->sheet.column[column].name, t->e->planting,
                       (int)(to - from < VH_SHOWN_MOST ? to - from : VH_SHOWN_MOST), t->text + from,
                       date);
    }
    say_cell(t, &t->sheet.column[column], cell);
    add_cell(t, row, cell); /* fits: a cell in quotes is shorter than a line */
    t->c->line = line->line;
    t->c->filled = true;
    return splice(t, from, to, row) ? VH_OK : VH_NO_MEMORY;
}

/* The line of the visit, where what is new may stand: NULL if there is none. */
static const struct vh_record_line *line_of_visit(const struct noting *t)
{
    for (size_t i = 0; i < t->sheet.lines; i++) {
        const struct vh_record_line *l = &t->sheet.line[i];
        if (l->day != t->e->day ||
            strcmp(t->s->house.planting[l->planting].name, t->e->planting) != 0)
            continue;
        if ((l->truss == t->e->truss && l->of == t->e->of) ||
            (vh_record_is_of_planting(t->word.item) && !t->e->truss && !t->e->of))
            return l;
    }
    return NULL;
}

static enum vh_status no_item(struct noting *t, bool is_two)
{
    char hint[VH_ITEM_HINT];

    if (is_two)
        return vh_fail(t->m, VH_BAD_INPUT, at_line(t, 0),
                       "`%s` may be two items in another unit; write the item in centimetres,"
                       " millimetres or metres",
                       t->e->item);
    if (vh_item_hint(t->e->item, t->s->house.us_units, hint, sizeof hint))
        return vh_fail(t->m, VH_BAD_INPUT, at_line(t, 0), "no item is called `%.40s`; %s",
                       t->e->item, hint);
    return vh_fail(t->m, VH_BAD_INPUT, at_line(t, 0),
                   "no item is called `%.40s`; write one of ours, as in picked_kg or"
                   " done_lower; vinehand explain items lists them",
                   t->e->item);
}

static enum vh_status note_wide(struct noting *t)
{
    size_t column = 0;

    if (!t->has_word)
        return no_item(t, vh_item_of_word(t->e->item, &t->word, NULL) == VH_ITEM_TWO);
    while (column < t->sheet.columns && !is_ours(t, &t->sheet.column[column]))
        column++;
    if (column == t->sheet.columns)
        return vh_fail(t->m, VH_BAD_INPUT, at_line(t, 1),
                       "there is no column for %.40s; add it to the header, and a separator to"
                       " every line",
                       t->e->item);
    const struct vh_record_line *line = line_of_visit(t);
    return line ? fill_cell(t, line, column) : add_line(t);
}

static enum vh_status compose(struct noting *t)
{
    if (t->e->truss && vh_sheet_column(&t->sheet, VH_ROLE_TRUSS) < 0)
        return vh_fail(t->m, VH_BAD_INPUT, at_line(t, 1),
                       "there is no column %s; add it to the header, and a separator to every"
                       " line",
                       "truss");
    if (t->e->of && vh_sheet_column(&t->sheet, VH_ROLE_OF) < 0)
        return vh_fail(t->m, VH_BAD_INPUT, at_line(t, 1),
                       "there is no column %s; add it to the header, and a separator to every"
                       " line",
                       "of");
    return t->sheet.is_wide ? note_wide(t) : add_line(t);
}

/* ---- is it right? ---- */

static void tell(const struct vh_message *said, struct vh_messages *m)
{
    const struct vh_place place = {said->file, said->line, said->column, said->excerpt};

    if (said->severity == VH_ERROR)
        vh_fail(m, VH_BAD_INPUT, place, "%s", said->text);
    else
        vh_warn(m, place, "%s", said->text);
}

static bool is_before_seen(const struct noting *t)
{
    const struct vh_house *h = &t->s->house;

    for (size_t i = 0; i < h->plantings; i++)
        if (strcmp(h->planting[i].name, t->e->planting) == 0)
            return t->e->day < h->planting[i].set_out;
    return false;
}

static const struct vh_record *row_of(const struct noting *t, const struct vh_records *r)
{
    for (size_t i = 0; i < r->rows; i++)
        if (r->row[i].line == t->c->line && r->row[i].item == t->word.item)
            return &r->row[i];
    return NULL;
}

/* What is picked twice a day is added up; what was meant to mend a slip is not. */
static void warn_of_second(const struct noting *t, const struct vh_records *r,
                           const struct vh_record *own)
{
    char date[11], other[32];

    if (!vh_item_kind(own->item)->is_sum || !vh_record_is_of_planting(own->item))
        return;
    for (size_t i = 0; i < r->rows; i++) {
        const struct vh_record *a = &r->row[i];
        if (a == own || a->day != own->day || a->item != own->item || a->planting != own->planting)
            continue;
        vh_date_format(a->day, date);
        snprintf(other, sizeof other, " or %lld", (long long)(a->doubt ? own->line : a->line));
        vh_warn(t->m, at_line(t, t->c->line),
                "%s has %.6g already, on line %lld, %s, take line %lld%s out of the file", date,
                vh_item_wrote(a, a->value), (long long)a->line,
                a->doubt && own->doubt   ? "and both are doubted and count for nothing; if one of "
                                           "them is a slip"
                : a->doubt == own->doubt ? "and both are added; if one of them is a slip"
                : a->doubt ? "which is doubted and counts for nothing beside this; if that was a "
                             "slip"
                           : "beside which this one counts for nothing; if this is the slip",
                (long long)(a->doubt ? a->line : own->line), a->doubt == own->doubt ? other : "");
        return;
    }
}

/* Why the entry does not count, where it does not; or with what it is added up. */
static void warn_of_use(const struct noting *t, const struct vh_records *r)
{
    const struct vh_place place = at_line(t, t->c->line);
    const struct vh_record *own = row_of(t, r);

    if (own) {
        warn_of_second(t, r, own);
        return;
    }
    if (t->e->day > t->s->house.today)
        vh_warn(t->m, place, "the day is after today; it counts from then on");
    else if (vh_item_kind(t->word.item)->by_truss && !t->e->truss)
        vh_warn(t->m, place, "%s is of one truss; it does not count until the line says which",
                t->e->item);
    else if (is_before_seen(t))
        vh_warn(t->m, place, "the day is before the standing crop was seen; it does not count");
    else if (vh_item_kind(t->word.item)->is_sum)
        vh_warn(t->m, place,
                "an earlier line says the same; it counts once. Were there two such lots that day,"
                " make one line of both, with their sum");
    else
        vh_warn(t->m, place, "an earlier line says the same; it counts once");
}

/* What is counted piece by piece is whole where it is typed; a file may hold means of many days. */
static enum vh_status refuse_parts(const struct noting *t)
{
    const struct vh_csv_cell typed = {t->e->value, strlen(t->e->value)};
    double value;

    if (!t->has_word || !vh_item_kind(t->word.item)->is_whole ||
        (!vh_csv_number(typed, '.', &value) && !vh_csv_number(typed, ',', &value)) || value < 0.0)
        return VH_OK;
    if (value == floor(value) && strchr(t->e->value, ',')) /* 12,000: twelve or thousands? */
        return vh_fail(t->m, VH_BAD_INPUT, at_line(t, t->c->line),
                       "`%s` is %s; write digits alone, as in %.0f", t->e->item, t->e->value,
                       value);
    if (value == floor(value))
        return VH_OK;
    return vh_fail(t->m, VH_BAD_INPUT, at_line(t, t->c->line),
                   "`%s` is %s; it is counted in whole pieces, write %.0f or %.0f", t->e->item,
                   t->e->value, floor(value), ceil(value));
}

/* Reads the file as it would be; what is told of other lines was told by them before. */
static enum vh_status prove(struct noting *t)
{
    struct vh_records then = t->s->house.records;
    struct vh_record_sheet sheet = {0};
    struct vh_messages *own = vh_messages_create();

    then.row = NULL;
    then.rows = 0;
    then.report = NULL;
    enum vh_status status = VH_NO_MEMORY;
    if (own)
        status = vh_record_sheet_read(&t->s->house, &t->s->parameters->record, t->c->bytes, t->c->n,
                                      t->c->shown, &then, &sheet, own);
    for (size_t i = 0; own && i < vh_messages_count(own); i++) {
        const struct vh_message *said = vh_messages_at(own, i);
        /* counts of the whole file are not of this line */
        const bool is_of_line = said->line == t->c->line && !strstr(said->text, "(last at line");
        if (said->severity == VH_ERROR || is_of_line)
            tell(said, t->m);
    }
    if (status == VH_OK)
        warn_of_use(t, &then);
    vh_record_sheet_clear(&sheet);
    free(then.row);
    vh_table_free(then.report);
    vh_messages_free(own);
    return status;
}

static enum vh_status copy_line(struct noting *t)
{
    const struct noting after = {.text = t->c->bytes, .n = t->c->n};
    const size_t from = start_of_line(&after, t->c->line);
    size_t to = from;

    while (to < t->c->n && t->c->bytes[to] != '\n' && t->c->bytes[to] != '\r')
        to++;
    t->c->text = strndup(t->c->bytes + from, to - from);
    return t->c->text ? VH_OK : VH_NO_MEMORY;
}

/* ---- the file as it is ---- */

static enum vh_status read_file(struct noting *t, char **header)
{
    const struct vh_records *r = &t->s->house.records;
    struct vh_record_change *c = t->c;
    enum vh_status status = VH_OK;

    if (vh_file_is_there(r->file.path))
        status = vh_file_read(r->file.path, r->file.shown, VH_RECORDS_BYTES_MOST, NULL,
                              &c->old_bytes, &c->old_n, t->m);
    if (status != VH_OK)
        return status;
    t->text = c->old_bytes;
    t->n = c->old_n;
    if (c->old_n == 0) {
        *header = vh_record_new_header(r->map, r->maps);
        if (!*header)
            return VH_NO_MEMORY;
        t->text = *header;
        t->n = strlen(*header);
    }
    return VH_OK;
}

static enum vh_status read_sheet(struct noting *t)
{
    size_t at = vh_text_bom(t->text, t->n), end;

    struct vh_messages *own = vh_messages_create();
    enum vh_status status = VH_NO_MEMORY;
    if (own)
        status = vh_record_sheet_read(&t->s->house, &t->s->parameters->record, t->text, t->n,
                                      t->c->shown, &t->now, &t->sheet, own);
    for (size_t i = 0; own && i < vh_messages_count(own); i++) {
        if (vh_messages_at(own, i)->severity == VH_ERROR)
            tell(vh_messages_at(own, i), t->m);
    }
    vh_messages_free(own);
    while (at < t->n && (t->text[at] == '\n' || t->text[at] == '\r'))
        at++;
    for (end = at; end < t->n && t->text[end] != '\n';)
        end++;
    if (status == VH_OK)
        status = vh_csv_find_separator((struct vh_csv_format){0}, t->text + at, end - at,
                                       VH_NOWHERE, &t->separator, t->m);
    return status;
}

static void find_word(struct noting *t)
{
    const struct vh_records *r = &t->s->house.records;
    const char *word = t->e->item;

    for (size_t i = 0; i < r->maps; i++)
        word = strcmp(r->map[i].theirs, t->e->item) == 0 ? r->map[i].ours : word;
    t->has_word = vh_item_of_word(word, &t->word, NULL) == VH_ITEM_FOUND;
}

static enum vh_status note(struct noting *t)
{
    const struct vh_records *r = &t->s->house.records;
    char *header = NULL;

    t->c->path = strdup(r->file.path);
    t->c->shown = strdup(r->file.shown);
    if (!t->c->path || !t->c->shown)
        return VH_NO_MEMORY;
    find_word(t);
    enum vh_status status = read_file(t, &header);
    if (status == VH_OK)
        status = read_sheet(t);
    if (status == VH_OK)
        status = compose(t);
    if (status == VH_OK)
        status = refuse_parts(t);
    if (status == VH_OK)
        status = prove(t);
    if (status == VH_OK)
        status = copy_line(t);
    free(header);
    return status;
}

enum vh_status vh_records_note(const struct vh_scenario *s, const struct vh_record_entry *entry,
                               struct vh_record_change **out, struct vh_messages *m)
{
    const struct vh_records *r = &s->house.records;

    if (!r->given)
        return vh_fail(m, VH_BAD_INPUT, (struct vh_place){vh_toml_name(s->toml), 0, 0, NULL},
                       "the scenario names no records file; add the two lines [records] and file ="
                       " \"records.csv\" at its end");
    struct noting t = {.s = s, .e = entry, .now = *r, .m = m};
    t.c = calloc(1, sizeof *t.c);
    if (!t.c)
        return VH_NO_MEMORY;
    t.now.row = NULL;
    t.now.rows = 0;
    t.now.report = NULL;
    const enum vh_status status = note(&t);
    vh_record_sheet_clear(&t.sheet);
    free(t.now.row);
    vh_table_free(t.now.report);
    if (status == VH_OK)
        *out = t.c;
    else
        vh_record_change_free(t.c);
    return status;
}

void vh_record_change_free(struct vh_record_change *c)
{
    if (!c)
        return;
    free(c->path);
    free(c->shown);
    free(c->bytes);
    free(c->old_bytes);
    free(c->text);
    free(c);
}
