/* How much of the light above the crop is reckoned with. */
#include "vh_result.h"

double vh_scenario_light_factor(const struct vh_scenario *s)
{
    const struct vh_house *h = &s->house;
    if (h->light_factor_given)
        return h->light_factor;
    return h->climate.light_from_log ? s->house_params.light_factor_log
                                     : s->house_params.light_factor_outlook;
}
