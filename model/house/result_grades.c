/* Where the size classes of each planting begin, as the mass of a fruit: the charts of fruit mass
 * show these limits. */
#include <math.h>

#include "vh_math.h"
#include "vh_result.h"

/* Fruit of a limit given as a diameter: mass = a D^e, as the plant has it. */
static double mass_at(const struct vh_grades *g, double limit, const struct vh_fruit_params *f)
{
    if (g->measure == VH_GRADE_MASS_G)
        return limit;
    return limit > 0.0 ? f->mass_a_g * vh_pow(limit, f->mass_exponent) : 0.0;
}

enum vh_status vh_result_add_grades(struct vh_table *t, const struct vh_house *h)
{
    const struct vh_market *m = &h->market;

    for (size_t k = 0; m->given && k < h->plantings; k++) {
        const struct vh_grades *g = m->good[m->good_of[k]].grades;
        for (size_t i = 0; g && i < g->grades; i++) {
            if (vh_table_add_row(t) != VH_OK ||
                vh_table_set_text(t, 0, h->planting[k].name) != VH_OK ||
                vh_table_set_text(t, 1, g->grade[i].name) != VH_OK)
                return VH_NO_MEMORY;
            vh_table_set_number(t, 2, mass_at(g, g->grade[i].from, &h->planting[k].crop->fruit));
        }
    }
    return VH_OK;
}
