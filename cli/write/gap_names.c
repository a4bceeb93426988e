#include "vh_gap_names.h"

#include <stdio.h>
#include <string.h>

void vh_gap_name(const struct vh_table *summary, const char *crop, char said[VH_GAP_NAME])
{
    size_t used = 0;

    snprintf(said, VH_GAP_NAME, "%s", crop);
    for (size_t i = 0; summary && i < vh_table_rows(summary); i++) {
        if (strcmp(vh_cell_text(summary, i, "crop"), crop) != 0)
            continue;
        const int wrote = snprintf(said + used, VH_GAP_NAME - used, "%s%s", used ? ", " : "",
                                   vh_cell_text(summary, i, "planting"));
        if (wrote < 0 || (size_t)wrote >= VH_GAP_NAME - used) { /* too many: the crop is one name */
            snprintf(said, VH_GAP_NAME, "%s", crop);
            return;
        }
        used += (size_t)wrote;
    }
}
