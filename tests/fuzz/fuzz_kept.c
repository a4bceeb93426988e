/* fuzz_kept.c - any bytes as factors carried over from another season, read into a house of two
 * plantings: what is taken is a factor that plants can have, and a refusal says why. */
#include <math.h>
#include <stdint.h>
#include <stdlib.h>

#include "vh_house.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static void demand(int holds)
{
    if (!holds)
        abort();
}

static void look(const struct vh_kept kept[VH_KEPT_KINDS], int is_house)
{
    for (int k = 0; k < VH_KEPT_KINDS; k++) {
        if (!kept[k].given)
            continue;
        demand(vh_kept_is_of_house((enum vh_kept_kind)k) == (is_house != 0));
        demand(kept[k].sd > 0.0 && isfinite(kept[k].sd));
        if (k == VH_KEPT_LOG_OFFSET)
            demand(fabs(kept[k].mean) <= 10.0);
        else
            demand(kept[k].mean >= 0.05 && kept[k].mean <= 20.0);
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    char first[] = "slicers", second[] = "b c", large[] = "tomato-large",
         cucumber[] = "cucumber-long";
    struct vh_planting planting[2] = {{.name = first, .crop_name = large},
                                      {.name = second, .crop_name = cucumber}};
    struct vh_house house = {.planting = planting, .plantings = 2};
    struct vh_messages *m = vh_messages_create();
    const enum vh_status status =
        vh_kept_read_memory(&house, (const char *)data, size, "kept.csv", m);

    demand((status == VH_BAD_INPUT) == (vh_messages_count_of(m, VH_ERROR) > 0));
    look(house.kept, 1);
    look(planting[0].kept, 0);
    look(planting[1].kept, 0);
    vh_messages_free(m);
    return 0;
}
