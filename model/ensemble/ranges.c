#include <limits.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "ranges_parts.h"
#include "vh_block.h"
#include "vh_math.h"
#include "vh_wide.h"

/* Numbers first: a date tells most names apart, and is the cheaper to compare. */
static void list_keys(struct vh_ranges *r)
{
    for (int texts = 0; texts <= 1; texts++)
        for (size_t c = 0; c < r->columns; c++)
            if (r->role[c] == VH_COLUMN_KEY && (r->column[c].kind == VH_CELL_TEXT) == (texts == 1))
                r->key[r->keys++] = c;
    while (r->number_keys < r->keys && r->column[r->key[r->number_keys]].kind != VH_CELL_TEXT)
        r->number_keys++;
}

struct vh_ranges *vh_ranges_create(enum vh_result_table_id id, size_t members, double promise)
{
    struct vh_ranges *r = calloc(1, sizeof *r);

    if (!r)
        return NULL;
    r->id = id;
    r->members = members;
    r->promise = promise;
    r->column = vh_result_columns(id, &r->columns);
    r->role = calloc(r->columns, sizeof *r->role);
    r->planned = calloc(r->columns, sizeof *r->planned);
    r->moved = calloc(3 * r->columns, sizeof *r->moved);
    r->task = r->columns;
    if (!r->role || !r->planned || !r->moved) {
        vh_ranges_free(r);
        return NULL;
    }
    r->moving = r->moved + r->columns;
    r->key = r->moving + r->columns;
    for (size_t c = 0; c < r->columns; c++) {
        r->role[c] = vh_result_column_role(id, c);
        r->planned[c] = vh_result_is_planned(id, c);
        if (strcmp(r->column[c].name, "task") == 0)
            r->task = c;
        r->moved[c] = r->moves;
        if (vh_column_is_moved(r->role[c]))
            r->moving[r->moves++] = c;
    }
    r->is_moved_together = r->moves > 0 && r->moving[r->moves - 1] == r->moving[0] + r->moves - 1;
    list_keys(r);
    return r;
}

static void row_clear(const struct vh_ranges *r, struct vh_ranges_row *row)
{
    for (size_t c = 0; row->cell && c < r->columns; c++)
        free(row->cell[c].text);
    free(row->cell);
    for (size_t k = 0; row->late && k < r->moves; k++)
        free(row->late[k]);
    free(row->late);
}

void vh_ranges_free(struct vh_ranges *r)
{
    if (!r)
        return;
    for (size_t i = 0; i < r->shelves; i++) {
        free(r->shelf[i].value);
        free(r->shelf[i].lacks);
    }
    free(r->shelf);
    free(r->kind);
    for (size_t i = 0; i < r->rows; i++)
        row_clear(r, &r->row[i]);
    for (size_t i = 0; i < r->words; i++)
        free(r->word[i]);
    vh_name_index_clear(&r->word_at);
    free(r->word);
    free(r->name);
    free(r->row);
    free(r->slot);
    free(r->role);
    free(r->planned);
    free(r->moved);
    free(r);
}

/* ---- finding a row by what names it ---- */

static const char *text_of(const union vh_table_cell *cell)
{
    return cell->text ? cell->text : "";
}

static uint64_t hash_of(const struct vh_ranges *r, const union vh_table_cell *cell)
{
    const uint64_t prime = 0x100000001b3u; /* FNV-1a, a number at once */
    uint64_t hash = 0xcbf29ce484222325u, bits;

    for (size_t k = 0; k < r->number_keys; k++) {
        memcpy(&bits, &cell[r->key[k]].number, sizeof bits);
        hash = (hash ^ bits) * prime;
        hash ^= hash >> 32; /* whole numbers differ in their high bits */
    }
    for (size_t k = r->number_keys; k < r->keys; k++) {
        for (const char *c = text_of(&cell[r->key[k]]); *c; c++)
            hash = (hash ^ (unsigned char)*c) * prime;
        hash = (hash ^ 0xff) * prime; /* no text has such a byte */
    }
    return hash ^ hash >> 32;
}

/* The same numbers, and texts in the same place: no text of a table is kept here. */
static inline bool is_same_name(const struct vh_ranges *r, const union vh_table_cell *own,
                                const union vh_table_cell *cell)
{
    uint64_t differs = 0, a, b;

    for (size_t k = 0; k < r->keys; k++) {
        memcpy(&a, &own[k], sizeof a);
        memcpy(&b, &cell[r->key[k]], sizeof b);
        differs |= a ^ b;
    }
    return differs == 0;
}

/* Is that row of t named as row `row`? Its texts are taken for the row's where they outlive the
 * table: the next one with the same texts is known by their places. */
static inline bool is_named_so(const struct vh_ranges *r, size_t row, const struct vh_table *t,
                               const union vh_table_cell *cell)
{
    union vh_table_cell *own = r->name + row * r->keys;
    const size_t *key = r->key;

    if (is_same_name(r, own, cell))
        return true;
    for (size_t k = 0; k < r->number_keys; k++) {
        const double number = cell[key[k]].number;
        if (own[k].number != number && !(isnan(own[k].number) && isnan(number)))
            return false;
    }
    for (size_t k = r->number_keys; k < r->keys; k++) {
        const char *text = cell[key[k]].text;
        if (own[k].text == text)
            continue;
        if (strcmp(own[k].text, text_of(&cell[key[k]])) != 0)
            return false;
        if (text && !vh_table_owns(t, text))
            own[k].text = text;
    }
    return true;
}

/* The word as it is kept; NULL: no memory. */
static const char *keep_word(struct vh_ranges *r, const char *text)
{
    struct vh_named_list list = {r->word, sizeof *r->word};
    const size_t found = vh_name_index_find(&r->word_at, list, text);

    if (found != VH_NAME_NONE)
        return r->word[found];
    if (r->words == r->word_room) {
        const size_t room = r->word_room ? 2 * r->word_room : 64;
        char **word = realloc(r->word, room * sizeof *word);
        if (!word)
            return NULL;
        r->word = word;
        r->word_room = room;
        list.first = word;
    }
    r->word[r->words] = strdup(text);
    if (!r->word[r->words])
        return NULL;
    r->words++;
    return vh_name_index_add(&r->word_at, list, r->words - 1) ? r->word[r->words - 1] : NULL;
}

static enum vh_status keep_name(struct vh_ranges *r, size_t row, const struct vh_table *t,
                                size_t at)
{
    const union vh_table_cell *cell = vh_table_row(t, at);
    union vh_table_cell *own = r->name + row * r->keys;

    for (size_t k = 0; k < r->number_keys; k++)
        own[k] = cell[r->key[k]];
    for (size_t k = r->number_keys; k < r->keys; k++) {
        const char *text = text_of(&cell[r->key[k]]);
        own[k].text = vh_table_owns(t, text) ? keep_word(r, text) : text;
        if (!own[k].text)
            return VH_NO_MEMORY;
    }
    return VH_OK;
}

/* The row of that name that this member has not filled yet (two works of one name on a day are two
 * rows, in their order); its slot, or the empty one where it would be. */
static size_t find(const struct vh_ranges *r, const struct vh_table *t,
                   const union vh_table_cell *cell, uint64_t hash, size_t tag, bool *is_first)
{
    size_t i = (size_t)hash & (r->slots - 1);

    *is_first = true;
    for (; r->slot[i]; i = (i + 1) & (r->slots - 1)) {
        const struct vh_ranges_row *row = &r->row[r->slot[i] - 1];
        if (row->hash != hash || !is_named_so(r, r->slot[i] - 1, t, cell))
            continue;
        if (row->last != tag)
            break;
        *is_first = false;
    }
    return i;
}

static enum vh_status widen(struct vh_ranges *r)
{
    const size_t room = r->room ? 2 * r->room : 64, slots = 4 * room;
    struct vh_ranges_row *row = realloc(r->row, room * sizeof *row);

    if (!row)
        return VH_NO_MEMORY;
    r->row = row;
    union vh_table_cell *name = realloc(r->name, (room * r->keys + 1) * sizeof *name);
    if (!name)
        return VH_NO_MEMORY;
    r->name = name;
    r->room = room;
    size_t *slot = calloc(slots, sizeof *slot);
    if (!slot)
        return VH_NO_MEMORY;
    for (size_t k = 0; k < r->rows; k++) { /* in their order: two of one name stay in theirs */
        size_t i = (size_t)row[k].hash & (slots - 1);
        while (slot[i])
            i = (i + 1) & (slots - 1);
        slot[i] = k + 1;
    }
    free(r->slot);
    r->slot = slot;
    r->slots = slots;
    return VH_OK;
}

/* ---- taking ---- */

static enum vh_status take_cells(const struct vh_ranges *r, struct vh_ranges_row *row,
                                 const struct vh_table *t, size_t at)
{
    for (size_t c = 0; c < r->columns; c++) {
        const char *text = vh_table_text(t, at, c);
        free(row->cell[c].text);
        row->cell[c] = (struct vh_cell){.number = vh_table_number(t, at, c)};
        if (*text && !(row->cell[c].text = strdup(text)))
            return VH_NO_MEMORY;
    }
    return VH_OK;
}

enum { SHELF_ROWS = 64 }; /* for rows that the mean run does not have */

/* Room of all members for so many rows more, which keep so many numbers. */
static enum vh_status add_shelf(struct vh_ranges *r, size_t rows, size_t numbers)
{
    struct vh_ranges_shelf *more = realloc(r->shelf, (r->shelves + 1) * sizeof *more);

    if (!more)
        return VH_NO_MEMORY;
    r->shelf = more;
    more += r->shelves;
    *more = (struct vh_ranges_shelf){
        .value = vh_block_new((numbers * r->members + VH_SIDE) * sizeof *more->value),
        .lacks = calloc(rows * vh_bits_of(r->members) + 1, sizeof *more->lacks),
        .rows = rows};
    if (!more->value || !more->lacks) {
        free(more->value);
        free(more->lacks);
        return VH_NO_MEMORY;
    }
    for (size_t i = 0; i < VH_SIDE; i++) /* behind the last, for who looks at so many at once */
        more->value[numbers * r->members + i] = VH_UNKNOWN;
    r->shelves++;
    return VH_OK;
}

static bool is_full(const struct vh_ranges *r)
{
    const struct vh_ranges_shelf *last = &r->shelf[r->shelves - 1];

    return last->placed == last->rows;
}

/* Gives the row the next place on the last shelf. */
static void place_row(struct vh_ranges *r, struct vh_ranges_row *row)
{
    struct vh_ranges_shelf *last = &r->shelf[r->shelves - 1];

    row->value = last->value + last->numbers * r->members;
    row->lacks = last->lacks + last->placed * vh_bits_of(r->members);
    last->numbers += vh_ranges_kept(r, row);
    last->placed++;
}

static enum vh_status add_row(struct vh_ranges *r, uint64_t hash, const struct vh_table *t,
                              size_t at)
{
    struct vh_ranges_row *row = &r->row[r->rows];

    if (r->is_ready && is_full(r) && add_shelf(r, SHELF_ROWS, SHELF_ROWS * r->moves) != VH_OK)
        return VH_NO_MEMORY;
    *row = (struct vh_ranges_row){.hash = hash, .from = SIZE_MAX, .behind = r->rows + 1};
    row->cell = calloc(r->columns, sizeof *row->cell);
    if (!row->cell || keep_name(r, r->rows, t, at) != VH_OK) {
        row_clear(r, row);
        return VH_NO_MEMORY;
    }
    if (r->is_ready) {
        place_row(r, row);
        memset(row->lacks, UCHAR_MAX, vh_bits_of(r->members) * sizeof *row->lacks);
    }
    r->rows++;
    return VH_OK;
}

/* Index of the row for row `at` of t, made where it is new; r->rows: no memory. */
static size_t row_for(struct vh_ranges *r, const struct vh_table *t, size_t at, size_t tag)
{
    const union vh_table_cell *cell = vh_table_row(t, at);
    bool is_first;

    if (r->rows == r->room && widen(r) != VH_OK)
        return r->rows;
    const uint64_t hash = hash_of(r, cell);
    const size_t slot = find(r, t, cell, hash, tag, &is_first);
    if (r->slot[slot])
        return r->slot[slot] - 1;
    if (add_row(r, hash, t, at) != VH_OK)
        return r->rows;
    r->row[r->rows - 1].is_first = is_first;
    r->slot[slot] = r->rows;
    return r->rows - 1;
}

/* ---- columns that no future moves ---- */

static bool is_nothing(double number)
{
    uint64_t bits;

    memcpy(&bits, &number, sizeof bits);
    return bits == 0;
}

/* Its kind among those there are; r->kinds: it is new. */
static size_t kind_like(const struct vh_ranges *r, const struct vh_ranges_kind *like)
{
    size_t i = 0;

    while (i < r->kinds && (r->kind[i].quiet != like->quiet || r->kind[i].unknown != like->unknown))
        i++;
    return i;
}

/* Of a row of the mean run; cell NULL: the kind that keeps all. */
static struct vh_ranges_kind kind_of(const struct vh_ranges *r, const struct vh_cell *cell)
{
    struct vh_ranges_kind kind = {.kept = r->moves};

    if (!cell || r->moves > VH_BITS)
        return kind;
    kind.kept = 0;
    for (size_t k = 0; k < r->moves; k++) {
        const double number = cell[r->moving[k]].number;
        const uint64_t bit = (uint64_t)1 << k;
        if (!isnan(number) && !is_nothing(number)) {
            kind.keeps[kind.kept++] = (unsigned char)k;
            continue;
        }
        kind.rests[kind.quiets++] = (unsigned char)k;
        kind.quiet |= bit;
        kind.unknown |= isnan(number) ? bit : 0;
    }
    return kind;
}

static enum vh_status find_kind(struct vh_ranges *r, const struct vh_cell *cell, size_t *at)
{
    const struct vh_ranges_kind kind = kind_of(r, cell);

    *at = kind_like(r, &kind);
    if (*at < r->kinds)
        return VH_OK;
    if (r->kinds == r->kind_room) {
        const size_t room = r->kind_room ? 2 * r->kind_room : 16;
        struct vh_ranges_kind *more = realloc(r->kind, room * sizeof *more);
        if (!more)
            return VH_NO_MEMORY;
        r->kind = more;
        r->kind_room = room;
    }
    r->kind[r->kinds++] = kind;
    return VH_OK;
}

enum vh_status vh_ranges_wake(const struct vh_ranges *r, struct vh_ranges_row *row, size_t move)
{
    const size_t n = r->members + VH_SIDE; /* for who looks at so many at once */

    if (!row->late)
        row->late = calloc(r->moves, sizeof *row->late);
    if (!row->late || !(row->late[move] = malloc(n * sizeof **row->late)))
        return VH_NO_MEMORY;
    for (size_t i = 0; i < n; i++)
        row->late[move][i] = row->cell[r->moving[move]].number;
    return VH_OK;
}

/* The rare future that brings a number where most bring none. */
static enum vh_status take_late(const struct vh_ranges *r, double number, size_t member,
                                size_t move, struct vh_ranges_row *row)
{
    if (!(row->late && row->late[move]) && vh_ranges_wake(r, row, move) != VH_OK)
        return VH_NO_MEMORY;
    row->late[move][member] = number;
    return VH_OK;
}

/* Where some columns are quiet. What is late has the mean run's number until it is taken. */
static enum vh_status take_apart(const struct vh_ranges *r, const union vh_table_cell *cell,
                                 size_t member, struct vh_ranges_row *row)
{
    const struct vh_ranges_kind *kind = &r->kind[row->kind];
    const size_t *moving = r->moving;
    double *value = row->value + member * kind->kept;

    for (size_t i = 0; i < kind->kept; i++)
        value[i] = cell[moving[kind->keeps[i]]].number;
    for (size_t i = 0; i < kind->quiets; i++) {
        const size_t move = kind->rests[i];
        const double number = cell[moving[move]].number;
        const bool is_unknown = kind->unknown >> move & 1;
        if (is_unknown ? isnan(number) : is_nothing(number))
            continue;
        if (take_late(r, number, member, move, row) != VH_OK)
            return VH_NO_MEMORY;
    }
    return VH_OK;
}

/* The numbers that futures move. */
static inline enum vh_status take_numbers(const struct vh_ranges *r,
                                          const union vh_table_cell *cell, size_t member,
                                          struct vh_ranges_row *row)
{
    double *value = row->value + member * r->moves;

    if (r->kind[row->kind].quiets > 0)
        return take_apart(r, cell, member, row);
    if (r->is_moved_together)
        memcpy(value, &cell[r->moving[0]].number, r->moves * sizeof *value);
    else
        for (size_t k = 0; k < r->moves; k++)
            value[k] = cell[r->moving[k]].number;
    return VH_OK;
}

/* The rows of all members fill more than a processor keeps at hand: asks for the room of one that
 * is soon to come. */
static inline void ask_ahead(const struct vh_ranges *r, size_t row, size_t member)
{
#if defined(__GNUC__)
    enum { AHEAD = 12, FOR_WRITING = 1 };
    if (row + AHEAD < r->rows)
        __builtin_prefetch(r->row[row + AHEAD].value +
                               member * vh_ranges_kept(r, &r->row[row + AHEAD]),
                           FOR_WRITING);
#endif
}

/* Rows mostly come as they came before, so the one that followed the last time is looked at first.
 */
static enum vh_status take_row(struct vh_ranges *r, size_t member, const struct vh_table *t,
                               size_t at)
{
    const union vh_table_cell *cell = vh_table_row(t, at);
    const size_t tag = member == VH_MEAN_RUN ? 1 : member + 2;
    size_t i = r->last < r->rows ? r->row[r->last].behind : r->first;

    if (!(i < r->rows && r->row[i].is_first && r->row[i].last != tag &&
          is_named_so(r, i, t, cell))) {
        i = row_for(r, t, at, tag);
        if (i >= r->rows)
            return VH_NO_MEMORY;
        *(r->last < r->rows ? &r->row[r->last].behind : &r->first) = i;
    }
    struct vh_ranges_row *row = &r->row[i];
    row->last = tag;
    r->last = i;
    if (tag < row->from) {
        row->from = tag;
        if (take_cells(r, row, t, at) != VH_OK)
            return VH_NO_MEMORY;
    }
    if (member == VH_MEAN_RUN)
        return VH_OK;
    ask_ahead(r, i, member);
    row->seen++;
    if (i >= r->mean_rows)
        row->lacks[member / VH_BITS] &= ~((uint64_t)1 << member % VH_BITS);
    return take_numbers(r, cell, member, row);
}

/* All members' room for the rows of the mean run. */
static enum vh_status make_ready(struct vh_ranges *r)
{
    size_t numbers = 0, kind;

    if (find_kind(r, NULL, &kind) != VH_OK)
        return VH_NO_MEMORY;
    for (size_t i = 0; i < r->rows; i++) {
        if (find_kind(r, r->row[i].cell, &r->row[i].kind) != VH_OK)
            return VH_NO_MEMORY;
        numbers += vh_ranges_kept(r, &r->row[i]);
    }
    if (add_shelf(r, r->rows, numbers) != VH_OK)
        return VH_NO_MEMORY;
    for (size_t i = 0; i < r->rows; i++)
        place_row(r, &r->row[i]);
    r->is_ready = true;
    return VH_OK;
}

/* Most members bring most rows of the mean run, and few of the others: the rare is noted. */
static void note_lacking(struct vh_ranges *r, size_t member)
{
    for (size_t i = 0; i < r->mean_rows; i++)
        if (r->row[i].last != member + 2)
            r->row[i].lacks[member / VH_BITS] |= (uint64_t)1 << member % VH_BITS;
}

enum vh_status vh_ranges_take(struct vh_ranges *r, size_t member, const struct vh_table *t)
{
    enum vh_status status = VH_OK;

    if (member != VH_MEAN_RUN && !r->is_ready)
        status = make_ready(r);
    r->last = VH_MEAN_RUN;
    for (size_t at = 0; at < vh_table_rows(t) && status == VH_OK; at++)
        status = take_row(r, member, t, at);
    if (member == VH_MEAN_RUN)
        r->mean_rows = r->rows;
    else
        note_lacking(r, member);
    return status;
}
