/* fuzz_csv.c - any bytes as a CSV file; the first byte chooses separator and decimal sign. */
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "vh_csv.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

struct seen {
    size_t columns, rows;
    int64_t line;
    char decimal;
    double sum;
};

static enum vh_status take(void *context, const struct vh_csv_row *row, bool is_header)
{
    struct seen *s = context;
    if (is_header != (s->columns == 0) || row->line <= s->line)
        abort();
    if (is_header)
        s->columns = row->cells;
    if (row->cells != s->columns)
        abort();
    s->line = row->line;
    for (size_t i = 0; i < row->cells; i++) {
        const struct vh_csv_cell c = row->cell[i];
        if (c.text != NULL && strlen(c.text) != c.length)
            abort();
        double value = 0.0;
        if (vh_csv_number(c, s->decimal, &value))
            s->sum += value;
    }
    return s->rows++ < 100000 ? VH_OK : VH_INTERRUPTED;
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static const char separators[] = {0, ',', ';', '\t', '|', '"'};
    if (size == 0)
        return 0;
    struct seen s = {.decimal = data[0] & 1 ? ',' : '.'};
    const struct vh_csv_format format = {separators[(data[0] >> 1) % sizeof separators], s.decimal};
    struct vh_messages *m = vh_messages_create();
    const enum vh_status status =
        vh_csv_read_memory((const char *)data + 1, size - 1, "fuzz.csv", format, take, &s, m);
    if ((status == VH_BAD_INPUT) != (vh_messages_count_of(m, VH_ERROR) > 0))
        abort();
    vh_messages_free(m);
    return 0;
}
