#include "vh_house.h"

bool vh_bees_spoil(const struct vh_crop *crop)
{
    return crop->flower.unvisited_share >= 1.0 && crop->spoil.misshapen_bees > 0.0;
}

bool vh_stand_together(const struct vh_planting *a, const struct vh_planting *b)
{
    return a->set_out < b->pull_out && b->set_out < a->pull_out;
}

bool vh_house_has_bees(const struct vh_house *house, int64_t day)
{
    for (size_t i = 0; i < house->plantings; i++) {
        const struct vh_planting *p = &house->planting[i];
        if (p->policy.pollination == VH_POLLINATION_BEES && p->set_out <= day && day <= p->pull_out)
            return true;
    }
    return false;
}
