/* Rows of lowering, the hung part of stem, and the warnings that come from them. */
#include "vh_result.h"

#include <stdio.h>
#include <string.h>

#include "vh_math.h"
#include "vh_visits.h"

#define CM_PER_M 100.0
/* A warning should come while string, posts or a topped head can still help. */
#define AHEAD_D 21

static const char *breach_text(unsigned breach)
{
    if (breach & VH_LOWER_STRING_SHORT)
        return "the string is used up";
    if (breach & VH_LOWER_ZONE_LONG)
        return "the lowest fruit is at its floor: the head grows above the wire before the next visit";
    if (breach & VH_LOWER_FIRST_PASS)
        return "first of two passes after a missed visit: the rest the day after";
    if (breach & VH_LOWER_HEAD_HIGH)
        return "the head grows above the wire before the next visit";
    if (breach & VH_LOWER_FRUIT_LOW)
        return "fruit hangs too near the floor";
    if (breach & VH_LOWER_MORE_THAN_MOST)
        return "more than usual at once: let it down in two passes";
    return "";
}

enum vh_status vh_result_add_lowering(struct vh_table *t, const struct vh_work_series *s,
                                      const struct vh_lower_plan *plan)
{
    for (size_t i = 0; i < plan->visits; i++) {
        const struct vh_lower_visit *v = &plan->visit[i];
        if (vh_table_add_row(t) != VH_OK || vh_table_set_lasting(t, 1, s->planting) != VH_OK ||
            vh_table_set_lasting(t, 12, breach_text(v->breach)) != VH_OK)
            return VH_NO_MEMORY;
        const double number_of[] = {v->let_out_cm,      v->let_out_cm / s->policy->lower.turn_cm,
                                    v->hook_cm,         v->hook_moves_cm,
                                    v->stem_cm,         v->state.laid_cm,
                                    v->string_cm,       v->string_left_cm / CM_PER_M,
                                    v->lowest_fruit_cm, v->leaves_first};
        vh_table_set_number(t, 0, (double)(s->first_day + (int64_t)v->day));
        for (size_t k = 0; k < sizeof number_of / sizeof number_of[0]; k++)
            vh_table_set_number(t, 2 + k, number_of[k]);
    }
    return VH_OK;
}

static int64_t date_of(const struct vh_work_series *s, size_t day)
{
    return s->first_day + (int64_t)day;
}

/* The first visit to come that breaks this limit and not that other, which explains it. */
static const struct vh_lower_visit *first_with(const struct vh_work_series *s,
                                               const struct vh_lower_plan *plan, unsigned breach,
                                               unsigned without)
{
    for (size_t i = 0; i < plan->visits; i++)
        if ((plan->visit[i].breach & breach) && !(plan->visit[i].breach & without) &&
            date_of(s, plan->visit[i].day) >= s->today)
            return &plan->visit[i];
    return NULL;
}

/* Some weeks before the day, but neither past nor before the plants stand in the house. */
static int64_t act_by(const struct vh_work_series *s, int64_t date)
{
    const int64_t from = s->today > s->first_day ? s->today : s->first_day;

    return date - AHEAD_D < from ? from : date - AHEAD_D;
}

/* The first visit that breaks a limit, told with what would help while there is time. */
static enum vh_status warn_breaches(struct vh_table *t, const struct vh_work_series *s,
                                    const struct vh_lower_plan *plan)
{
    const unsigned other = VH_LOWER_ZONE_LONG | VH_LOWER_STRING_SHORT | VH_LOWER_FIRST_PASS;
    static const struct {
        unsigned breach;
        const char *what, *what_to_do;
    } told[] = {
        {VH_LOWER_STRING_SHORT, "the string on the hooks is used up",
         "tie on more string, or top the heads before that day"},
        {VH_LOWER_FRUIT_LOW, "the lowest fruit comes too near the floor",
         "pick or take off the lowest truss first; fruit that touched the floor is not for sale"},
        {VH_LOWER_HEAD_HIGH, "heads grow above the wire",
         "visit more often, let out more at a visit, or lean the stems flatter"},
        {VH_LOWER_MORE_THAN_MOST, "more string than usual is to be let out at one visit",
         "let it down in two passes, slowly, so that no stem kinks; visit more often"},
    };

    for (size_t k = 0; k < sizeof told / sizeof told[0]; k++) {
        const struct vh_lower_visit *v =
            first_with(s, plan, told[k].breach, told[k].breach == VH_LOWER_HEAD_HIGH ? other : 0U);
        char why[160];
        if (!v)
            continue;
        char fruit[40] = "";
        if (!isnan(v->lowest_fruit_cm))
            snprintf(fruit, sizeof fruit, "; lowest fruit at %.0f cm", v->lowest_fruit_cm);
        snprintf(why, sizeof why, "stem %.0f cm, %.0f cm of it laid; string left %.1f m%s",
                 v->stem_cm, v->state.laid_cm, v->string_left_cm / CM_PER_M, fruit);
        const int64_t date = date_of(s, v->day);
        enum vh_status status = vh_result_warn(t, date, s->planting, told[k].what, why,
                                               told[k].what_to_do, act_by(s, date));
        if (told[k].breach != VH_LOWER_MORE_THAN_MOST)
            status = vh_result_is_harm(t, status);
        if (status != VH_OK)
            return status;
    }
    return VH_OK;
}

/* How the stems hang on day d of the season before a visit that is still to come. */
static struct vh_lower_state hanging(const struct vh_work_series *s,
                                     const struct vh_lower_plan *plan, size_t d)
{
    bool is_made = vh_done_share(s->done, VH_TASK_LOWER, s->first_day + (int64_t)d, 0.0) > 0.0;

    for (size_t v = 0; v < plan->visits; v++)
        is_made = is_made || (plan->visit[v].day == d && plan->visit[v].recorded);
    return plan->state[d == 0 || is_made ? d : d - 1];
}

#define PAST "heads stand above the wire already"

/* Are heads past the wire today, before any visit to come? Then *head_cm is where they are. */
static bool is_past(const struct vh_work_series *s, const struct vh_lower_plan *plan,
                    double *head_cm)
{
    const struct vh_lower_policy *p = &s->policy->lower;

    if (s->today < s->first_day || s->today - s->first_day >= (int64_t)s->days ||
        vh_visit_is_idle(s->policy, VH_TASK_LOWER, s->today))
        return false;
    const size_t d = (size_t)(s->today - s->first_day);
    const struct vh_lower_state now = hanging(s, plan, d);
    *head_cm = vh_lower_head_cm(p, now, s->day[d].stem_cm);
    return vh_lower_is_past_wire(p, now, s->day[d].stem_cm);
}

/* The stem from the lowest fruit to the tip has no room between floor and wire: from which day, and
 * which wire or lean would give it room on the worst day to come. Where heads are past the wire
 * already for it, that says all. */
static enum vh_status warn_zone(struct vh_table *t, const struct vh_work_series *s,
                                const struct vh_lower_plan *plan)
{
    const struct vh_lower_policy *p = &s->policy->lower;
    const struct vh_lower_visit *first = first_with(s, plan, VH_LOWER_ZONE_LONG, 0U);
    double longest_cm = 0.0, head_cm;
    char why[200], help[200], lean[60] = "";

    if (!first)
        return VH_OK;
    for (size_t i = 0; i < plan->visits; i++)
        if ((plan->visit[i].breach & VH_LOWER_ZONE_LONG) &&
            date_of(s, plan->visit[i].day) >= s->today)
            longest_cm = vh_max(longest_cm, plan->visit[i].zone_cm);
    const double wire_m = ceil(vh_lower_wire_needed_cm(p, longest_cm) / 10.0) / 10.0;
    const double lean_deg = floor(vh_lower_lean_needed_deg(p, longest_cm));
    const bool past = is_past(s, plan, &head_cm);
    if (lean_deg < p->lean_deg) /* false if there is none */
        snprintf(lean, sizeof lean, "lean the stems to %.0f degrees (lean_deg), or ", lean_deg);
    snprintf(
        why, sizeof why,
        "up to %.0f cm of stem from the lowest fruit to the tip, leaning at %.0f degrees, "
        "do not fit between floor and wire; the head may stand above it by %.0f cm",
        longest_cm, p->lean_deg,
        vh_max(0.0, vh_lower_wire_needed_cm(p, longest_cm) - p->head_clearance_cm - p->wire_cm));
    snprintf(help, sizeof help,
             "%spick the lowest fruit before lowering%s; else a wire at %.1f m would give room",
             lean, past ? ", in two passes on two days" : "", wire_m);
    const int64_t date = past ? s->today : date_of(s, first->day);
    return vh_result_is_harm(t,
                             vh_result_warn(t, date, s->planting,
                                            past ? PAST ", too low for the fruit that hangs"
                                                 : "the wire is too low for the fruit that hangs",
                                            why, help, act_by(s, date)));
}

/* Heads that are past the wire already, before any visit to come. */
static enum vh_status warn_past(struct vh_table *t, const struct vh_work_series *s,
                                const struct vh_lower_plan *plan)
{
    const struct vh_lower_policy *p = &s->policy->lower;
    double head_cm;
    char why[120];

    if (!is_past(s, plan, &head_cm) || first_with(s, plan, VH_LOWER_ZONE_LONG, 0U))
        return VH_OK;
    snprintf(why, sizeof why, "heads at %.0f cm, the wire at %.0f cm", head_cm, p->wire_cm);
    return vh_result_is_harm(
        t, vh_result_warn(t, s->today, s->planting, PAST, why,
                          "lower them in two passes on two days; bend no head by force", s->today));
}

/* The first day from today on for which lowering is still asked for; today where there is none. */
static int64_t first_asked(const struct vh_table *tasks, const char *planting, int64_t today)
{
    const double none = 1e9;
    double first = none;

    for (size_t i = 0; i < vh_table_rows(tasks); i++)
        if (vh_cell_number(tasks, i, "date") >= (double)today &&
            !(vh_cell_number(tasks, i, "done") > 0.0) &&
            strcmp(vh_cell_text(tasks, i, "task"), vh_task_name(VH_TASK_LOWER)) == 0 &&
            strcmp(vh_cell_text(tasks, i, "planting"), planting) == 0)
            first = vh_min(first, vh_cell_number(tasks, i, "date"));
    return first < none ? (int64_t)first : today;
}

static const char begin_today[] = "begin today: ", next_visit[] = "at the next visit, ";

/* What to do, without the words for when. */
static const char *without_when(const char *what_to_do)
{
    const bool has_when = strncmp(what_to_do, begin_today, strlen(begin_today)) == 0 ||
                          strncmp(what_to_do, next_visit, strlen(next_visit)) == 0;

    return has_when ? strchr(what_to_do, ':') + strlen(": ") : what_to_do;
}

enum vh_status vh_result_lowering_said(struct vh_table *warnings, const struct vh_table *tasks,
                                       int64_t today)
{
    const size_t act_by = (size_t)vh_table_find(warnings, "act_by"),
                 to_do = (size_t)vh_table_find(warnings, "what_to_do");
    enum vh_status status = VH_OK;

    for (size_t i = 0; i < vh_table_rows(warnings) && status == VH_OK; i++) {
        const char *what = vh_cell_text(warnings, i, "what");
        char said[300], when[60] = "";
        if (strncmp(what, PAST, strlen(PAST)) != 0)
            continue;
        const int64_t first = first_asked(tasks, vh_cell_text(warnings, i, "planting"), today);
        const struct vh_civil c = vh_civil_from_day(first);
        if (first > today)
            snprintf(when, sizeof when, "%s%d %s: ", next_visit, c.day, vh_month_name(c.month));
        else if (strcmp(what, PAST) != 0) /* much else is to be done there */
            snprintf(when, sizeof when, "%s", begin_today);
        snprintf(said, sizeof said, "%s%s", when,
                 without_when(vh_cell_text(warnings, i, "what_to_do")));
        vh_table_put_number(warnings, i, act_by, (double)first);
        status = vh_table_put_text(warnings, i, to_do, said);
    }
    return status;
}

/* The first evening from today on at which the laid stem is longer than `most_cm`. */
static int64_t laid_beyond(const struct vh_work_series *s, const struct vh_lower_plan *plan,
                           double most_cm)
{
    for (size_t d = 0; d < s->days; d++)
        if (plan->state[d].laid_cm > most_cm && date_of(s, d) >= s->today)
            return date_of(s, d);
    return INT64_MAX;
}

static enum vh_status warn_bends(struct vh_table *t, const struct vh_work_series *s,
                                 const struct vh_lower_plan *plan)
{
    const struct vh_lower_policy *p = &s->policy->lower;
    const double radius = p->container_cm / 2.0 + p->container_clearance_cm;
    const int64_t laid = laid_beyond(s, plan, 0.0);
    char why[160];

    if (p->path != VH_LOWER_AROUND_CONTAINERS || laid == INT64_MAX || radius >= p->bend_least_cm)
        return VH_OK;
    snprintf(why, sizeof why,
             "around a container of %.0f cm the bend is %.0f cm; a stem takes %.0f; %.1f loops of "
             "it by the end",
             p->container_cm, radius, p->bend_least_cm,
             plan->state[s->days - 1].laid_cm / (2.0 * VH_PI * radius));
    return vh_result_warn(t, laid, s->planting, "stems are bent too tightly", why,
                          "lead them in a wider loop, or along the row", laid);
}

/* Stems that turn at the row's end come back to their own root after one circuit. */
static enum vh_status warn_circuit(struct vh_table *t, const struct vh_work_series *s,
                                   const struct vh_lower_plan *plan)
{
    const struct vh_lower_policy *p = &s->policy->lower;
    const double circuit_cm = 2.0 * (p->row_length_cm + p->row_gap_cm); /* NaN: not given */
    char why[120];

    if (p->path != VH_LOWER_ROW_END || isnan(circuit_cm))
        return VH_OK;
    const int64_t date = laid_beyond(s, plan, circuit_cm);
    if (date == INT64_MAX)
        return VH_OK;
    snprintf(why, sizeof why, "once round the two rows is %.1f m, and more than that is laid",
             circuit_cm / CM_PER_M);
    return vh_result_warn(t, date, s->planting, "laid stems have gone once round", why,
                          "top the heads before that day, or lay the stems in a second bundle",
                          act_by(s, date));
}

static enum vh_status warn_row_end(struct vh_table *t, const struct vh_work_series *s,
                                   const struct vh_lower_plan *plan)
{
    const struct vh_lower_policy *p = &s->policy->lower;
    const double apart = s->plants_apart_cm;
    char why[160];

    if (p->path == VH_LOWER_ROW_END && !isnan(apart)) {
        const int64_t date = laid_beyond(s, plan, p->abreast_most * apart);
        snprintf(why, sizeof why, "%.0f laid stems lie side by side where they turn",
                 p->abreast_most);
        if (date != INT64_MAX)
            return vh_result_warn(t, date, s->planting,
                                  "the bundle at the row's end grows too thick", why,
                                  "spread it over two supports, or top the heads earlier", date);
    }
    if (p->path != VH_LOWER_STRAIGHT || isnan(p->row_length_cm))
        return VH_OK;
    const int64_t date = laid_beyond(s, plan, p->row_length_cm);
    if (date == INT64_MAX)
        return VH_OK;
    snprintf(why, sizeof why, "more stem is laid than the row of %.1f m is long",
             p->row_length_cm / CM_PER_M);
    return vh_result_warn(t, date, s->planting, "laid stems reach past the end of the row", why,
                          "turn them at the row's end: path = \"row-end\"", date);
}

/* One wire holds all plantings: said once of the house, with the first visit to any of them. */
static enum vh_status warn_high_hooks(struct vh_table *t, const struct vh_lower_policy *p,
                                      int64_t first)
{
    enum { DATE = 0, WHAT = 2, ACT_BY = 5 }; /* columns */
    static const char above[] = "hooks hang above your shoulders";
    char why[160];

    for (size_t i = 0; i < vh_table_rows(t); i++) {
        if (strcmp(vh_table_text(t, i, WHAT), above) != 0)
            continue;
        vh_table_put_number(t, i, DATE, vh_min(vh_table_number(t, i, DATE), (double)first));
        vh_table_put_number(t, i, ACT_BY, vh_table_number(t, i, DATE));
        return VH_OK;
    }
    snprintf(why, sizeof why, "hooks at %.0f cm, your shoulder at %.0f cm", p->wire_cm,
             p->shoulder_cm);
    return vh_result_is_known(
        t, vh_result_warn(t, first, "", above, why,
                          "low trolley on dry, level floor; rest the arms after two turns", first));
}

/* With the first visit to come. */
static enum vh_status warn_wire(struct vh_table *t, const struct vh_work_series *s,
                                const struct vh_lower_plan *plan)
{
    const struct vh_lower_policy *p = &s->policy->lower;
    const double low_wire_cm = CM_PER_M * s->crop->hang.low_wire_m;
    int64_t first = INT64_MAX;
    char why[160];

    for (size_t i = 0; i < plan->visits && first == INT64_MAX; i++)
        if (date_of(s, plan->visit[i].day) >= s->today)
            first = date_of(s, plan->visit[i].day);
    if (first == INT64_MAX)
        return VH_OK;
    /* where fruit and tip do not fit, the wire that would do is told with it */
    if (p->wire_cm < low_wire_cm && !first_with(s, plan, VH_LOWER_ZONE_LONG, 0U)) {
        snprintf(why, sizeof why, "the wire is at %.0f cm; under %.0f cm lowering cost fruit",
                 p->wire_cm, low_wire_cm);
        if (vh_result_warn(t, first, s->planting, "the wire is low for lowering this crop", why,
                           "train it over the wire instead, or raise the wire", first) != VH_OK)
            return VH_NO_MEMORY;
    }
    return p->wire_cm > p->shoulder_cm ? warn_high_hooks(t, p, first) : VH_OK;
}

/* The heaviest day to come, per metre of wire. */
static enum vh_status warn_load(struct vh_table *t, const struct vh_work_series *s)
{
    size_t heaviest = s->days;
    double most = 0.0;
    char what[80];

    if (isnan(s->plants_apart_cm))
        return VH_OK;
    for (size_t d = 0; d < s->days; d++) {
        const double kg_m =
            s->day[d].hanging_kg * s->day[d].stems / (s->plants * s->plants_apart_cm / CM_PER_M);
        if (date_of(s, d) < s->today || kg_m <= most)
            continue;
        most = kg_m;
        heaviest = d;
    }
    if (heaviest == s->days)
        return VH_OK;
    snprintf(what, sizeof what, "about %.0f kg hang on each metre of wire", most);
    const int64_t date = date_of(s, heaviest);
    return vh_result_is_known(
        t, vh_result_warn(t, date, s->planting, what,
                          "fruit, leaves and stems on their heaviest day to come",
                          "have wire, posts and frame looked at before", act_by(s, date)));
}

enum vh_status vh_result_add_lowering_warnings(struct vh_table *t, const struct vh_work_series *s,
                                               const struct vh_lower_plan *plan)
{
    if (!s->policy->lower.given)
        return VH_OK;
    enum vh_status (*const warn[])(struct vh_table *, const struct vh_work_series *,
                                   const struct vh_lower_plan *) = {
        warn_past, warn_breaches, warn_zone, warn_bends, warn_row_end, warn_circuit, warn_wire};
    for (size_t i = 0; i < sizeof warn / sizeof warn[0]; i++)
        if (warn[i](t, s, plan) != VH_OK)
            return VH_NO_MEMORY;
    return warn_load(t, s);
}
