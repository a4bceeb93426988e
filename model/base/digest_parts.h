/* digest_parts.h - one block of SHA-256 (FIPS 180-4 section 6.2.2), in two ways with the same bits;
 * for digest*.c and their test. */
#ifndef DIGEST_PARTS_H
#define DIGEST_PARTS_H

#include "vh_digest.h"

/* Takes 64 bytes into the eight words of the digest. */
void vh_digest_block(uint32_t v[8], const unsigned char *block);
/* By the machine's own instructions; only where it has them. */
void vh_digest_block_fast(uint32_t v[8], const unsigned char *block);
bool vh_digest_can_go_fast(void);

#endif
