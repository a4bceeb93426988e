#include "vh_houses_summary.h"

#include "vh_say.h"

static void add_count(char text[VH_SAY_TEXT], size_t n, const char *what)
{
    if (n > 0)
        vh_say_add(text, "%s%zu %s", text[0] ? ", " : "", n, what);
}

void vh_summary_houses(FILE *to, const struct vh_houses_facts *f)
{
    char text[VH_SAY_TEXT] = "", date[VH_SAY_ROOM];

    vh_say_date_with_year((double)f->today, date);
    fprintf(to, "%zu %s, %s\n\n", f->houses, f->houses == 1 ? "house" : "houses", date);
    add_count(text, f->done, "computed");
    add_count(text, f->there, "there already from the same inputs and left alone");
    add_count(text, f->wrong, "wrong: mend what is said above and run the same command again");
    add_count(text, f->failed, "not done: see above; the same command tries them again");
    vh_say_block(to, "HOUSES", 11, text);
    fputs("\nWrote houses.csv and a folder for each house to ", to);
    vh_say_safely(to, f->out);
    fputs("/\n", to);
}
