/* Results move smoothly with every input: learning and choosing depend on it.
 *
 * Seen is the mass picked in each week of a season, in shares of its largest week. Two looks:
 *   steps    at 40 base values over +-4 % of an input, steps of 1e-6 and 2e-6 of it: a step moves
 *            no week by more than MOST_SLOPE times the step, and two steps move it as far as twice
 *            one, but for MOST_BEND times the step (a bend, where a limit begins to hold, is no
 *            jump);
 *   spans    a jump lies between base values, so every span between two of them is searched: it is
 *            cut in four, and the quarter that moves least like its sisters again, until all move
 *            alike or the piece is shorter than 1e-6, where the bound on steps must hold. Jumps
 *            above 1e-5 of the largest week are met by this.
 * MOST_SLOPE is what a shift in time alone can do: a clock that runs faster by a share moves the
 * picks of day 140 by 140 of that share in days, and a day is a seventh of a week: 20. The steepest
 * slope found is 15.4 (cucumber, node rate), the sharpest bend 0.10.
 */
#include "../reference/plant_trial.h"

enum { WEEKS = 20, BASES = 40, QUARTERS = 4 };

static const double half_span = 0.04, step = 1e-6, most_slope = 20.0, most_bend = 1.0;
static const double alike = 1e-6; /* of the largest week: no jump to look for */

struct weeks {
    double g[WEEKS];
};

struct input {
    const char *name;
    void (*turn)(struct trial *t, double factor);
};

struct look {
    const char *crop;
    struct trial usual;
    const struct input *input;
    double largest_g;
};

static struct weeks season(const struct look *k, double factor)
{
    struct trial t = k->usual;
    struct weeks w = {{0.0}};

    k->input->turn(&t, factor);
    struct trial_result *r = trial_run(&t);
    for (int d = 0; d < r->days && d / 7 < WEEKS; d++)
        w.g[d / 7] += r->picked[d].fresh_g;
    trial_free(r);
    return w;
}

static double largest(const struct weeks *w)
{
    double most = 0.0;

    for (int i = 0; i < WEEKS; i++)
        most = vh_max(most, w->g[i]);
    return most;
}

static double moved(const struct look *k, const struct weeks *a, const struct weeks *b)
{
    double most = 0.0;

    for (int i = 0; i < WEEKS; i++)
        most = vh_max(most, fabs(a->g[i] - b->g[i]));
    return most / k->largest_g;
}

static void expect_steps(const struct look *k, double at, const struct weeks *here)
{
    const struct weeks w0 = *here, w1 = season(k, at + step), w2 = season(k, at + 2 * step);
    struct weeks twice;

    for (int i = 0; i < WEEKS; i++)
        twice.g[i] = 2.0 * w1.g[i] - w0.g[i];
    const double slope = moved(k, &w0, &w1) / step, bend = moved(k, &twice, &w2) / step;
    cr_expect(slope <= most_slope, "%s, %s x %.9f: slope %.3f", k->crop, k->input->name, at, slope);
    cr_expect(bend <= most_bend, "%s, %s x %.9f: bend %.3f", k->crop, k->input->name, at, bend);
}

/* How unlike its sisters each quarter moves; returns the most unlike. */
static double unlike(const struct look *k, const struct weeks *at, int *which)
{
    double most = 0.0;

    *which = 0;
    for (int i = 0; i < WEEKS; i++) {
        double move[QUARTERS], low = INFINITY, high = -INFINITY, sum = 0.0;
        for (int q = 0; q < QUARTERS; q++) {
            move[q] = at[q + 1].g[i] - at[q].g[i];
            low = vh_min(low, move[q]);
            high = vh_max(high, move[q]);
            sum += move[q];
        }
        const double middle = 0.5 * (sum - low - high); /* of the two between */
        for (int q = 0; q < QUARTERS; q++) {
            const double far = fabs(move[q] - middle) / k->largest_g;
            if (far > most) {
                most = far;
                *which = q;
            }
        }
    }
    return most;
}

static void expect_no_jump(const struct look *k, double from, double width,
                           const struct weeks *here, const struct weeks *there)
{
    struct weeks at[QUARTERS + 1];

    at[0] = *here;
    at[QUARTERS] = *there;
    while (width > step) {
        int which;
        for (int q = 1; q < QUARTERS; q++)
            at[q] = season(k, from + width * q / QUARTERS);
        if (unlike(k, at, &which) < alike)
            return;
        width /= QUARTERS;
        from += width * which;
        const struct weeks first = at[which], last = at[which + 1];
        at[0] = first;
        at[QUARTERS] = last;
    }
    const double jump = moved(k, &at[0], &at[QUARTERS]);
    cr_expect(jump <= most_slope * step, "%s, %s x %.9f: jumps by %.3g of the largest week",
              k->crop, k->input->name, from, jump);
}

static void expect_smooth(const char *crop, const struct trial *usual, const struct input *input,
                          size_t inputs)
{
    const double span = 2.0 * half_span / BASES, off = 0.3; /* round values are special */

    for (size_t n = 0; n < inputs; n++) {
        struct look k = {crop, *usual, &input[n], 1.0};
        const struct weeks base = season(&k, 1.0), turned = season(&k, 1.0 + half_span);
        k.largest_g = largest(&base);
        cr_expect(moved(&k, &base, &turned) > 0.0, "%s: %s moves nothing", crop, input[n].name);
        struct weeks here = season(&k, 1.0 - half_span + span * off);
        for (int b = 0; b < BASES; b++) {
            const double at = 1.0 - half_span + span * (b + off);
            const struct weeks there = season(&k, at + span);
            expect_steps(&k, at, &here);
            expect_no_jump(&k, at, span, &here, &there);
            here = there;
        }
    }
}

static void turn_truss_rate(struct trial *t, double f)
{
    t->crop.truss.a_per_d *= f;
}
static void turn_ripening(struct trial *t, double f)
{
    t->crop.clock.a_per_d *= f;
}
static void turn_set(struct trial *t, double f)
{
    t->crop.flower.set_max *= f;
}
static void turn_leaf_rate(struct trial *t, double f)
{
    t->crop.light.tau_umol_m2_s_ppm *= f;
}
static void turn_leaf_area(struct trial *t, double f)
{
    t->crop.leaf.potential_area_m2 *= f;
}
static void turn_unit(struct trial *t, double f)
{
    t->crop.share.unit_g *= f;
}
static void turn_kept(struct trial *t, double f)
{
    t->kept *= f;
}
static void turn_light(struct trial *t, double f)
{
    t->factors.light *= f;
}
static void turn_day_c(struct trial *t, double f)
{
    t->square.day_c *= f;
}
static void turn_leaves_kept(struct trial *t, double f)
{
    t->leaves_keep *= f;
}
static void turn_heads(struct trial *t, double f)
{
    t->heads_factor *= f;
}
static void turn_stem_age(struct trial *t, double f)
{
    t->new_stem_age_d *= f;
}
static void turn_nodes(struct trial *t, double f)
{
    t->crop.node.level_per_d *= f;
}
static void turn_growth(struct trial *t, double f)
{
    t->crop.fruit.growth_per_cd *= f;
}
static void turn_drop(struct trial *t, double f)
{
    t->crop.flower.abort_per_cd *= f;
}
static void turn_pick_mass(struct trial *t, double f)
{
    t->setup.pick_from_g *= f;
}

/* Thinned at pea, with more heads from a day on, and topped late: these paths are walked too. */
static struct trial busy(const char *crop)
{
    struct trial t = trial_usual(crop);

    t.days = WEEKS * 7;
    t.thin_stage = t.crop.habit.thin_stage_pea;
    t.kept *= 0.8;
    t.heads_on = 60;
    t.heads_factor = 1.3;
    t.new_stem_age_d = 20.0;
    t.top_on = 100;
    return t;
}

Test(smooth, weekly_picks_of_a_tomato_move_smoothly_with_twelve_inputs)
{
    static const struct input inputs[] = {
        {"truss rate", turn_truss_rate},
        {"ripening rate", turn_ripening},
        {"set", turn_set},
        {"leaf photosynthesis", turn_leaf_rate},
        {"leaf area", turn_leaf_area},
        {"demand of a unit", turn_unit},
        {"fruits kept", turn_kept},
        {"light", turn_light},
        {"day warmth", turn_day_c},
        {"leaves kept", turn_leaves_kept},
        {"heads", turn_heads},
        {"age of new stems", turn_stem_age},
    };
    const struct trial t = busy("tomato-cluster");

    expect_smooth("tomato-cluster", &t, inputs, sizeof inputs / sizeof inputs[0]);
}

Test(smooth, weekly_picks_move_smoothly_where_new_stems_flower_later)
{
    static const struct input inputs[] = {
        {"truss rate", turn_truss_rate},
        {"day warmth", turn_day_c},
        {"heads", turn_heads},
        {"age of new stems", turn_stem_age},
    };
    struct trial t = busy("tomato-cluster");

    t.new_stem_age_d = -18.0;
    expect_smooth("tomato-cluster", &t, inputs, sizeof inputs / sizeof inputs[0]);
}

Test(smooth, weekly_picks_of_a_cucumber_move_smoothly_with_its_own_inputs)
{
    static const struct input inputs[] = {
        {"node rate", turn_nodes},     {"fruit growth", turn_growth}, {"dropping", turn_drop},
        {"pick mass", turn_pick_mass}, {"light", turn_light},         {"day warmth", turn_day_c},
        {"fruits kept", turn_kept},
    };
    const struct trial t = busy("cucumber-long");

    expect_smooth("cucumber-long", &t, inputs, sizeof inputs / sizeof inputs[0]);
}
