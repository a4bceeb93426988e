/* Small questions about the words of a scenario file: names, lists of words, how to show a text. */
#include "scenario_parts.h"

#include <stdio.h>
#include <string.h>

#include "vh_text.h"

#define NAME_BYTES_MOST 100 /* as many fit a column of a printed page */

const char *vh_shown(const char *text, char shown[VH_SHOWN_MOST + 4])
{
    vh_text_shorten(text, strlen(text), VH_SHOWN_MOST, shown);
    return shown;
}

/* Length of the word at p, and the next one. */
static size_t word_length(const char *p, const char **next)
{
    const char *bar = strchr(p, '|');
    const size_t n = bar ? (size_t)(bar - p) : strlen(p);

    *next = bar ? bar + 1 : NULL;
    return n;
}

int vh_word_index(const char *words, const char *text)
{
    int index = 0;

    for (const char *p = words, *next; p; p = next, index++) {
        const size_t n = word_length(p, &next);
        if (strlen(text) == n && memcmp(p, text, n) == 0)
            return index;
    }
    return -1;
}

void vh_words_listed(const char *words, char *list, size_t size)
{
    size_t used = 0;
    bool first = true;

    list[0] = '\0';
    for (const char *p = words, *next; p; p = next) {
        const size_t n = word_length(p, &next);
        if ((unsigned char)p[0] < ' ')
            continue; /* a tab itself: its name stands beside it */
        const char *between = first ? "" : next ? ", " : " or ";
        const int wrote = snprintf(list + used, size - used, "%s\"%.*s\"", between, (int)n, p);
        if (wrote < 0 || (size_t)wrote >= size - used)
            return;
        used += (size_t)wrote;
        first = false;
    }
}

size_t vh_near_enough(const char *text)
{
    const size_t n = strlen(text);

    return n < 4 ? 1 : n < 8 ? 2 : 3;
}

/* ---- names ---- */

/* The letter at p (clean UTF-8), and how many bytes it takes. */
static uint32_t letter_at(const unsigned char *p, size_t *bytes)
{
    *bytes = p[0] < 0x80 ? 1 : p[0] < 0xE0 ? 2 : p[0] < 0xF0 ? 3 : 4;
    uint32_t letter = *bytes == 1 ? p[0] : p[0] & (0x7Fu >> *bytes);
    for (size_t i = 1; i < *bytes && p[i]; i++)
        letter = letter << 6 | (p[i] & 0x3Fu);
    return letter;
}

/* Beyond ASCII all is taken for a letter but the blocks of signs, blanks, marks of direction,
 * private use and pictures (The Unicode Standard, code charts): no full table of letters is carried
 * along. */
static bool is_letter_beyond_ascii(uint32_t c)
{
    static const uint32_t sign[][2] = {
        {0x80, 0xA9},     {0xAB, 0xB4},       {0xB6, 0xB9},        {0xBB, 0xBF},
        {0xD7, 0xD7},     {0xF7, 0xF7},       {0x2000, 0x2BFF},    {0x3000, 0x3004},
        {0x3008, 0x3020}, {0xE000, 0xF8FF},   {0xFE00, 0xFE6F},    {0xFEFF, 0xFEFF},
        {0xFFF0, 0xFFFF}, {0x1F000, 0x1FAFF}, {0xE0000, 0x10FFFF},
    };

    for (size_t i = 0; i < sizeof sign / sizeof sign[0]; i++) {
        if (c >= sign[i][0] && c <= sign[i][1])
            return false;
    }
    return true;
}

static bool is_letter_or_digit(uint32_t c)
{
    return c < 0x80 ? (c >= '0' && c <= '9') || ((c | 0x20) >= 'a' && (c | 0x20) <= 'z')
                    : is_letter_beyond_ascii(c);
}

const char *vh_name_fault(const char *name)
{
    const size_t length = strlen(name);
    size_t bytes;

    if (length == 0)
        return "is empty; write a name";
    if (length > NAME_BYTES_MOST)
        return "is too long for a name; write a shorter one";
    if (!is_letter_or_digit(letter_at((const unsigned char *)name, &bytes)))
        return "does not begin with a letter or a digit; begin it with one";
    if (name[length - 1] == ' ')
        return "ends with a blank; take it away";
    for (size_t i = 0; i < length; i += bytes) {
        const uint32_t c = letter_at((const unsigned char *)name + i, &bytes);
        if (!is_letter_or_digit(c) && (c >= 0x80 || c == 0 || !strchr(" ._-()", (int)c)))
            return "has a sign that no name may have; use letters, digits, space . _ - ( )";
    }
    return NULL;
}
