#include "vh_csv.h"

#include <csv.h>
#include <stddef.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "csv_separator.h"
#include "vh_digest.h"
#include "vh_file.h"
#include "vh_text.h"

enum {
    LINE_BYTES_MOST = 64 * 1024,
    COLUMNS_MOST = 1000,
    READ_BYTES =
        128 *
        1024, /* asked of the system at a time; the buffer keeps one unfinished line before it */
    EXCERPT_BYTES_MOST = 200,
    WIDTH_ERRORS_MOST = 20
};

struct reader {
    struct csv_parser parser;
    bool parser_ready;
    struct vh_csv_format format;
    char separator;
    const char *file;
    vh_csv_take take;
    void *context;
    struct vh_messages *m;

    enum vh_status status; /* the first trouble; nothing is handed over after it */
    int width_errors;
    int64_t line, row_line; /* physical lines, from 1 */
    size_t row_bytes;       /* fed since the row began */
    bool any_bytes, have_header, first_row_seen;
    size_t columns;

    size_t cells;  /* of the row now read; only COLUMNS_MOST are kept */
    bool any_cell; /* with something in it */
    size_t text_used;
    /* from here on nothing is read that was not written for this row */
    struct vh_csv_cell cell[COLUMNS_MOST];
    /* every cell of a row and a 0 behind each: never more than the bytes of the row and one more 0
     */
    char text[LINE_BYTES_MOST + 2];
    char excerpt[EXCERPT_BYTES_MOST + 1];
};

static struct vh_place at_line(const struct reader *r, int64_t line)
{
    return (struct vh_place){r->file, line, 0, NULL};
}

/* With the line's text where it is short enough to be shown. */
static struct vh_place at_byte(struct reader *r, const char *line, size_t length, size_t byte)
{
    struct vh_place where = at_line(r, r->line);
    where.column = (int)byte + 1;
    while (length > 0 && (line[length - 1] == '\n' || line[length - 1] == '\r'))
        length--;
    size_t clean;
    if (length <= EXCERPT_BYTES_MOST && vh_text_check(line, length, &clean) == VH_TEXT_CLEAN) {
        memcpy(r->excerpt, line, length);
        r->excerpt[length] = '\0';
        where.excerpt = r->excerpt;
    }
    return where;
}

static void fail_memory(struct reader *r)
{
    r->status = vh_fail(r->m, VH_NO_MEMORY, at_line(r, 0), "memory is out; close other programs");
}

/* ---- what libcsv calls: a cell is complete, a row is complete ---- */

static void on_cell(void *bytes, size_t length, void *context)
{
    struct reader *r = context;
    if (r->cells < COLUMNS_MOST) {
        struct vh_csv_cell *cell = &r->cell[r->cells];
        cell->text = NULL;
        cell->length = length;
        if (bytes != NULL) {
            char *copy = r->text + r->text_used;
            memcpy(copy, bytes, length);
            copy[length] = '\0';
            r->text_used += length + 1;
            cell->text = copy;
            r->any_cell = true;
        }
    }
    r->cells++;
}

static void fail_width(struct reader *r)
{
    const enum vh_status status = vh_fail(
        r->m, VH_BAD_INPUT, at_line(r, r->row_line),
        "this row has %zu cell%s, the header has %zu (separator: %s); give every row as many "
        "cells as the header",
        r->cells, r->cells == 1 ? "" : "s", r->columns, vh_csv_separator_name(r->separator));
    if (++r->width_errors == WIDTH_ERRORS_MOST || status != VH_BAD_INPUT)
        r->status = status;
}

/* A header with commas over rows with semicolons reads without an error, but cuts decimal commas in
 * two. */
static bool first_cell_has_other_separator(const struct reader *r)
{
    if (r->format.separator != 0 || r->cell[0].text == NULL)
        return false;
    for (const char *p = r->cell[0].text; *p; p++)
        if ((*p == ';' || *p == '\t') && *p != r->separator)
            return true;
    return false;
}

static void take_header(struct reader *r, const struct vh_csv_row *row)
{
    r->have_header = true;
    r->columns = r->cells;
    if (r->cells > COLUMNS_MOST)
        r->status =
            vh_fail(r->m, VH_BAD_INPUT, at_line(r, r->row_line),
                    "the header has %zu columns, at most %d can be read", r->cells, COLUMNS_MOST);
    else
        r->status = r->take(r->context, row, true);
}

static void on_row(int end, void *context)
{
    (void)end;
    struct reader *r = context;
    if (r->any_cell) {
        const struct vh_csv_row row = {r->file, r->row_line, r->cells, r->cell};
        const bool is_first = r->have_header && !r->first_row_seen;
        r->first_row_seen = r->have_header;
        if (!r->have_header)
            take_header(r, &row);
        else if (is_first && first_cell_has_other_separator(r))
            r->status =
                vh_fail(r->m, VH_BAD_INPUT, at_line(r, r->row_line),
                        "the header has a %s between its columns, this row another sign; use one "
                        "throughout",
                        vh_csv_separator_name(r->separator));
        else if (r->cells != r->columns)
            fail_width(r);
        else
            r->status = r->take(r->context, &row, false);
    }
    r->cells = 0;
    r->any_cell = false;
    r->text_used = 0;
}

/* ---- lines ---- */

static bool start_parser(struct reader *r, const char *line, size_t length)
{
    r->status =
        vh_csv_find_separator(r->format, line, length, at_line(r, r->line), &r->separator, r->m);
    if (r->status != VH_OK)
        return false;
    (void)csv_init(&r->parser, CSV_STRICT | CSV_STRICT_FINI |
                                   CSV_EMPTY_IS_NULL); /* fails without a parser only */
    csv_set_delim(&r->parser, (unsigned char)r->separator);
    csv_set_blk_size(&r->parser,
                     4096); /* cells are short; growing by libcsv's 128 bytes would be slow */
    r->parser_ready = true;
    return true;
}

static bool is_blank(const char *line, size_t length)
{
    for (size_t i = 0; i < length; i++)
        if (line[i] != ' ' && line[i] != '\t' && line[i] != '\r' && line[i] != '\n')
            return false;
    return true;
}

/* Old line ends of CR alone or a picture look like one endless line too, and that is the better
 * thing to say. */
static void fail_long(struct reader *r, const char *line)
{
    size_t at;
    const enum vh_text_fault fault = vh_text_check(line, LINE_BYTES_MOST / 2, &at);
    if (fault != VH_TEXT_CLEAN && at < LINE_BYTES_MOST / 2 - 4)
        r->status = vh_fail(r->m, VH_BAD_INPUT, at_byte(r, line, LINE_BYTES_MOST, at), "%s",
                            vh_text_fault_message(fault));
    else
        r->status =
            vh_fail(r->m, VH_BAD_INPUT, at_line(r, r->line),
                    "this line is longer than 64 KiB; is it a CSV file with one row a line?");
}

/* libcsv keeps no line numbers: one line at a time gives them. State 0 means that no row is half
 * read. */
static void feed_line(struct reader *r, const char *line, size_t length)
{
    r->line++;
    if (!r->parser_ready || r->parser.pstate == 0) {
        r->row_line = r->line;
        r->row_bytes = 0;
    }
    if (length > LINE_BYTES_MOST) {
        fail_long(r, line);
        return;
    }
    size_t at;
    const enum vh_text_fault fault = vh_text_check(line, length, &at);
    if (fault != VH_TEXT_CLEAN) {
        r->status = vh_fail(r->m, VH_BAD_INPUT, at_byte(r, line, length, at), "%s",
                            vh_text_fault_message(fault));
        return;
    }
    if (!r->parser_ready && (is_blank(line, length) || !start_parser(r, line, length)))
        return;
    r->row_bytes += length;
    if (r->row_bytes > LINE_BYTES_MOST) {
        r->status =
            vh_fail(r->m, VH_BAD_INPUT, at_line(r, r->row_line),
                    "the row that begins here is longer than 64 KiB; is a quote left open?");
        return;
    }
    const size_t read = csv_parse(&r->parser, line, length, on_cell, on_row, r);
    if (read == length)
        return;
    if (csv_error(&r->parser) == CSV_EPARSE)
        r->status =
            vh_fail(r->m, VH_BAD_INPUT, at_byte(r, line, length, read),
                    "a quote inside a cell; put the whole cell in quotes and double the quote "
                    "inside, as in \"6\"\" pot\"");
    else
        fail_memory(r);
}

/* Feeds whole lines; *used says how much. The rest without a line end is a line only where the file
 * ends. */
static void feed_lines(struct reader *r, const char *text, size_t n, bool at_end, size_t *used)
{
    size_t i = 0;
    while (i < n && r->status == VH_OK) {
        const char *end = memchr(text + i, '\n', n - i);
        if (end == NULL && !at_end) {
            if (n - i > LINE_BYTES_MOST) {
                r->line++;
                fail_long(r, text + i);
            }
            break;
        }
        const size_t length = end != NULL ? (size_t)(end - (text + i)) + 1 : n - i;
        feed_line(r, text + i, length);
        i += length;
    }
    *used = i;
}

/* The first bytes of a file, before any line is fed. */
static size_t skip_mark(struct reader *r, const char *text, size_t n)
{
    r->any_bytes = n > 0;
    if (vh_text_is_utf16(text, n))
        r->status = vh_fail(r->m, VH_BAD_INPUT, at_line(r, 0),
                            "the file is written in UTF-16; save it as CSV in UTF-8");
    return vh_text_bom(text, n);
}

static void finish(struct reader *r)
{
    /* after an error csv_fini would hand over the broken half of a row as if it were good */
    if (r->status == VH_OK && r->parser_ready && csv_fini(&r->parser, on_cell, on_row, r) != 0)
        r->status = vh_fail(r->m, VH_BAD_INPUT, at_line(r, r->row_line),
                            "a quote is opened in this row and never closed; close it");
    if (r->status == VH_OK && !r->have_header)
        r->status =
            vh_fail(r->m, VH_BAD_INPUT, at_line(r, 0), "%s; the first line must name the columns",
                    r->any_bytes ? "the file holds nothing but blanks" : "the file is empty");
    if (r->status == VH_OK && r->width_errors > 0)
        r->status = VH_BAD_INPUT;
    if (r->parser_ready)
        csv_free(&r->parser);
}

static struct reader *reader_create(const char *shown_name, struct vh_csv_format format,
                                    vh_csv_take take, void *context, struct vh_messages *m)
{
    struct reader *r = malloc(sizeof *r);
    if (r == NULL) {
        vh_fail(m, VH_NO_MEMORY, (struct vh_place){shown_name, 0, 0, NULL},
                "memory is out; close other programs");
        return NULL;
    }
    memset(r, 0, offsetof(struct reader, cell)); /* the rest is large, and there are many files */
    r->file = shown_name;
    r->format = format;
    r->take = take;
    r->context = context;
    r->m = m;
    return r;
}

enum vh_status vh_csv_read_memory(const char *text, size_t n, const char *shown_name,
                                  struct vh_csv_format format, vh_csv_take take, void *context,
                                  struct vh_messages *m)
{
    struct reader *r = reader_create(shown_name, format, take, context, m);
    if (r == NULL)
        return VH_NO_MEMORY;
    const size_t mark = skip_mark(r, text, n);
    size_t used;
    feed_lines(r, text + mark, n - mark, true, &used);
    finish(r);
    const enum vh_status status = r->status;
    free(r);
    return status;
}

/* Reads piece by piece; what is left of a line stays at the buffer's begin. */
static void read_pieces(struct reader *r, int fd, struct vh_digest *digest, char *buffer)
{
    size_t kept = 0, got = 1;
    bool first = true;
    while (got > 0 && r->status == VH_OK) {
        r->status = vh_file_read_some(fd, r->file, buffer + kept, READ_BYTES, &got, r->m);
        if (r->status != VH_OK)
            return;
        if (digest != NULL)
            vh_digest_add(digest, buffer + kept, got);
        const size_t n = kept + got;
        const size_t mark = first ? skip_mark(r, buffer, n) : 0;
        first = false;
        size_t used;
        feed_lines(r, buffer + mark, n - mark, got == 0, &used);
        kept = n - mark - used;
        memmove(buffer, buffer + mark + used, kept);
    }
}

enum vh_status vh_csv_read(const char *path, const char *shown_name, struct vh_csv_format format,
                           struct vh_digest *digest, vh_csv_take take, void *context,
                           struct vh_messages *m)
{
    int fd;
    enum vh_status status = vh_file_open(path, shown_name, &fd, m);
    if (status != VH_OK)
        return status;
    struct reader *r = reader_create(shown_name, format, take, context, m);
    char *buffer = malloc(LINE_BYTES_MOST + 1 + READ_BYTES);
    if (r != NULL && buffer == NULL)
        fail_memory(r);
    if (r != NULL) {
        if (buffer != NULL)
            read_pieces(r, fd, digest, buffer);
        finish(r);
        status = r->status;
    } else {
        status = VH_NO_MEMORY;
    }
    free(buffer);
    free(r);
    close(fd);
    return status;
}
