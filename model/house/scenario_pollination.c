/* What pollinates: as the planting says, else as its crop and its neighbours let. */
#include "scenario_parts.h"

enum { HAND, BEES, NONE }; /* words of planting.pollination.by */

static void pollinate_by(struct vh_reading *r, const struct vh_raw_pollination *raw,
                         const struct vh_param_set *rows, struct vh_planting *p, int by)
{
    const struct vh_flower_params *flower = &p->crop->flower;
    const double full = 1.0;
    struct vh_policy *policy = &p->policy;

    policy->pollination = by == HAND   ? VH_POLLINATION_HAND
                          : by == BEES ? VH_POLLINATION_BEES
                                       : VH_POLLINATION_NONE;
    policy->bees_share = p->plants < flower->bees_small_plants ? flower->bees_small_share : full;
    vh_rhythm_check(r, "planting.pollination", &raw->every_d, &raw->days);
    vh_rhythm_fill(&raw->every_d, &raw->days, p->crop->habit.pollination_d,
                   &policy->pollination_visit);
    if (by == HAND && !raw->every_d.at && !raw->days.at)
        vh_default_used(r, "planting.pollination.every_d", p, rows, "habit.pollination_d");
    if (raw->by.at && by == HAND && flower->unvisited_share >= full)
        vh_warn(r->messages, vh_at_value(r, raw->by.at->value),
                "%s sets fruit without pollination; these visits change nothing", p->crop_name);
    if (by != HAND && (raw->every_d.at || raw->days.at))
        vh_warn(r->messages, vh_at_key(r, raw->every_d.at ? raw->every_d.at : raw->days.at),
                "visits for pollination count only with by = \"hand\"");
}

static int usual(const struct vh_planting *p)
{
    return p->crop->habit.bees != 0 ? BEES : NONE;
}

void vh_scenario_fill_pollination(struct vh_reading *r, const struct vh_raw_pollination *raw,
                                  const struct vh_param_set *rows, struct vh_planting *p)
{
    if (raw->by.at)
        pollinate_by(r, raw, rows, p, raw->by.good ? raw->by.word : usual(p));
}

/* From planting `from` on, the first that stands with p and whose fruit bees spoil; NULL: none. */
static const struct vh_planting *spoilt_beside(const struct vh_house *h,
                                               const struct vh_planting *p, size_t *from)
{
    while (*from < h->plantings) {
        const struct vh_planting *other = &h->planting[(*from)++];
        if (other->crop && vh_bees_spoil(other->crop) && vh_stand_together(other, p))
            return other;
    }
    return NULL;
}

/* Who grows seedless fruit keeps no bees, so what needs them is pollinated by hand there. */
static void pollinate_as_usual(struct vh_reading *r, const struct vh_raw_planting *raw,
                               struct vh_planting *p)
{
    const struct vh_crop_file *file = vh_scenario_find_crop(r, &raw->crop);
    const struct vh_param_set *rows = vh_scenario_crop_rows(r->scenario, file);
    const struct vh_param_row *row = vh_param_find(rows, "habit.bees");
    size_t from = 0;
    const int by =
        usual(p) == BEES && spoilt_beside(&r->scenario->house, p, &from) ? HAND : usual(p);

    if (row)
        vh_default_row_used(r, "planting.pollination.by", p, row,
                            by == HAND   ? "hand"
                            : by == BEES ? "bees"
                                         : "none");
    pollinate_by(r, &raw->pollination, rows, p, by);
}

static void warn_of_bees(struct vh_reading *r, const struct vh_given *by,
                         const struct vh_planting *p)
{
    const struct vh_planting *other;

    for (size_t from = 0; (other = spoilt_beside(&r->scenario->house, p, &from));)
        vh_warn(r->messages, vh_at_value(r, by->at->value),
                "bees in a house with %s: %s must have none, its fruit turns misshapen, seeded and"
                " bitter; pollinate by hand, or keep the two apart",
                other->name, other->crop_name);
}

void vh_scenario_settle_pollination(struct vh_reading *r, const struct vh_raw_planting *raw)
{
    const struct vh_house *h = &r->scenario->house;

    for (size_t i = 0; i < h->plantings; i++) {
        const struct vh_given *by = &raw[i].pollination.by;
        struct vh_planting *p = &h->planting[i];
        if (!p->crop)
            continue;
        if (!by->at)
            pollinate_as_usual(r, &raw[i], p);
        else if (by->good && by->word == BEES)
            warn_of_bees(r, by, p);
    }
}
