#include "climate_parts.h"

#include <stdlib.h>
#include <string.h>

#define WORD_BITS 64

static size_t words(size_t count)
{
    return (count + WORD_BITS - 1) / WORD_BITS;
}

enum vh_status vh_minutes_init(struct vh_minutes *s, size_t count)
{
    s->word = calloc(words(count) + 1, sizeof *s->word);
    s->count = s->word ? count : 0;
    return s->word ? VH_OK : VH_NO_MEMORY;
}

void vh_minutes_clear(struct vh_minutes *s)
{
    free(s->word);
    *s = (struct vh_minutes){0, NULL};
}

void vh_minutes_empty(struct vh_minutes *s)
{
    memset(s->word, 0, words(s->count) * sizeof *s->word);
}

bool vh_minutes_add(struct vh_minutes *s, size_t minute)
{
    const uint64_t bit = (uint64_t)1 << (minute % WORD_BITS);
    uint64_t *word = &s->word[minute / WORD_BITS];

    if (*word & bit)
        return false;
    *word |= bit;
    return true;
}

size_t vh_minutes_next(const struct vh_minutes *s, size_t after)
{
    const size_t start = after + 1;

    if (start >= s->count)
        return s->count;
    size_t w = start / WORD_BITS;
    uint64_t rest = s->word[w] >> (start % WORD_BITS);
    size_t minute = start;
    if (rest == 0) {
        const size_t end = words(s->count);
        for (w++; w < end && s->word[w] == 0; w++)
            ;
        if (w >= end)
            return s->count;
        rest = s->word[w];
        minute = w * WORD_BITS;
    }
    for (; !(rest & 1); rest >>= 1)
        minute++;
    return minute;
}

int vh_minutes_typical_step(const struct vh_minutes *s, int otherwise)
{
    size_t steps[VH_MINUTES_PER_DAY + 1] = {0}; /* longer ones count as a day */
    size_t total = 0;
    size_t at = s->count > 0 && (s->word[0] & 1) ? 0 : vh_minutes_next(s, 0);

    for (size_t next; at < s->count && (next = vh_minutes_next(s, at)) < s->count; at = next) {
        const size_t step = next - at;
        steps[step < VH_MINUTES_PER_DAY ? step : VH_MINUTES_PER_DAY]++;
        total++;
    }
    if (total == 0)
        return otherwise;
    size_t below = 0;
    for (int step = 1; step < VH_MINUTES_PER_DAY; step++) {
        below += steps[step];
        if (2 * below >= total)
            return step;
    }
    return VH_MINUTES_PER_DAY;
}
