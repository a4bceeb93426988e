/* fuzz_toml.c - any bytes as a scenario file: never a crash, and a refusal always says why. */
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include "vh_toml.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

/* Touches every byte that the reader hands out. */
static size_t walk(const struct vh_toml_value *v)
{
    size_t sum = 0;
    if (v->kind == VH_TOML_TEXT)
        for (const char *p = v->text; *p; p++)
            sum += (unsigned char)*p;
    for (size_t i = 0; i < v->items; i++)
        sum += walk(v->item[i]);
    for (const struct vh_toml_entry *e = v->first; e != NULL; e = e->next) {
        if (vh_toml_find(v, e->key) != e)
            abort(); /* a key that stands twice */
        sum += walk(e->value);
    }
    return sum;
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct vh_messages *m = vh_messages_create();
    struct vh_toml *t = NULL;
    const enum vh_status status = vh_toml_parse((const char *)data, size, "fuzz.toml", &t, m);
    const size_t errors = vh_messages_count_of(m, VH_ERROR);
    if ((status == VH_OK) != (errors == 0) || (status == VH_OK) != (t != NULL) || errors > 20)
        abort();
    volatile size_t sink = 0;
    if (t != NULL) {
        sink = walk(vh_toml_root(t));
        for (int64_t line = 1; vh_toml_line(t, line) != NULL; line++)
            sink += (unsigned char)vh_toml_line(t, line)[0];
    }
    (void)sink;
    vh_toml_free(t);
    vh_messages_free(m);
    return 0;
}
