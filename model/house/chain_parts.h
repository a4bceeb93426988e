/* chain_parts.h - a worked chain from plants to a number: its tables, and how steps are added;
 * private to the folder. */
#ifndef CHAIN_PARTS_H
#define CHAIN_PARTS_H

#include "vh_chain.h"
#include "vh_parameters.h"
#include "vh_sales.h"
#include "vh_scenario.h"
#include "vh_storeroom.h"
#include "vh_table.h"

enum { VH_CHAIN_TEXT = 400 };
#define VH_CHAIN_LEAST_FRUITS 1e-3 /* a stem; a pick of fewer is the thin end of the scatter */

struct vh_chain {
    struct vh_table *steps, *days, *picks, *sources;
    const struct vh_scenario *scenario;
    const struct vh_param_set *rows; /* of the crop in hand */
    enum vh_status status;           /* the first trouble; after it nothing is added */
};

/* NULL: no memory. */
struct vh_chain *vh_chain_create(const struct vh_scenario *s);
/* Steps of this planting cite its crop's rows from here on. */
void vh_chain_use(struct vh_chain *c, const struct vh_planting *p);

/* One step. parameters: names of crop rows between blanks, told with value, unit and source; ""
 * none. */
struct vh_step {
    const char *part, *what; /* "SET", "heat" */
    double value;            /* NaN: a date or words alone */
    double date;             /* NaN: none */
    const char *unit, *equation, *worked, *parameters;
};
void vh_chain_add(struct vh_chain *c, const struct vh_step *step);

/* What one pick of a planting comes to; see the columns in chain.c. */
struct vh_chain_pick {
    const char *planting;
    int64_t on;
    double stage, ripe_share;          /* of a truss; NaN: of the whole planting */
    double fruits_stem, dm_g;          /* per stem; dry matter a fruit */
    double mean_c, dm_content;         /* since the flower; g DM per g fresh */
    double fruit_g, stems, fruits, kg; /* of the planting */
    double stray, for_sale;            /* as learnt: picked over the model's; of sound fruit */
    bool written;                      /* `counts` is hers (vh_harvest.h) */
    struct vh_amount counts;           /* in place of fruits and kg, where it is written */
};
/* Adds it with what can be sold, how it is kept and what is left; kg for sale, NaN without a
 * market day. */
double vh_chain_add_pick(struct vh_chain *c, const struct vh_house *h, const struct vh_season *s,
                         size_t d, const struct vh_chain_pick *pick);
/* A step where fruit that is picked by its mass stays so small that its age ends it; fruit_g NaN:
 * nothing. */
void vh_chain_add_small(struct vh_chain *c, const struct vh_planting *p, const char *part,
                        double fruit_g);
/* Steps GRADE: shares of the mass by size class; nothing where the good has no table. */
void vh_chain_add_grades(struct vh_chain *c, const struct vh_planting *p, size_t planting,
                         double fruit_g, double cv);

/* Whatever the days table holds: see chain.c. */
struct vh_chain_day {
    int64_t date;
    double t_c, light_mj, rate_per_d, heat_share, stage, grown_share, warm, asked_g, fed, dm_g,
        fruits;
};
void vh_chain_add_day(struct vh_chain *c, const struct vh_chain_day *day);

/* What was learnt of a planting's plants, in one line. */
void vh_chain_add_learnt(struct vh_chain *c, const struct vh_chain_run *run, size_t planting,
                         const char *part);

/* The season of one planting with a look at the truss, in the mean run. */
struct vh_chain_truss {
    const struct vh_chain_run *of;
    const struct vh_house *house;
    const struct vh_planting *planting;
    size_t place; /* of the planting in the house */
    int number;
    struct vh_season season;
    struct vh_truss_view *look; /* [days] at the end of each day; opened_d NaN before it opens */
    struct vh_fgp fgp;
    double light_factor; /* the house's and what was learnt */
    double seeded;       /* mass that the pollen of its flowers allows, share; by vh_chain_flower */
    size_t opened;       /* day of the season on which it opens */
    size_t last;         /* day of its last pick, or of the season */
};
/* flower, set, kept: chain_flower.c; days, ripening, mass, picks: chain_growth.c. */
void vh_chain_flower(struct vh_chain *c, struct vh_chain_truss *t);
void vh_chain_growth(struct vh_chain *c, const struct vh_chain_truss *t);

#endif
