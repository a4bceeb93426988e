#include "vh_text.h"

#include <stdint.h>
#include <string.h>

static unsigned byte_at(const char *text, size_t i)
{
    return (unsigned char)text[i];
}

/* Eight bytes of plain ASCII, none below the blank? Digits and commas: nearly all that a log holds.
 */
static bool is_plain_word(const char *text)
{
    uint64_t w;
    memcpy(&w, text, sizeof w);
    const uint64_t ones = 0x0101010101010101u, tops = 0x8080808080808080u;
    const uint64_t below_blank = (w - ones * 0x20u) & ~w & tops;
    const uint64_t rubout = ((w ^ ones * 0x7fu) - ones) & ~(w ^ ones * 0x7fu) & tops;
    return ((w & tops) | below_blank | rubout) == 0;
}

/* Length of the UTF-8 letter at i, 0 where there is none (The Unicode Standard, table 3-7,
 * well-formed sequences). */
static size_t letter_length(const char *text, size_t n, size_t i)
{
    const unsigned b = byte_at(text, i);
    size_t length = 0;
    unsigned least = 0x80, most = 0xbf; /* of the second byte */
    if (b >= 0xc2 && b <= 0xdf) {
        length = 2;
    } else if (b >= 0xe0 && b <= 0xef) {
        length = 3;
        least = b == 0xe0 ? 0xa0 : least;
        most = b == 0xed ? 0x9f : most;
    } else if (b >= 0xf0 && b <= 0xf4) {
        length = 4;
        least = b == 0xf0 ? 0x90 : least;
        most = b == 0xf4 ? 0x8f : most;
    }
    if (length == 0 || length > n - i || byte_at(text, i + 1) < least ||
        byte_at(text, i + 1) > most)
        return 0;
    for (size_t k = 2; k < length; k++)
        if ((byte_at(text, i + k) & 0xc0) != 0x80)
            return 0;
    return length;
}

enum vh_text_fault vh_text_check(const char *text, size_t n, size_t *at)
{
    size_t i = 0;
    while (i < n) {
        while (n - i >= 8 && is_plain_word(text + i))
            i += 8;
        if (i == n)
            break;
        const unsigned b = byte_at(text, i);
        *at = i;
        if (b == '\r') {
            if (i + 1 == n || text[i + 1] != '\n')
                return VH_TEXT_LONE_CR;
        } else if (b < 0x20 && b != '\n' && b != '\t') {
            return b == 0 ? VH_TEXT_NUL : VH_TEXT_CONTROL;
        } else if (b == 0x7f) {
            return VH_TEXT_CONTROL;
        } else if (b >= 0x80) {
            const size_t length = letter_length(text, n, i);
            if (length == 0)
                return VH_TEXT_NOT_UTF8;
            if (b == 0xc2 && byte_at(text, i + 1) < 0xa0)
                return VH_TEXT_CONTROL;
            i += length - 1;
        }
        i++;
    }
    *at = n;
    return VH_TEXT_CLEAN;
}

const char *vh_text_fault_message(enum vh_text_fault fault)
{
    switch (fault) {
    case VH_TEXT_CLEAN:
        break;
    case VH_TEXT_NUL:
        return "a zero byte; this is no text file, or it is damaged: save it again as text (UTF-8)";
    case VH_TEXT_CONTROL:
        return "a control character; take it out";
    case VH_TEXT_LONE_CR:
        return "a line end of CR alone; save the file with LF or CRLF line ends";
    case VH_TEXT_NOT_UTF8:
        return "a byte that is not UTF-8; save the file as UTF-8";
    }
    return "clean text";
}

size_t vh_text_bom(const char *text, size_t n)
{
    return n >= 3 && memcmp(text, "\xef\xbb\xbf", 3) == 0 ? 3 : 0;
}

bool vh_text_is_utf16(const char *text, size_t n)
{
    return n >= 2 && (memcmp(text, "\xff\xfe", 2) == 0 || memcmp(text, "\xfe\xff", 2) == 0);
}

void vh_text_shorten(const char *text, size_t n, size_t most, char *shown)
{
    size_t keep = n;
    if (n > most) {
        keep = most;
        while (keep > 0 && (byte_at(text, keep) & 0xc0) == 0x80)
            keep--;
    }
    memcpy(shown, text, keep);
    memcpy(shown + keep, n > most ? "..." : "", n > most ? 4 : 1);
}
