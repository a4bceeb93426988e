/* Messages: what is kept, what is counted, what is cut. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>
#include <string.h>

#include "vh_error.h"

static struct vh_messages *created(void)
{
    struct vh_messages *m = vh_messages_create();
    cr_assert(m != NULL);
    return m;
}

Test(error, a_message_holds_place_text_and_excerpt)
{
    struct vh_messages *m = created();
    char file[] = "spring.toml", excerpt[] = "row_length_m = 12,5";
    const struct vh_place where = {file, 7, 16, excerpt};
    cr_expect(vh_fail(m, VH_BAD_INPUT, where, "decimal %s; write a %s", "comma", "point") ==
              VH_BAD_INPUT);
    memset(file, 'x', sizeof file - 1); /* the strings of the caller may go */
    memset(excerpt, 'x', sizeof excerpt - 1);
    cr_assert(eq(sz, vh_messages_count(m), 1));
    const struct vh_message *at = vh_messages_at(m, 0);
    cr_expect(at->severity == VH_ERROR);
    cr_expect(strcmp(at->file, "spring.toml") == 0);
    cr_expect(at->line == 7 && at->column == 16);
    cr_expect(strcmp(at->text, "decimal comma; write a point") == 0);
    cr_expect(strcmp(at->excerpt, "row_length_m = 12,5") == 0);
    vh_messages_free(m);
}

Test(error, a_message_without_a_place_has_none)
{
    struct vh_messages *m = created();
    cr_expect(vh_fail(m, VH_NO_FILE, VH_NOWHERE, "disk full") == VH_NO_FILE);
    const struct vh_message *at = vh_messages_at(m, 0);
    cr_expect(at->file == NULL && at->excerpt == NULL && at->line == 0 && at->column == 0);
    vh_messages_free(m);
}

Test(error, messages_keep_their_order_and_are_counted_by_severity)
{
    struct vh_messages *m = created();
    vh_warn(m, VH_NOWHERE, "first");
    vh_fail(m, VH_BAD_INPUT, VH_NOWHERE, "second");
    vh_remark(m, VH_NOWHERE, "third");
    vh_warn(m, VH_NOWHERE, "fourth");
    cr_assert(eq(sz, vh_messages_count(m), 4));
    cr_expect(eq(sz, vh_messages_count_of(m, VH_WARNING), 2));
    cr_expect(eq(sz, vh_messages_count_of(m, VH_ERROR), 1));
    cr_expect(eq(sz, vh_messages_count_of(m, VH_NOTE), 1));
    const char *const texts[4] = {"first", "second", "third", "fourth"};
    for (size_t i = 0; i < 4; i++) {
        cr_expect(strcmp(vh_messages_at(m, i)->text, texts[i]) == 0, "message %zu", i);
    }
    cr_expect(vh_messages_at(m, 4) == NULL);
    vh_messages_free(m);
}

Test(error, after_200_errors_further_ones_are_only_counted)
{
    struct vh_messages *m = created();
    for (int i = 0; i < 5000; i++) {
        cr_assert(vh_fail(m, VH_BAD_INPUT, VH_NOWHERE, "row %d", i) == VH_BAD_INPUT);
    }
    cr_expect(eq(sz, vh_messages_count(m), 200));
    cr_expect(eq(sz, vh_messages_count_of(m, VH_ERROR), 5000));
    cr_expect(strcmp(vh_messages_at(m, 199)->text, "row 199") == 0);
    for (int i = 0; i < 5000; i++) {
        vh_warn(m, VH_NOWHERE, "w");
        vh_remark(m, VH_NOWHERE, "n");
    }
    cr_expect(eq(sz, vh_messages_count(m), 2200), "warnings and notes have their own bound");
    cr_expect(eq(sz, vh_messages_count_of(m, VH_WARNING), 5000));
    vh_messages_free(m);
}

Test(error, a_view_stays_where_it_is_while_more_are_added)
{
    struct vh_messages *m = created();
    vh_warn(m, VH_NOWHERE, "kept");
    const struct vh_message *first = vh_messages_at(m, 0);
    for (int i = 0; i < 900; i++) {
        vh_warn(m, VH_NOWHERE, "more");
    }
    cr_expect(vh_messages_at(m, 0) == first);
    cr_expect(strcmp(first->text, "kept") == 0);
    vh_messages_free(m);
}

Test(error, long_texts_are_cut_between_letters)
{
    struct vh_messages *m = created();
    static char word[8001];
    memset(word, 'a', sizeof word - 1);
    memcpy(word + 1999, "\xc3\xa9", 2); /* a letter of two bytes across the bound of 2000 */
    vh_fail(m, VH_BAD_INPUT, VH_NOWHERE, "%s", word);
    cr_expect(eq(sz, strlen(vh_messages_at(m, 0)->text), 1999));
    memset(word, 'a', sizeof word - 1);
    memcpy(word + 498, "\xe2\x82\xac", 3); /* a letter of three bytes across the bound of 500 */
    vh_fail(m, VH_BAD_INPUT, (struct vh_place){"f", 1, 500, word}, "x");
    cr_expect(eq(sz, strlen(vh_messages_at(m, 1)->excerpt), 498));
    vh_fail(m, VH_BAD_INPUT, (struct vh_place){"f", 1, 501, word}, "x");
    cr_expect(vh_messages_at(m, 2)->excerpt == NULL, "no caret would fit under a cut excerpt");
    cr_expect(eq(int, vh_messages_at(m, 2)->column, 501));
    word[500] = '\0';
    memset(word, 'b', 500);
    vh_fail(m, VH_BAD_INPUT, (struct vh_place){"f", 1, 1, word}, "x");
    cr_expect(eq(sz, strlen(vh_messages_at(m, 3)->excerpt), 500));
    vh_messages_free(m);
}

Test(error, a_missing_list_is_fine)
{
    cr_expect(vh_fail(NULL, VH_NO_NUMBER, VH_NOWHERE, "x") == VH_NO_NUMBER);
    vh_warn(NULL, VH_NOWHERE, "x");
    vh_remark(NULL, VH_NOWHERE, "x");
    cr_expect(eq(sz, vh_messages_count(NULL), 0));
    cr_expect(eq(sz, vh_messages_count_of(NULL, VH_ERROR), 0));
    cr_expect(vh_messages_at(NULL, 0) == NULL);
    vh_messages_free(NULL);
}

Test(error, every_status_has_a_text_of_its_own)
{
    const enum vh_status all[] = {VH_OK,      VH_FILLED,    VH_BAD_INPUT,   VH_NO_MEMORY,
                                  VH_NO_FILE, VH_NO_NUMBER, VH_INTERRUPTED, (enum vh_status) - 99};
    const size_t n = sizeof all / sizeof *all;
    for (size_t i = 0; i < n; i++) {
        cr_expect(strlen(vh_status_text(all[i])) > 3);
        for (size_t k = 0; k < i; k++) {
            cr_expect(strcmp(vh_status_text(all[i]), vh_status_text(all[k])) != 0);
        }
    }
}

Test(error, the_version_is_three_numbers)
{
    const char *v = vh_version();
    int points = 0;
    for (const char *c = v; *c != '\0'; c++) {
        cr_expect(c[0] == '.' || (c[0] >= '0' && c[0] <= '9'));
        points += *c == '.';
    }
    cr_expect(eq(int, points, 2));
}
