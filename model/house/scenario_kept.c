/* [parameters] file: factors that another season taught. */
#include "scenario_parts.h"

void vh_scenario_fill_kept(struct vh_reading *r, enum vh_status plantings)
{
    const struct vh_given *file = &r->root.parameters.file;
    struct vh_house *h = &r->scenario->house;

    if (!file->good)
        return;
    const enum vh_status before = r->status;
    r->status = VH_OK;
    vh_scenario_fill_file(r, file->at->value, true, &h->kept_file);
    const bool is_there = r->status == VH_OK;
    vh_spoil(r, before);
    if (plantings < 0 || !is_there)
        return;
    vh_spoil(r, vh_kept_read(h, h->kept_file.path, h->kept_file.shown, &r->digest, r->messages));
}
