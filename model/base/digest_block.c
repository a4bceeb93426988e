/* The compression of SHA-256: plainly, and by the instructions that some machines have for it. */
#include "digest_parts.h"

/* The constants are what FIPS 180-4 section 4.2.2 defines: the first 32 bits after the point of the
 * cube roots of the first 64 primes (computed from that definition). */
static const uint32_t cube_roots[64] = {
    0x428a2f98u, 0x71374491u, 0xb5c0fbcfu, 0xe9b5dba5u, 0x3956c25bu, 0x59f111f1u, 0x923f82a4u,
    0xab1c5ed5u, 0xd807aa98u, 0x12835b01u, 0x243185beu, 0x550c7dc3u, 0x72be5d74u, 0x80deb1feu,
    0x9bdc06a7u, 0xc19bf174u, 0xe49b69c1u, 0xefbe4786u, 0x0fc19dc6u, 0x240ca1ccu, 0x2de92c6fu,
    0x4a7484aau, 0x5cb0a9dcu, 0x76f988dau, 0x983e5152u, 0xa831c66du, 0xb00327c8u, 0xbf597fc7u,
    0xc6e00bf3u, 0xd5a79147u, 0x06ca6351u, 0x14292967u, 0x27b70a85u, 0x2e1b2138u, 0x4d2c6dfcu,
    0x53380d13u, 0x650a7354u, 0x766a0abbu, 0x81c2c92eu, 0x92722c85u, 0xa2bfe8a1u, 0xa81a664bu,
    0xc24b8b70u, 0xc76c51a3u, 0xd192e819u, 0xd6990624u, 0xf40e3585u, 0x106aa070u, 0x19a4c116u,
    0x1e376c08u, 0x2748774cu, 0x34b0bcb5u, 0x391c0cb3u, 0x4ed8aa4au, 0x5b9cca4fu, 0x682e6ff3u,
    0x748f82eeu, 0x78a5636fu, 0x84c87814u, 0x8cc70208u, 0x90befffau, 0xa4506cebu, 0xbef9a3f7u,
    0xc67178f2u,
};

static uint32_t rotate(uint32_t x, int n)
{
    return x >> n | x << (32 - n);
}

static uint32_t read_word(const unsigned char *p)
{
    return (uint32_t)p[0] << 24 | (uint32_t)p[1] << 16 | (uint32_t)p[2] << 8 | (uint32_t)p[3];
}

/* One turn of FIPS 180-4 section 6.2.2; choice and majority are the standard's with fewer steps. */
static inline void turn(uint32_t a, uint32_t b, uint32_t c, uint32_t *d, uint32_t e, uint32_t f,
                        uint32_t g, uint32_t *h, uint32_t word)
{
    const uint32_t choice = g ^ (e & (f ^ g)), majority = (a & b) | (c & (a | b));
    const uint32_t t1 = *h + (rotate(e, 6) ^ rotate(e, 11) ^ rotate(e, 25)) + choice + word;

    *d += t1;
    *h = t1 + (rotate(a, 2) ^ rotate(a, 13) ^ rotate(a, 22)) + majority;
}

/* Eight turns, after which each variable bears its old name again: nothing is moved. */
void vh_digest_block(uint32_t v[8], const unsigned char *block)
{
    uint32_t w[64], a = v[0], b = v[1], c = v[2], d = v[3], e = v[4], f = v[5], g = v[6], h = v[7];

    for (int t = 0; t < 16; t++)
        w[t] = read_word(block + 4 * t);
    for (int t = 16; t < 64; t++) {
        const uint32_t x = w[t - 15], y = w[t - 2];
        w[t] = w[t - 16] + w[t - 7] + (rotate(x, 7) ^ rotate(x, 18) ^ x >> 3) +
               (rotate(y, 17) ^ rotate(y, 19) ^ y >> 10);
    }
    for (int t = 0; t < 64; t += 8) {
        const uint32_t *k = cube_roots + t, *word = w + t;
        turn(a, b, c, &d, e, f, g, &h, k[0] + word[0]);
        turn(h, a, b, &c, d, e, f, &g, k[1] + word[1]);
        turn(g, h, a, &b, c, d, e, &f, k[2] + word[2]);
        turn(f, g, h, &a, b, c, d, &e, k[3] + word[3]);
        turn(e, f, g, &h, a, b, c, &d, k[4] + word[4]);
        turn(d, e, f, &g, h, a, b, &c, k[5] + word[5]);
        turn(c, d, e, &f, g, h, a, &b, k[6] + word[6]);
        turn(b, c, d, &e, f, g, h, &a, k[7] + word[7]);
    }
    const uint32_t add[8] = {a, b, c, d, e, f, g, h};
    for (int i = 0; i < 8; i++)
        v[i] += add[i];
}

/* ---- the same by the machine's own instructions ---- */

#if defined(__GNUC__) && defined(__x86_64__)
#include <cpuid.h>
#include <immintrin.h>

bool vh_digest_can_go_fast(void)
{
    unsigned int a, b = 0, c, d;
    const unsigned int leaf = 7;

    return __builtin_cpu_supports("sse4.1") && __get_cpuid_count(leaf, 0, &a, &b, &c, &d) &&
           (b & bit_SHA) != 0;
}

#define FAST __attribute__((target("sha,sse4.1")))

FAST static __m128i four_words(const unsigned char *p)
{
    const __m128i last_first = _mm_set_epi64x(0x0c0d0e0f08090a0b, 0x0405060700010203);

    return _mm_shuffle_epi8(_mm_loadu_si128((const __m128i *)(const void *)p), last_first);
}

/* Four turns at a time; the instructions want the variables as a, b, e, f and c, d, g, h. */
FAST void vh_digest_block_fast(uint32_t v[8], const unsigned char *block)
{
    __m128i *const state = (__m128i *)(void *)v;
    const __m128i dcba = _mm_loadu_si128(state), hgfe = _mm_loadu_si128(state + 1);
    const __m128i cdab = _mm_shuffle_epi32(dcba, 0xb1), efgh = _mm_shuffle_epi32(hgfe, 0x1b);
    const __m128i abef = _mm_alignr_epi8(cdab, efgh, 8);
    const __m128i cdgh = _mm_blend_epi16(efgh, cdab, 0xf0);
    __m128i one = abef, other = cdgh, w[4];

    for (int t = 0; t < 16; t++) {
        if (t < 4) {
            w[t] = four_words(block + 16 * t);
        } else { /* words 16 to 63, four from the sixteen before them */
            const __m128i a = w[t % 4], b = w[(t + 1) % 4], c = w[(t + 2) % 4], d = w[(t + 3) % 4];
            const __m128i sum = _mm_add_epi32(_mm_sha256msg1_epu32(a, b), _mm_alignr_epi8(d, c, 4));
            w[t % 4] = _mm_sha256msg2_epu32(sum, d);
        }
        const __m128i *const root = (const __m128i *)(const void *)(cube_roots + 4 * t);
        const __m128i word = _mm_add_epi32(w[t % 4], _mm_loadu_si128(root));
        other = _mm_sha256rnds2_epu32(other, one, word);
        one = _mm_sha256rnds2_epu32(one, other, _mm_shuffle_epi32(word, 0x0e));
    }
    one = _mm_add_epi32(one, abef);
    other = _mm_add_epi32(other, cdgh);
    const __m128i feba = _mm_shuffle_epi32(one, 0x1b), dchg = _mm_shuffle_epi32(other, 0xb1);
    _mm_storeu_si128(state, _mm_blend_epi16(feba, dchg, 0xf0));
    _mm_storeu_si128(state + 1, _mm_alignr_epi8(dchg, feba, 8));
}
#else
bool vh_digest_can_go_fast(void)
{
    return false;
}

void vh_digest_block_fast(uint32_t v[8], const unsigned char *block)
{
    vh_digest_block(v, block);
}
#endif
