#include "vh_say.h"

#include <stddef.h>
#include <string.h>

enum { LONGEST = 32 }; /* letters; longer words are no slip of the finger */

static int least(int a, int b)
{
    return a < b ? a : b;
}

/* Letters to add, drop, change, or swap with the next one, to make b from a (optimal string
 * alignment: Damerau 1964, Levenshtein 1966). Both at most LONGEST letters. */
static int steps_between(const char *a, const char *b)
{
    const size_t n = strlen(a), m = strlen(b);
    int d[LONGEST + 1][LONGEST + 1];

    for (size_t i = 0; i <= n; i++)
        d[i][0] = (int)i;
    for (size_t j = 0; j <= m; j++)
        d[0][j] = (int)j;
    for (size_t i = 1; i <= n; i++) {
        for (size_t j = 1; j <= m; j++) {
            d[i][j] = least(d[i - 1][j], d[i][j - 1]) + 1;
            d[i][j] = least(d[i][j], d[i - 1][j - 1] + (a[i - 1] != b[j - 1]));
            if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
                d[i][j] = least(d[i][j], d[i - 2][j - 2] + 1);
        }
    }
    return d[n][m];
}

const char *vh_nearest_word(const char *word, const char *const *known)
{
    const size_t n = strlen(word);
    const char *nearest = NULL;
    int best = n < 5 ? 2 : 3; /* fewer steps than this: one in a short word, else two */

    if (n > LONGEST)
        return NULL;
    for (; *known; known++) {
        const int steps = strlen(*known) <= LONGEST ? steps_between(word, *known) : LONGEST;

        if (steps < best) {
            best = steps;
            nearest = *known;
        }
    }
    return nearest;
}
