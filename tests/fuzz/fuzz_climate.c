/* fuzz_climate.c - any bytes as a house log, an outside file or monthly normals; the first byte
 * chooses which, and the clock and format the scenario tells. Never a crash, an hour without a
 * number, or a refusal without a reason. */
#include <math.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

#include "../unit/may_house.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

enum {
    IS_OUTSIDE = 1,
    IS_NORMALS = 2,
    COMMA = 4,
    US_CLOCK = 8,
    EU_CLOCK = 16,
    PATTERN = 32,
    MAPPED = 64
};

static void check(const struct vh_climate *c, enum vh_status status, const struct vh_messages *m)
{
    if (status != VH_OK) {
        if (vh_messages_count_of(m, VH_ERROR) == 0 || c->t_c != NULL)
            abort();
        return;
    }
    for (size_t h = 0; h < c->days * VH_HOURS_PER_DAY; h++) {
        if (!(c->t_c[h] > -60.0 && c->t_c[h] < 100.0))
            abort();
        if (!(c->par_umol_m2_s[h] >= 0.0 && c->par_umol_m2_s[h] < 1e5))
            abort();
        if (!(c->co2_ppm[h] >= 100.0 && c->co2_ppm[h] <= 5000.0))
            abort();
    }
}

static void run(const uint8_t *data, size_t size, uint8_t choice, const char *path)
{
    char name[64], pattern[] = "%m/%d/%y %I:%M %p", ours[] = "t_air_f", theirs[] = "Temp",
                   shown[] = "x.csv";
    struct vh_column_map map = {ours, theirs, false, {NULL, 0, 0, NULL}};
    struct vh_file_name file = {name, shown};
    struct vh_climate_request r = may_request();

    r.last_day = FIRST_OF_MAY + 30;
    r.today = FIRST_OF_MAY + 26;
    r.log_clock = choice & US_CLOCK   ? VH_CLOCK_US
                  : choice & EU_CLOCK ? VH_CLOCK_EU
                                      : VH_CLOCK_STANDARD;
    r.heat_loss_w_k = 900;
    r.lamps_umol_m2_s = 100;
    r.lamps_on_h = 20;
    r.lamps_off_h = 4;
    r.decimal = choice & COMMA ? ',' : '\0';
    r.time_pattern = choice & PATTERN ? pattern : NULL;
    snprintf(name, sizeof name, "%s", path);
    if (choice & MAPPED) {
        r.log_column = &map;
        r.log_columns = 1;
    }
    if (choice & IS_OUTSIDE) {
        r.outside = file;
    } else if (choice & IS_NORMALS) {
        r.normals = file;
    } else {
        r.log = &file;
        r.logs = 1;
    }
    FILE *f = fopen(path, "wb");
    if (!f)
        return;
    fwrite(data, 1, size, f);
    fclose(f);
    struct vh_messages *m = vh_messages_create();
    struct vh_climate c;
    const enum vh_status status = vh_climate_read(&r, &may_params, NULL, &c, m);
    check(&c, status, m);
    vh_climate_clear(&c);
    vh_messages_free(m);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    char path[64];

    if (size < 1)
        return 0;
    snprintf(path, sizeof path, "/tmp/fuzz-climate-%ld.csv", (long)getpid());
    run(data + 1, size - 1, data[0], path);
    unlink(path);
    return 0;
}
