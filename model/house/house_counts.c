#include <string.h>

#include "vh_house.h"

bool vh_house_counts(const struct vh_house *house, const struct vh_planting *p)
{
    const struct vh_market *m = &house->market;

    for (size_t i = 0; m->given && m->good_of && i < house->plantings; i++)
        if (strcmp(house->planting[i].name, p->name) == 0)
            return m->good[m->good_of[i]].sold_by == VH_SELL_EACH;
    return p->crop && p->crop->habit.sold_by == VH_SOLD_BY_FRUIT;
}
