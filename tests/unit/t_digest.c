/* SHA-256 against the worked examples of FIPS 180-4.
 *
 * Source: NIST, "Examples with intermediate values" of FIPS 180-4, SHA-256 (one block, two blocks),
 * and the million letters of FIPS 180-2 appendix B.3; the empty text from the NIST test vectors.
 * All typed from memory and confirmed with sha256sum of another program.
 */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>
#include <string.h>

#include "digest_parts.h"

static const char *const million_a =
    "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0";

static void expect_digest(const char *text, const char *expected)
{
    struct vh_digest d;
    char out[65];
    vh_digest_init(&d);
    vh_digest_add(&d, text, strlen(text));
    vh_digest_text(&d, out);
    cr_expect(strcmp(out, expected) == 0, "of \"%s\": %s", text, out);
}

Test(digest, the_published_examples_come_out)
{
    expect_digest("", "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
    expect_digest("abc", "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    expect_digest("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq",
                  "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
}

Test(digest, a_million_letters_come_out_whatever_the_pieces)
{
    static char letters[1000000];
    memset(letters, 'a', sizeof letters);
    const size_t pieces[] = {1, 55, 56, 63, 64, 65, 1000, 999983, 1000000};
    for (size_t k = 0; k < sizeof pieces / sizeof *pieces; k++) {
        struct vh_digest d;
        char out[65];
        vh_digest_init(&d);
        for (size_t at = 0; at < sizeof letters; at += pieces[k]) {
            const size_t left = sizeof letters - at;
            vh_digest_add(&d, letters + at, left < pieces[k] ? left : pieces[k]);
        }
        vh_digest_text(&d, out);
        cr_expect(strcmp(out, million_a) == 0, "pieces of %zu: %s", pieces[k], out);
    }
}

/* Letters that differ, so that none may change places: the bytes from 0 to 199, by sha256sum of
 * another program. */
Test(digest, two_hundred_bytes_come_out_wherever_they_are_cut)
{
    unsigned char bytes[200];
    for (size_t i = 0; i < sizeof bytes; i++)
        bytes[i] = (unsigned char)i;
    for (size_t cut = 0; cut <= sizeof bytes; cut++) {
        struct vh_digest d;
        char out[65];
        vh_digest_init(&d);
        vh_digest_add(&d, bytes, cut);
        vh_digest_add(&d, bytes + cut, sizeof bytes - cut);
        vh_digest_text(&d, out);
        cr_expect(strcmp(out, "1901da1c9f699b48f6b2636e65cbf73abf99d0441ef67f5c540a42f7051dec6f") ==
                      0,
                  "cut at %zu: %s", cut, out);
    }
}

Test(digest, asking_for_the_text_does_not_end_the_adding)
{
    struct vh_digest d;
    char first[65], again[65], whole[65];
    vh_digest_init(&d);
    vh_digest_add(&d, "ab", 2);
    vh_digest_text(&d, first);
    vh_digest_text(&d, again);
    cr_expect(strcmp(first, again) == 0);
    vh_digest_add(&d, "c", 1);
    vh_digest_add(&d, NULL, 0);
    vh_digest_text(&d, whole);
    cr_expect(strcmp(whole, "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad") ==
              0);
}

Test(digest, a_block_comes_out_the_same_by_the_machine_s_own_instructions)
{
    uint32_t plain[8], fast[8];
    unsigned char block[64];
    uint32_t state = 1;

    for (int i = 0; i < 1000; i++) {
        for (int k = 0; k < 64; k++)
            block[k] = (unsigned char)((state = state * 1664525u + 1013904223u) >> 24);
        for (int k = 0; k < 8; k++)
            plain[k] = fast[k] = state = state * 1664525u + 1013904223u;
        vh_digest_block(plain, block);
        if (vh_digest_can_go_fast())
            vh_digest_block_fast(fast, block);
        else
            vh_digest_block(fast, block);
        cr_assert(memcmp(plain, fast, sizeof plain) == 0);
    }
}
