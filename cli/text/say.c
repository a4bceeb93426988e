#include "vh_say.h"

#include <stdarg.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>

bool vh_say_is_utf8(void)
{
    static const char *const names[] = {"LC_ALL", "LC_CTYPE", "LANG"};

    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        const char *value = getenv(names[i]);
        const char *set = value ? strchr(value, '.') : NULL;

        if (value && value[0])
            return set &&
                   (strncasecmp(set + 1, "utf-8", 5) == 0 || strncasecmp(set + 1, "utf8", 4) == 0);
    }
    return false;
}

size_t vh_say_width(const char *text)
{
    size_t width = 0;

    for (; *text; text++)
        width += ((unsigned char)*text & 0xC0) != 0x80;
    return width;
}

void vh_say_safely(FILE *to, const char *text)
{
    for (const unsigned char *p = (const unsigned char *)text; *p; p++) {
        if (*p < 0x20 || *p == 0x7F) {
            fputc('?', to);
        } else if (*p == 0xC2 && p[1] >= 0x80 && p[1] <= 0x9F) { /* the C1 controls, U+0080-9F */
            fputc('?', to);
            p++;
        } else {
            fputc(*p, to);
        }
    }
}

/* One word, n bytes, made safe. */
static void say_word(FILE *to, const char *word, size_t n)
{
    char copy[512];

    while (n > 0) {
        const size_t part = n < sizeof copy - 1 ? n : sizeof copy - 1;

        memcpy(copy, word, part);
        copy[part] = 0;
        vh_say_safely(to, copy);
        word += part;
        n -= part;
    }
}

static size_t width_of(const char *word, size_t n)
{
    size_t width = 0;

    for (size_t i = 0; i < n; i++)
        width += ((unsigned char)word[i] & 0xC0) != 0x80;
    return width;
}

/* Bytes of the words that stay together at `text`: a number sticks to what it counts ("4
 * September"). */
static size_t bytes_together(const char *text)
{
    size_t n = strcspn(text, " ");

    while (n > 0 && text[n] == ' ' && text[n + 1] && text[n + 1] != ' ' && text[n - 1] >= '0' &&
           text[n - 1] <= '9')
        n += 1 + strcspn(text + n + 1, " ");
    return n;
}

void vh_say_add(char text[VH_SAY_TEXT], const char *format, ...)
{
    const size_t n = strlen(text);
    va_list arguments;

    va_start(arguments, format);
    vsnprintf(text + n, VH_SAY_TEXT - n, format, arguments);
    va_end(arguments);
}

void vh_say_block(FILE *to, const char *head, int indent, const char *text)
{
    size_t column = vh_say_width(head);
    bool line_has_word = false;

    vh_say_safely(to, head);
    while (*text) {
        size_t n, width, blanks = 0;

        for (; *text == ' '; text++)
            blanks++;
        n = bytes_together(text);
        if (n == 0)
            break;
        width = width_of(text, n);
        const bool behind_head = !line_has_word && column > (size_t)indent;
        const size_t before = behind_head ? 1 : blanks;
        if ((line_has_word || behind_head) && column + before + width > VH_SAY_COLUMNS) {
            fputc('\n', to);
            column = 0;
            line_has_word = false;
        }
        if (!line_has_word) {
            /* A head that is too long pushes its first word on by one blank. */
            blanks = column < (size_t)indent ? (size_t)indent - column : (column > 0);
        }
        fprintf(to, "%*s", (int)blanks, "");
        say_word(to, text, n);
        column += blanks + width;
        line_has_word = true;
        text += n;
    }
    fputc('\n', to);
}
