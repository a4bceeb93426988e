/* How a planting is leaned and lowered: [planting.lower] and the wire of the house. */
#include "scenario_parts.h"

#include "vh_math.h"

#define CM_PER_M 100.0

/* A value that is given, or the crop's own, which is then listed as a default. */
static double given_or_usual(struct vh_reading *r, const struct vh_given *given, const char *key,
                             const struct vh_param_set *rows, const char *row, double usual,
                             const struct vh_planting *p)
{
    if (!given->at)
        vh_default_used(r, key, p, rows, row);
    return given->good ? given->number : usual;
}

static void fill_visits(struct vh_reading *r, const struct vh_raw_lower *raw,
                        const struct vh_param_set *rows, struct vh_planting *p)
{
    struct vh_lower_policy *lower = &p->policy.lower;
    const struct vh_given *rhythm = raw->every_d.at ? &raw->every_d : &raw->days;

    vh_rhythm_check(r, "planting.lower", &raw->every_d, &raw->days);
    vh_rhythm_fill(&raw->every_d, &raw->days, p->crop->hang.lower_d, &lower->visit);
    lower->when_head_at_wire = raw->when.good;
    if (raw->when.at && rhythm->at)
        vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_key(r, raw->when.at),
                            "[planting.lower] has `when` and, on line %lld, `%s`; keep one of them",
                            (long long)rhythm->at->line, rhythm->at->key));
    if (!raw->every_d.at && !raw->days.at && !raw->when.at)
        vh_default_used(r, "planting.lower.every_d", p, rows, "hang.lower_d");
}

static void fill_lengths(struct vh_reading *r, const struct vh_raw_lower *raw,
                         const struct vh_param_set *rows, struct vh_planting *p)
{
    const struct vh_hang_params *h = &p->crop->hang;
    struct vh_lower_policy *lower = &p->policy.lower;
    const struct {
        const struct vh_given *given;
        const char *key, *row;
        double usual, *to;
    } length[] = {
        {&raw->least_cm, "planting.lower.least_cm", "hang.least_cm", h->least_cm, &lower->least_cm},
        {&raw->most_cm, "planting.lower.most_cm", "hang.most_cm", h->most_cm, &lower->most_cm},
        {&raw->head_clearance_cm, "planting.lower.head_clearance_cm", "hang.head_clearance_cm",
         h->head_clearance_cm, &lower->head_clearance_cm},
        {&raw->laid_height_cm, "planting.lower.laid_height_cm", "hang.laid_height_cm",
         h->laid_height_cm, &lower->laid_height_cm},
        {&raw->fruit_floor_cm, "planting.lower.fruit_floor_cm", "hang.fruit_floor_cm",
         h->fruit_floor_cm, &lower->fruit_floor_cm},
        {&raw->truss_hang_cm, "planting.lower.truss_hang_cm", "hang.truss_hang_cm",
         h->truss_hang_cm, &lower->truss_hang_cm},
        {&raw->turn_cm, "planting.lower.turn_cm", "hang.turn_cm", h->turn_cm, &lower->turn_cm},
        {&raw->bend_least_cm, "planting.lower.bend_least_cm", "hang.bend_least_cm",
         h->bend_least_cm, &lower->bend_least_cm},
        {&raw->shoulder_cm, "planting.lower.shoulder_cm", "hang.shoulder_cm", h->shoulder_cm,
         &lower->shoulder_cm},
    };

    for (size_t i = 0; i < sizeof length / sizeof length[0]; i++)
        *length[i].to = given_or_usual(r, length[i].given, length[i].key, rows, length[i].row,
                                       length[i].usual, p);
    lower->string_cm = CM_PER_M * given_or_usual(r, &raw->string_m, "planting.lower.string_m", rows,
                                                 "hang.string_m", h->string_m, p);
    lower->knots_cm = h->knots_cm;
    lower->flower_below_head_cm = h->flower_below_head_cm;
    lower->abreast_most = h->abreast_most;
    lower->container_clearance_cm = h->container_clearance_cm;
}

static void fill_path(struct vh_reading *r, const struct vh_raw_lower *raw, struct vh_planting *p)
{
    enum { STRAIGHT, ROW_END, AROUND_CONTAINERS };
    struct vh_lower_policy *lower = &p->policy.lower;

    lower->path = raw->path.good && raw->path.word == ROW_END ? VH_LOWER_ROW_END
                  : raw->path.good && raw->path.word == AROUND_CONTAINERS
                      ? VH_LOWER_AROUND_CONTAINERS
                      : VH_LOWER_STRAIGHT;
    lower->container_cm =
        raw->container_cm.good ? raw->container_cm.number : p->crop->hang.container_cm;
    if (raw->container_cm.at && lower->path != VH_LOWER_AROUND_CONTAINERS)
        vh_warn(r->messages, vh_at_key(r, raw->container_cm.at),
                "container_cm counts only with path = \"around-containers\"");
}

/* The angle, given as such or by how far ahead the hook is. */
static void fill_lean(struct vh_reading *r, const struct vh_raw_lower *raw,
                      const struct vh_param_set *rows, struct vh_planting *p)
{
    struct vh_lower_policy *lower = &p->policy.lower;
    const double rise = lower->wire_cm - lower->laid_height_cm, flat = 15.0;

    lower->lean_deg = raw->lean_deg.good ? raw->lean_deg.number : p->crop->hang.lean_deg;
    if (!raw->lean_deg.at && !raw->hook_ahead_cm.at)
        vh_default_used(r, "planting.lower.lean_deg", p, rows, "hang.lean_deg");
    if (raw->lean_deg.at && raw->hook_ahead_cm.at)
        vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_key(r, raw->hook_ahead_cm.at),
                            "[planting.lower] has `hook_ahead_cm` and, on line %lld, `lean_deg`; "
                            "keep one of them",
                            (long long)raw->lean_deg.at->line));
    if (!raw->hook_ahead_cm.good || !lower->given || !(rise > 0.0))
        return;
    const double ahead = raw->hook_ahead_cm.number;
    lower->lean_deg =
        vh_acos(ahead / sqrt(ahead * ahead + rise * rise)) * 180.0 / VH_PI; /* tan = rise/ahead */
    if (lower->lean_deg < flat)
        vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_value(r, raw->hook_ahead_cm.at->value),
                            "a hook %g cm ahead under a wire of %g m makes the stem lean to %.0f "
                            "degrees; give at most %.0f cm",
                            ahead, lower->wire_cm / CM_PER_M, lower->lean_deg,
                            rise * vh_cos(flat * VH_PI / 180.0) / vh_sin(flat * VH_PI / 180.0)));
}

static void check_lengths(struct vh_reading *r, const struct vh_raw_lower *raw,
                          const struct vh_planting *p)
{
    const struct vh_lower_policy *lower = &p->policy.lower;
    const struct vh_given *least = raw->least_cm.at ? &raw->least_cm : &raw->most_cm;
    const struct vh_given *clear =
        raw->head_clearance_cm.at ? &raw->head_clearance_cm : &raw->laid_height_cm;

    if (least->good && lower->least_cm > lower->most_cm)
        vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_value(r, least->at->value),
                            "least_cm %g is more than most_cm %g; a visit lets out between them",
                            lower->least_cm, lower->most_cm));
    if (!lower->given)
        return;
    if (clear->good && lower->head_clearance_cm + lower->laid_height_cm >= lower->wire_cm)
        vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_value(r, clear->at->value),
                            "head_clearance_cm %g and laid_height_cm %g leave no room under a wire "
                            "at %g cm (wire_height_m); give less",
                            lower->head_clearance_cm, lower->laid_height_cm, lower->wire_cm));
    if (raw->string_m.good &&
        lower->string_cm < lower->wire_cm - lower->laid_height_cm + lower->knots_cm)
        vh_spoil(r,
                 vh_fail(r->messages, VH_BAD_INPUT, vh_at_value(r, raw->string_m.at->value),
                         "a string of %g m does not reach from the wire at %g m to the stem with "
                         "its knots; give at least %g m",
                         lower->string_cm / CM_PER_M, lower->wire_cm / CM_PER_M,
                         (lower->wire_cm - lower->laid_height_cm + lower->knots_cm) / CM_PER_M));
}

void vh_scenario_fill_lower(struct vh_reading *r, const struct vh_raw_lower *raw,
                            const struct vh_param_set *rows, struct vh_planting *p)
{
    const struct vh_house *house = &r->scenario->house;
    struct vh_lower_policy *lower = &p->policy.lower;

    lower->given = !isnan(house->wire_height_m);
    lower->wire_cm = CM_PER_M * house->wire_height_m;
    lower->row_length_cm = CM_PER_M * house->row_length_m;
    lower->row_gap_cm = house->row_gap_cm;
    if (!lower->given && !raw->table)
        return; /* no wire: nothing is lowered, and nothing of it is a default in use */
    if (!lower->given)
        vh_warn(r->messages, vh_at_table(r, raw->table),
                "lowering needs wire_height_m in [house]; without it none is planned");
    fill_visits(r, raw, rows, p);
    fill_lengths(r, raw, rows, p);
    fill_path(r, raw, p);
    fill_lean(r, raw, rows, p);
    check_lengths(r, raw, p);
}
