/* vh_season.h - one planting through its season: days, trusses, picks, as plain
 * arrays. */
#ifndef VH_SEASON_H
#define VH_SEASON_H

#include "vh_house.h"
#include "vh_plant.h"
#include "vh_spoil.h"

struct vh_season_day {
    struct vh_plant_day plant;
    struct vh_picked picked; /* per stem */
    double stems;            /* of the planting, on this day */
    double stems_m2;
    double hanging_kg; /* fresh mass of a stem with all it carries */
    bool pick_day;
    double early; /* share of its mass that only the last pick takes: below the colour of others */
};

/* What is seen on a stem on a day, before anything is picked. */
struct vh_look {
    double breaker_fruits, turning_fruits; /* hanging, of that colour and not yet of the next */
    struct vh_truss_view *truss;           /* [trusses] */
    size_t trusses;
};

struct vh_season {
    const struct vh_planting *planting;
    struct vh_factors factors; /* as it was run with, the light factor of the house apart */
    int64_t first_day;
    size_t days;
    struct vh_season_day *day;   /* [days] */
    struct vh_truss_view *truss; /* [trusses] */
    size_t trusses;
    struct vh_look *look; /* [looks] of the planting; those outside of the season have no trusses */
    size_t looks;
    bool flowers_sooner; /* the first flower cannot come as late as the scenario says: on flowers_by
                          */
    int64_t flowers_by;
    double worst_balance; /* largest relative error of the daily account */
};

/* Runs from set-out to pull-out. breaker_stage: colour.breaker. light_factor multiplies all light
 * inside the plant. VH_NO_MEMORY, VH_NO_NUMBER. The caller clears `out`. */
enum vh_status vh_season_run(const struct vh_house *house, const struct vh_planting *planting,
                             double light_factor, double breaker_stage,
                             const struct vh_factors *factors, struct vh_season *out);
/* Members of one planting, at most VH_LANES, side by side: each as if it were run alone, with the
 * same bits, only sooner. Their plantings differ in their policies' lateness and losses alone. The
 * caller clears each `out`. room: of the plants of one thread; NULL: none is kept. */
struct vh_season_member {
    const struct vh_house *house;
    const struct vh_planting *planting;
    const struct vh_factors *factors;
    struct vh_season *out;
};
enum vh_status vh_season_run_members(const struct vh_season_member *member, size_t members,
                                     double light_factor, double breaker_stage,
                                     struct vh_plant_room *room);
/* The same for one, looking at one truss at the end of each day: day [pull_out - set_out + 1] of
 * the caller, left alone while the truss has not opened. Its days count from the first day
 * reckoned: of a crop first seen standing that is before set_out. */
struct vh_truss_watch {
    int truss;
    struct vh_truss_view *day;
};
enum vh_status vh_season_watch(const struct vh_house *house, const struct vh_planting *planting,
                               double light_factor, double breaker_stage,
                               const struct vh_factors *factors, const struct vh_truss_watch *watch,
                               struct vh_season *out);
/* The climate of a day as the crop feels it. */
void vh_season_day_of(const struct vh_climate *c, const struct vh_crop *crop,
                      const struct vh_fgp *fgp, int64_t day, struct vh_day *out);
/* Demand over supply on day d of the season, at most load_most. */
double vh_season_load(const struct vh_season *s, size_t d);
/* What the fruit picked on day d went through, from the season and the house's climate; and the
 * shares of it that cannot be sold. A house without colours (filled by hand): nothing over-ripe. */
struct vh_spoil_day vh_season_spoil_day(const struct vh_house *house, const struct vh_season *s,
                                        size_t d);
void vh_season_spoil(const struct vh_house *house, const struct vh_season *s, size_t d,
                     struct vh_spoil_shares *out);
void vh_season_clear(struct vh_season *s);

#endif
