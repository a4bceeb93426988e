#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "csv_separator.h"
#include "record_parts.h"
#include "scenario_parts.h"
#include "vh_digest.h"
#include "vh_file.h"
#include "vh_math.h"
#include "vh_number.h"
#include "vh_text.h"

#define WORD_ROOM 64
#define TRUSS_MOST 1000
#define STEMS_MOST 10000
#define VALUE_MOST 1e6 /* beyond it no unit makes sense of a number */

static void count_row(struct vh_record_count *c, int64_t line)
{
    if (c->rows > 0 && c->last_line == line)
        return; /* of one row, however many values it has */
    if (c->rows++ == 0)
        c->first_line = line;
    c->last_line = line;
}

/* ---- one value ---- */

/* Is it a copy of an earlier one? That it is right then holds of that one too. */
static bool is_repeated(struct vh_records *o, const struct vh_record *a)
{
    for (size_t i = o->rows; i-- > 0;) {
        struct vh_record *b = &o->row[i];
        if (b->line == a->line)
            continue;
        if (b->day == a->day && b->planting == a->planting && b->item == a->item &&
            b->task == a->task && b->value == a->value && b->truss == a->truss && b->of == a->of) {
            b->sure = b->sure || a->sure;
            return true;
        }
        if (o->rows - i > 200) /* copies stand near each other */
            break;
    }
    return false;
}

static void keep(struct vh_record_reading *r, const struct vh_record *record)
{
    struct vh_records *o = r->out;

    if (o->rows == r->room) {
        const size_t room = r->room ? 2 * r->room : 256;
        struct vh_record *more = realloc(o->row, room * sizeof *more);
        if (!more) {
            r->status = VH_NO_MEMORY;
            return;
        }
        o->row = more;
        r->room = room;
    }
    o->row[o->rows++] = *record;
    if (record->day > o->last_day)
        o->last_day = record->day;
}

/* Is it "31lb", a number with a unit that is not the item's own? Then "write 31 as picked_lb" in
 * `advice`. */
static bool has_unit(enum vh_record_item item, const char *text, char *advice, size_t room)
{
    const int digits = (int)strspn(text, "0123456789.,");
    const char *name = vh_item_kind(item)->name, *own = strrchr(name, '_');
    char word[WORD_ROOM], unit[8];
    struct vh_item_word w;

    const size_t n = strlen(text + digits), blanks = strspn(text + digits, " ");
    double number;
    if (item >= VH_RECORD_MINUTES || n - blanks >= sizeof unit ||
        !vh_number_parse(text, (size_t)digits, '.', &number)) /* "1,250lb" is none */
        return false;
    snprintf(unit, sizeof unit, "%s", text + digits + blanks);
    for (char *c = unit; *c; c++)
        *c = *c >= 'A' && *c <= 'Z' ? (char)(*c - 'A' + 'a') : *c;
    if (strcmp(unit, "lbs") == 0)
        unit[2] = '\0';
    snprintf(word, sizeof word, "%.*s_%s", (int)(own - name), name, unit);
    if (vh_item_of_word(word, &w, NULL) != VH_ITEM_FOUND || w.item != item || !w.unit_word[0])
        return false;
    snprintf(advice, room, "%.*s as %s", digits, text, word);
    return true;
}

static void not_a_number(struct vh_record_reading *r, const struct vh_csv_row *row,
                         const char *name, enum vh_record_item item, const char *text)
{
    char with_unit[2 * WORD_ROOM];
    double any;

    if (item == VH_RECORD_DONE) {
        vh_record_wrong(r, row,
                        "`%s` is \"%.40s\"; write 1 for done, 0 for left undone, or a share such as"
                        " 0.5",
                        name, text);
        return;
    }
    if (r->decimal && vh_csv_number((struct vh_csv_cell){text, strlen(text)}, ',', &any)) {
        const int whole = (int)strcspn(text, ",");
        vh_record_wrong(r, row, "`%s` is %s; where commas stand between the columns, write %.*s.%s",
                        name, text, whole, text, text + whole + 1);
        return;
    }
    vh_record_wrong(
        r, row,
        "`%s` is \"%.40s\", no number; write %s, or leave the cell empty for what was not measured",
        name, text,
        has_unit(item, text, with_unit, sizeof with_unit) ? with_unit
        : vh_toml_is_nothing(text, strlen(text))          ? "0 for none"
        : vh_item_kind(item)->is_whole                    ? "digits alone, as in 12"
                                                          : "digits alone, as in 12.5");
}

/* Is the number one that the item can have? */
static bool check_value(struct vh_record_reading *r, const struct vh_csv_row *row, const char *name,
                        enum vh_record_item item, double value)
{
    if (value < 0.0)
        vh_record_wrong(r, row, "`%s` is %g; an amount is never below 0", name, value);
    else if (item == VH_RECORD_DONE && value > 1.0)
        vh_record_wrong(r, row,
                        "`%s` is %g; write 1 for done, 0 for left undone, or a share such as 0.5",
                        name, value);
    else if (value > VALUE_MOST)
        vh_record_wrong(r, row, "`%s` is %g; no planting has so much, mend the number", name,
                        value);
    else
        return true;
    return false;
}

/* Are no more stems looked at than stand there? Said once a line. */
static bool check_stems(struct vh_record_reading *r, const struct vh_csv_row *row,
                        enum vh_record_item item, const struct vh_record_line *line)
{
    const struct vh_planting *p = &r->house->planting[line->planting];
    double heads = vh_max(1.0, p->heads_per_plant);

    if (!vh_item_kind(item)->by_stem || !line->good)
        return true;
    for (size_t i = 0; i < p->policy.head_changes; i++)
        heads = vh_max(heads, p->policy.heads[i].heads_per_plant);
    if (line->of <= heads * p->plants)
        return true;
    if (r->line_good)
        vh_record_wrong(r, row,
                        "`of` is %d, but %s is %.6g plants with %.6g stems; write how many of them "
                        "were looked at",
                        line->of, p->name, p->plants, heads * p->plants);
    return false;
}

static void take_value(struct vh_record_reading *r, const struct vh_csv_row *row, const char *name,
                       const struct vh_item_word *w, const char *text,
                       const struct vh_record_line *line)
{
    struct vh_record record = {.day = line->day,
                               .planting = line->planting,
                               .item = w->item,
                               .task = w->task,
                               .truss = line->truss,
                               .of = line->of,
                               .sure = line->sure,
                               .line = row->line};

    if (!vh_record_number(r, text, &record.value)) {
        not_a_number(r, row, name, w->item, text);
        return;
    }
    if (!check_value(r, row, name, w->item, record.value) || !check_stems(r, row, w->item, line) ||
        !line->good)
        return;
    record.value = record.value * w->unit.scale + w->unit.shift;
    record.wrote = w->unit;
    memcpy(record.wrote_unit, w->unit_word, sizeof record.wrote_unit);
    r->out->cells++;
    const struct vh_planting *p = &r->house->planting[line->planting];
    if (record.day > r->house->today)
        count_row(&r->found.after_today, row->line);
    else if (record.day < p->set_out)
        count_row(&r->found.before_seen,
                  row->line); /* only of a standing crop: else it is an error */
    else if (vh_item_kind(w->item)->by_truss && !record.truss)
        count_row(&r->found.no_truss, row->line);
    else if (is_repeated(r->out, &record))
        count_row(&r->found.repeated, row->line);
    else
        keep(r, &record);
}

/* ---- one row ---- */

/* Does the item's word stand in the scenario's map? Then ours. */
static const char *mapped(struct vh_records *o, const char *word)
{
    for (size_t i = 0; i < o->maps; i++) {
        if (strcmp(o->map[i].theirs, word) == 0) {
            o->map[i].used = true;
            return o->map[i].ours;
        }
    }
    return word;
}

static void take_long(struct vh_record_reading *r, const struct vh_csv_row *row,
                      const struct vh_record_line *line)
{
    char cell[WORD_ROOM], value[WORD_ROOM], word[WORD_ROOM], hint[VH_ITEM_HINT];
    char shown[VH_SHOWN_MOST + 4];
    struct vh_item_word w;
    enum vh_record_item other = VH_RECORD_ITEMS;

    vh_record_cell(row, vh_sheet_column(r->sheet, VH_ROLE_ITEM), cell, sizeof cell);
    vh_record_cell(row, vh_sheet_column(r->sheet, VH_ROLE_VALUE), value, sizeof value);
    snprintf(word, sizeof word, "%s", mapped(r->out, cell));
    for (char *c = word; *c; c++)
        *c = *c >= 'A' && *c <= 'Z' ? (char)(*c - 'A' + 'a') : *c;
    vh_shown(cell, shown);
    const enum vh_item_found found = vh_item_of_word(word, &w, &other);
    if (!cell[0])
        vh_record_wrong(r, row, "the item is missing; write what was measured, as in picked_kg");
    else if (found == VH_ITEM_TWO)
        vh_record_wrong(r, row, "`%s` may be %s or %s in another unit; write one of these two",
                        shown, vh_record_item_name(w.item), vh_record_item_name(other));
    else if (found == VH_ITEM_NONE && vh_item_hint(word, r->house->us_units, hint, sizeof hint))
        vh_record_wrong(r, row, "no item is called `%s`; %s", shown, hint);
    else if (found == VH_ITEM_NONE)
        vh_record_wrong(r, row,
                        "no item is called `%s`; write one of ours, as in picked_kg or done_lower;"
                        " vinehand explain items lists them",
                        shown);
    else if (value[0])
        take_value(r, row, word, &w, value, line);
}

static void take_wide(struct vh_record_reading *r, const struct vh_csv_row *row,
                      const struct vh_record_line *line)
{
    char value[WORD_ROOM];

    for (size_t i = 0; i < r->sheet->columns; i++) {
        const struct vh_record_column *c = &r->sheet->column[i];
        if (c->role != VH_ROLE_MEASURE)
            continue;
        vh_record_cell(row, (int)i, value, sizeof value);
        if (value[0])
            take_value(r, row, c->name, &c->word, value, line);
    }
}

static void check_day(struct vh_record_reading *r, const struct vh_csv_row *row,
                      const struct vh_record_line *line)
{
    const struct vh_planting *p = &r->house->planting[line->planting];
    char date[11], bound[11];

    vh_date_format(line->day, date);
    if (line->day < p->set_out && !p->standing.given) {
        vh_date_format(p->set_out, bound);
        vh_record_wrong(
            r, row, "%s is before %s was set out (%s); mend the date, or set_out in the scenario",
            date, p->name, bound);
    } else if (line->day > p->pull_out && line->day <= r->house->today) {
        vh_date_format(p->pull_out, bound);
        vh_record_wrong(
            r, row,
            "%s is after %s was pulled out (%s); mend the date, or pull_out in the scenario", date,
            p->name, bound);
    }
}

static void keep_line(struct vh_record_reading *r, const struct vh_record_line *line)
{
    struct vh_record_sheet *s = r->sheet;

    if (s->lines == s->lines_room) {
        const size_t room = s->lines_room ? 2 * s->lines_room : 256;
        struct vh_record_line *more = realloc(s->line, room * sizeof *more);
        if (!more) {
            r->status = VH_NO_MEMORY;
            return;
        }
        s->line = more;
        s->lines_room = room;
    }
    s->line[s->lines++] = *line;
}

/* `right`, `Right: a flush`: she has looked at it. */
static bool is_sure(const struct vh_record_reading *r, const struct vh_csv_row *row)
{
    static const char word[] = "right";
    const int column = vh_sheet_column(r->sheet, VH_ROLE_NOTE);
    char note[WORD_ROOM] = "";

    if (column >= 0)
        vh_record_cell(row, column, note, sizeof note);
    for (size_t i = 0; i < sizeof word - 1; i++)
        if ((note[i] | ('a' - 'A')) != word[i])
            return false;
    /* alone, or with a stop behind it: "right row" is a place */
    return strchr(":;,.!", note[sizeof word - 1]) != NULL;
}

static enum vh_status take_row(void *context, const struct vh_csv_row *row, bool is_header)
{
    struct vh_record_reading *r = context;
    struct vh_record_line line = {.line = row->line};

    if (is_header)
        return vh_record_header(r->sheet, row, r->out->map, r->out->maps, r->messages);
    r->out->lines++;
    r->line_good = true;
    const bool has_date = vh_record_date(r, row, &line.day);
    const bool has_planting = vh_record_planting(r, row, &line.planting);
    line.truss = vh_record_whole(r, row, VH_ROLE_TRUSS, "truss", TRUSS_MOST);
    line.of = vh_record_whole(r, row, VH_ROLE_OF, "of", STEMS_MOST);
    if (has_date && has_planting)
        check_day(r, row, &line);
    line.good = r->line_good;
    line.sure = is_sure(r, row);
    if (r->sheet->is_wide)
        take_wide(r, row, &line);
    else
        take_long(r, row, &line);
    keep_line(r, &line);
    return r->status == VH_NO_MEMORY ? VH_NO_MEMORY : VH_OK;
}

/* ---- what is told of the whole file ---- */

static enum vh_status unused_maps(const struct vh_records *o, bool is_wide, const char *shown,
                                  struct vh_messages *m)
{
    enum vh_status status = VH_OK;
    struct vh_item_word any;

    for (size_t i = 0; i < o->maps; i++) {
        /* in the long form it is a word of the item column, which may come later */
        const bool may_come =
            !is_wide && vh_item_of_word(o->map[i].ours, &any, NULL) == VH_ITEM_FOUND;
        if (!o->map[i].used && !may_come)
            status = vh_fail(m, VH_BAD_INPUT, o->map[i].place,
                             "no header `%s` in %s; write it as it stands in the file, or take the"
                             " line out",
                             o->map[i].theirs, shown);
    }
    return status;
}

static int order(int64_t x, int64_t y)
{
    return (x > y) - (x < y);
}

static int by_day(const void *a, const void *b)
{
    const struct vh_record *x = a, *y = b;

    const int by_date = order(x->day, y->day), by_line = order(x->line, y->line),
              by_item = order(x->item, y->item), by_task = order(x->task, y->task);
    return by_date ? by_date : by_line ? by_line : by_item ? by_item : by_task;
}

/* With commas between the columns a decimal comma would need quotes: then it is a slip. */
static char decimal_of(const char *text, size_t n)
{
    size_t at = vh_text_bom(text, n), end;
    char separator = ',';

    while (at < n && (text[at] == '\n' || text[at] == '\r'))
        at++;
    for (end = at; end < n && text[end] != '\n';)
        end++;
    vh_csv_find_separator((struct vh_csv_format){0}, text + at, end - at, VH_NOWHERE, &separator,
                          NULL);
    return separator == ',' ? '.' : '\0';
}

enum vh_status vh_record_sheet_read(const struct vh_house *house, const struct vh_record_params *p,
                                    const char *text, size_t n, const char *shown,
                                    struct vh_records *out, struct vh_record_sheet *sheet,
                                    struct vh_messages *m)
{
    struct vh_record_reading r = {.house = house,
                                  .params = p,
                                  .out = out,
                                  .sheet = sheet,
                                  .messages = m,
                                  .decimal = decimal_of(text, n)};

    sheet->us_units = house->us_units;
    out->rows = 0;
    out->cells = out->lines = out->doubtful = 0;
    out->last_day = INT64_MIN;
    for (size_t i = 0; i < out->maps; i++)
        out->map[i].used = false;
    enum vh_status status =
        vh_csv_read_memory(text, n, shown, (struct vh_csv_format){0}, take_row, &r, m);
    if (status == VH_OK)
        status = r.status;
    if (status == VH_OK)
        status = unused_maps(out, sheet->is_wide, shown, m);
    if (status == VH_OK && out->rows > 0)
        qsort(out->row, out->rows, sizeof *out->row, by_day);
    if (status == VH_OK) {
        out->has_notes = vh_sheet_column(sheet, VH_ROLE_NOTE) >= 0;
        vh_records_doubt(out, house, p, shown, m);
        status = vh_record_report(out, &r.found, shown, m);
    }
    return status;
}

/* ---- the house's file ---- */

enum vh_status vh_records_read_memory(struct vh_house *house, const struct vh_record_params *p,
                                      const char *text, size_t n, struct vh_messages *m)
{
    struct vh_records *o = &house->records;
    struct vh_record_sheet sheet = {0};
    enum vh_status status = vh_record_sheet_read(house, p, text, n, o->file.shown, o, &sheet, m);

    vh_record_sheet_clear(&sheet);
    for (size_t i = 0; status == VH_OK && i < house->plantings; i++) {
        struct vh_planting *planting = &house->planting[i];
        status = vh_record_done_fill(o, i, house->today, p->given_up_d, planting);
        planting->policy.done = &planting->done;
    }
    o->read = status == VH_OK;
    if (status != VH_OK)
        o->rows = 0;
    return status;
}

enum vh_status vh_records_read(struct vh_house *house, const struct vh_record_params *p,
                               struct vh_digest *digest, struct vh_messages *m)
{
    const struct vh_records *o = &house->records;
    char *text = NULL;
    size_t n = 0;
    enum vh_status status =
        vh_file_read(o->file.path, o->file.shown, VH_RECORDS_BYTES_MOST, digest, &text, &n, m);

    if (status == VH_OK)
        status = vh_records_read_memory(house, p, text, n, m);
    free(text);
    return status;
}

void vh_records_clear(struct vh_records *r)
{
    free(r->file.path);
    free(r->file.shown);
    for (size_t i = 0; i < r->maps; i++) {
        free(r->map[i].ours);
        free(r->map[i].theirs);
    }
    free(r->map);
    free(r->row);
    vh_table_free(r->report);
    *r = (struct vh_records){.last_day = INT64_MIN};
}
