/* What a name means: all its meanings as one table, the sources they cite as another. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "explain_parts.h"
#include "scenario_parts.h"

enum { NEAR_MOST = 9, NEAR_SHOWN = 3, ASKED_ROOM = 100, SUBSTRING_LEAST = 3 };

struct vh_explanation {
    struct vh_table *meanings, *sources;
};

enum {
    WHAT,
    NAME,
    WHERE,
    KIND,
    VALUE,
    UNIT,
    LOW,
    HIGH,
    EXAMPLE,
    MEANING,
    BASIS,
    SOURCE,
    PLACE,
    NOTE,
    USED_IN,
    CROPS,
    LINE,
    MEMBER_OF,
    MEANING_COLUMNS
};

static const struct vh_column meaning_columns[MEANING_COLUMNS] = {
    {"what", VH_CELL_TEXT, "", "parameter, group, crop, key, table, item, column, file or source"},
    {"name", VH_CELL_TEXT, "", "its whole name"},
    {"where", VH_CELL_TEXT, "", "parameter file, table of the scenario, or file of results"},
    {"kind", VH_CELL_TEXT, "", "what it may hold"},
    {"value", VH_CELL_TEXT, "", "value of a parameter"},
    {"unit", VH_CELL_TEXT, "", "its unit; 1: none"},
    {"low", VH_CELL_NUMBER, "", "least value that can be"},
    {"high", VH_CELL_NUMBER, "", "largest value that can be"},
    {"example", VH_CELL_TEXT, "", "how a key may be written"},
    {"meaning", VH_CELL_TEXT, "", "what it means"},
    {"basis", VH_CELL_TEXT, "", "how the value was come by"},
    {"source", VH_CELL_TEXT, "", "keys of the table of sources"},
    {"place", VH_CELL_TEXT, "", "page, table or equation there"},
    {"note", VH_CELL_TEXT, "", "what else is to be known"},
    {"used_in", VH_CELL_TEXT, "", "where it is used: the header with the equation"},
    {"crops", VH_CELL_TEXT, "", "crops that the row holds for"},
    {"line", VH_CELL_INTEGER, "", "line in the parameter file"},
    {"member_of", VH_CELL_TEXT, "", "the list that was asked for; empty: asked for by its name"},
};

enum { KEY, AUTHORS, YEAR, TITLE, JOURNAL, DOI, READ, SOURCE_COLUMNS };

static const struct vh_column source_columns[SOURCE_COLUMNS] = {
    {"key", VH_CELL_TEXT, "", "key of the source"},
    {"authors", VH_CELL_TEXT, "", "who wrote it"},
    {"year", VH_CELL_TEXT, "", "when it came out"},
    {"title", VH_CELL_TEXT, "", "its title"},
    {"journal", VH_CELL_TEXT, "", "journal, volume and pages, or publisher"},
    {"doi", VH_CELL_TEXT, "", "digital object identifier"},
    {"read", VH_CELL_TEXT, "", "what of it was read here"},
};

struct vh_meaning vh_meaning_empty(void)
{
    return (struct vh_meaning){.what = "",
                               .name = "",
                               .alone = "",
                               .list = "",
                               .where = "",
                               .kind = "",
                               .value = "",
                               .unit = "",
                               .low = (double)NAN,
                               .high = (double)NAN,
                               .example = "",
                               .meaning = "",
                               .basis = "",
                               .source = "",
                               .place = "",
                               .note = "",
                               .used_in = "",
                               .crops = ""};
}

/* Names not far from the one asked for, best first. */
struct near {
    char name[VH_MEANING_ROOM];
    size_t distance;
};

struct asking {
    const struct vh_parameters *parameters;
    const char *asked;
    struct vh_explanation *out;
    struct near near[NEAR_MOST];
    size_t nears, enough;
};

/* ---- does it answer? ---- */

static bool is_crop(const struct asking *a, const char *name)
{
    const struct vh_crop_file *crop = vh_parameters_crop(a->parameters, a->asked);

    return crop && strcmp(crop->name, name) == 0;
}

static bool is_named(const struct asking *a, const struct vh_meaning *m)
{
    struct vh_unit_pair pair;

    if (m->as_member)
        return false;
    if (strcmp(m->name, a->asked) == 0 || strcmp(m->alone, a->asked) == 0)
        return true;
    if (strcmp(m->what, "crop") == 0)
        return is_crop(a, m->name);
    if (!m->other_units)
        return false;
    const bool is_difference = m->key && (m->key->flags & VH_KEY_DIFFERENCE);
    return vh_units_match(m->alone, a->asked, is_difference, &pair) ||
           vh_units_match(m->name, a->asked, is_difference, &pair);
}

static bool cites(const struct vh_meaning *m, const char *asked)
{
    const char *at = m->source;
    char key[VH_SOURCE_KEY_ROOM];

    while (vh_source_key_next(&at, key) && key[0]) {
        if (strcmp(key, asked) == 0)
            return true;
    }
    return false;
}

static bool is_member(const struct asking *a, const struct vh_meaning *m)
{
    const bool is_parameter = strcmp(m->what, "parameter") == 0;

    return (m->list[0] && strcmp(m->list, a->asked) == 0) ||
           (is_parameter && !m->as_member && (is_crop(a, m->list) || cites(m, a->asked)));
}

/* ---- rows ---- */

static enum vh_status add_source(struct vh_table *t, const struct vh_source *s)
{
    const char *const cell[SOURCE_COLUMNS] = {s->key,     s->authors, s->year, s->title,
                                              s->journal, s->doi,     s->read};

    for (size_t i = 0; i < vh_table_rows(t); i++) {
        if (strcmp(vh_table_text(t, i, KEY), s->key) == 0)
            return VH_OK;
    }
    enum vh_status status = vh_table_add_row(t);
    for (size_t i = 0; i < SOURCE_COLUMNS && status == VH_OK; i++)
        status = vh_table_set_text(t, i, cell[i]);
    return status;
}

static enum vh_status add_sources(const struct asking *a, const struct vh_meaning *m)
{
    const char *at = m->source;
    char key[VH_SOURCE_KEY_ROOM];
    enum vh_status status = VH_OK;

    while (status == VH_OK && vh_source_key_next(&at, key) && key[0]) {
        const struct vh_source *s = vh_sources_find(a->parameters->sources, key);
        if (s)
            status = add_source(a->out->sources, s);
    }
    /* place and note name sources in running text: "as reprinted in vanthoor2011 ch. 3" */
    for (size_t i = 0; m->value[0] && i < vh_sources_count(a->parameters->sources); i++) {
        const struct vh_source *s = vh_sources_at(a->parameters->sources, i);
        if (status == VH_OK && (strstr(m->place, s->key) || strstr(m->note, s->key)))
            status = add_source(a->out->sources, s);
    }
    return status;
}

static enum vh_status add_meaning(const struct asking *a, const struct vh_meaning *m, bool member)
{
    struct vh_table *t = a->out->meanings;
    const char *const cell[MEANING_COLUMNS] = {
        [WHAT] = m->what,       [NAME] = m->name,       [WHERE] = m->where,
        [KIND] = m->kind,       [VALUE] = m->value,     [UNIT] = m->unit,
        [EXAMPLE] = m->example, [MEANING] = m->meaning, [BASIS] = m->basis,
        [SOURCE] = m->source,   [PLACE] = m->place,     [NOTE] = m->note,
        [USED_IN] = m->used_in, [CROPS] = m->crops,     [MEMBER_OF] = member ? a->asked : "",
    };

    enum vh_status status = vh_table_add_row(t);
    for (size_t i = 0; i < MEANING_COLUMNS && status == VH_OK; i++) {
        if (meaning_columns[i].kind == VH_CELL_TEXT)
            status = vh_table_set_text(t, i, cell[i]);
    }
    if (status != VH_OK)
        return status;
    vh_table_set_number(t, LOW, m->low);
    vh_table_set_number(t, HIGH, m->high);
    if (m->line > 0)
        vh_table_set_number(t, LINE, (double)m->line);
    return add_sources(a, m);
}

static enum vh_status take_named(void *context, const struct vh_meaning *m)
{
    const struct asking *a = context;

    return is_named(a, m) ? add_meaning(a, m, false) : VH_OK;
}

static enum vh_status take_with_range(void *context, const struct vh_meaning *m)
{
    return m->has_range ? take_named(context, m) : VH_OK;
}

static enum vh_status take_with_middle(void *context, const struct vh_meaning *m)
{
    return m->has_middle ? take_named(context, m) : VH_OK;
}

static enum vh_status take_member(void *context, const struct vh_meaning *m)
{
    const struct asking *a = context;

    return !is_named(a, m) && is_member(a, m) ? add_meaning(a, m, true) : VH_OK;
}

/* ---- what may have been meant ---- */

static bool is_near_already(const struct asking *a, const char *name)
{
    for (size_t i = 0; i < a->nears; i++) {
        if (strcmp(a->near[i].name, name) == 0)
            return true;
    }
    return false;
}

static void offer(struct asking *a, const char *name, size_t distance)
{
    size_t at = a->nears;

    if (is_near_already(a, name))
        return;
    while (at > 0 && a->near[at - 1].distance > distance)
        at--;
    if (at == NEAR_MOST)
        return;
    if (a->nears < NEAR_MOST)
        a->nears++;
    for (size_t i = a->nears - 1; i > at; i--)
        a->near[i] = a->near[i - 1];
    snprintf(a->near[at].name, sizeof a->near[at].name, "%s", name);
    a->near[at].distance = distance;
}

/* "tomato" asks for all of "tomato-large", "tomato-plum" and so on. */
static bool is_kind_of(const struct asking *a, const char *name)
{
    const size_t n = strlen(a->asked);

    return n >= SUBSTRING_LEAST && strncmp(name, a->asked, n) == 0 && name[n] == '-';
}

static enum vh_status take_near(void *context, const struct vh_meaning *m)
{
    struct asking *a = context;
    const size_t whole = vh_key_distance(m->name, a->asked, a->enough);
    const size_t alone = vh_key_distance(m->alone, a->asked, a->enough);

    if (is_kind_of(a, m->name))
        offer(a, m->name, 0);
    else if (alone <= a->enough)
        offer(a, m->alone, alone);
    else if (whole <= a->enough)
        offer(a, m->name, whole);
    else if (strlen(a->asked) >= SUBSTRING_LEAST && strstr(m->name, a->asked))
        offer(a, m->name, a->enough + 1);
    return VH_OK;
}

static enum vh_status say_unknown(const struct asking *a, struct vh_messages *m)
{
    char list[NEAR_MOST * (VH_MEANING_ROOM + 8)] = "", shown[VH_SHOWN_MOST + 4];

    size_t named = 0;

    vh_shown(a->asked, shown);
    while (named < a->nears && (named < NEAR_SHOWN || is_kind_of(a, a->near[named].name)))
        named++;
    for (size_t i = 0; i < named; i++) {
        const size_t n = strlen(list);
        const char *between = i == 0 ? "" : i + 1 < named ? ", " : " or ";
        snprintf(list + n, sizeof list - n, "%s%s", between, a->near[i].name);
    }
    if (a->nears == 0)
        return vh_fail(m, VH_BAD_INPUT, VH_NOWHERE,
                       "nothing here is called %s; name a parameter (leaf.potential_area_m2), a "
                       "key (planting.set_out), a column (supply_share) or a crop (tomato-large)",
                       shown);
    return vh_fail(m, VH_BAD_INPUT, VH_NOWHERE, "nothing here is called %s; did you mean %s?",
                   shown, list);
}

/* ---- the whole ---- */

static enum vh_status walk(struct asking *a, vh_meaning_take take)
{
    enum vh_status status = vh_meanings_of_keys(take, a);

    if (status == VH_OK)
        status = vh_meanings_of_items(take, a);
    if (status == VH_OK)
        status = vh_meanings_of_brought(a->parameters, take, a);
    if (status == VH_OK)
        status = vh_meanings_of_columns(take, a);
    if (status == VH_OK)
        status = vh_meanings_of_parameters(a->parameters, take, a);
    if (status == VH_OK)
        status = vh_meanings_of_sources(a->parameters, take, a);
    return status;
}

/* As people write them: "[planting.pick]", "weeks.csv". */
static void plain(const char *name, char asked[ASKED_ROOM])
{
    const size_t before = strspn(name, "[");
    size_t n = strlen(name + before);

    while (n > 0 && name[before + n - 1] == ']')
        n--;
    if (n > 4 && strncmp(name + before + n - 4, ".csv", 4) == 0)
        n -= 4;
    n = n < ASKED_ROOM - 1 ? n : ASKED_ROOM - 1;
    memcpy(asked, name + before, n);
    asked[n] = '\0';
}

/* A column may have its place among the futures beside it: "kg_p10" is answered as kg. */
static enum vh_status answer_of_futures(struct asking *a, struct vh_messages *m)
{
    static const struct {
        const char *text, *place;
        vh_meaning_take take;
    } ending[] = {{"_p10", "one future in ten stays below", take_with_range},
                  {"_p50", "half of the futures stay below", take_with_middle},
                  {"_p90", "nine futures in ten stay below", take_with_range}};
    const char *whole = a->asked;
    const size_t n = strlen(whole);
    char column[ASKED_ROOM];
    enum vh_status status = VH_OK;

    for (size_t i = 0; i < sizeof ending / sizeof ending[0]; i++) {
        const size_t tail = strlen(ending[i].text);
        if (n <= tail || strcmp(whole + n - tail, ending[i].text) != 0)
            continue;
        snprintf(column, sizeof column, "%.*s", (int)(n - tail), whole);
        a->asked = column;
        status = vh_meanings_of_columns(ending[i].take, a);
        if (status == VH_OK && vh_table_rows(a->out->meanings) > 0)
            vh_remark(m, VH_NOWHERE, "%s is the %s that %s", whole, column, ending[i].place);
        a->asked = whole;
    }
    return status;
}

static enum vh_status answer(struct asking *a, struct vh_messages *m)
{
    enum vh_status status = walk(a, take_named);

    if (status == VH_OK)
        status = walk(a, take_member);
    if (status == VH_OK && vh_table_rows(a->out->meanings) == 0)
        status = answer_of_futures(a, m);
    if (status != VH_OK || vh_table_rows(a->out->meanings) > 0)
        return status;
    const char *ours = vh_key_other_word(a->asked);
    if (ours) {
        vh_remark(m, VH_NOWHERE, "%s is called %s here", a->asked, ours);
        a->asked = ours;
        return walk(a, take_named);
    }
    const char *asked = a->asked;
    char crop[ASKED_ROOM];
    vh_parameters_crop_word(asked, crop, sizeof crop);
    a->asked = crop;
    a->enough = vh_near_enough(crop);
    status = walk(a, take_near);
    a->asked = asked;
    return status == VH_OK ? say_unknown(a, m) : status;
}

enum vh_status vh_explain(const struct vh_parameters *p, const char *name,
                          struct vh_explanation **out, struct vh_messages *m)
{
    char asked[ASKED_ROOM];
    struct vh_explanation *e = calloc(1, sizeof *e);

    if (!e)
        return VH_NO_MEMORY;
    e->meanings = vh_table_create("meanings", "a meaning", false, meaning_columns, MEANING_COLUMNS);
    e->sources = vh_table_create("sources", "a source", false, source_columns, SOURCE_COLUMNS);
    plain(name, asked);
    struct asking a = {.parameters = p, .asked = asked, .out = e, .enough = vh_near_enough(asked)};
    const enum vh_status status = e->meanings && e->sources ? answer(&a, m) : VH_NO_MEMORY;
    if (status == VH_OK)
        *out = e;
    else
        vh_explanation_free(e);
    return status;
}

void vh_explanation_free(struct vh_explanation *e)
{
    if (!e)
        return;
    vh_table_free(e->meanings);
    vh_table_free(e->sources);
    free(e);
}

const struct vh_table *vh_explanation_meanings(const struct vh_explanation *e)
{
    return e->meanings;
}

const struct vh_table *vh_explanation_sources(const struct vh_explanation *e)
{
    return e->sources;
}
