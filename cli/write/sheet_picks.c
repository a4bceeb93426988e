/* sheet.html: what a pick is like and where it goes, and what harms a planting this week. */
#include "vh_offer.h"
#include "vh_sheet.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "vh_careful.h"
#include "vh_keep_words.h"

enum { WORDS_ROOM = 80 + VH_KEEP_ROOM };

static const char *const weekday[] = {"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"};

/* "pink, keep at 18 to 20 C, never beside cucumbers"; "" for a day without a pick. */
static void words_of_day(const struct vh_page *p, const struct vh_week_task *task, int day,
                         char words[WORDS_ROOM])
{
    const struct vh_table *t = vh_page_table(p, "picks");
    char keep[VH_KEEP_ROOM];

    words[0] = 0;
    for (size_t i = 0; task->on[day] && t && i < vh_table_rows(t); i++) {
        if (vh_cell_number(t, i, "date") != (double)(p->today + day) ||
            strcmp(vh_cell_text(t, i, "planting"), task->planting) != 0)
            continue;
        const char *colour = vh_pick_colour(t, i);
        vh_keep_words(t, i, vh_page_table(p, "summary"), true, p->units, "\xC2\xB0", keep);
        snprintf(words, WORDS_ROOM, "%.40s%s%s", colour, colour[0] && keep[0] ? ", " : "", keep);
        return;
    }
}

/* Each wording once, with its days where there are several. */
static void add_wordings(struct vh_page *p, char words[VH_WEEK_DAYS][WORDS_ROOM])
{
    bool several = false, any = false;
    int first = -1;

    for (int d = 0; d < VH_WEEK_DAYS; d++) {
        if (first < 0 && words[d][0])
            first = d;
        several = several || (words[d][0] && strcmp(words[d], words[first]) != 0);
    }
    for (int d = 0; d < VH_WEEK_DAYS; d++) {
        int before = 0;
        while (before < d && strcmp(words[before], words[d]) != 0)
            before++;
        if (!words[d][0] || before < d)
            continue;
        vh_page_add(p, any ? "; " : "");
        for (int k = d; several && k < VH_WEEK_DAYS; k++) {
            if (strcmp(words[k], words[d]) != 0)
                continue;
            vh_page_add(p, weekday[vh_date_weekday(p->today + k)]);
            vh_page_add(p, " ");
        }
        if (any || several)
            vh_page_say(p, words[d]);
        else
            vh_page_say_first(p, words[d]);
        any = true;
    }
    vh_page_add(p, any ? ". " : "");
}

void vh_sheet_pick(struct vh_page *p, const struct vh_week_task *task)
{
    char words[VH_WEEK_DAYS][WORDS_ROOM], market[300];

    for (int d = 0; d < VH_WEEK_DAYS; d++)
        words_of_day(p, task, d, words[d]);
    vh_market_words(p, task->planting, market, sizeof market);
    vh_page_add(p, "<small class=\"kept\">");
    add_wordings(p, words);
    vh_page_say(p, market);
    vh_page_add(p, market[0] ? ".</small>" : "</small>");
}

void vh_sheet_harm(struct vh_page *p, const char *planting)
{
    const struct vh_table *t = vh_page_table(p, "warnings");
    struct vh_careful careful;
    char said[600];

    vh_careful(t, p->today, &careful);
    for (int i = 0; i < careful.urgent; i++) {
        const size_t row = (size_t)careful.row[i];
        const char *to_do = vh_cell_text(t, row, "what_to_do");
        if (strcmp(vh_cell_text(t, row, "planting"), planting) != 0)
            continue;
        vh_page_add(p, "<p class=\"harm\">");
        vh_say_measures_in(vh_cell_text(t, row, "what"), p->units, said, sizeof said);
        vh_page_say_first(p, said);
        vh_page_add(p, to_do[0] ? ". " : ".");
        vh_say_measures_in(to_do, p->units, said, sizeof said);
        vh_page_say_first(p, said);
        vh_page_add(p, to_do[0] ? "." : "");
        vh_page_add(p, "</p>");
    }
}
