/* vh_text.h - is this text fit to be read, shown and written? Clean UTF-8 without control
 * characters. */
#ifndef VH_TEXT_H
#define VH_TEXT_H

#include <stdbool.h>
#include <stddef.h>

enum vh_text_fault {
    VH_TEXT_CLEAN,
    VH_TEXT_NUL,
    VH_TEXT_CONTROL, /* U+0001-001F but tab, LF and CR; U+007F-009F */
    VH_TEXT_LONE_CR, /* a CR that no LF follows */
    VH_TEXT_NOT_UTF8 /* also overlong forms, surrogates and what lies above U+10FFFF */
};

/* The first fault in n bytes, *at its place (n where clean). A CR as the last byte counts as lone.
 */
enum vh_text_fault vh_text_check(const char *text, size_t n, size_t *at);

/* What is wrong and what would be right, for a message; never NULL. */
const char *vh_text_fault_message(enum vh_text_fault fault);

/* Bytes of a byte order mark that begins the text: 0 or 3. */
size_t vh_text_bom(const char *text, size_t n);
/* Do the first bytes say UTF-16? */
bool vh_text_is_utf16(const char *text, size_t n);

/* Copies text into shown[] for a message: at most `most` bytes (room holds most + 4), whole
 * letters, "..." where cut. */
void vh_text_shorten(const char *text, size_t n, size_t most, char *shown);

#endif
