#include "vh_units.h"

#include <string.h>

enum { KEY_MOST = 64 };

static size_t least(size_t a, size_t b)
{
    return a < b ? a : b;
}

/* Damerau 1964 (CACM 7:171-176) in the restricted form: insert, drop, change, swap neighbours; no
 * part edited twice. */
size_t vh_key_distance(const char *a, const char *b, size_t limit)
{
    const size_t a_n = strlen(a), b_n = strlen(b);
    if (strcmp(a, b) == 0)
        return 0;
    if (a_n >= KEY_MOST || b_n >= KEY_MOST || (a_n > b_n ? a_n - b_n : b_n - a_n) > limit)
        return limit + 1;
    size_t rows[3][KEY_MOST + 1];
    size_t *before = rows[0], *last = rows[1], *now = rows[2];
    for (size_t j = 0; j <= b_n; j++)
        last[j] = before[j] = j;
    for (size_t i = 1; i <= a_n; i++) {
        now[0] = i;
        for (size_t j = 1; j <= b_n; j++) {
            const size_t change = a[i - 1] != b[j - 1];
            now[j] = least(last[j - 1] + change, least(last[j], now[j - 1]) + 1);
            if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
                now[j] = least(now[j], before[j - 2] + 1);
        }
        size_t *const free_row = before;
        before = last;
        last = now;
        now = free_row;
    }
    return last[b_n] <= limit ? last[b_n] : limit + 1;
}
