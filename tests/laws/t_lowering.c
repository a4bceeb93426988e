/* What every lowering plan keeps, over random houses and stems. VINEHAND_LAWS raises their number.
 */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>
#include <math.h>
#include <stdlib.h>

#include "vh_lower.h"
#include "vh_random.h"

enum { USUAL = 500, DAYS = 260, TRUSSES = 40 };

static double between(int house, int row, double low, double high)
{
    return low + (high - low) * vh_uniform(2026, (uint32_t)house, 0, 0x10E3, (uint32_t)row);
}

static int houses(void)
{
    const char *more = getenv("VINEHAND_LAWS");
    int n = 0;

    for (; more && *more >= '0' && *more <= '9'; more++)
        n = 10 * n + (*more - '0');
    return n > USUAL ? n : USUAL;
}

static void make_policy(int i, struct vh_policy *policy)
{
    struct vh_lower_policy *p = &policy->lower;

    *policy = (struct vh_policy){0};
    p->given = true;
    p->wire_cm = between(i, 1, 180.0, 450.0);
    p->laid_height_cm = between(i, 2, 5.0, 60.0);
    p->head_clearance_cm = between(i, 3, 0.0, 40.0);
    p->lean_deg = between(i, 4, 15.0, 90.0);
    p->least_cm = between(i, 5, 0.0, 20.0);
    p->most_cm = between(i, 6, 20.0, 80.0);
    p->fruit_floor_cm = between(i, 7, 0.0, 40.0);
    p->truss_hang_cm = between(i, 8, 5.0, 40.0);
    p->string_cm = p->wire_cm + between(i, 9, 60.0, 1500.0);
    p->knots_cm = 50.0;
    p->turn_cm = 18.0;
    p->visit.every_d = (int)between(i, 10, 1.0, 15.0);
    p->when_head_at_wire = between(i, 11, 0.0, 1.0) < 0.15;
    p->flower_below_head_cm = between(i, 12, 5.0, 30.0);
}

/* Every fourth crop stands already, with trusses older than its first day. */
static bool stands(int i)
{
    return i % 4 == 0;
}

static void make_season(int i, struct vh_work_day day[DAYS], struct vh_truss_view truss[TRUSSES])
{
    const double pace = between(i, 20, 1.0, 9.0), hang_d = between(i, 21, 12.0, 60.0);
    const double every_d = DAYS / (double)TRUSSES;
    const double seen_d = stands(i) ? 120.0 : 0.0; /* since the crop's first day */

    for (int t = 0; t < TRUSSES; t++) {
        const double opened_d = 10.0 + every_d * t - seen_d;
        truss[t] = (struct vh_truss_view){.opened_d = opened_d < -90.0 ? NAN : opened_d,
                                          .kept = opened_d < -90.0 ? 0.0 : 3.0};
    }
    for (int d = 0; d < DAYS; d++)
        day[d] = (struct vh_work_day){
            .stem_cm = between(i, 22, 30.0, 400.0) + pace * d,
            .leaves = 16.0,
            .picking_truss = 1.0 + fmax(0.0, floor((d + seen_d - 10.0 - hang_d) / every_d) + 1.0)};
}

/* Criterion takes a bare 2 for false. */
static bool breaks(unsigned breach, unsigned bit)
{
    return (breach & bit) != 0;
}

/* How high the fruit would hang were the stem upright: so low by nature, or brought there? NaN: it
 * grows from the laid stem, nobody can say where. */
static double upright_cm(const struct vh_lower_policy *p, struct vh_lower_state state,
                         double fruit_cm)
{
    const double above_cm = fruit_cm + p->truss_hang_cm - p->laid_height_cm;

    return above_cm > 1e-6 ? fruit_cm + above_cm / state.sin_lean - above_cm + state.laid_cm
                           : (double)NAN;
}

static void look(int i, const struct vh_work_series *s, const struct vh_lower_plan *plan)
{
    const struct vh_lower_policy *p = &s->policy->lower;
    const double clear = 1e-6, judged = 0.11; /* the plan passes over a millimetre */
    const double upright =
        vh_lower_string_cm(p, vh_lower_state_for_stem(p, s->day[0].stem_cm, p->head_clearance_cm));
    const double start = fmin(upright, p->string_cm - p->knots_cm);
    double sum = 0.0;
    size_t next = 0;

    for (size_t v = 0; v < plan->visits; v++) {
        const struct vh_lower_visit *x = &plan->visit[v];
        sum += x->let_out_cm;
        cr_expect(x->let_out_cm >= 0.0, "house %d: string is taken back", i);
        cr_expect(x->string_left_cm >= -clear, "house %d: no string left", i);
        cr_expect(epsilon_eq(dbl, x->string_cm, start + sum, 1e-6 * (1.0 + x->string_cm)));
        cr_expect(x->let_out_cm <= p->most_cm + judged || (x->breach & VH_LOWER_MORE_THAN_MOST),
                  "house %d: more than most, unsaid", i);
        /* the order in which limits give way: nobody lays fruit on the floor to save a head, and a
         * head is let past the wire for string or fruit alone */
        cr_expect(x->let_out_cm <= judged || !breaks(x->breach, VH_LOWER_FRUIT_LOW),
                  "house %d: %g cm let out with fruit on the floor", i, x->let_out_cm);
        cr_expect(breaks(x->breach, VH_LOWER_STRING_SHORT | VH_LOWER_ZONE_LONG) ||
                      !breaks(x->breach, VH_LOWER_HEAD_HIGH),
                  "house %d: the head passes the wire without need", i);
        const double high_cm = upright_cm(p, x->state, x->lowest_fruit_cm);
        if (x->lowest_fruit_cm < p->fruit_floor_cm - judged &&
            fabs(high_cm - p->fruit_floor_cm) > 2.0 * judged)
            cr_expect(eq(int, breaks(x->breach, VH_LOWER_FRUIT_LOW), high_cm > p->fruit_floor_cm),
                      "house %d: fruit on the floor, unsaid, or low by nature and said", i);
    }
    if (plan->visits)
        cr_expect(epsilon_eq(dbl, vh_lower_string_cm(p, plan->state[s->days - 1]), start + sum,
                             1e-6 * (1.0 + start + sum)),
                  "house %d: the sum of amounts is not what hangs in the end", i);
    unsigned said = 0;
    size_t fruit_seen = 0;
    for (size_t d = 0; d < s->days; d++) {
        while (next < plan->visits && plan->visit[next].day <= d)
            said = plan->visit[next++].breach;
        const double head = vh_lower_head_cm(p, plan->state[d], s->day[d].stem_cm);
        cr_expect(head <= p->wire_cm + judged || (said & VH_LOWER_HEAD_HIGH),
                  "house %d day %zu: head at %g over the wire at %g, unsaid", i, d, head,
                  p->wire_cm);
        if (!p->when_head_at_wire && vh_rhythm_due(&p->visit, 0, (int64_t)d) &&
            plan->lowest_fruit_cm[d] < p->fruit_floor_cm - judged &&
            upright_cm(p, plan->state[d], plan->lowest_fruit_cm[d]) >
                p->fruit_floor_cm + 2.0 * judged)
            cr_expect(breaks(said, VH_LOWER_FRUIT_LOW),
                      "house %d day %zu: fruit at %g, unsaid at a visit", i, d,
                      plan->lowest_fruit_cm[d]);
        fruit_seen += !isnan(plan->lowest_fruit_cm[d]);
        cr_expect(plan->state[d].sin_lean > 0.0 && plan->state[d].sin_lean <= 1.0);
        cr_expect(plan->state[d].laid_cm >= 0.0);
    }
    cr_expect(fruit_seen > s->days / 3, "house %d: fruit on %zu days only", i, fruit_seen);
}

Test(lowering, string_fruit_and_head_keep_their_limits_or_a_visit_says_so)
{
    static struct vh_work_day day[DAYS];
    static struct vh_truss_view truss[TRUSSES];

    for (int i = 0; i < houses(); i++) {
        struct vh_policy policy;
        struct vh_lower_plan plan;
        make_policy(i, &policy);
        make_season(i, day, truss);
        const struct vh_work_series series = {.policy = &policy,
                                              .days = DAYS,
                                              .day = day,
                                              .truss = truss,
                                              .trusses = TRUSSES,
                                              .standing = stands(i)};
        cr_assert(eq(int, vh_lower_plan(&series, &plan), VH_OK));
        look(i, &series, &plan);
        vh_lower_plan_clear(&plan);
    }
}

/* A stem of 33 cm bears its first truss at 18 cm, which hangs 15 cm and a third of a metre of house
 * must grow below it: no lowering brought it there, nothing is let out and nothing said. In the
 * last week before pull-out no visit is made, though the heads stand above the wire. */
Test(lowering, no_visit_where_none_can_help)
{
    static struct vh_work_day day[DAYS];
    struct vh_truss_view truss = {.opened_d = 10.0, .kept = 4.0};
    struct vh_policy policy = {.idle_d = 7.0};
    struct vh_lower_policy *p = &policy.lower;
    struct vh_work_series s = {
        .policy = &policy, .days = DAYS, .day = day, .truss = &truss, .trusses = 1};
    struct vh_lower_plan plan;

    *p = (struct vh_lower_policy){.given = true,
                                  .wire_cm = 250.0,
                                  .laid_height_cm = 5.0,
                                  .head_clearance_cm = 10.0,
                                  .lean_deg = 55.0,
                                  .least_cm = 5.0,
                                  .most_cm = 40.0,
                                  .fruit_floor_cm = 15.0,
                                  .truss_hang_cm = 15.0,
                                  .string_cm = 3000.0,
                                  .knots_cm = 50.0,
                                  .turn_cm = 18.0,
                                  .visit.every_d = 7,
                                  .flower_below_head_cm = 15.0};
    for (int d = 0; d < DAYS; d++)
        day[d] = (struct vh_work_day){.stem_cm = 23.0 + fmin(d, 100.0) + 3.0 * fmax(0.0, d - 100.0),
                                      .leaves = 16.0,
                                      .picking_truss = d < 100 ? 1.0 : 3.0};
    cr_assert(eq(int, vh_lower_plan(&s, &plan), VH_OK));
    cr_assert(plan.visits > 0);
    for (size_t v = 0; v < plan.visits; v++) {
        cr_expect(plan.visit[v].day >= 100, "day %zu", plan.visit[v].day);
        cr_expect(plan.visit[v].day <= DAYS - 1 - 7, "day %zu", plan.visit[v].day);
    }
    /* the last visit leaves room for what grows until the last week begins, and no more */
    const struct vh_lower_visit *last = &plan.visit[plan.visits - 1];
    cr_expect(vh_lower_head_cm(p, last->state, day[DAYS - 8].stem_cm) <= p->wire_cm + 0.2);
    cr_expect(vh_lower_head_cm(p, last->state, day[DAYS - 1].stem_cm) > p->wire_cm);
    vh_lower_plan_clear(&plan);
}

Test(lowering, what_is_recorded_replaces_the_plan)
{
    static struct vh_work_day day[DAYS];
    static struct vh_truss_view truss[TRUSSES];
    struct vh_done_task skipped = {14, VH_TASK_LOWER, 0.0};
    struct vh_done_lowered lowered = {20, 33.0};
    const struct vh_done done = {
        .task = &skipped, .tasks = 1, .lowered = &lowered, .lowered_rows = 1, .any = true};
    struct vh_policy policy;
    struct vh_lower_plan plan;
    bool found = false;

    make_policy(3, &policy);
    make_season(3, day, truss);
    policy.lower.visit.every_d = 7;
    policy.lower.when_head_at_wire = false;
    policy.lower.least_cm = 0.0;
    for (int d = 0; d < DAYS; d++)
        day[d].stem_cm = policy.lower.wire_cm + 4.0 * d;
    const struct vh_work_series series = {
        .policy = &policy, .done = &done, .days = DAYS, .day = day, .truss = truss, .trusses = 0};
    cr_assert(eq(int, vh_lower_plan(&series, &plan), VH_OK));
    for (size_t v = 0; v < plan.visits; v++) {
        cr_expect(plan.visit[v].day != 14, "a visit that was left undone");
        if (plan.visit[v].day != 20)
            continue;
        found = plan.visit[v].recorded;
        cr_expect(epsilon_eq(dbl, plan.visit[v].let_out_cm, 33.0, 1e-9));
    }
    cr_expect(found);
    vh_lower_plan_clear(&plan);
}
