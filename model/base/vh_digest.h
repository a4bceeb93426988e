/* vh_digest.h - SHA-256 (FIPS 180-4) of what was read, for run.json. */
#ifndef VH_DIGEST_H
#define VH_DIGEST_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

struct vh_digest {
    uint32_t h[8];
    uint64_t bytes;
    unsigned char block[64];
    bool fast; /* by the machine's own instructions, with the same bits */
};

void vh_digest_init(struct vh_digest *d);
void vh_digest_add(struct vh_digest *d, const void *bytes, size_t n);
/* Writes 64 hex digits and a 0. */
void vh_digest_text(const struct vh_digest *d, char text[65]);

#endif
