/* The tables of a worked chain, and how steps, days and picks get into them. */
#include "chain_parts.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "scenario_parts.h"
#include "vh_math.h"

enum { PART, WHAT, VALUE, DATE, UNIT, EQUATION, WORKED, PARAMETERS, SOURCE, STEP_COLUMNS };

static const struct vh_column step_columns[STEP_COLUMNS] = {
    {"part", VH_CELL_TEXT, "", "where on the way from flower to table"},
    {"what", VH_CELL_TEXT, "", "what is reckoned"},
    {"value", VH_CELL_NUMBER, "", "the number"},
    {"date", VH_CELL_DATE, "", "the day, where it is one"},
    {"unit", VH_CELL_TEXT, "", "unit of the number; empty: none"},
    {"equation", VH_CELL_TEXT, "", "how it follows from the rows above"},
    {"worked", VH_CELL_TEXT, "", "the same with its numbers"},
    {"parameters", VH_CELL_TEXT, "", "parameters in it, with value and unit"},
    {"source", VH_CELL_TEXT, "", "keys of the table of sources, or how the values were come by"},
};

static const struct vh_column day_columns[] = {
    {"date", VH_CELL_DATE, "", "day"},
    {"t_c", VH_CELL_NUMBER, "degC", "mean of 24 hours"},
    {"light_mj_m2_d", VH_CELL_NUMBER, "MJ m-2 d-1", "light since the flower, mean of three weeks"},
    {"rate_per_d", VH_CELL_NUMBER, "d-1", "ripening; of size-picked fruit degree-days"},
    {"heat_share", VH_CELL_NUMBER, "1", "share of that rate that heat leaves"},
    {"stage", VH_CELL_NUMBER, "1", "at the end of the day; of size-picked fruit g a fruit"},
    {"grown_share", VH_CELL_NUMBER, "1", "share of its growth that a fruit of this stage has made"},
    {"warm", VH_CELL_NUMBER, "1", "potential mass at this temperature over that at 20 degC"},
    {"asked_g", VH_CELL_NUMBER, "g", "dry matter that the truss asks on this day"},
    {"fed", VH_CELL_NUMBER, "1", "share of it that it gets"},
    {"dm_g", VH_CELL_NUMBER, "g", "dry matter of its fruit, picked fruit too"},
    {"fruits", VH_CELL_NUMBER, "1", "fruits, picked ones too"},
};

static const struct vh_column pick_columns[] = {
    {"date", VH_CELL_DATE, "", "day of the pick"},
    {"planting", VH_CELL_TEXT, "", "which planting"},
    {"stage", VH_CELL_NUMBER, "1", "stage of the truss"},
    {"ripe_share", VH_CELL_NUMBER, "1", "share of its fruits picked by then"},
    {"fruits_stem", VH_CELL_NUMBER, "1", "fruits picked on a stem"},
    {"fruit_dm_g", VH_CELL_NUMBER, "g", "dry matter of a fruit"},
    {"mean_c", VH_CELL_NUMBER, "degC", "mean temperature since the flower"},
    {"dm_content", VH_CELL_NUMBER, "g g-1", "dry matter over fresh mass"},
    {"fruit_g", VH_CELL_NUMBER, "g", "fresh mass of a fruit"},
    {"stems", VH_CELL_NUMBER, "1", "stems of the planting"},
    {"stray", VH_CELL_NUMBER, "1", "picked over what the model has, as learnt"},
    {"fruits", VH_CELL_NUMBER, "1", "fruits picked in the planting"},
    {"kg", VH_CELL_NUMBER, "kg", "mass picked in the planting"},
    {"written_fruits", VH_CELL_NUMBER, "1", "fruits that the records have in their place"},
    {"written_kg", VH_CELL_NUMBER, "kg", "mass that the records have in its place"},
    {"cracked", VH_CELL_NUMBER, "1", "share cracked"},
    {"misshapen", VH_CELL_NUMBER, "1", "share misshapen"},
    {"end_rot", VH_CELL_NUMBER, "1", "share with blossom-end rot"},
    {"overripe", VH_CELL_NUMBER, "1", "share over-ripe"},
    {"oversize", VH_CELL_NUMBER, "1", "share too large to sell"},
    {"for_sale", VH_CELL_NUMBER, "1", "sold of what has no fault, as learnt"},
    {"sound_kg", VH_CELL_NUMBER, "kg", "mass that can be sold"},
    {"market_day", VH_CELL_DATE, "", "day on which it is sold"},
    {"pick_colour", VH_CELL_TEXT, "", "colour in which to pick for that day"},
    {"keep_low_c", VH_CELL_NUMBER, "degC", "kept no colder"},
    {"keep_high_c", VH_CELL_NUMBER, "degC", "kept no warmer"},
    {"lost_share", VH_CELL_NUMBER, "1", "lost in store by then"},
    {"table_kg", VH_CELL_NUMBER, "kg", "what is left for the table"},
};

static const struct vh_column source_columns[] = {
    {"key", VH_CELL_TEXT, "", "key of the source"},
    {"authors", VH_CELL_TEXT, "", "who wrote it"},
    {"year", VH_CELL_TEXT, "", "when it came out"},
    {"title", VH_CELL_TEXT, "", "its title"},
    {"journal", VH_CELL_TEXT, "", "journal, volume and pages, or publisher"},
    {"doi", VH_CELL_TEXT, "", "digital object identifier"},
    {"read", VH_CELL_TEXT, "", "what of it was read here"},
};

#define COUNT(a) (sizeof(a) / sizeof((a)[0]))

struct vh_chain *vh_chain_create(const struct vh_scenario *s)
{
    struct vh_chain *c = calloc(1, sizeof *c);

    if (!c)
        return NULL;
    c->scenario = s;
    c->steps =
        vh_table_create("steps", "a step of the reckoning", false, step_columns, STEP_COLUMNS);
    c->days = vh_table_create("days", "a day", false, day_columns, COUNT(day_columns));
    c->picks = vh_table_create("picks", "a pick", false, pick_columns, COUNT(pick_columns));
    c->sources =
        vh_table_create("sources", "a source", false, source_columns, COUNT(source_columns));
    if (c->steps && c->days && c->picks && c->sources)
        return c;
    vh_chain_free(c);
    return NULL;
}

void vh_chain_free(struct vh_chain *c)
{
    if (!c)
        return;
    vh_table_free(c->steps);
    vh_table_free(c->days);
    vh_table_free(c->picks);
    vh_table_free(c->sources);
    free(c);
}

const struct vh_table *vh_chain_steps(const struct vh_chain *c)
{
    return c->steps;
}
const struct vh_table *vh_chain_days(const struct vh_chain *c)
{
    return c->days;
}
const struct vh_table *vh_chain_picks(const struct vh_chain *c)
{
    return c->picks;
}
const struct vh_table *vh_chain_sources(const struct vh_chain *c)
{
    return c->sources;
}

void vh_chain_use(struct vh_chain *c, const struct vh_planting *p)
{
    const struct vh_crop_file *file = vh_parameters_crop(c->scenario->parameters, p->crop_name);

    c->rows = file ? vh_scenario_crop_rows(c->scenario, file) : NULL;
}

/* ---- steps ---- */

static bool is_cited(const struct vh_table *t, const char *key)
{
    for (size_t i = 0; i < vh_table_rows(t); i++)
        if (strcmp(vh_table_text(t, i, 0), key) == 0)
            return true;
    return false;
}

static enum vh_status cite(struct vh_chain *c, const char *key)
{
    const struct vh_source *s = vh_sources_find(c->scenario->parameters->sources, key);

    if (!s || is_cited(c->sources, key))
        return VH_OK;
    const char *const cell[] = {s->key, s->authors, s->year, s->title, s->journal, s->doi, s->read};
    if (vh_table_add_row(c->sources) != VH_OK)
        return VH_NO_MEMORY;
    for (size_t i = 0; i < COUNT(cell); i++)
        if (vh_table_set_text(c->sources, i, cell[i]) != VH_OK)
            return VH_NO_MEMORY;
    return VH_OK;
}

static void append(char text[VH_CHAIN_TEXT], const char *between, const char *part)
{
    const size_t n = strlen(text), room = VH_CHAIN_TEXT - n;
    const int wrote = snprintf(text + n, room, "%s%s", n ? between : "", part);

    if (wrote < 0 || (size_t)wrote >= room)
        text[n] = '\0'; /* what does not fit is left out whole */
}

/* A word once in a list of them. */
static void add_once(char list[VH_CHAIN_TEXT], const char *word)
{
    if (word[0] && !strstr(list, word))
        append(list, ", ", word);
}

static enum vh_status add_row_of(struct vh_chain *c, const char *name, char said[VH_CHAIN_TEXT],
                                 char source[VH_CHAIN_TEXT])
{
    const struct vh_param_row *row = c->rows ? vh_param_find(c->rows, name) : NULL;
    char value[VH_CHAIN_TEXT / 4];
    const char *keys = row ? row->source : "";
    char key[VH_SOURCE_KEY_ROOM];
    enum vh_status status = VH_OK;

    if (!row)
        return VH_OK;
    const bool has_unit = strcmp(row->unit, "1") != 0;
    snprintf(value, sizeof value, "%.40s %.30s%s%.20s", name, row->value_text, has_unit ? " " : "",
             has_unit ? row->unit : "");
    append(said, "; ", value);
    if (!keys[0])
        add_once(source, row->basis);
    while (keys[0] && vh_source_key_next(&keys, key) && key[0] && status == VH_OK) {
        add_once(source, key);
        status = cite(c, key);
    }
    return status;
}

static enum vh_status fill_step(struct vh_chain *c, const struct vh_step *s)
{
    char said[VH_CHAIN_TEXT] = "", source[VH_CHAIN_TEXT] = "", name[VH_CHAIN_TEXT];
    const char *at = s->parameters ? s->parameters : "";
    enum vh_status status = vh_table_add_row(c->steps);

    while (*at && status == VH_OK) {
        const size_t n = strcspn(at, " ");
        snprintf(name, sizeof name, "%.*s", (int)n, at);
        status = add_row_of(c, name, said, source);
        at += n + strspn(at + n, " ");
    }
    if (status != VH_OK)
        return status;
    vh_table_set_number(c->steps, VALUE, s->value);
    vh_table_set_number(c->steps, DATE, s->date);
    const char *const text[] = {s->part,     s->what,   NULL, NULL,  s->unit,
                                s->equation, s->worked, said, source};
    for (size_t i = 0; i < COUNT(text) && status == VH_OK; i++)
        if (i != VALUE && i != DATE)
            status = vh_table_set_text(c->steps, i, text[i] ? text[i] : "");
    return status;
}

void vh_chain_add(struct vh_chain *c, const struct vh_step *step)
{
    if (c->status == VH_OK)
        c->status = fill_step(c, step);
}

/* ---- days ---- */

void vh_chain_add_day(struct vh_chain *c, const struct vh_chain_day *day)
{
    const double number[] = {(double)day->date, day->t_c,   day->light_mj,    day->rate_per_d,
                             day->heat_share,   day->stage, day->grown_share, day->warm,
                             day->asked_g,      day->fed,   day->dm_g,        day->fruits};

    if (c->status == VH_OK)
        c->status = vh_table_add_row(c->days);
    for (size_t i = 0; i < COUNT(number) && c->status == VH_OK; i++)
        vh_table_set_number(c->days, i, number[i]);
}

/* ---- picks ---- */

enum {
    SPOILT_FIRST = 15,
    FOR_SALE = 20,
    SOUND,
    MARKET_DAY,
    COLOUR,
    KEEP_LOW,
    KEEP_HIGH,
    LOST,
    ON_TABLE
};

/* How it is kept, and what is then left. */
static double set_store(struct vh_chain *c, const struct vh_house *h, const struct vh_season *s,
                        size_t d, double sound_kg)
{
    const struct vh_planting *p = s->planting;
    const int64_t on = s->first_day + (int64_t)d;
    struct vh_keep k;
    int64_t day;

    if (!vh_market_day_for(&h->market, on, &day) || !vh_storeroom_keep(h, p, on, &k))
        return VH_UNKNOWN;
    vh_table_set_number(c->picks, MARKET_DAY, (double)day);
    c->status = vh_table_set_text(c->picks, COLOUR, vh_keep_colour_word(k.stage));
    vh_table_set_number(c->picks, KEEP_LOW, k.low_c);
    vh_table_set_number(c->picks, KEEP_HIGH, k.high_c);
    const double lost = vh_storeroom_lost(h, p, on, s->day[d].early, &k);
    vh_table_set_number(c->picks, LOST, lost);
    vh_table_set_number(c->picks, ON_TABLE, sound_kg * (1.0 - lost));
    return sound_kg * (1.0 - lost);
}

void vh_chain_add_small(struct vh_chain *c, const struct vh_planting *p, const char *part,
                        double fruit_g)
{
    const double from_g = p->policy.pick_from_g;
    char worked[VH_CHAIN_TEXT];

    if (p->crop->fruit.pick_by != VH_PICK_BY_MASS ||
        !(fruit_g < c->scenario->house_params.small_share * from_g))
        return;
    snprintf(worked, sizeof worked, "the mean is %.4g g; fewer fruits on the plants make it more",
             fruit_g);
    vh_chain_add(c,
                 &(struct vh_step){part, "smaller than it is picked from", from_g, VH_UNKNOWN, "g",
                                   "fruit that is fed too little is picked at its oldest age,"
                                   " whatever it weighs",
                                   worked, "fruit.oldest_cd"});
}

double vh_chain_add_pick(struct vh_chain *c, const struct vh_house *h, const struct vh_season *s,
                         size_t d, const struct vh_chain_pick *k)
{
    struct vh_spoil_shares spoil;
    const double number[] = {k->stage,  k->ripe_share, k->fruits_stem, k->dm_g,
                             k->mean_c, k->dm_content, k->fruit_g,     k->stems,
                             k->stray,  k->fruits,     k->kg,
                             k->written ? k->counts.fruits : VH_UNKNOWN,
                             k->written ? k->counts.kg : VH_UNKNOWN};

    if (c->status == VH_OK)
        c->status = vh_table_add_row(c->picks);
    if (c->status == VH_OK)
        c->status = vh_table_set_text(c->picks, 1, k->planting);
    if (c->status != VH_OK)
        return VH_UNKNOWN;
    vh_season_spoil(h, s, d, &spoil);
    const double share[] = {spoil.cracked, spoil.misshapen, spoil.end_rot, spoil.overripe,
                            spoil.oversize};
    const double picked_kg = k->written ? k->counts.kg : k->kg;
    const double sound_kg = picked_kg * vh_marketable_frac(h, s, d, k->for_sale);
    vh_table_set_number(c->picks, 0, (double)k->on);
    for (size_t i = 0; i < COUNT(number); i++)
        vh_table_set_number(c->picks, 2 + i, number[i]);
    for (size_t i = 0; i < COUNT(share); i++)
        vh_table_set_number(c->picks, SPOILT_FIRST + i, share[i]);
    vh_table_set_number(c->picks, FOR_SALE, k->for_sale);
    vh_table_set_number(c->picks, SOUND, sound_kg);
    return set_store(c, h, s, d, sound_kg);
}
