#include "vh_minutes.h"

#include <math.h>

#define SECONDS(task, id, meaning)                                                                 \
    {                                                                                              \
        "work." task "_s", "s", VH_PARAM_NUMBER, offsetof(struct vh_work_params, seconds[id]),     \
            NULL, meaning                                                                          \
    }
#define WAIT(task, id)                                                                             \
    {                                                                                              \
        "work." task "_wait_d", "d", VH_PARAM_NUMBER,                                              \
            offsetof(struct vh_work_params, may_wait_d[id]), NULL, "days the task may wait"        \
    }
#define N(field, unit, meaning)                                                                    \
    {                                                                                              \
        "work." #field, unit, VH_PARAM_NUMBER, offsetof(struct vh_work_params, field), NULL,       \
            meaning                                                                                \
    }

// clang-format off
static const struct vh_param_field fields[] = {
    SECONDS("pollinate", VH_TASK_POLLINATE, "seconds to pollinate a stem"),
    SECONDS("sucker", VH_TASK_SUCKER, "seconds to pull the suckers of a stem"),
    SECONDS("clip", VH_TASK_CLIP, "seconds to set a clip"),
    SECONDS("thin", VH_TASK_THIN, "seconds to thin a truss"),
    SECONDS("support", VH_TASK_SUPPORT, "seconds to support a truss"),
    SECONDS("leaf", VH_TASK_LEAF, "seconds to take off a leaf"),
    SECONDS("lower", VH_TASK_LOWER, "seconds to lower a stem"),
    SECONDS("pick", VH_TASK_PICK, "seconds to pick a fruit"),
    N(pick_truss_s, "s", "seconds to pick a whole truss"),
    SECONDS("top", VH_TASK_TOP, "seconds to top a stem"),
    SECONDS("string", VH_TASK_STRING, "seconds to string a stem"),
    SECONDS("plant", VH_TASK_PLANT, "seconds to set out a plant"),
    SECONDS("pull_out", VH_TASK_PULL_OUT, "seconds to take out a plant"),
    SECONDS("clean", VH_TASK_CLEAN, "seconds to clean blades and hands before a planting"),
    SECONDS("walk", VH_TASK_WALK, "seconds to walk a row, there and back"),
    WAIT("pollinate", VH_TASK_POLLINATE),
    WAIT("sucker", VH_TASK_SUCKER),
    WAIT("clip", VH_TASK_CLIP),
    WAIT("thin", VH_TASK_THIN),
    WAIT("support", VH_TASK_SUPPORT),
    WAIT("leaf", VH_TASK_LEAF),
    WAIT("lower", VH_TASK_LOWER),
    WAIT("pick", VH_TASK_PICK),
    WAIT("top", VH_TASK_TOP),
    WAIT("string", VH_TASK_STRING),
    WAIT("plant", VH_TASK_PLANT),
    WAIT("pull_out", VH_TASK_PULL_OUT),
    N(plants_a_row, "1", "plants in a row where its length is not known"),
    N(clip_every_cm, "cm", "stem between two clips"),
    N(support_below_mol, "mol m-2 d-1", "light of a week under which trusses get a support"),
    N(top_leaves_above, "leaf", "leaves left above the last truss"),
    N(top_late_d, "d", "days before pull-out within which a topping left undone is proposed no more"),
    N(thin_least_off, "1", "fruits to take off a truss at least, else it is no work"),
    N(leaf_each, "leaf", "leaves a stem from which on a leafing is told of each stem"),
    N(top_sure, "1", "share of the futures in which that truss ripens in time"),
    N(top_near_d, "d", "days within which a proposed topping is judged"),
    N(top_step_d, "d", "days between two days that are tried for topping"),
    N(top_days_tried, "1", "days that are tried for topping"),
    N(top_futures, "1", "futures that say whether topping pays"),
    N(top_futures_first, "1", "of these, futures that find its best day"),
    N(hot_c, "degC", "a day with a hotter hour is a hot day for work"),
    N(free_by_h, "h", "hour of the day by which a label's lock must be over"),
    N(silent_d, "d", "days without a record after which it is said what is assumed"),
    N(missed_d, "d", "days without a visit after which it is made good in steps"),
    N(recover_leaves_most, "leaf", "leaves a visit when many are behind"),
    N(idle_d, "d", "days before pull-out in which no visit but a pick brings anything"),
    N(string_least_cm, "cm", "string that a lowering lets out at least, else it is none"),
    N(sucker_pinch_cm, "cm", "longer suckers are pinched first and pulled later"),
    N(sucker_warn_cm, "cm", "longer suckers are warned of"),
    N(delivery_d, "d", "days from an order to its delivery"),
};
// clang-format on

const struct vh_param_field *vh_work_param_fields(size_t *count)
{
    *count = sizeof fields / sizeof fields[0];
    return fields;
}

double vh_task_seconds(const struct vh_work_params *book, const struct vh_labour *labour,
                       enum vh_task task, bool whole_truss)
{
    if (labour && !isnan(labour->seconds[task]))
        return labour->seconds[task];
    return task == VH_TASK_PICK && whole_truss ? book->pick_truss_s : book->seconds[task];
}

const char *vh_supply_name(enum vh_supply item)
{
    static const char *const name[VH_SUPPLIES] = {"clips", "string", "hooks", "truss supports"};

    return name[item];
}
