#include "vh_table.h"

#include <assert.h>
#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

/* Texts lie in blocks, one behind the other, and go with the table: a future's tables hold
 * thousands of them for a moment only. */
struct text_block {
    struct text_block *before;
    size_t used, room;
    char text[];
};
enum { BLOCK_FIRST = 1024, BLOCK_MOST = 64 * 1024 };

struct vh_table {
    char *name, *row_meaning;
    bool is_file, is_passing;
    const struct vh_column *columns;
    size_t column_count, rows, room;
    union vh_table_cell *cells; /* [row][column] */
    union vh_table_cell *blank; /* [column] a row of which nothing is known */
    struct text_block *texts;
};

static bool holds_text(const struct vh_table *t, size_t column)
{
    return t->columns[column].kind == VH_CELL_TEXT;
}

static char *copy_text(const char *text)
{
    const size_t bytes = strlen(text) + 1;
    char *copy = malloc(bytes);
    return copy == NULL ? NULL : memcpy(copy, text, bytes);
}

const char *vh_table_keep_text(struct vh_table *t, const char *text)
{
    const size_t bytes = strlen(text) + 1;
    struct text_block *block = t->texts;

    if (block == NULL || block->room - block->used < bytes) {
        size_t room = block == NULL ? BLOCK_FIRST : 2 * block->room;
        room = room > BLOCK_MOST ? BLOCK_MOST : room;
        room = room < bytes ? bytes : room;
        block = malloc(sizeof *block + room);
        if (block == NULL) {
            return NULL;
        }
        *block = (struct text_block){.before = t->texts, .room = room};
        t->texts = block;
    }
    char *copy = block->text + block->used;
    block->used += bytes;
    return memcpy(copy, text, bytes);
}

struct vh_table *vh_table_create(const char *name, const char *row_meaning, bool is_file,
                                 const struct vh_column *columns, size_t column_count)
{
    assert(column_count > 0);
    struct vh_table *t = calloc(1, sizeof *t);
    if (t == NULL) {
        return NULL;
    }
    t->name = copy_text(name);
    t->row_meaning = copy_text(row_meaning);
    t->is_file = is_file;
    t->columns = columns;
    t->column_count = column_count;
    t->blank = malloc(column_count * sizeof *t->blank);
    if (t->name == NULL || t->row_meaning == NULL || t->blank == NULL) {
        vh_table_free(t);
        return NULL;
    }
    for (size_t c = 0; c < column_count; c++) {
        t->blank[c] = holds_text(t, c) ? (union vh_table_cell){.text = NULL}
                                       : (union vh_table_cell){.number = (double)NAN};
    }
    return t;
}

void vh_table_free(struct vh_table *t)
{
    if (t == NULL) {
        return;
    }
    for (struct text_block *block = t->texts, *before; block != NULL; block = before) {
        before = block->before;
        free(block);
    }
    free(t->blank);
    free(t->cells);
    free(t->row_meaning);
    free(t->name);
    free(t);
}

bool vh_table_owns(const struct vh_table *t, const char *text)
{
    const uintptr_t at = (uintptr_t)text;

    for (const struct text_block *block = t->texts; block != NULL; block = block->before) {
        const uintptr_t first = (uintptr_t)block->text;
        if (at >= first && at < first + block->used) {
            return true;
        }
    }
    return false;
}

void vh_table_empty(struct vh_table *t)
{
    t->rows = 0;
    if (t->texts == NULL) {
        return;
    }
    for (struct text_block *block = t->texts->before, *before; block != NULL; block = before) {
        before = block->before;
        free(block);
    }
    t->texts->before = NULL;
    t->texts->used = 0;
}

void vh_table_keep_rows(struct vh_table *t, bool (*is_kept)(const struct vh_table *t, size_t row))
{
    const size_t row_bytes = t->column_count * sizeof *t->cells;
    size_t kept = 0;

    for (size_t i = 0; i < t->rows; i++) {
        if (!is_kept(t, i)) {
            continue;
        }
        memmove(t->cells + kept++ * t->column_count, t->cells + i * t->column_count, row_bytes);
    }
    t->rows = kept;
}

enum vh_status vh_table_add_row(struct vh_table *t)
{
    if (t->rows == t->room) {
        const size_t room = t->room == 0 ? 32 : 2 * t->room;
        if (room > SIZE_MAX / sizeof *t->cells / t->column_count) {
            return VH_NO_MEMORY;
        }
        union vh_table_cell *cells = realloc(t->cells, room * t->column_count * sizeof *cells);
        if (cells == NULL) {
            return VH_NO_MEMORY;
        }
        t->cells = cells;
        t->room = room;
    }
    memcpy(t->cells + t->rows * t->column_count, t->blank, t->column_count * sizeof *t->blank);
    t->rows++;
    return VH_OK;
}

static union vh_table_cell *last_row_cell(struct vh_table *t, size_t column)
{
    assert(t->rows > 0 && column < t->column_count);
    return t->cells + (t->rows - 1) * t->column_count + column;
}

void vh_table_set_number(struct vh_table *t, size_t column, double value)
{
    assert(!holds_text(t, column));
    last_row_cell(t, column)->number = value;
}

void vh_table_make_passing(struct vh_table *t)
{
    t->is_passing = true;
}

enum vh_status vh_table_set_lasting(struct vh_table *t, size_t column, const char *text)
{
    assert(holds_text(t, column));
    if (!t->is_passing) {
        return vh_table_set_text(t, column, text);
    }
    last_row_cell(t, column)->text = text;
    return VH_OK;
}

void vh_table_put_number(struct vh_table *t, size_t row, size_t column, double value)
{
    assert(row < t->rows && column < t->column_count && !holds_text(t, column));
    t->cells[row * t->column_count + column].number = value;
}

enum vh_status vh_table_put_text(struct vh_table *t, size_t row, size_t column, const char *text)
{
    assert(row < t->rows && column < t->column_count && holds_text(t, column));
    const char *copy = text == NULL ? NULL : vh_table_keep_text(t, text);
    if (text != NULL && copy == NULL) {
        return VH_NO_MEMORY;
    }
    t->cells[row * t->column_count + column].text = copy;
    return VH_OK;
}

enum vh_status vh_table_set_text(struct vh_table *t, size_t column, const char *text)
{
    return vh_table_put_text(t, t->rows - 1, column, text);
}

struct row_key {
    double date;
    size_t row;
};

/* Unknown dates last; equal dates by the order of adding, which makes qsort stable. */
static int compare_keys(const void *left, const void *right)
{
    const struct row_key *a = left, *b = right;
    const bool a_unknown = isnan(a->date), b_unknown = isnan(b->date);
    if (a_unknown != b_unknown) {
        return a_unknown ? 1 : -1;
    }
    if (!a_unknown && a->date != b->date) {
        return a->date < b->date ? -1 : 1;
    }
    return a->row < b->row ? -1 : 1;
}

static bool is_in_order(const struct vh_table *t, size_t date_column)
{
    for (size_t r = 1; r < t->rows; r++) {
        const union vh_table_cell *row = t->cells + (r - 1) * t->column_count;
        const struct row_key above = {row[date_column].number, r - 1},
                             here = {row[t->column_count + date_column].number, r};
        if (compare_keys(&above, &here) > 0) {
            return false;
        }
    }
    return true;
}

enum vh_status vh_table_sort_by(struct vh_table *t, size_t date_column)
{
    assert(date_column < t->column_count && !holds_text(t, date_column));
    if (is_in_order(t, date_column)) {
        return VH_OK;
    }
    const size_t width = t->column_count;
    struct row_key *keys = malloc(t->rows * sizeof *keys);
    union vh_table_cell *sorted = malloc(t->rows * width * sizeof *sorted);
    if (keys == NULL || sorted == NULL) {
        free(keys);
        free(sorted);
        return VH_NO_MEMORY;
    }
    for (size_t r = 0; r < t->rows; r++) {
        keys[r] = (struct row_key){t->cells[r * width + date_column].number, r};
    }
    qsort(keys, t->rows, sizeof *keys, compare_keys);
    for (size_t r = 0; r < t->rows; r++) {
        memcpy(sorted + r * width, t->cells + keys[r].row * width, width * sizeof *sorted);
    }
    free(keys);
    free(t->cells);
    t->cells = sorted;
    t->room = t->rows;
    return VH_OK;
}

const char *vh_table_name(const struct vh_table *t)
{
    return t->name;
}

const char *vh_table_row_meaning(const struct vh_table *t)
{
    return t->row_meaning;
}

bool vh_table_is_file(const struct vh_table *t)
{
    return t->is_file;
}

size_t vh_table_rows(const struct vh_table *t)
{
    return t->rows;
}

size_t vh_table_columns(const struct vh_table *t)
{
    return t->column_count;
}

const struct vh_column *vh_table_column(const struct vh_table *t, size_t column)
{
    return column < t->column_count ? t->columns + column : NULL;
}

int vh_table_find(const struct vh_table *t, const char *column_name)
{
    for (size_t c = 0; c < t->column_count; c++) {
        const char *name = t->columns[c].name; /* the first letter tells most apart */
        if (name[0] == column_name[0] && strcmp(name, column_name) == 0) {
            return (int)c;
        }
    }
    return -1;
}

double vh_table_number(const struct vh_table *t, size_t row, size_t column)
{
    if (row >= t->rows || column >= t->column_count || holds_text(t, column)) {
        return (double)NAN;
    }
    return t->cells[row * t->column_count + column].number;
}

const union vh_table_cell *vh_table_row(const struct vh_table *t, size_t row)
{
    assert(row < t->rows);
    return t->cells + row * t->column_count;
}

const char *vh_table_text(const struct vh_table *t, size_t row, size_t column)
{
    if (row >= t->rows || column >= t->column_count || !holds_text(t, column)) {
        return "";
    }
    const char *text = t->cells[row * t->column_count + column].text;
    return text == NULL ? "" : text;
}

enum vh_status vh_table_add_rows(struct vh_table *t, const struct vh_table *from)
{
    for (size_t row = 0; row < vh_table_rows(from); row++) {
        enum vh_status status = vh_table_add_row(t);
        for (size_t c = 0; c < vh_table_columns(from) && status == VH_OK; c++) {
            if (holds_text(from, c))
                status = vh_table_set_text(t, c, vh_table_text(from, row, c));
            else
                vh_table_set_number(t, c, vh_table_number(from, row, c));
        }
        if (status != VH_OK)
            return status;
    }
    return VH_OK;
}
