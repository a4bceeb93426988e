/* What can be explained: the items of the records, each as it is noted. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "explain_parts.h"
#include "record_parts.h"

static const char *const meaning[VH_RECORD_ITEMS] = {
    [VH_RECORD_PICKED_KG] = "mass picked that day of the whole planting",
    [VH_RECORD_PICKED_FRUITS] = "fruits picked that day of the whole planting",
    [VH_RECORD_UNMARKETABLE_KG] = ("thrown away of that day's pick, cracked, rotten or misshapen; "
                                   "without one that day, since the last such entry"),
    [VH_RECORD_ROT_KG] = "of it rotten",
    [VH_RECORD_FRUIT_G] = "mean mass of a fruit; of: how many were weighed",
    [VH_RECORD_FLOWERING_TRUSS] =
        "number of the newest truss (node) in flower, whole on each stem, mean of the stems looked "
        "at: half a truss less than flowering_truss of stem.csv and of [planting.standing]",
    [VH_RECORD_PICKING_TRUSS] =
        "number of the truss (node) being picked, mean of the stems looked at",
    [VH_RECORD_FRUITS_SET] = "fruits set on the truss, before any is taken off",
    [VH_RECORD_FRUITS_LEFT] = "fruits left on the truss after thinning",
    [VH_RECORD_BREAKER_FRUITS] = "fruits of a stem at breaker: the first colour shows",
    [VH_RECORD_TURNING_FRUITS] =
        "fruits of a stem that are turning: a tenth to three tenths coloured",
    [VH_RECORD_FRUIT_MM] = "thickness of the fruits of the truss",
    [VH_RECORD_LEAVES_ON_STEM] = "leaves on a stem",
    [VH_RECORD_LEAVES_MADE] = "leaves a stem has made since it was sown, those taken off too",
    [VH_RECORD_STEM_CM] = "length of the whole stem",
    [VH_RECORD_STEM_GROWTH_CM] = "what the stem has grown since the last such entry",
    [VH_RECORD_STEM_MM] = "thickness of the stem 15 cm below the tip",
    [VH_RECORD_FLOWER_TO_PICK_D] = "days from the flower to the pick of a truss",
    [VH_RECORD_LOWERED_CM] = "how far the stems were lowered that day",
    [VH_RECORD_PULLED_SUCKER_CM] = "length of the longest side shoot that was pulled",
    [VH_RECORD_STRING_LEFT_M] = "string left on the hook",
    [VH_RECORD_PLANTS_LOST] = "plants that died or were taken out that day",
    [VH_RECORD_SOLD_KG] = "mass sold that day",
    [VH_RECORD_LEFT_KG] = "mass left unsold that day",
    [VH_RECORD_MINUTES] = "minutes that the task took that day in the whole planting",
    [VH_RECORD_DONE] = "a visit done (1), left undone (0) or a share of it",
};

/* A number that such an entry could have. */
static const char *usual(enum vh_record_item item)
{
    const bool is_count = item == VH_RECORD_PICKED_FRUITS || item == VH_RECORD_PLANTS_LOST;

    return is_count                    ? "4"
           : item == VH_RECORD_DONE    ? "0"
           : item == VH_RECORD_FRUIT_G ? "142"
                                       : "4.2";
}

/* task: of minutes_ and done_, by its name; else "". */
static enum vh_status give_item(enum vh_record_item item, const char *task, vh_meaning_take take,
                                void *context)
{
    const struct vh_item_kind *k = vh_item_kind(item);
    char name[VH_MEANING_ROOM], example[VH_MEANING_ROOM], note[VH_MEANING_ROOM] = "";
    struct vh_meaning m = vh_meaning_empty();

    snprintf(name, sizeof name, "%.60s%.20s", k->name, task);
    snprintf(example, sizeof example, "vinehand note slicers %.60s %s%s%s", name, usual(item),
             k->by_truss ? " --truss 12" : "",
             item == VH_RECORD_FRUIT_G ? " --of 20"
             : k->by_stem              ? " --of 5"
                                       : "");
    m.what = "item";
    m.name = m.alone = name;
    m.list = "items";
    m.where = "records.csv";
    m.kind = "number";
    m.unit = item == VH_RECORD_MINUTES ? "min" : vh_unit_of_name(name);
    m.low = 0.0;
    m.high = item == VH_RECORD_DONE ? 1.0 : k->most > 0.0 ? k->most : (double)NAN;
    vh_other_units_said(name, false, note);
    if (k->of_planting && k->most > 0.0)
        snprintf(note + strlen(note), sizeof note - strlen(note), "%sthe most is for each plant",
                 note[0] ? "; " : "");
    m.note = note;
    m.other_units = item < VH_RECORD_MINUTES;
    m.example = example;
    m.meaning = meaning[item];
    m.used_in = "model/house/vh_record.h";
    return take(context, &m);
}

enum vh_status vh_meanings_of_items(vh_meaning_take take, void *context)
{
    struct vh_meaning m = vh_meaning_empty();

    m.what = "group";
    m.name = m.alone = "items";
    m.where = "records.csv";
    m.meaning = "what may be noted of a planting, in these units or in others: picked_lb, fruit_oz";
    m.used_in = "model/house/vh_record.h";
    enum vh_status status = take(context, &m);
    for (int i = 0; i < VH_RECORD_MINUTES && status == VH_OK; i++)
        status = give_item((enum vh_record_item)i, "", take, context);
    for (int i = VH_RECORD_MINUTES; i < VH_RECORD_ITEMS; i++)
        for (int task = 0; task < VH_TASKS && status == VH_OK; task++)
            status =
                give_item((enum vh_record_item)i, vh_task_name((enum vh_task)task), take, context);
    return status;
}
