/* What `learn` says of factors that the records cannot tell apart, and what it tells to write down.
 */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "vh_learn_summary.h"
#include "vh_result.h"
#include "vh_table.h"

static void add_row(struct vh_table *t, const char *planting, const char *name, const char *apart,
                    const char *seen_in)
{
    cr_assert(eq(int, vh_table_add_row(t), VH_OK));
    vh_table_set_text(t, (size_t)vh_table_find(t, "planting"), planting);
    vh_table_set_text(t, (size_t)vh_table_find(t, "name"), name);
    vh_table_set_text(t, (size_t)vh_table_find(t, "told_apart"), apart);
    vh_table_set_text(t, (size_t)vh_table_find(t, "seen_in"), seen_in);
}

/* What is printed, its line ends and indents as one blank each. */
static char *said(struct vh_table *learned, struct vh_table *house, int members)
{
    const struct vh_summary_facts facts = {
        .name = "Bay", .members = members, .units = VH_SAY_METRIC};
    struct vh_result r = {.table = {[VH_TABLE_LEARNED] = learned, [VH_TABLE_HOUSE] = house}};
    char *text = NULL;
    size_t n = 0, to = 0;
    FILE *f = open_memstream(&text, &n);

    cr_assert(f != NULL);
    vh_summary_learn(f, &r, &facts);
    cr_assert(fclose(f) == 0);
    for (size_t i = 0; text[i]; i++) {
        const char c = text[i] == '\n' ? ' ' : text[i];
        if (c != ' ' || to == 0 || text[to - 1] != ' ')
            text[to++] = c;
    }
    text[to] = '\0';
    return text;
}

Test(learn_summary, what_stands_for_another_is_told_with_what_would_tell_them_apart)
{
    static const char *const told[] = {
        "LEARNT nothing yet that stands apart from all else",
        "fruit set, slicers, from light on the crop or fruit mass: count the set fruits of one"
        " truss on 5 plants before you thin it (fruits_set)",
        "fruit mass, slicers, from fruit set of plums: weigh 20 fruits of a pick (fruit_g)",
        "truss pace, plums, from ripening pace: note the truss in flower on 5 plants"
        " (flowering_truss)",
        "ripening pace, plums, from truss pace of slicers or fruit set: note the truss being picked"
        " on 5 plants (picking_truss)",
        /* what is counted already needs no advice */
        "fruit set, plums, from light on the crop light on the crop, from fruit set",
        "NOT YET stem growth, slicers: too few entries to be sure; what little they say is reckoned with"};
    struct vh_table *t = vh_result_table_new(VH_TABLE_LEARNED);

    add_row(t, "slicers", "set", "no: with light, fruit_mass", "picked_kg");
    add_row(t, "slicers", "fruit_mass", "no: with set of plums", "picked_kg");
    add_row(t, "plums", "truss_pace", "no: with fruit_pace", "picked_kg");
    add_row(t, "plums", "fruit_pace", "no: with truss_pace of slicers, set", "picked_kg");
    add_row(t, "plums", "set", "no: with light", "fruits_set");
    add_row(t, "", "light", "no: with set", "picked_kg");
    add_row(t, "slicers", "stem_pace", "no: more entries are needed", "stem_cm");
    char *text = said(t, NULL, 20);
    for (size_t i = 0; i < sizeof told / sizeof told[0]; i++)
        cr_expect(strstr(text, told[i]) != NULL, "%s\nnot in\n%s", told[i], text);
    free(text);
    vh_table_free(t);
}

/* Where the futures asked for are too few, the records are not to blame. */
Test(learn_summary, too_few_futures_are_said_not_missing_records)
{
    static const int members[] = {1, 3, 19, 20};
    struct vh_table *house = vh_result_table_new(VH_TABLE_HOUSE);

    cr_assert(eq(int, vh_table_add_row(house), VH_OK));
    vh_table_set_number(house, (size_t)vh_table_find(house, "members_least"), 20.0);
    for (size_t i = 0; i < sizeof members / sizeof members[0]; i++) {
        char *text = said(NULL, house, members[i]);
        cr_expect(eq(int, strstr(text, "ask for 20 or more") != NULL, members[i] < 20), "%s", text);
        cr_expect(eq(int, strstr(text, "no record that tells") != NULL, members[i] == 20), "%s",
                  text);
        free(text);
    }
    vh_table_free(house);
}
