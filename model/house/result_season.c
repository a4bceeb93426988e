/* A run of the house into the tables that people get. */
#include "vh_result.h"

#include <stdlib.h>
#include <string.h>

#include "vh_apart.h"
#include "vh_math.h"
#include "vh_work_series_of.h"

static double season_kg(const struct vh_season *s)
{
    const double g_per_kg = 1000.0;
    double kg = 0.0;

    for (size_t d = 0; d < s->days; d++)
        kg += s->day[d].picked.fresh_g * s->day[d].stems / g_per_kg;
    return kg;
}

static bool has_undone(const struct vh_done *done)
{
    for (size_t i = 0; done && i < done->tasks; i++)
        if (done->task[i].share < vh_done_least_share)
            return true;
    return false;
}

/* A season of the same plants, without the way its picks strayed. */
static enum vh_status run_again(const struct vh_scenario *s, const struct vh_house *house,
                                const struct vh_planting *p, const struct vh_season *like,
                                struct vh_season *out)
{
    return vh_season_run(house, p, vh_scenario_light_factor(s), s->parameters->colours.breaker,
                         &like->factors, out);
}

/* What the work that the records call undone takes from the season: the same season run with every
 * visit made. NaN: all was done. */
static enum vh_status undone_cost(const struct vh_scenario *s, const struct vh_house *house,
                                  const struct vh_season *season, double *kg)
{
    struct vh_planting kept = *season->planting;
    struct vh_season all = {0}, left = {0};

    *kg = VH_UNKNOWN;
    if (!has_undone(kept.policy.done))
        return VH_OK;
    kept.policy.done = NULL;
    enum vh_status status = run_again(s, house, &kept, season, &all);
    if (status == VH_OK)
        status = run_again(s, house, season->planting, season, &left);
    if (status == VH_OK)
        *kg = season_kg(&all) - season_kg(&left);
    vh_season_clear(&left);
    vh_season_clear(&all);
    return status;
}

static int64_t first_noted(const struct vh_records *r)
{
    return r->read && r->rows > 0 ? r->row[0].day : INT64_MAX;
}

static enum vh_status add_tasks(struct vh_table **t, const struct vh_run *run,
                                const struct vh_season *season, const struct vh_work_series *series,
                                const struct vh_lower_plan *lowering, struct vh_task_plan *plan)
{
    const struct vh_scenario *s = run->scenario;
    double undone_kg = VH_UNKNOWN;
    /* a future alone has no say in topping: all together propose it (vh_topping.h) */
    const struct vh_task_request request = {series, lowering, &s->parameters->work,
                                            &s->house.labour,
                                            run->is_mean && run->scenario->options.members <= 1
                                                ? VH_TOP_OWN
                                                : VH_TOP_NOT}; /* many are asked together */
    enum vh_status status = vh_task_plan(&request, plan);

    if (status == VH_OK && run->is_mean)
        status = undone_cost(s, run->house, season, &undone_kg);
    if (status == VH_OK && run->is_mean)
        status = vh_result_warn_work(t[VH_TABLE_WARNINGS], &request,
                                     first_noted(&s->house.records), undone_kg);
    return status;
}

/* What is done to the planting, from the season that it has. */
static enum vh_status add_work(struct vh_result *r, const struct vh_run *run, size_t planting,
                               struct vh_task_plan *plan)
{
    const struct vh_season *season = &run->season[planting];
    const struct vh_scenario *s = run->scenario;
    struct vh_table **t = r->table;
    struct vh_work_series series;
    struct vh_lower_plan lowering = {0};
    enum vh_status status =
        vh_work_series_of(run->house, season, run->light_factor[planting], &series);

    if (status != VH_OK)
        return status;
    vh_work_series_take(&series, &run->harvest[planting]);
    status = vh_lower_plan(&series, &lowering);
    if (status == VH_OK)
        status = vh_result_add_trusses(t[VH_TABLE_TRUSSES], season, s->house.today, &series,
                                       &s->parameters->work);
    if (status == VH_OK)
        status = add_tasks(t, run, season, &series, &lowering, plan);
    if (status == VH_OK)
        status = vh_result_add_stem(t[VH_TABLE_STEM], season, &lowering);
    if (status == VH_OK)
        status = vh_result_add_lowering(t[VH_TABLE_LOWERING], &series, &lowering);
    if (status == VH_OK && run->is_mean)
        status = vh_result_add_lowering_warnings(t[VH_TABLE_WARNINGS], &series, &lowering);
    vh_lower_plan_clear(&lowering);
    vh_work_series_clear(&series);
    return status;
}

static enum vh_status add_planting(struct vh_result *r, const struct vh_run *run, size_t planting,
                                   struct vh_apart *apart, struct vh_task_plan *plan)
{
    const struct vh_season *season = &run->season[planting];
    const struct vh_house *house = run->house;
    struct vh_table **t = r->table;
    enum vh_status status = vh_result_add_picks(t[VH_TABLE_PICKS], run, planting, apart);

    if (status == VH_OK)
        status = vh_result_add_weeks(t[VH_TABLE_WEEKS], run, planting);
    if (status == VH_OK)
        status = add_work(r, run, planting, plan);
    if (status == VH_OK)
        status = vh_result_add_plant_days(t[VH_TABLE_PLANT_DAYS], season);
    if (status == VH_OK && run->is_mean)
        status = vh_result_add_warnings(t[VH_TABLE_WARNINGS], season, &house->climate, house->today,
                                        &run->scenario->house_params);
    if (status == VH_OK && run->is_mean)
        status = vh_result_warn_reach(t[VH_TABLE_WARNINGS], season, &run->harvest[planting],
                                      house->today, &run->scenario->house_params);
    if (status == VH_OK)
        status = vh_result_add_summary(t[VH_TABLE_SUMMARY], run, planting, &run->scenario->house_params);
    return status;
}

enum vh_status vh_result_in_date_order(struct vh_result *r)
{
    static const struct {
        enum vh_result_table_id id;
        size_t column;
    } dated[] = {
        {VH_TABLE_PICKS, 0},    {VH_TABLE_WEEKS, 1},    {VH_TABLE_MARKET_DAYS, 0},
        {VH_TABLE_STEM, 0},     {VH_TABLE_LOWERING, 0}, {VH_TABLE_TASKS, 0},
        {VH_TABLE_HOURS, 1},    {VH_TABLE_SUPPLIES, 1}, {VH_TABLE_PLANT_DAYS, 0},
        {VH_TABLE_WARNINGS, 0},
    };
    for (size_t k = 0; k < sizeof dated / sizeof dated[0]; k++)
        if (vh_table_sort_by(r->table[dated[k].id], dated[k].column) != VH_OK)
            return VH_NO_MEMORY;
    return VH_OK;
}

struct vh_result *vh_result_create(void)
{
    struct vh_result *r = calloc(1, sizeof *r);

    for (int id = 0; r && id < VH_TABLE_CHOICES; id++) {
        r->table[id] = vh_result_table_new((enum vh_result_table_id)id);
        if (!r->table[id]) {
            vh_result_free(r);
            return NULL;
        }
    }
    return r;
}

/* What is said in words (warnings, the house, its grades) is the mean run's. */
static enum vh_status fill(struct vh_result *r, const struct vh_run *run)
{
    const struct vh_house *house = run->house;
    struct vh_house_work work = {0};
    struct vh_apart *apart = run->is_mean ? vh_apart_new(run) : NULL;
    enum vh_status status = vh_house_work_init(&work, house->plantings);

    if (run->is_mean && !apart)
        status = VH_NO_MEMORY;
    if (status == VH_OK)
        status = vh_result_add_climate(r->table[VH_TABLE_CLIMATE_DAYS], &house->climate,
                                       house->first_day);
    if (status == VH_OK && run->is_mean)
        status = vh_result_add_house(r->table[VH_TABLE_HOUSE], run->scenario);
    if (status == VH_OK && run->is_mean)
        status = vh_result_add_grades(r->table[VH_TABLE_GRADES], house);
    if (status == VH_OK && run->is_mean) /* first, for a promise may hang on it */
        status = vh_result_warn_records(r->table[VH_TABLE_WARNINGS], house,
                                        run->scenario->house_params.doubt_told_d);
    for (size_t k = 0; k < house->plantings && status == VH_OK; k++)
        status = add_planting(r, run, k, apart, &work.plan[k]);
    if (status == VH_OK)
        status = vh_result_add_market_days(r->table[VH_TABLE_MARKET_DAYS], run);
    if (status == VH_OK && run->is_mean)
        status = vh_result_warn_store(r->table[VH_TABLE_WARNINGS], run, apart);
    if (status == VH_OK && run->is_mean)
        status = vh_result_warn_spells(r->table[VH_TABLE_WARNINGS], run);
    if (status == VH_OK)
        status = vh_result_add_house_work(r->table, run, &work);
    if (status == VH_OK && run->is_mean)
        status = vh_result_lowering_said(r->table[VH_TABLE_WARNINGS], r->table[VH_TABLE_TASKS],
                                         house->today);
    vh_house_work_clear(&work);
    vh_apart_free(apart);
    return status == VH_OK && run->is_mean ? vh_result_in_date_order(r) : status;
}

enum vh_status vh_result_fill(struct vh_result *r, const struct vh_run *run)
{
    struct vh_harvest *harvest = vh_harvests_of(run->house, run->season);
    struct vh_run with = *run;

    with.harvest = harvest;
    const enum vh_status status = harvest ? fill(r, &with) : VH_NO_MEMORY;
    vh_harvests_free(harvest, run->house->plantings);
    return status;
}

void vh_result_free(struct vh_result *r)
{
    if (!r)
        return;
    for (int id = 0; id < VH_RESULT_TABLES; id++) {
        vh_table_free(r->table[id]);
        free(r->own_columns[id]);
    }
    free(r);
}

size_t vh_result_table_count(const struct vh_result *r)
{
    size_t n = 0;

    for (int id = 0; r && id < VH_RESULT_TABLES; id++)
        n += r->table[id] != NULL;
    return n;
}

const struct vh_table *vh_result_table(const struct vh_result *r, size_t i)
{
    for (int id = 0; id < VH_RESULT_TABLES; id++)
        if (r->table[id] && i-- == 0)
            return r->table[id];
    return NULL;
}

const struct vh_table *vh_result_table_named(const struct vh_result *r, const char *name)
{
    for (int id = 0; id < VH_RESULT_TABLES; id++)
        if (r->table[id] && !strcmp(vh_table_name(r->table[id]), name))
            return r->table[id];
    return NULL;
}
