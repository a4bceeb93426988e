#include "climate_parts.h"

#include <string.h>

#define JOINED_MAX 128

int64_t vh_floor_day(int64_t minute)
{
    return minute / VH_MINUTES_PER_DAY - (minute % VH_MINUTES_PER_DAY < 0);
}

struct stamp {
    int64_t wall;
    bool has_offset, has_time;
    int offset_min;
};

static bool parse(const struct vh_row_clock *clock, const char *text, size_t length,
                  struct stamp *s)
{
    if (vh_time_parse(text, length, clock->pattern, &s->wall, &s->has_offset, &s->offset_min,
                      &s->has_time) == VH_OK)
        return true;
    return clock->pattern && clock->may_be_iso &&
           vh_time_parse(text, length, NULL, &s->wall, &s->has_offset, &s->offset_min,
                         &s->has_time) == VH_OK;
}

/* Loggers that split date and time of day into two columns: read as one text with a blank. */
static bool parse_joined(const struct vh_row_clock *clock, const struct vh_csv_cell *date,
                         const struct vh_csv_cell *time, struct stamp *s)
{
    char text[JOINED_MAX];

    if (!date->text || date->length + time->length + 2 > sizeof text)
        return false;
    memcpy(text, date->text, date->length);
    text[date->length] = ' ';
    memcpy(text + date->length + 1, time->text, time->length);
    text[date->length + 1 + time->length] = '\0';
    return parse(clock, text, date->length + 1 + time->length, s);
}

/* The doubled hour of autumn: the order of rows tells its first from its second pass. */
static bool is_second_pass(struct vh_row_clock *clock, int64_t wall)
{
    const int64_t day = vh_floor_day(wall);

    if (!clock->in_doubled || clock->doubled_day != day) {
        clock->in_doubled = true;
        clock->doubled_day = day;
        clock->descending =
            clock->any && clock->last_wall > wall && clock->last_wall - wall < VH_MINUTES_PER_DAY;
        clock->second = clock->descending; /* newest first: the later pass comes first */
    } else if (clock->descending ? wall >= clock->last_wall && clock->second
                                 : wall <= clock->last_wall && !clock->second) {
        clock->second = !clock->second;
    }
    return clock->second;
}

enum vh_row_time vh_row_clock_read(struct vh_row_clock *clock, const struct vh_csv_cell *date,
                                   const struct vh_csv_cell *time, int64_t *minute, bool *is_date)
{
    struct stamp s = {0, false, false, 0};
    const struct vh_csv_cell *cell = time && time->text ? time : date;

    if (!cell || !cell->text)
        return VH_TIME_BAD;
    if (!parse(clock, cell->text, cell->length, &s) &&
        !(cell == time && date && parse_joined(clock, date, time, &s)))
        return VH_TIME_BAD;

    *is_date = !s.has_time;
    if (s.has_offset) {
        *minute = s.wall - s.offset_min + clock->utc_offset_min;
        return VH_TIME_GOOD;
    }
    *minute = s.wall;
    if (!s.has_time || clock->rule == VH_CLOCK_STANDARD)
        return VH_TIME_GOOD;

    bool doubled = false, missing = false;
    int ahead = vh_clock_ahead_min(clock->rule, clock->utc_offset_min, s.wall, &doubled, &missing);
    if (doubled)
        ahead = is_second_pass(clock, s.wall) ? 0 : VH_MINUTES_PER_HOUR;
    else
        clock->in_doubled = false;
    clock->any = true;
    clock->last_wall = s.wall;
    *minute = s.wall - ahead;
    return missing ? VH_TIME_MISSING_HOUR : VH_TIME_GOOD;
}
