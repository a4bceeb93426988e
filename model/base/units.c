#include "vh_units.h"

#include <string.h>

/* International yard and pound, exact (1959 agreement of the national laboratories, Fed. Reg.
 * 24:5348; NIST SP 811, 2008, appendix B: foot 0.3048 m, inch 25.4 mm, pound 0.45359237 kg, ounce =
 * pound / 16). */
static const double m_per_ft = 0.3048;
static const double mm_per_in = 25.4;
static const double kg_per_lb = 0.45359237;
const double vh_g_per_oz = 28.349523125;
static const double in_per_ft = 12.0;
static const double oz_per_lb = 16.0;
/* Degree Fahrenheit, exact (NIST SP 811, appendix B.9): t/degC = (t/degF - 32) / 1.8. */
static const double f_at_0_c = 32.0;
static const double f_per_c = 1.8;

static const double cm_per_m = 100.0, mm_per_m = 1000.0, mm_per_cm = 10.0, g_per_kg = 1000.0;

/* In these keys the last letters are no suffix of ours, or have no pair that growers use. */
static const char *const without_pair[] = {"_ms_cm", "_umol_m2_s", "_w_m2",
                                           "_w_k",   "_mol_m2_d",  "_mj_m2_d"};

/* The longer of two that may both end a key comes first. */
static const char *const with_pair[] = {"_per_m2", "_per_kg", "_per_m", "_m2", "_mm",
                                        "_cm",     "_kg",     "_m",     "_g",  "_c"};

/* Does the key end in the suffix, or is it the suffix without its first underscore ("per_kg")?
 * *stem: bytes before it. */
static bool ends_in(const char *key, const char *suffix, size_t *stem)
{
    const size_t key_n = strlen(key), suffix_n = strlen(suffix);
    if (key_n >= suffix_n && strcmp(key + key_n - suffix_n, suffix) == 0) {
        *stem = key_n - suffix_n;
        return true;
    }
    *stem = 0;
    return strcmp(key, suffix + 1) == 0;
}

/* The longest known suffix of our key, NULL where there is none or it has no pair. */
static const char *suffix_of(const char *key, size_t *stem)
{
    size_t at;
    for (size_t i = 0; i < sizeof without_pair / sizeof without_pair[0]; i++)
        if (ends_in(key, without_pair[i], &at))
            return NULL;
    for (size_t i = 0; i < sizeof with_pair / sizeof with_pair[0]; i++)
        if (ends_in(key, with_pair[i], stem))
            return with_pair[i];
    return NULL;
}

/* our = given * scale for a suffix of ours and the suffix given instead; 0 where they are no pair.
 * Divisions stand as such, so that each factor is the double nearest to the exact one wherever it
 * can be. */
static double scale_of(const char *ours, const char *given)
{
    const struct {
        const char *ours, *given;
        double scale;
    } pairs[] = {
        {"_m", "_ft", m_per_ft},
        {"_m", "_in", mm_per_in / mm_per_m},
        {"_cm", "_ft", m_per_ft * cm_per_m},
        {"_cm", "_in", mm_per_in / mm_per_cm},
        {"_mm", "_ft", mm_per_in * in_per_ft},
        {"_mm", "_in", mm_per_in},
        {"_kg", "_lb", kg_per_lb},
        {"_kg", "_oz", vh_g_per_oz / g_per_kg},
        {"_g", "_lb", vh_g_per_oz * oz_per_lb},
        {"_g", "_oz", vh_g_per_oz},
        {"_c", "_f", 1.0 / f_per_c},
        {"_m2", "_ft2", m_per_ft * m_per_ft},
        {"_per_m2", "_per_ft2", 1.0 / (m_per_ft * m_per_ft)},
        {"_per_m", "_per_ft", 1.0 / m_per_ft},
        {"_per_kg", "_per_lb", 1.0 / kg_per_lb},
    };
    for (size_t i = 0; i < sizeof pairs / sizeof pairs[0]; i++)
        if (strcmp(ours, pairs[i].ours) == 0 && strcmp(given, pairs[i].given) == 0)
            return pairs[i].scale;
    return 0.0;
}

bool vh_units_match(const char *ours, const char *given, bool is_difference,
                    struct vh_unit_pair *pair)
{
    if (strcmp(ours, given) == 0) {
        *pair = (struct vh_unit_pair){1.0, 0.0};
        return true;
    }
    size_t stem = 0;
    const char *suffix = suffix_of(ours, &stem);
    if (suffix == NULL || strncmp(ours, given, stem) != 0)
        return false;
    /* a key that is all suffix ("kg", "per_kg") has no underscore before it */
    char given_suffix[16] = "_";
    const char *rest = given + stem;
    const bool is_bare = stem == 0;
    if (strlen(rest) >= sizeof given_suffix - 1)
        return false;
    strcpy(given_suffix + (is_bare ? 1 : 0), rest);
    const double scale = scale_of(suffix, given_suffix);
    if (scale == 0.0)
        return false;
    const bool shifts = strcmp(suffix, "_c") == 0 && !is_difference;
    *pair = (struct vh_unit_pair){scale, shifts ? -f_at_0_c * scale : 0.0};
    return true;
}
