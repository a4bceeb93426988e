/* What a choice is called, in a grower's words. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "vh_date.h"
#include "vh_due.h"
#include "vh_lever.h"

#define WORDS 80

/* "14 July" */
static void say_day(double day, char text[WORDS])
{
    static const char *const month[] = {"January",   "February", "March",    "April",
                                        "May",       "June",     "July",     "August",
                                        "September", "October",  "November", "December"};
    char iso[11];

    vh_date_format((int64_t)day, iso);
    const int m = (iso[5] - '0') * 10 + iso[6] - '0', d = (iso[8] - '0') * 10 + iso[9] - '0';
    snprintf(text, WORDS, "%d %s", d, month[m - 1]);
}

static void say(enum vh_lever lever, double v, char text[WORDS])
{
    static const char *const colour[] = {"breaker", "turning", "pink", "light-red", "red"};
    char day[WORDS];

    text[0] = '\0';
    switch (lever) {
    case VH_LEVER_FRUITS_KEPT:
        snprintf(text, WORDS, "leave %.3g", v);
        break;
    case VH_LEVER_SUCKERS:
        snprintf(text, WORDS, v == 1.0 ? "suckers daily" : "suckers every %g days", v);
        break;
    case VH_LEVER_LEAVES:
        snprintf(text, WORDS, "keep %.3g leaves", v);
        break;
    case VH_LEVER_LOWER:
        snprintf(text, WORDS, v == 1.0 ? "lower daily" : "lower every %g days", v);
        break;
    case VH_LEVER_HEADS:
        snprintf(text, WORDS, v == 1.0 ? "%.3g head a plant" : "%.3g heads a plant", v);
        break;
    case VH_LEVER_POLLINATION:
        snprintf(text, WORDS, v == 1.0 ? "pollinate daily" : "pollinate every %g days", v);
        break;
    case VH_LEVER_PICK_STAGE:
        snprintf(text, WORDS, "pick at %s", colour[(size_t)v]);
        break;
    case VH_LEVER_TOP:
    case VH_LEVER_PULL_OUT:
    case VH_LEVER_SET_OUT:
        say_day(v, day);
        snprintf(text, WORDS, "%s %.40s",
                 lever == VH_LEVER_TOP        ? "top on"
                 : lever == VH_LEVER_PULL_OUT ? "pull out"
                                              : "set out",
                 day);
        break;
    case VH_LEVER_DENSITY:
        snprintf(text, WORDS, "%.3g plants a m2", v);
        break;
    case VH_LEVER_STRIPPED:
        snprintf(text, WORDS, v > 0.0 ? "strip the first %g" : "strip none", v);
        break;
    case VH_LEVERS:
        break;
    }
}

/* "3"; below one "1 on every second node". */
static void say_fruits(double fruits, const char *truss, char text[WORDS])
{
    static const char *const every[] = {"second", "third", "fourth", "fifth"};
    enum { EVERY = sizeof every / sizeof every[0] };
    const double near_enough = 0.01, two_of_three = 2.0 / 3.0;

    snprintf(text, WORDS, "%.3g", fruits);
    for (int i = 0; i < EVERY; i++)
        if (fabs(fruits - 1.0 / (i + 2)) < near_enough)
            snprintf(text, WORDS, "1 on every %s %s", every[i], truss);
    if (fabs(fruits - two_of_three) < near_enough)
        snprintf(text, WORDS, "1 on two %s%s of three", truss, truss[0] == 't' ? "es" : "s");
}

/* Neighbours that keep as many are one: "leave 2 on nodes 5 to 22, 3 from node 23 on". */
static void say_ranges(const struct vh_choice *c, char *text, size_t room)
{
    const char *truss = c->by_node ? "node" : "truss", *trusses = c->by_node ? "nodes" : "trusses";
    size_t n = 0;

    text[0] = '\0';
    for (size_t i = 0, next; i < c->ranges && n < room; i = next) {
        char fruits[WORDS];
        for (next = i + 1; next < c->ranges && c->range[next].fruits == c->range[i].fruits;)
            next++;
        const int first = c->range[i].first, last = c->range[next - 1].last;
        say_fruits(c->range[i].fruits, truss, fruits);
        if (last > first)
            n += (size_t)snprintf(text + n, room - n, "%s%s%s %s %d to %d", n ? ", " : "leave ",
                                  fruits, strchr(fruits, ' ') ? "," : " on", trusses, first, last);
        else
            n += (size_t)snprintf(text + n, room - n, "%s%s %s %s %d%s", n ? ", " : "leave ",
                                  fruits, last == first ? "on" : "from", truss, first,
                                  last == first ? "" : " on");
    }
}

void vh_choice_name(const struct vh_choice *c, char name[VH_CHOICE_NAME])
{
    char text[VH_CHOICE_NAME];
    size_t n = 0;

    name[0] = '\0';
    for (int l = 0; l <= VH_LEVERS; l++) { /* the ranges come last */
        if (l < VH_LEVERS ? !c->has[l] : c->ranges == 0)
            continue;
        if (l < VH_LEVERS)
            say((enum vh_lever)l, c->value[l], text);
        else
            say_ranges(c, text, sizeof text);
        const int wrote = snprintf(name + n, VH_CHOICE_NAME - n, "%s%s", n ? ", " : "", text);
        if (wrote < 0 || (size_t)wrote >= VH_CHOICE_NAME - n)
            return;
        n += (size_t)wrote;
    }
    if (n == 0)
        snprintf(name, VH_CHOICE_NAME, "as planned");
}

static double rhythm_days(const struct vh_rhythm *r)
{
    return r->by_weekday ? (double)NAN : r->every_d;
}

/* Fruits that a truss far up the stem keeps, if no rule with dates or for single trusses is in the
 * way. */
static double fruits_planned(const struct vh_policy *policy)
{
    double fruits = (double)NAN;

    for (size_t i = 0; i < policy->fruits_rules; i++) {
        const struct vh_fruits_rule *r = &policy->fruits[i];
        if (r->from != INT64_MIN || r->until != INT64_MAX)
            return (double)NAN;
        if (r->last_truss == 0)
            fruits = r->fruits;
    }
    return fruits;
}

void vh_lever_planned(const struct vh_scenario *s, size_t planting, enum vh_lever lever,
                      char name[VH_CHOICE_NAME])
{
    const struct vh_planting *p = &s->house.planting[planting];
    double v = (double)NAN;

    if (lever == VH_LEVER_FRUITS_KEPT)
        v = fruits_planned(&p->policy);
    else if (lever == VH_LEVER_SUCKERS)
        v = rhythm_days(&p->policy.suckers.visit);
    else if (lever == VH_LEVER_LEAVES && !p->policy.leaves_down_to_picking)
        v = p->policy.leaves_keep;
    else if (lever == VH_LEVER_HEADS)
        v = vh_policy_heads(&p->policy, p->heads_per_plant, s->house.today);
    else if (lever == VH_LEVER_STRIPPED)
        v = vh_stripped_planned(&p->policy, s->house.today > p->set_out ? s->house.today : p->set_out);
    else if (lever == VH_LEVER_DENSITY)
        v = p->plants_per_m2;
    else if (lever == VH_LEVER_SET_OUT)
        v = (double)p->set_out;
    else if (lever == VH_LEVER_PULL_OUT)
        v = (double)p->pull_out;
    name[0] = '\0';
    if (isfinite(v))
        say(lever, v, name);
}
