#include "vh_learnt_names.h"

#include <stdio.h>
#include <string.h>

static const struct {
    const char *name, *called;
} names[] = {
    {"light", "light on the crop"},
    {"truss_pace", "truss pace"},
    {"fruit_pace", "ripening pace"},
    {"fruit_mass", "fruit mass"},
    {"set", "fruit set"},
    {"stem_pace", "stem growth"},
    {"sucker_pace", "sucker growth"},
    {"marketable", "fruit for sale"},
    {VH_LEARNT_OFFSET, "air against the log"},
};

static const char *called(const char *name, size_t n)
{
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++)
        if (strlen(names[i].name) == n && strncmp(names[i].name, name, n) == 0)
            return names[i].called;
    return NULL;
}

void vh_learnt_name(const struct vh_table *learned, size_t row, enum vh_say_units units,
                    char said[VH_LEARNT_ROOM])
{
    const char *name = vh_cell_text(learned, row, "name"), *word = called(name, strlen(name));
    const char *planting = vh_cell_text(learned, row, "planting");
    const bool is_offset = strcmp(name, VH_LEARNT_OFFSET) == 0;

    snprintf(said, VH_LEARNT_ROOM, "%s%s%s%.60s", word ? word : name,
             !is_offset             ? ""
             : units == VH_SAY_US ? ", F"
                                  : ", C",
             planting[0] ? ", " : "", planting);
}

double vh_learnt_degrees(double kelvin, enum vh_say_units units)
{
    const double f_per_k = 9.0 / 5.0;

    return units == VH_SAY_US ? f_per_k * kelvin : kelvin;
}

void vh_learnt_mistaken(const struct vh_table *learned, size_t row, char said[VH_LEARNT_ROOM])
{
    static const char before[] = "no: with ";
    const char *at = vh_cell_text(learned, row, "told_apart");
    bool is_first = true;

    said[0] = 0;
    if (strncmp(at, before, sizeof before - 1) != 0)
        return;
    at += sizeof before - 1;
    while (*at) {
        const size_t all = strcspn(at, ","), n = strcspn(at, ", ");
        const char *word = called(at, n);
        const size_t used = strlen(said);
        snprintf(said + used, VH_LEARNT_ROOM - used, "%s%s%.*s", is_first ? "" : " or ",
                 word ? word : "", (int)(all - n), at + n);
        is_first = false;
        at += all;
        at += strspn(at, ", ");
    }
}
