/* What the benchmarks are held against, and the readers alone; a process each, so that both sides
 * of a pair are measured alike. bench_bare calls LOGS EXPS     bare logarithms and exponentials, of
 * which a season cannot be quit bench_bare read FILE TIMES     the bytes of a file, read and
 * dropped bench_bare csv FILE TIMES      the same through our reader of CSV, each cell as a number
 *   bench_bare toml FILE TIMES     the same through our reader of scenarios
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "vh_csv.h"
#include "vh_math.h"
#include "vh_number.h"
#include "vh_toml.h"
#include "vinehand.h"

static int calls(long logs, long exps)
{
    volatile double sink = 0.0;

    for (long i = 0; i < logs; i++)
        sink = vh_log(1.0 + (double)(i & 1023));
    for (long i = 0; i < exps; i++)
        sink = vh_exp(0.001 * (double)(i & 1023));
    return sink == 0.0;
}

static char *read_file(const char *path, size_t *n)
{
    FILE *f = fopen(path, "rb");
    size_t room = 1 << 16, got;
    char *text = malloc(room);

    *n = 0;
    while (f && text && (got = fread(text + *n, 1, room - *n, f)) > 0) {
        *n += got;
        if (*n == room) {
            char *more = realloc(text, room *= 2);
            if (!more)
                break;
            text = more;
        }
    }
    if (f)
        fclose(f);
    return text;
}

static enum vh_status take(void *context, const struct vh_csv_row *row, bool is_header)
{
    double *sum = context;

    for (size_t i = 1; !is_header && i < row->cells; i++) {
        double value;
        if (row->cell[i].text && vh_csv_number(row->cell[i], '.', &value))
            *sum += value;
    }
    return VH_OK;
}

static bool once(const char *what, const char *path, struct vh_messages *m)
{
    const struct vh_csv_format format = {',', '.'};
    double sum = 0.0;
    struct vh_toml *t = NULL;
    size_t n;

    if (strcmp(what, "csv") == 0)
        return vh_csv_read(path, path, format, NULL, take, &sum, m) == VH_OK && sum > 0.0;
    char *text = read_file(path, &n);
    bool good = text && n > 0;
    if (good && strcmp(what, "toml") == 0)
        good = vh_toml_parse(text, n, path, &t, m) == VH_OK;
    vh_toml_free(t);
    free(text);
    return good;
}

int main(int argc, char **argv)
{
    struct vh_messages *m = vh_messages_create();
    bool good = argc == 4 && m;

    if (good && strcmp(argv[1], "calls") == 0) {
        vh_messages_free(m);
        return calls(strtol(argv[2], NULL, 10), strtol(argv[3], NULL, 10));
    }
    for (long i = 0; good && i < strtol(argv[3], NULL, 10); i++)
        good = once(argv[1], argv[2], m);
    vh_messages_free(m);
    return good ? 0 : 1;
}
