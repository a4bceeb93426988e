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
    SECONDS("pick", VH_TASK_PICK, "seconds to pick a kilogram"),
    SECONDS("top", VH_TASK_TOP, "seconds to top a stem"),
    SECONDS("string", VH_TASK_STRING, "seconds to string a stem"),
    SECONDS("plant", VH_TASK_PLANT, "seconds to set out a plant"),
    SECONDS("pull_out", VH_TASK_PULL_OUT, "seconds to take out a plant"),
    SECONDS("clean", VH_TASK_CLEAN, "seconds to clean blades and hands"),
    SECONDS("walk", VH_TASK_WALK, "seconds to walk to a planting and along it"),
    WAIT("pollinate", VH_TASK_POLLINATE), WAIT("sucker", VH_TASK_SUCKER), WAIT("clip", VH_TASK_CLIP),
    WAIT("thin", VH_TASK_THIN), WAIT("support", VH_TASK_SUPPORT), WAIT("leaf", VH_TASK_LEAF),
    WAIT("lower", VH_TASK_LOWER), WAIT("pick", VH_TASK_PICK), WAIT("top", VH_TASK_TOP),
    WAIT("string", VH_TASK_STRING), WAIT("plant", VH_TASK_PLANT), WAIT("pull_out", VH_TASK_PULL_OUT),
    N(clip_every_cm, "cm", "stem between two clips"),
    N(support_below_mol, "mol m-2 d-1", "weekly light under which trusses get a support"),
    N(pick_at_end_d, "d", "least time a truss needs before pull-out"),
    N(top_leaves_above, "leaf", "leaves left above the last truss"),
    N(silent_d, "d", "days without a record after which the program says what it assumes"),
    N(recover_leaves_most, "leaf", "leaves a visit when many are behind"),
    N(sucker_pinch_cm, "cm", "suckers longer than this: tip first, pulled at the next visit"),
    N(sucker_warn_cm, "cm", "suckers longer than this are warned of"),
    N(delivery_d, "d", "days from an order to its delivery"),
};
// clang-format on

const struct vh_param_field *vh_work_param_fields(size_t *count)
{
    *count = sizeof fields / sizeof fields[0];
    return fields;
}

const char *vh_supply_name(enum vh_supply item)
{
    static const char *const name[VH_SUPPLIES] = {"clips", "string", "hooks", "truss supports"};

    return name[item];
}

double vh_task_seconds(const struct vh_work_params *book, const struct vh_labour *labour,
                       enum vh_task task)
{
    return labour && !isnan(labour->seconds[task]) ? labour->seconds[task] : book->seconds[task];
}
