/* The calendar's lines: what RFC 5545 asks of every octet. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>
#include <stdio.h>
#include <string.h>

#include "vh_ics_out.h"
#include "vh_result.h"
#include "vh_table.h"

static void line_is(const char *value, const char *wanted)
{
    struct vh_draft out = {0};

    vh_ics_line(&out, "DESCRIPTION", value);
    vh_draft_add_bytes(&out, "", 1);
    cr_expect(eq(str, out.bytes, (char *)wanted));
    vh_draft_clear(&out);
}

Test(ics_out, signs_that_part_values_are_escaped)
{
    line_is("a,b;c\\d", "DESCRIPTION:a\\,b\\;c\\\\d\r\n");
    line_is("one\ntwo\r\t\x07", "DESCRIPTION:one\\ntwo\r\n");
}

Test(ics_out, a_line_of_75_octets_stays_whole_and_one_more_is_folded)
{
    char value[64 + 1];

    memset(value, 'x', sizeof value - 1);
    value[63] = 0; /* DESCRIPTION: is 12 octets */
    struct vh_draft out = {0};
    vh_ics_line(&out, "DESCRIPTION", value);
    cr_expect(eq(sz, out.n, 77));
    vh_draft_clear(&out);
    value[63] = 'y';
    value[64] = 0;
    vh_ics_line(&out, "DESCRIPTION", value);
    cr_assert(eq(sz, out.n, 81));
    cr_expect(eq(int, memcmp(out.bytes + 75, "\r\n y\r\n", 6), 0));
    vh_draft_clear(&out);
}

Test(ics_out, folding_never_cuts_a_character)
{
    for (size_t lead = 0; lead < 4; lead++) {
        char value[400] = "";
        struct vh_draft out = {0};
        size_t at = 0;

        memset(value, 'x', lead);
        for (int i = 0; i < 60; i++)
            strcat(value, i % 2 ? "\xC3\xBC" : "\xF0\x9F\x8D\x85"); /* 2 and 4 octets */
        vh_ics_line(&out, "SUMMARY", value);
        while (at < out.n) {
            const char *end = memchr(out.bytes + at, '\r', out.n - at);
            const size_t n = (size_t)(end - out.bytes) - at;

            cr_expect(le(sz, n, 75));
            cr_expect(eq(int, end[1], '\n'));
            const char first = out.bytes[at] == ' ' ? out.bytes[at + 1] : out.bytes[at];
            cr_expect(ne(int, (unsigned char)first & 0xC0, 0x80), "a character is cut");
            at += n + 2;
        }
        vh_draft_clear(&out);
    }
}

/* A table of tasks with one row. */
static void day_text(const char *house, int64_t day, int64_t today, char *text, size_t room)
{
    struct vh_table *t = vh_result_table_new(VH_TABLE_TASKS);
    struct vh_draft out = {0};

    cr_assert(t != NULL);
    (void)vh_table_add_row(t);
    vh_table_set_number(t, (size_t)vh_table_find(t, "date"), (double)day);
    vh_ics_out(&out, t, house, today, VH_SAY_METRIC);
    cr_assert(lt(sz, out.n, room));
    memcpy(text, out.bytes, out.n);
    text[out.n] = 0;
    vh_draft_clear(&out);
    vh_table_free(t);
}

static void uid_of(const char *text, char uid[100])
{
    const char *at = strstr(text, "\r\nUID:");

    cr_assert(at != NULL);
    snprintf(uid, 100, "%.*s", (int)strcspn(at + 6, "\r"), at + 6);
}

Test(ics_out, the_uid_follows_house_and_day_and_nothing_else)
{
    char text[2000], uid[100], again[100];

    day_text("Two bays", 20648, 20640, text, sizeof text);
    uid_of(text, uid);
    day_text("Two bays", 20648, 20641, text, sizeof text);
    uid_of(text, again);
    cr_expect(eq(str, uid, again));
    day_text("Two bays", 20649, 20640, text, sizeof text);
    uid_of(text, again);
    cr_expect(ne(str, uid, again));
    day_text("One bay", 20648, 20640, text, sizeof text);
    uid_of(text, again);
    cr_expect(ne(str, uid, again));
}

Test(ics_out, an_all_day_event_ends_on_the_day_after)
{
    char text[2000];

    day_text("Two bays", 20665, 20648, text, sizeof text); /* 2026-07-31, seen on 2026-07-14 */
    cr_expect(strstr(text, "\r\nDTSTART;VALUE=DATE:20260731\r\n") != NULL);
    cr_expect(strstr(text, "\r\nDTEND;VALUE=DATE:20260801\r\n") != NULL);
    cr_expect(strstr(text, "\r\nDTSTAMP:20260714T000000Z\r\n") != NULL);
}
