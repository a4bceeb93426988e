/* vh_houses_summary.h - how a run over many houses came out. */
#ifndef VH_HOUSES_SUMMARY_H
#define VH_HOUSES_SUMMARY_H

#include <stddef.h>
#include <stdint.h>
#include <stdio.h>

struct vh_houses_facts {
    int64_t today;
    size_t houses, done, there, wrong, failed;
    int ranks;
    const char *out;
};

void vh_summary_houses(FILE *to, const struct vh_houses_facts *facts);

#endif
