#include "digest_parts.h"

#include <string.h>

/* FIPS 180-4 section 5.3.3: the first 32 bits after the point of the square roots of the first 8
 * primes (computed from that definition). */
static const uint32_t square_roots[8] = {
    0x6a09e667u, 0xbb67ae85u, 0x3c6ef372u, 0xa54ff53au,
    0x510e527fu, 0x9b05688cu, 0x1f83d9abu, 0x5be0cd19u,
};

enum {
    BLOCK = 64,
    LENGTH_AT = 56
}; /* bytes; the last 8 of the last block hold the length in bits */

void vh_digest_init(struct vh_digest *d)
{
    memset(d, 0, sizeof *d);
    memcpy(d->h, square_roots, sizeof d->h);
    d->fast = vh_digest_can_go_fast();
}

static void take_block(struct vh_digest *d, const unsigned char *block)
{
    if (d->fast)
        vh_digest_block_fast(d->h, block);
    else
        vh_digest_block(d->h, block);
}

void vh_digest_add(struct vh_digest *d, const void *bytes, size_t n)
{
    const unsigned char *p = bytes;
    while (n > 0) {
        const size_t held = (size_t)(d->bytes % BLOCK);
        if (held == 0 && n >= BLOCK) { /* whole blocks where they lie */
            take_block(d, p);
            d->bytes += BLOCK;
            p += BLOCK;
            n -= BLOCK;
            continue;
        }
        const size_t part = n < BLOCK - held ? n : BLOCK - held;
        memcpy(d->block + held, p, part);
        d->bytes += part;
        if (held + part == BLOCK) {
            take_block(d, d->block);
        }
        p += part;
        n -= part;
    }
}

void vh_digest_text(const struct vh_digest *d, char text[65])
{
    struct vh_digest last = *d; /* the caller may go on adding */
    const uint64_t bits = 8 * d->bytes;
    const unsigned char end = 0x80, zero = 0;
    vh_digest_add(&last, &end, 1);
    while (last.bytes % BLOCK != LENGTH_AT) {
        vh_digest_add(&last, &zero, 1);
    }
    for (int i = 0; i < 8; i++) {
        const unsigned char byte = (unsigned char)(bits >> (56 - 8 * i));
        vh_digest_add(&last, &byte, 1);
    }
    for (int i = 0; i < 64; i++) {
        text[i] = "0123456789abcdef"[last.h[i / 8] >> (28 - 4 * (i % 8)) & 15u];
    }
    text[64] = '\0';
}
