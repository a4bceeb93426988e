/* Clean UTF-8. Truth: The Unicode Standard 15.0, table 3-7 (well-formed byte sequences). */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>
#include <string.h>

#include "vh_text.h"

/* The fault and its place, behind 0 to 16 plain letters: whole words are checked at once. */
static void expect_fault(const char *bytes, size_t n, enum vh_text_fault fault, size_t at)
{
    for (size_t before = 0; before <= 16; before++) {
        char text[64];
        size_t found = 99;
        memset(text, 'a', sizeof text);
        memcpy(text + before, bytes, n);
        const enum vh_text_fault is = vh_text_check(text, before + n + 9, &found);
        cr_expect(eq(int, (int)is, (int)fault), "%zu letters before byte %02x", before,
                  (unsigned char)bytes[0]);
        cr_expect(eq(sz, found, fault == VH_TEXT_CLEAN ? before + n + 9 : before + at));
    }
}

Test(text, the_first_and_last_letters_of_each_length_are_clean)
{
    const char *const good[] = {" ",
                                "~",
                                "\t",
                                "\n",
                                "\r\n",
                                "\xc2\xa0",
                                "\xdf\xbf",
                                "\xe0\xa0\x80",
                                "\xed\x9f\xbf",
                                "\xee\x80\x80",
                                "\xef\xbf\xbf",
                                "\xf0\x90\x80\x80",
                                "\xf4\x8f\xbf\xbf"};
    for (size_t i = 0; i < sizeof good / sizeof good[0]; i++)
        expect_fault(good[i], strlen(good[i]), VH_TEXT_CLEAN, 0);
}

Test(text, overlong_forms_surrogates_and_what_lies_beyond_are_no_utf8)
{
    const char *const bad[] = {
        "\x80",         "\xbf",         "\xc0\xaf",         "\xc1\xbf",
        "\xc2z",        "\xe0\x9f\xbf", "\xe0\x80\x80",     "\xed\xa0\x80",
        "\xed\xbf\xbf", "\xe2\x82z",    "\xf0\x8f\xbf\xbf", "\xf4\x90\x80\x80",
        "\xf5\x80\x80", "\xff",         "\xf0\x9f\x8dz",    "\xe2z\x80"};
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++)
        expect_fault(bad[i], strlen(bad[i]), VH_TEXT_NOT_UTF8, 0);
}

Test(text, letters_cut_off_at_the_end_are_no_utf8)
{
    size_t at = 0;
    cr_expect(eq(int, (int)vh_text_check("a\xe2\x82", 3, &at), VH_TEXT_NOT_UTF8));
    cr_expect(eq(sz, at, 1));
    cr_expect(eq(int, (int)vh_text_check("\xc2", 1, &at), VH_TEXT_NOT_UTF8));
}

Test(text, control_characters_nul_and_lone_cr_are_told_apart)
{
    expect_fault("\0", 1, VH_TEXT_NUL, 0);
    expect_fault("\x01", 1, VH_TEXT_CONTROL, 0);
    expect_fault("\x1f", 1, VH_TEXT_CONTROL, 0);
    expect_fault("\x0b", 1, VH_TEXT_CONTROL, 0);
    expect_fault("\x7f", 1, VH_TEXT_CONTROL, 0);
    expect_fault("\xc2\x80", 2, VH_TEXT_CONTROL, 0);
    expect_fault("\xc2\x9f", 2, VH_TEXT_CONTROL, 0);
    expect_fault("b\rc", 3, VH_TEXT_LONE_CR, 1);
    size_t at = 0;
    cr_expect(eq(int, (int)vh_text_check("a\r", 2, &at), VH_TEXT_LONE_CR));
    cr_expect(eq(int, (int)vh_text_check("", 0, &at), VH_TEXT_CLEAN));
    cr_expect(eq(sz, at, 0));
}

Test(text, marks_are_known)
{
    cr_expect(eq(sz, vh_text_bom("\xef\xbb\xbfx", 4), 3));
    cr_expect(eq(sz, vh_text_bom("\xef\xbb", 2), 0));
    cr_expect(vh_text_is_utf16("\xff\xfe", 2));
    cr_expect(vh_text_is_utf16("\xfe\xff", 2));
    cr_expect(vh_text_is_utf16("\xff\xfe"
                               "d",
                               3));
    cr_expect(vh_text_is_utf16("\xfe\xff\x01", 3));
    cr_expect(not(vh_text_is_utf16("\xff", 1)));
}

Test(text, shortened_text_keeps_whole_letters)
{
    char shown[16];
    vh_text_shorten("abc", 3, 5, shown);
    cr_expect(eq(str, shown, (char *)"abc"));
    vh_text_shorten("abcdef", 6, 5, shown);
    cr_expect(eq(str, shown, (char *)"abcde..."));
    vh_text_shorten("abcd\xc3\xa9z", 7, 5, shown);
    cr_expect(eq(str, shown, (char *)"abcd..."));
    vh_text_shorten("", 0, 5, shown);
    cr_expect(eq(str, shown, (char *)""));
}
