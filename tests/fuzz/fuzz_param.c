/* fuzz_param.c - any bytes as a parameter file, laid over a good base, with known sources. */
#include <math.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

#include "../unit/three_fields.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static const char good_base[] =
    HEADER "truss.rate,0.15,truss d-1,0.1,0.2,published,a2000,table 1,\n" MASS BY;
static const char good_sources[] = SOURCES "a2000,A,2000,T,J,,whole\nb2001,B,2001,T,J,,abstract\n";

static void write_file(const char *path, const void *bytes, size_t n)
{
    FILE *f = fopen(path, "wb");
    if (f == NULL || fwrite(bytes, 1, n, f) != n || fclose(f) != 0)
        abort();
}

/* The file system is the reader's only entry, so this target works in a folder of its own. */
static char folder[] = "/tmp/vh-fuzz-XXXXXX", file[64], list[64];
static struct vh_sources *sources;

static void begin(void)
{
    if (mkdtemp(folder) == NULL)
        abort();
    snprintf(file, sizeof file, "%s/base1.csv", folder);
    write_file(file, good_base, sizeof good_base - 1);
    snprintf(list, sizeof list, "%s/sources.csv", folder);
    write_file(list, good_sources, sizeof good_sources - 1);
    if (vh_sources_read(list, NULL, &sources, NULL) != VH_OK)
        abort();
    snprintf(file, sizeof file, "%s/x.csv", folder);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    if (file[0] == '\0')
        begin();
    write_file(file, data, size);
    if (size > 0 && data[0] == 'k') { /* a list of sources begins with key */
        struct vh_sources *own = NULL;
        (void)vh_sources_read(file, NULL, &own, NULL);
        vh_sources_free(own);
    }
    struct vh_messages *m = vh_messages_create();
    struct target t = {0};
    struct vh_param_set set = {NULL, 0};
    const enum vh_status status =
        vh_param_read(folder, "x", fields, FIELDS, sources, NULL, &t, &set, m);
    if ((status == VH_OK) != (vh_messages_count_of(m, VH_ERROR) == 0))
        abort();
    if (status == VH_OK && (set.rows != FIELDS || isnan(t.rate_per_d) || t.by < 0 || t.by > 1))
        abort();
    vh_param_set_clear(&set);
    vh_messages_free(m);
    return 0;
}
