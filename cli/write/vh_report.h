/* vh_report.h - the report and its parts, each a file of its own that builds on vh_page.h. */
#ifndef VH_REPORT_H
#define VH_REPORT_H

#include "vh_page.h"

/* The whole report. out->failed: memory ran out. */
void vh_report_page(struct vh_draft *out, const struct vh_page_facts *facts);

/* Its parts. */
void vh_report_market(struct vh_page *p);
void vh_report_choices(struct vh_page *p);
void vh_report_kept(struct vh_page *p);
void vh_report_sources(struct vh_page *p);
void vh_report_work(struct vh_page *p);
void vh_report_picks(struct vh_page *p);
void vh_report_trusses(struct vh_page *p);
void vh_report_mass(struct vh_page *p);
void vh_report_load(struct vh_page *p);
void vh_report_vine(struct vh_page *p);
void vh_report_hours(struct vh_page *p);
void vh_report_climate(struct vh_page *p);


#endif
