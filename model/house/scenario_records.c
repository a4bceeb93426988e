/* [records]: which file, whose columns; and the file itself. */
#include "scenario_parts.h"

void vh_scenario_fill_records(struct vh_reading *r, enum vh_status plantings)
{
    const struct vh_raw_records *raw = &r->root.records;
    struct vh_house *h = &r->scenario->house;
    const bool is_read = !r->scenario->options.no_records;

    h->records.last_day = INT64_MIN;
    if (!raw->table || !raw->file.good)
        return;
    h->records.given = true;
    h->records.place = vh_at_value(r, raw->file.at->value);
    const enum vh_status before = r->status;
    r->status = VH_OK;
    vh_scenario_fill_file(r, raw->file.at->value, is_read, &h->records.file);
    vh_scenario_fill_columns(r, &raw->columns, &h->records.map, &h->records.maps);
    const bool is_there = r->status == VH_OK;
    vh_spoil(r, before);
    if (!is_read || plantings < 0 || !is_there)
        return;
    vh_spoil(r, vh_records_read(h, &r->parameters->record, &r->digest, r->messages));
}
