#include "csv_separator.h"

#include <string.h>

static const char candidates[] = {',', ';', '\t'};
enum { CANDIDATES = sizeof candidates };

const char *vh_csv_separator_name(char separator)
{
    return separator == ',' ? "comma" : separator == ';' ? "semicolon" : "tab";
}

static void count_outside_quotes(const char *line, size_t n, size_t count[CANDIDATES])
{
    bool quoted = false;
    for (size_t i = 0; i < n; i++) {
        if (line[i] == '"')
            quoted = !quoted;
        for (size_t k = 0; k < CANDIDATES && !quoted; k++)
            count[k] += line[i] == candidates[k];
    }
}

static enum vh_status check_named(struct vh_csv_format format, struct vh_place where,
                                  struct vh_messages *m)
{
    if (memchr(candidates, format.separator, CANDIDATES) == NULL)
        return vh_fail(
            m, VH_BAD_INPUT, where,
            "the separator named for this file cannot be one; comma, semicolon or tab would be "
            "right");
    return VH_OK;
}

enum vh_status vh_csv_find_separator(struct vh_csv_format format, const char *header, size_t n,
                                     struct vh_place where, char *separator, struct vh_messages *m)
{
    char found = format.separator;
    if (found != 0) {
        const enum vh_status status = check_named(format, where, m);
        if (status != VH_OK)
            return status;
    } else {
        size_t count[CANDIDATES] = {0}, best = 0;
        count_outside_quotes(header, n, count);
        for (size_t k = 1; k < CANDIDATES; k++)
            best = count[k] > count[best] ? k : best;
        for (size_t k = 0; k < CANDIDATES; k++)
            if (k != best && count[k] > 0 && count[k] == count[best])
                return vh_fail(
                    m, VH_BAD_INPUT, where,
                    "%s and %s stand equally often in the header, so the separator cannot be told; "
                    "name it for this file",
                    vh_csv_separator_name(candidates[k < best ? k : best]),
                    vh_csv_separator_name(candidates[k < best ? best : k]));
        found = candidates[best];
    }
    if (format.decimal == found)
        return vh_fail(
            m, VH_BAD_INPUT, where,
            "%s is named as the decimal sign, but it stands between the columns; save the file "
            "with semicolons between the columns",
            vh_csv_separator_name(found));
    *separator = found;
    return VH_OK;
}
