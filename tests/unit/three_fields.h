/* three_fields.h - a small struct of parameters with its descriptor list, as every group of the
 * model has one: two numbers and a choice, and good rows for them. For tests and fuzzers. */
#ifndef THREE_FIELDS_H
#define THREE_FIELDS_H

#include <stddef.h>

#include "vh_param.h"

struct target {
    double rate_per_d, mass_g;
    int by;
};

static const struct vh_param_field fields[] = {
    {"truss.rate", "truss d-1", VH_PARAM_NUMBER, offsetof(struct target, rate_per_d), NULL,
     "trusses a day"},
    {"fruit.mass", "g", VH_PARAM_NUMBER, offsetof(struct target, mass_g), NULL, "usual fruit"},
    {"pick.by", "1", VH_PARAM_CHOICE, offsetof(struct target, by), "stage|mass", "what picks"},
};
enum { FIELDS = sizeof fields / sizeof fields[0] };

#define HEADER "name,value,unit,low,high,basis,source,place,note\n"
#define MASS "fruit.mass,100,g,50,150,assumed,,,\n"
#define BY "pick.by,mass,1,,,common practice,,,\n"
#define SOURCES "key,authors,year,title,journal,doi,read\n"

#endif
