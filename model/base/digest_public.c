#include "vinehand.h"

#include "vh_digest.h"

void vh_digest_of(const void *bytes, size_t n, char text[65])
{
    struct vh_digest d;

    vh_digest_init(&d);
    vh_digest_add(&d, bytes, n);
    vh_digest_text(&d, text);
}
