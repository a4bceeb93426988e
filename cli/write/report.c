/* The whole report: its head, the ways to its parts, and the parts in their order. */
#include "vh_report.h"

#include <stdio.h>

/* "14 July 2026. Thermometer to 13 July, records to 12 July." */
static void say_known(const struct vh_page *p, char *said, size_t room)
{
    const struct vh_table *house = vh_page_table(p, "house");
    char date[VH_SAY_ROOM], log[VH_SAY_ROOM] = "", records[VH_SAY_ROOM] = "";

    vh_say_date_with_year((double)p->today, date);
    if (house) {
        vh_say_date(vh_cell_number(house, 0, "last_logged"), log);
        vh_say_date(vh_cell_number(house, 0, "records_until"), records);
    }
    snprintf(said, room, "%s. %s%s, %s%s.", date, log[0] ? "Thermometer to " : "No thermometer log",
             log, records[0] ? "records to " : "no records", records);
}

static void add_head(struct vh_page *p)
{
    char date[VH_SAY_ROOM], known[3 * VH_SAY_ROOM + 60];

    vh_say_date_with_year((double)p->today, date);
    say_known(p, known, sizeof known);
    vh_page_head(p, date, true, vh_page_report_style);
    vh_page_add(p, "<header class=\"mast\"><h1>");
    vh_page_say(p, p->facts->name);
    vh_page_add(p, "</h1><p>");
    vh_page_say(p, known);
    vh_page_add(p, "</p></header>\n<main>");
}

/* Links to the parts that this page has. */
static void add_ways(struct vh_page *p)
{
    static const struct {
        const char *id, *name, *table;
    } part[] = {
        {"picks", "Weekly picks", NULL},
        {"trusses", "Trusses", NULL},
        {"mass", "Fruit mass", "trusses"},
        {"vine", "The vine", NULL},
        {"load", "Load", NULL},
        {"hours", "Hours and supplies", NULL},
        {"climate", "Climate", "climate_days"},
        {"choices", "Choices", "choices"},
        {"kept", "Said and kept", NULL},
        {"assumptions", "Assumptions and sources", NULL},
    };

    vh_page_add(p, "<nav aria-label=\"On this page\">");
    for (size_t i = 0; i < sizeof part / sizeof part[0]; i++) {
        if (part[i].table && !vh_page_table(p, part[i].table))
            continue;
        vh_page_add(p, "<a href=\"#");
        vh_page_say(p, part[i].id);
        vh_page_add(p, "\">");
        vh_page_say(p, part[i].name);
        vh_page_add(p, "</a>");
    }
    vh_page_add(p, "</nav>\n");
}

void vh_report_page(struct vh_draft *out, const struct vh_page_facts *facts)
{
    struct vh_page p = vh_page_of(out, facts);

    add_head(&p);
    vh_report_market(&p);
    vh_report_work(&p);
    add_ways(&p);
    vh_report_picks(&p);
    vh_report_trusses(&p);
    vh_report_mass(&p);
    vh_report_vine(&p);
    vh_report_load(&p);
    vh_report_hours(&p);
    vh_report_climate(&p);
    vh_report_choices(&p);
    vh_report_kept(&p);
    vh_report_sources(&p);
    vh_page_add(&p, "</main></div></body></html>\n");
}
