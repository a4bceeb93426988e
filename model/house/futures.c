#include "vh_futures.h"

#define NUMBER(field, unit_text, words)                                                            \
    {                                                                                              \
        "futures." #field, unit_text, VH_PARAM_NUMBER, offsetof(struct vh_futures_params, field),  \
            NULL, words                                                                            \
    }

static const struct vh_param_field fields[] = {
    NUMBER(members, "1", "futures computed where nothing else is said"),
    NUMBER(temperature_sd_c, "K", "scatter of a day's outside temperature about the usual"),
    NUMBER(persistence, "1", "share of it that is still there on the next day"),
    NUMBER(clearness_sd, "1", "scatter of the logarithm of a day's light about the usual"),
    NUMBER(visit_delay_d, "d", "mean delay of a visit to the leaves"),
    NUMBER(fit_days, "d", "measured days before their own scatter is used instead"),
    NUMBER(light_cv, "1", "scatter of the light factor that nobody measured"),
    NUMBER(light_given_cv, "1", "scatter of the light factor where the scenario gives it"),
    NUMBER(truss_pace_cv, "1", "scatter of how fast trusses or nodes come"),
    NUMBER(fruit_pace_cv, "1", "scatter of how fast fruit ripens"),
    NUMBER(fruit_mass_cv, "1", "scatter of the mass a fruit can reach"),
    NUMBER(set_cv, "1", "scatter of fruit set"),
    NUMBER(stem_pace_cv, "1", "scatter of how fast the stem lengthens"),
    NUMBER(sucker_pace_cv, "1", "scatter of how fast suckers grow"),
    NUMBER(marketable_cv, "1", "scatter of the share that can be sold"),
    NUMBER(choice_cv, "1", "scatter of what a choice does to the season's mass"),
    NUMBER(overlooked_cv, "1", "scatter of the share of suckers missed at a visit"),
    NUMBER(stray_sd, "1", "how far picks stray from the model for weeks, as a share"),
    NUMBER(unsteady_cv, "1", "scatter between houses of how far picks stray"),
    NUMBER(stray_d, "d", "days over which a third of that is left"),
    NUMBER(hindcast_members, "1", "futures of a forecast that is made again, at most"),
    NUMBER(hindcast_within, "1", "a forecast so near to what came is told as met"),
    NUMBER(naive_errors, "1", "weeks before a naive forecast is given the spread of its own errors"),
    NUMBER(naive_range, "1", "its 80 % interval before that, either way"),
    NUMBER(log_offset_sd_c, "K", "what the log's thermometer may be off by, one standard deviation"),
};

const struct vh_param_field *vh_futures_param_fields(size_t *count)
{
    *count = sizeof fields / sizeof fields[0];
    return fields;
}
